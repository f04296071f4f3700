// By which short text do programs know a finding again in another revision?
#pragma once

#include <string>
#include <string_view>

#include "ligament/review.hpp"

namespace ligament {

/// FNV-1a of 128 bits (Fowler, Noll, Vo), as 32 hexadecimal digits.
std::string fnv1a_128(std::string_view bytes);

/// The hash of an identity, of its compact JSON: ["check",["bone",...],"subject","maker"]. Depends on no line and no number of
/// other findings.
std::string fingerprint_of(const Identity& identity);

}  // namespace ligament
