#include "fitting.hpp"

#include <algorithm>

#include "patterns.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

bool has_role(const Bone& bone, Role role) {
    switch (role) {
        case Role::control:
            return bone.control;
        case Role::deform:
            return bone.deform;
        case Role::mechanism:
            return bone.is_mechanism();
    }
    return false;
}

std::string_view role_word(Role role) {
    return role == Role::control ? "control" : role == Role::deform ? "deform" : "mechanism";
}

}  // namespace

bool fits(const Bone& bone, const BonePattern& pattern) {
    if (!pattern.names.empty() && !is_named_by(pattern.names, bone.name)) return false;
    if (!pattern.groups.empty() && (bone.group.empty() || !is_named_by(pattern.groups, bone.group))) return false;
    return pattern.roles.empty() ||
           std::any_of(pattern.roles.begin(), pattern.roles.end(), [&](Role role) { return has_role(bone, role); });
}

std::vector<bool> fitting(const Rig& rig, const BonePattern& pattern) {
    std::vector<bool> is_fitting;
    is_fitting.reserve(rig.bones.size());
    for (const Bone& bone : rig.bones) is_fitting.push_back(fits(bone, pattern));
    return is_fitting;
}

std::string alternatives(const std::vector<std::string>& patterns) {
    std::string text;
    for (std::size_t i = 0; i < patterns.size(); ++i) {
        if (i > 0) text += i + 1 == patterns.size() ? " or " : ", ";
        text += quoted(patterns[i]);
    }
    return text;
}

std::string words_of(const BonePattern& pattern) {
    std::string text;
    for (Role role : pattern.roles) text.append(text.empty() ? "" : " or ").append(role_word(role));
    const bool is_any = pattern.names.empty() && pattern.groups.empty() && pattern.roles.empty();
    text += is_any ? "all bones" : text.empty() ? "bones" : " bones";
    if (!pattern.names.empty()) text += " named " + alternatives(pattern.names);
    if (!pattern.groups.empty()) text += " of group " + alternatives(pattern.groups);
    return text;
}

}  // namespace ligament::checks
