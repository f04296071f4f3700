#include "rest_moves.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "expression.hpp"

namespace ligament {

namespace {

/// What drivers come to in the default state and the rest pose: channels of bones read as nothing changed, places as they are at
/// rest. NaN where that does not say it all.
class RestDrivers {
  public:
    RestDrivers(const Rig& rig, const Dependencies& dependencies, const std::vector<RestFrame>& frames)
        : rig_(rig), frames_(frames), evaluation_(evaluate(rig, dependencies, default_state(rig))) {}

    double value_of(const Value& value) {
        if (!value.is_driven()) return value.number;
        const Driver& driver = rig_.drivers[value.driver];
        std::vector<double> inputs;
        for (const Input& input : driver.inputs) inputs.push_back(read(input));
        return evaluator_.evaluate(driver, evaluator_.prepare(driver), inputs);
    }

  private:
    double read(const Input& input) const {
        constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
        if (input.kind == Input::Kind::property) return evaluation_.properties[input.property];
        if (input.kind == Input::Kind::channel) return input.space == Space::local ? (input.channel < 6 ? 0 : 1) : unknown;
        const RestFrame &one = frames_[input.bone], &other = frames_[input.other];
        if (!one.is_known || !other.is_known) return unknown;
        if (input.kind == Input::Kind::distance) return distance_between(one.origin, other.origin);
        return unknown;  // an angle is in whatever unit the host has
    }

    const Rig& rig_;
    const std::vector<RestFrame>& frames_;
    Evaluation evaluation_;
    ExpressionEvaluator evaluator_;
};

/// By bone: itself or the nearest one above whose channels are not known to be at rest in the default state; none where all are.
std::vector<BoneId> find_nearest_displaced(const Rig& rig, const Dependencies& dependencies,
                                           const std::vector<RestFrame>& frames) {
    std::vector<BoneId> nearest(rig.bones.size(), none);
    if (std::all_of(rig.bones.begin(), rig.bones.end(), [](const Bone& bone) { return bone.channels.empty(); })) return nearest;
    RestDrivers drivers(rig, dependencies, frames);
    const auto is_displaced = [&](const Bone& bone) {
        return std::any_of(bone.channels.begin(), bone.channels.end(), [&](const ChannelValue& entry) {
            const double at_rest = entry.channel < 6 ? 0 : 1;
            return !(std::abs(drivers.value_of(entry.value) - at_rest) < 1e-9);  // NaN is not known
        });
    };
    std::vector<bool> found(rig.bones.size());
    std::vector<BoneId> chain;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        for (BoneId at = bone; at != none && !found[at]; at = rig.bones[at].parent) chain.push_back(at);
        for (; !chain.empty(); chain.pop_back()) {
            const BoneId at = chain.back(), parent = rig.bones[at].parent;
            nearest[at] = is_displaced(rig.bones[at]) ? at : parent == none ? none : nearest[parent];
            found[at] = true;
        }
    }
    return nearest;
}

/// The parts that a constraint takes over whole from its one source, as it stands; none for what is not looked at.
Parts parts_taken(const Constraint& constraint) {
    const bool is_plain = !constraint.is_inert() && constraint.axes == 0b111 && !constraint.additive &&
                          constraint.space == Space::final && constraint.sources.size() == 1 &&
                          constraint.sources[0].bone != none && !constraint.sources[0].curved;
    if (!is_plain) return 0;
    if (constraint.kind == ConstraintKind::position) return position_part;
    if (constraint.kind == ConstraintKind::rotation) return rotation_part;
    if (constraint.kind != ConstraintKind::transform) return 0;
    unsigned parts = 0;
    if ((constraint.channels & position_channels) == position_channels) parts |= position_part;
    if ((constraint.channels & rotation_channels) == rotation_channels) parts |= rotation_part;
    if ((constraint.channels & scale_channels) == scale_channels) parts |= scale_part;
    return static_cast<Parts>(parts);
}

bool is_mirroring(const RestFrame& frame) {
    return std::any_of(frame.size.begin(), frame.size.end(), [](double s) { return s < 0; });
}

bool is_same_size(const Vector3& a, const Vector3& b, double tolerance) {
    for (std::size_t axis = 0; axis < 3; ++axis)
        if (std::abs(a[axis] - b[axis]) > tolerance * std::max(1.0, std::abs(b[axis]))) return false;
    return true;
}

RestMove measure(const Rig& rig, const std::vector<RestFrame>& frames, BoneId owner, const Source& source, Parts parts,
                 const RestTolerance& tolerance) {
    const RestFrame &own = frames[owner], &read = frames[source.bone];
    RestMove move;
    if ((parts & position_part) != 0) {
        const auto place = rest_place(rig, frames, source);
        if (place) move.distance = distance_between(*place, own.origin);
        if (move.distance <= tolerance.distance) move.distance = 0;
    }
    if (is_mirroring(own) || is_mirroring(read)) return move;  // a turn of such a frame is not told from its mirroring
    if ((parts & rotation_part) != 0) {
        move.angle = angle_between(own.turn, read.turn);
        if (move.angle <= tolerance.angle) move.angle = 0;
    }
    if ((parts & scale_part) != 0) move.is_resized = !is_same_size(own.size, read.size, tolerance.size);
    return move;
}

}  // namespace

std::vector<RestMove> find_rest_moves(const Rig& rig, const Dependencies& dependencies, const RestFrames& rest_frames,
                                      const SwitchFacts& switches, const RestTolerance& tolerance) {
    std::vector<BoneId> displaced;
    std::vector<bool> is_dead(dependencies.constraints.size());
    for (ConstraintId id : switches.dead) is_dead[id] = true;
    std::vector<RestMove> moves;
    for (ConstraintId id = 0; id < is_dead.size(); ++id) {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        const Parts parts = is_dead[id] ? Parts{0} : parts_taken(constraint);
        if (parts == 0) continue;
        const std::vector<RestFrame>& frames = rest_frames.all();
        if (displaced.empty()) displaced = find_nearest_displaced(rig, dependencies, frames);
        const BoneId owner = dependencies.constraints[id].bone, source = constraint.sources[0].bone;
        if (owner == source || !frames[owner].is_known || !frames[source].is_known || displaced[owner] != displaced[source])
            continue;
        RestMove move = measure(rig, frames, owner, constraint.sources[0], parts, tolerance);
        move.constraint = id;
        if (move.distance > 0 || move.angle > 0 || move.is_resized) moves.push_back(move);
    }
    return moves;
}

}  // namespace ligament
