// Where does each bone lie at rest?
#include <algorithm>
#include <cmath>
#include <map>

#include "view_body.hpp"

namespace ligament {

namespace {

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
    const std::vector<RestFrame> frames = find_rest_frames(rig);
    std::vector<BonePlace> places(rig.bones.size());
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        BonePlace& place = places[bone];
        place.base = frames[bone].origin;
        if (rig.bones[bone].tip) place.tip = rest_tip(rig.bones[bone], frames[bone]), place.has_tip = true;
    }
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone) {
        const BoneId parent = rig.bones[bone].parent;
        if (parent == none || places[parent].has_tip || !are_alike(rig.bones[bone], rig.bones[parent])) continue;
        places[parent].tip = places[bone].base;
        places[parent].has_tip = true;
    }
    for (BonePlace& place : places)
        place.is_known = is_within_bounds(place.base) && (!place.has_tip || is_within_bounds(place.tip));
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
