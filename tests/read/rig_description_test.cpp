// Does a rig description become the rig that it says, with all defaults?
#include <gtest/gtest.h>

#include "faults.hpp"
#include "same_rig.hpp"
#include "whole_rig.hpp"

namespace ligament::testing {
namespace {

TEST(reading, fills_in_defaults) {
    const Rig rig = tiny_rig("{'name': 'a', 'curve': {}, 'rest': {}, 'constraints': [{'kind': 'transform', 'from': 'a'}]}",
                             "'properties': [{'name': 'p'}], 'objects': [{'name': 'o'}]");
    const Bone& bone = rig.bones[0];
    EXPECT_TRUE(bone.is_mechanism());
    EXPECT_EQ(bone.parent, none);
    EXPECT_EQ(bone.from_parent, all_parts);
    EXPECT_EQ(bone.group, "");
    EXPECT_FALSE(bone.tip);
    EXPECT_EQ(bone.rest->rotation, (std::array<double, 4>{0, 0, 0, 1}));
    EXPECT_EQ(bone.rest->scale, (std::array<double, 3>{1, 1, 1}));
    EXPECT_EQ(bone.curve->segments, 1);
    EXPECT_EQ(bone.curve->start, none);
    const Constraint& constraint = bone.constraints[0];
    EXPECT_EQ(constraint.name, "transform1");
    EXPECT_TRUE(constraint.enabled);
    EXPECT_EQ(constraint.space, Space::final);
    EXPECT_EQ(constraint.axes, 7);
    EXPECT_FALSE(constraint.additive);
    EXPECT_EQ(constraint.channels, all_channels);
    EXPECT_EQ(constraint.weight.number, 1);
    EXPECT_FALSE(constraint.weight.is_driven());
    EXPECT_EQ(constraint.sources.size(), 1);
    EXPECT_EQ(constraint.sources[0].at, 0);
    EXPECT_EQ(constraint.sources[0].weight.number, 1);
    EXPECT_EQ(rig.properties[0].initial, 0);
    EXPECT_FALSE(rig.properties[0].min || rig.properties[0].max || rig.properties[0].value);
    EXPECT_FALSE(rig.roots);
    EXPECT_TRUE(tiny_rig("", "'roots': []").roots->empty());
}

TEST(reading, fills_in_names_of_constraints_by_kind_and_place_on_the_bone) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'kind': 'aim', 'from': 'a'}, {'name': 'x', 'kind': 'aim', 'from': 'a'},"
        "{'from': 'a', 'kind': 'roll'}]}, {'name': 'b', 'constraints': [{'kind': 'aim', 'from': 'a'}]}");
    EXPECT_EQ(rig.bones[0].constraints[0].name, "aim1");
    EXPECT_EQ(rig.bones[0].constraints[1].name, "x");
    EXPECT_EQ(rig.bones[0].constraints[2].name, "roll3");
    EXPECT_EQ(rig.bones[1].constraints[0].name, "aim1");
}

TEST(reading, keeps_the_order_of_the_file) {
    const Rig rig = tiny_rig("{'name': 'c', 'parent': 'a'}, {'name': 'a'}, {'name': 'b'}",
                             "'objects': [{'name': 'o', 'follows': ['b', 'a']}]");
    EXPECT_EQ(rig.bones[0].parent, 1) << "parents may stand behind their children";
    EXPECT_EQ(rig.objects[0].follows, (std::vector<BoneId>{2, 1}));
}

TEST(reading, takes_channel_lists) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'kind': 'limit', 'channels': ['rotation', 'position.y', 'scale.z']},"
        "{'kind': 'custom', 'from': 'a', 'reads': ['scale.x'], 'writes': ['position', 'position.x']}]}");
    EXPECT_EQ(rig.bones[0].constraints[0].channels, 0b100'111'010);
    EXPECT_EQ(rig.bones[0].constraints[1].reads, 0b001'000'000);
    EXPECT_EQ(rig.bones[0].constraints[1].writes, position_channels);
}

TEST(reading, orders_sources_by_their_use) {
    const Rig rig = tiny_rig(
        "{'name': 'a'}, {'name': 'b', 'constraints': [{'pole': 'a', 'target': 'b', 'chain': 1, 'kind': 'ik'},"
        "{'up': 'b', 'from': ['a', 'b', 'a'], 'kind': 'aim'}]}");
    const auto uses = [&](std::size_t index) {
        std::string text;
        for (const Source& source : rig.bones[1].constraints[index].sources)
            text += std::to_string(static_cast<int>(source.use)) + rig.bones[source.bone].name + " ";
        return text;
    };
    EXPECT_EQ(uses(0), "2b 3a ");
    EXPECT_EQ(uses(1), "0a 0b 0a 1b ");
}

TEST(reading, takes_escapes_in_names_for_what_they_stand_for) {
    const ReadResult result = read_rig(R"({"format": "rig-description", "version": 1, "name": "x", "bones": [
      {"name": "h\u00e9ron\/1"}, {"name": "tip", "parent": "héron/1"}, {"name": "\ud83d\udc26"}, {"name": "t", "parent": "🐦"},
      {"name": "nul\u0000", "parent": "nul"}, {"name": "nul"}]})");
    ASSERT_TRUE(result.rig);
    EXPECT_EQ(result.rig->bones[0].name, "h\xC3\xA9ron/1");
    EXPECT_EQ(result.rig->bones[1].parent, 0);
    EXPECT_EQ(result.rig->bones[3].parent, 2);
    EXPECT_EQ(result.rig->bones[4].name, std::string("nul\0", 4));
    EXPECT_EQ(result.rig->bones[4].parent, 5);
}

