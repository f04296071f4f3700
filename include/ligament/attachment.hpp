// Is each deform bone really attached? Verdicts in a state, and who moves it.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "ligament/states.hpp"

namespace ligament {

/// How a deform bone is attached, best first.
enum class Verdict : std::uint8_t { attached, carried, root_only, orphaned };

/// "attached", "carried", "root-only", "orphaned".
std::string_view name_of(Verdict verdict);

struct Attachment {
    BoneId bone = none;
    Verdict verdict = Verdict::orphaned;
    std::vector<BoneId> controls;  ///< who reaches it, in file order; empty when AttachmentFacts::controls_listed is false
};

struct AttachmentFacts {
    std::vector<Attachment> deform;     ///< every deform bone, in file order
    std::vector<BoneId> root_controls;  ///< as listed in the rig, or found
    bool controls_listed = true;        ///< false above `controls_limit` bones
};

/// Rigs of more bones than this get no list of controls per deform bone, which grows with bones times controls.
inline constexpr std::size_t controls_limit = 20'000;

/// Attachment of every deform bone in a state, over live edges at channel grain.
AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const State& state);

}  // namespace ligament
