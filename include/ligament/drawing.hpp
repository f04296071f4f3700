// How does it look? The bone-grain graph of a rig as SVG.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "ligament/facts.hpp"

namespace ligament {

struct DrawingOptions {
    std::optional<BoneId> around;  ///< draw only bones up to `hops` dependencies from this one
    unsigned hops = 2;
    std::chrono::milliseconds time_limit{20'000};  ///< for the layout; past it the groups are drawn as single boxes
};

struct Drawing {
    std::string svg;     ///< empty when `error` is not
    std::string notice;  ///< what the reader should know: layout limit hit, bones left out; may be empty
    std::string error;   ///< why there is no drawing
};

/// Draws the rig. The same rig and options give the same bytes on every machine, unless the time limit is hit.
/// The layout runs in a child process, so that it can be bounded; the caller should not be multi-threaded.
Drawing draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const DrawingOptions& options);

}  // namespace ligament
