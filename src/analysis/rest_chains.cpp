#include "rest_chains.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ligament {

namespace {

const Source* source_for(const Constraint& constraint, Source::Use use) {
    const auto found = std::find_if(constraint.sources.begin(), constraint.sources.end(),
                                    [&](const Source& source) { return source.use == use; });
    return found == constraint.sources.end() ? nullptr : &*found;
}

std::optional<Vector3> end_of(const Rig& rig, const std::vector<RestFrame>& frames, BoneId owner, const Constraint& solver) {
    if (rig.bones[owner].tip) return rest_tip(rig.bones[owner], frames[owner]);
    const Source* target = source_for(solver, Source::Use::target);
    return target == nullptr ? std::nullopt : rest_place(rig, frames, *target);
}

void find_turns(RestChain& chain) {
    for (std::size_t i = 1; i + 1 < chain.joints.size(); ++i)
        chain.most_turned = std::max(chain.most_turned, angle_between(minus(chain.joints[i], chain.joints[i - 1]),
                                                                      minus(chain.joints[i + 1], chain.joints[i])));
}

/// The chain without its pole; nothing where it has no plane or line to speak of.
std::optional<RestChain> chain_at_rest(const Rig& rig, const Dependencies& dependencies, const std::vector<RestFrame>& frames,
                                       ConstraintId solver, double same_place) {
    RestChain chain;
    chain.solver = solver;
    chain.bones = chain_of(rig, dependencies, solver);
    std::reverse(chain.bones.begin(), chain.bones.end());
    if (chain.bones.size() < 2) return {};
    const auto add = [&](const Vector3& joint) {
        if (chain.joints.empty() || distance_between(chain.joints.back(), joint) > same_place) chain.joints.push_back(joint);
    };
    for (BoneId bone : chain.bones) {
        if (!frames[bone].is_known) return {};
        add(frames[bone].origin);
    }
    const auto end = end_of(rig, frames, chain.bones.back(), constraint_of(rig, dependencies, solver));
    if (!end || !is_within_bounds(*end)) return {};
    add(*end);
    if (chain.joints.size() < 3) return {};
    find_turns(chain);
    return chain;
}

/// Finds the bend. False where root and end are one place, no joint lies beside the line, or some joint lies beside the plane.
bool find_bend(RestChain& chain, double same_place, double in_plane) {
    const Vector3 &root = chain.joints.front(), line = minus(chain.joints.back(), root);
    if (length_of(line) <= same_place) return false;
    std::vector<Vector3> beside;
    for (const Vector3& joint : chain.joints) beside.push_back(square_to(line, minus(joint, root)));
    const auto farthest = std::max_element(beside.begin(), beside.end(),
                                           [](const Vector3& a, const Vector3& b) { return length_of(a) < length_of(b); });
    if (length_of(*farthest) <= same_place) return false;
    const double most_off = length_of(*farthest) * std::tan(in_plane * std::numbers::pi / 180);
    const Vector3 normal = cross(scaled(line, 1 / length_of(line)), scaled(*farthest, 1 / length_of(*farthest)));
    if (std::any_of(beside.begin(), beside.end(), [&](const Vector3& v) { return std::abs(dot(v, normal)) > most_off; }))
        return false;
    chain.bend = static_cast<std::size_t>(farthest - beside.begin());
    return true;
}

void find_pole(RestChain& chain, const Rig& rig, const std::vector<RestFrame>& frames, const Source& source, double same_place) {
    const auto pole = rest_place(rig, frames, source);
    if (!pole) return;
    const Vector3 &root = chain.joints.front(), line = minus(chain.joints.back(), root);
    const Vector3 to_pole = square_to(line, minus(*pole, root)), to_bend = square_to(line, minus(chain.joints[chain.bend], root));
    chain.pole = source.bone;
    chain.pole_on_line = length_of(to_pole) <= same_place;
    chain.pole_angle = chain.pole_on_line ? 0 : angle_between(to_bend, to_pole);
}

}  // namespace

std::vector<RestChain> find_rest_chains(const Rig& rig, const Dependencies& dependencies, const RestFrames& frames,
                                        double same_place, double in_plane) {
    std::vector<RestChain> chains;
    for (ConstraintId solver : dependencies.solvers) {
        const Constraint& constraint = constraint_of(rig, dependencies, solver);
        if (constraint.kind != ConstraintKind::ik || constraint.is_inert()) continue;
        std::optional<RestChain> chain = chain_at_rest(rig, dependencies, frames.all(), solver, same_place);
        if (!chain) continue;
        const Source* pole = source_for(constraint, Source::Use::pole);
        if (pole != nullptr && find_bend(*chain, same_place, in_plane)) find_pole(*chain, rig, frames.all(), *pole, same_place);
        chains.push_back(std::move(*chain));
    }
    return chains;
}

}  // namespace ligament
