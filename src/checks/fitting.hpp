// Does a bone fit a pattern of a rules file, and how is such a pattern told?
#pragma once

#include <string>

#include "ligament/rules.hpp"

namespace ligament::checks {

/// Whether the bone fits all that the pattern gives; of several names, groups or roles one is enough. A pattern that gives
/// nothing fits every bone. A bone without a group fits no pattern of groups.
bool fits(const Bone& bone, const BonePattern& pattern);

/// By bone id.
std::vector<bool> fitting(const Rig& rig, const BonePattern& pattern);

/// "control or mechanism bones named "*_ctl" of group "face*"", "all bones".
std::string words_of(const BonePattern& pattern);

/// ""a", "b" or "c"".
std::string alternatives(const std::vector<std::string>& patterns);

}  // namespace ligament::checks
