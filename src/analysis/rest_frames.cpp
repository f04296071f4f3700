#include "rest_frames.hpp"

#include <algorithm>
#include <cmath>

namespace ligament {

Vector3 RestFrame::direct(const Vector3& own) const { return {dot(linear[0], own), dot(linear[1], own), dot(linear[2], own)}; }

Vector3 RestFrame::place(const Vector3& own) const { return plus(origin, direct(own)); }

namespace {

Quaternion of_length_1(const Quaternion& turn) {
    double squares = 0;
    for (double part : turn) squares += part * part;
    const double length = std::sqrt(squares);
    if (!(length > 1e-12) || !std::isfinite(length)) return {0, 0, 0, 1};
    return {turn[0] / length, turn[1] / length, turn[2] / length, turn[3] / length};
}

RestFrame frame_of(const Rest& rest) {
    RestFrame frame;
    frame.turn = of_length_1(rest.rotation);
    const auto [x, y, z, w] = frame.turn;
    frame.linear = {{{1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)},
                     {2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)},
                     {2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)}}};
    for (Vector3& row : frame.linear)
        for (std::size_t c = 0; c < 3; ++c) row[c] *= rest.scale[c];
    frame.origin = rest.translation;
    frame.size = rest.scale;
    return frame;
}

RestFrame below(const RestFrame& parent, const RestFrame& own) {
    RestFrame frame;
    for (std::size_t c = 0; c < 3; ++c) {
        const Vector3 column = parent.direct({own.linear[0][c], own.linear[1][c], own.linear[2][c]});
        for (std::size_t r = 0; r < 3; ++r) frame.linear[r][c] = column[r];
        frame.size[c] = parent.size[c] * own.size[c];
    }
    frame.origin = parent.place(own.origin);
    frame.turn = of_length_1(product(parent.turn, own.turn));  // or a long chain would drift
    return frame;
}

}  // namespace

std::vector<RestFrame> find_rest_frames(const Rig& rig) {
    std::vector<RestFrame> frames(rig.bones.size());
    std::vector<bool> found(rig.bones.size());
    std::vector<BoneId> chain;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        for (BoneId at = bone; at != none && !found[at]; at = rig.bones[at].parent) chain.push_back(at);
        for (; !chain.empty(); chain.pop_back()) {
            const BoneId at = chain.back(), parent = rig.bones[at].parent;
            RestFrame& frame = frames[at];
            if (rig.bones[at].rest) frame = frame_of(*rig.bones[at].rest);
            if (parent != none) frame = below(frames[parent], frame);
            frame.is_known = rig.bones[at].rest && (parent == none || frames[parent].is_known);
            found[at] = true;
        }
    }
    for (RestFrame& frame : frames)
        frame.is_known = frame.is_known && is_within_bounds(frame.origin) && is_within_bounds(frame.size) &&
                         std::all_of(frame.linear.begin(), frame.linear.end(), is_within_bounds);
    return frames;
}

bool is_within_bounds(const Vector3& v) {
    return std::all_of(v.begin(), v.end(), [](double x) { return std::abs(x) < 1e100; });  // not NaN either
}

Vector3 rest_tip(const Bone& bone, const RestFrame& frame) { return frame.place(bone.tip.value_or(Vector3{})); }

std::optional<Vector3> rest_place(const Rig& rig, const std::vector<RestFrame>& frames, const Source& source) {
    if (source.bone == none || !frames[source.bone].is_known) return {};
    const RestFrame& frame = frames[source.bone];
    if (source.at == 0) return frame.origin;
    if (source.curved || !rig.bones[source.bone].tip) return {};
    const Vector3 place = frame.place(scaled(*rig.bones[source.bone].tip, source.at));
    return is_within_bounds(place) ? std::optional(place) : std::nullopt;
}

}  // namespace ligament
