// Where does each bone lie at rest?
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "view_body.hpp"

namespace ligament {

namespace {

/// The upper three rows of a 4 x 4 matrix that works on column vectors.
struct Frame {
    std::array<Vector3, 3> linear{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};  // rows
    Vector3 origin{};

    Vector3 turn(const Vector3& v) const {
        Vector3 out{};
        for (std::size_t r = 0; r < 3; ++r) out[r] = linear[r][0] * v[0] + linear[r][1] * v[1] + linear[r][2] * v[2];
        return out;
    }
    Vector3 place(const Vector3& v) const {
        const Vector3 turned = turn(v);
        return {origin[0] + turned[0], origin[1] + turned[1], origin[2] + turned[2]};
    }
};

/// Translation, rotation and scale as one matrix. A quaternion that is not of length 1 is brought to it.
Frame frame_of(const Rest& rest) {
    auto [x, y, z, w] = rest.rotation;
    const double length = std::sqrt(x * x + y * y + z * z + w * w);
    if (!(length > 1e-12) || !std::isfinite(length))
        x = y = z = 0, w = 1;
    else
        x /= length, y /= length, z /= length, w /= length;
    Frame frame;
    frame.linear = {{{1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)},
                     {2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)},
                     {2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)}}};
    for (Vector3& row : frame.linear)
        for (std::size_t c = 0; c < 3; ++c) row[c] *= rest.scale[c];
    frame.origin = rest.translation;
    return frame;
}

Frame below(const Frame& parent, const Frame& own) {
    Frame frame;
    for (std::size_t c = 0; c < 3; ++c) {
        const Vector3 column = parent.turn({own.linear[0][c], own.linear[1][c], own.linear[2][c]});
        for (std::size_t r = 0; r < 3; ++r) frame.linear[r][c] = column[r];
    }
    frame.origin = parent.place(own.origin);
    return frame;
}

std::vector<Frame> find_frames(const Rig& rig) {
    std::vector<Frame> frames(rig.bones.size());
    std::vector<bool> known(rig.bones.size());
    std::vector<BoneId> chain;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        for (BoneId at = bone; at != none && !known[at]; at = rig.bones[at].parent) chain.push_back(at);
        for (; !chain.empty(); chain.pop_back()) {
            const BoneId at = chain.back(), parent = rig.bones[at].parent;
            const Frame own = rig.bones[at].rest ? frame_of(*rig.bones[at].rest) : Frame{};
            frames[at] = parent == none ? own : below(frames[parent], own);
            known[at] = true;
        }
    }
    return frames;
}

bool can_be_drawn(const Vector3& v) {
    return std::all_of(v.begin(), v.end(), [](double x) { return std::abs(x) < 1e100; });  // not NaN either
}

bool are_alike(const Bone& a, const Bone& b) { return a.control == b.control && a.deform == b.deform; }

constexpr std::size_t all_shown = 400, most_marks = 1'500;

/// Places that are equal to a ten-thousandth of the body hold several bones.
void count_sharing(Body& body) {
    double size = 0;
    for (const BonePlace& place : body.places)
        if (place.is_known)
            for (double x : place.base) size = std::max(size, std::abs(x));
    const double step = std::max(size * 1e-4, 1e-9);
    std::map<std::array<double, 6>, std::vector<BoneId>> holders;
    for (BoneId bone : body.shown) {
        const BonePlace& place = body.places[bone];
        std::array<double, 6> key{};
        for (std::size_t i = 0; i < 3; ++i) {
            key[i] = std::round(place.base[i] / step) + 0.0;
            key[i + 3] = place.has_tip ? std::round(place.tip[i] / step) + 0.0 : 0.0;
        }
        holders[key].push_back(bone);
    }
    for (const auto& [key, bones] : holders) {
        if (bones.size() < 2) continue;
        ++body.shared_places;
        for (BoneId bone : bones) body.sharing[bone] = static_cast<std::uint32_t>(bones.size() - 1);
    }
}

}  // namespace

std::vector<BonePlace> find_places(const Rig& rig) {
    const std::vector<Frame> frames = find_frames(rig);
    std::vector<BonePlace> places(rig.bones.size());
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        BonePlace& place = places[bone];
        place.base = frames[bone].origin;
        if (rig.bones[bone].tip) place.tip = frames[bone].place(*rig.bones[bone].tip), place.has_tip = true;
    }
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        const BoneId parent = rig.bones[bone].parent;
        if (parent == none || places[parent].has_tip || !are_alike(rig.bones[bone], rig.bones[parent])) continue;
        places[parent].tip = places[bone].base;
        places[parent].has_tip = true;
    }
    for (BonePlace& place : places) place.is_known = can_be_drawn(place.base) && (!place.has_tip || can_be_drawn(place.tip));
    return places;
}

Point project(const Vector3& at, Side side) {
    switch (side) {
        case Side::front:  // from +z: x to the right
            return {at[0], -at[1]};
        case Side::side:  // from +x: z to the left
            return {-at[2], -at[1]};
        case Side::top:  // from +y: the front, +z, at the bottom
            return {at[0], at[2]};
    }
    return {};
}

Body::Body(const Subject& of) : subject(of), places(find_places(of.rig)), findings(find_on_body(of)), sharing(places.size()) {
    const Rig& rig = of.rig;
    const auto mechanism = static_cast<std::size_t>(
        std::count_if(rig.bones.begin(), rig.bones.end(), [](const Bone& bone) { return bone.is_mechanism(); }));
    const bool leave_out = rig.bones.size() > all_shown && mechanism < rig.bones.size();
    std::vector<bool> is_found(rig.bones.size());
    for (const BodyFinding& finding : findings) is_found[finding.bone] = true;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        without_rest += !rig.bones[bone].rest;
        unknown += !places[bone].is_known;
        const bool drawn = !leave_out || !rig.bones[bone].is_mechanism() || is_found[bone];
        left_out += !drawn;
        if (drawn && places[bone].is_known) shown.push_back(bone);
    }
    in_bulk = shown.size() > most_marks;
    count_sharing(*this);
}

}  // namespace ligament
