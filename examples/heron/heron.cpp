// Of what parts is the marsh heron?
#include "heron.hpp"

namespace heron {

using namespace ligament;

const std::vector<Side>& both_sides() {
    static const std::vector<Side> sides{{"_l", false}, {"_r", true}};
    return sides;
}

namespace {

Sketch sketch_heron() {
    Sketch sketch;
    sketch.rig.name = "heron";
    sketch.rig.sides = {{"_l", "_r"}};
    Object perch;  // what the heron may stand on; it follows no bone of this rig
    perch.name = "perch";
    sketch.rig.objects.push_back(perch);
    add_body(sketch);
    add_neck(sketch);
    add_head(sketch);
    for (const Side& side : both_sides()) add_wing(sketch, side);
    for (const Side& side : both_sides()) add_leg(sketch, side);
    sketch.rig.roots = {{bone_named(sketch, "world")}};
    return sketch;
}

}  // namespace

void add_skin(Sketch& sketch) {
    Object body, eyes;
    body.name = "body_skin";
    eyes.name = "eye_glass";
    for (BoneId bone = 0; bone < sketch.rig.bones.size(); ++bone)
        if (sketch.rig.bones[bone].deform) body.follows.push_back(bone);
    for (const Side& side : both_sides()) eyes.follows.push_back(bone_named(sketch, side.name("eye")));
    sketch.rig.objects.push_back(std::move(body));
    sketch.rig.objects.push_back(std::move(eyes));
}

Rig build_heron() {
    Sketch sketch = sketch_heron();
    add_skin(sketch);
    return std::move(sketch.rig);
}

Rig build_heron_before() {
    Sketch sketch = sketch_heron();
    go_back_a_week(sketch);
    add_skin(sketch);
    return std::move(sketch.rig);
}

Rig build_faulty_heron() {
    Sketch sketch = sketch_heron();
    sketch.rig.name = "faulty heron";
    plant_faults(sketch);
    add_skin(sketch);
    return std::move(sketch.rig);
}

}  // namespace heron