TEST(reading, numbers_drivers_by_their_place) {
    const Rig rig = *read_rig(whole_rig).rig;
    for (std::size_t i = 1; i < rig.drivers.size(); ++i)
        EXPECT_LT(std::pair(rig.drivers[i - 1].place.line, rig.drivers[i - 1].place.column),
                  std::pair(rig.drivers[i].place.line, rig.drivers[i].place.column));
    EXPECT_EQ(rig.drivers.size(), 5);
}

TEST(reading, takes_everything_the_format_has) {
    const ReadResult result = read_rig(whole_rig);
    ASSERT_TRUE(result.rig) << faults_of_text(whole_rig);
    EXPECT_EQ(text_of(*result.rig), R"(marsh "heron" 鷺
side _l | _r
side left  | right 
roots ( 1 )
property mode on 1 0.25 min -1 max 1 ik=0 fk=1
property doubled on - 0 value driver <m * 2> m=0,0,-,-,0,1
property plain on - 0
object skin ( 1 2 )
object water ( )
bone tail 11 1 <> 5
bone root 10 - <> 0
bone neck 01 1 <neck> 7 rest ( 0.10000000000000001 -2 9.9999999999999995e-08 )( 0.5 0.5 0.5 0.5 )( 2 2 2 ) tip ( 0 0.29999999999999999 0 ) curve 8 1 0 rotation.x=12.5 scale.z=driver <>( -1 0 )( 0.5 1 ) =0,0,-,-,0,1 position.y=driver <min(a, e) + c - d> a=1,-,0,-,5,1 e=1,-,0,-,6,0 c=2,-,1,0,0,1 d=3,-,0,1,0,1
  transform1 transform 10 7 000 0 511 0 0 <> <>  weight 1
    0 0 - 0 0 1
  some transform 01 5 100 0 58 0 0 <> <>  weight 0.5
    0 0 - 0 0 1
    0 2 - 1 0.5 0.25
    0 - 0 0 0 1
  position3 position 10 7 000 0 511 0 0 <> <>  weight 1
    0 1 - 0 0 driver <1> unused=0,0,-,-,0,1
  rotation4 rotation 10 7 000 0 511 0 0 <> <>  weight 1
    0 - 0 0 0 1
  scale5 scale 10 7 000 0 511 0 0 <> <>  weight 1
    0 1 - 0 0 1
  aim6 aim 10 7 000 0 511 0 0 <-y> <>  weight 1
    0 1 - 0 0 1
    1 0 - 0 1 1
  roll7 roll 10 7 000 0 511 0 0 <x> <>  weight 1
    0 1 - 0 0 1
  stretch8 stretch 10 7 000 0 511 0 0 <> <>  weight 1
    0 1 - 0 0 1
  distance9 distance 10 7 000 0 511 0 0 <> <> ( 0.5 2 ) weight 1
    0 1 - 0 0 1
  space10 space 10 7 000 0 511 0 0 <> <>  weight 1
    0 1 - 0 0 1
    0 0 - 0 0 1
  limit11 limit 10 7 000 0 8 0 0 <> <> ( -10 10 ) weight 1
  surface12 surface 10 7 010 0 511 0 0 <> <>  weight 1
    0 - 1 0 0 1
  ik13 ik 10 7 001 2 511 0 0 <> <>  weight driver <m> m=0,0,-,-,0,1
    2 1 - 0 0 1
    3 0 - 0 0 1
  path14 path 10 7 000 1 511 0 0 <> <>  weight 1
    0 1 - 0 0 1
    0 0 - 0 0 1
  custom15 custom 10 7 000 0 511 7 480 <> <wind & rain>  weight 1
    0 1 - 0 0 1
    0 - 0 0 0 1
5 drivers
)");
}

// Lists, objects and scalars, the outermost one too: the rig, three scalars, the list of bones, two bones with a name each.
TEST(reading, stops_where_there_are_too_many_values) {
    const std::string text = rig_text("{'name': 'a'}, {'name': 'b'}");
    EXPECT_TRUE(read_rig(text, {.value_limit = 9}).rig);
    const ReadResult result = read_rig(text, {.value_limit = 8});
    ASSERT_EQ(result.faults.size(), 1);
    EXPECT_EQ(result.faults[0].message, "more than 8 values, the text behind is not read");
    EXPECT_EQ(ReadOptions{}.value_limit, 50'000'000U);  // as the README says
}

// A chain of a hundred thousand bones, children first: no recursion over parents, and no time that grows with its square.
TEST(reading, passes_a_long_chain) {
    std::string bones = "{'name': 'b0'}";
    constexpr int length = 100'000;
    for (int i = 1; i < length; ++i) bones += ",{'name': 'b" + std::to_string(i) + "','parent':'b" + std::to_string(i - 1) + "'}";
    const Rig rig = tiny_rig(bones);
    EXPECT_EQ(rig.bones.back().parent, length - 2);
    std::string loop = bones;
    loop.replace(0, 14, "{'name': 'b0', 'parent': 'b" + std::to_string(length - 1) + "'}");
    const ReadResult result = read_rig(rig_text(loop));
    ASSERT_EQ(result.faults.size(), 1);
    EXPECT_EQ(result.faults[0].message.substr(0, 36), "parent loop b0 -> b99999 -> b99998 -");
}

}  // namespace
}  // namespace ligament::testing
