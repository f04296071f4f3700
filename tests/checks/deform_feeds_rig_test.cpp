// Does `deform-feeds-rig` name the bones of the rig that read a deform bone?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

// A control, the mechanism bone below it, and the deform bone that follows.
const std::string chain =
    "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'parent': 'ctl'},\n{'name': 'skin', 'roles': ['deform'], "
    "'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'mech'}]},\n";

}  // namespace

// Common practice, no source: deform bones are a leaf layer, nothing reads them.
TEST(CheckDeformFeedsRig, NamesReaderDeformBoneAndMaker) {
    const Looked looked =
        look_at(chain + "{'name': 'lip', 'constraints': [\n  {'name': 'follow', 'kind': 'position', 'from': 'skin'}]}");
    EXPECT_EQ(found("deform-feeds-rig", looked),
              "warning mechanism bone \"lip\" depends on deform bone \"skin\", by constraint \"lip/follow\" [skin lip]\n");
    const Finding finding = first_found("deform-feeds-rig", looked);
    EXPECT_EQ(finding.place, (Place{4, 3}));
    EXPECT_EQ(finding.maker, "lip/follow");
}

TEST(CheckDeformFeedsRig, NamesControlsAndParentLinks) {
    EXPECT_EQ(found("deform-feeds-rig", chain + "{'name': 'lip_ctl', 'roles': ['control'], 'parent': 'skin'}"),
              "warning control \"lip_ctl\" depends on deform bone \"skin\", as its child [skin lip_ctl]\n");
}

TEST(CheckDeformFeedsRig, GoesThroughDriversAndProperties) {
    EXPECT_EQ(
        found("deform-feeds-rig",
              chain + "{'name': 'lip', 'channels': {'rotation.x': {'expression': 'o', 'inputs': {'o': {'property': 'open'}}}}}",
              "'properties': [{'name': 'open', 'value': {'expression': 't', 'inputs': {'t': {'bone': 'skin', 'channel': "
              "'rotation.x'}}}}]"),
        "warning mechanism bone \"lip\" depends on deform bone \"skin\", by driver \"open\" and driver \"lip/rotation.x\" [skin "
        "lip]\n");
}

TEST(CheckDeformFeedsRig, StandsAtWhatReadsTheObjectThatFollowsTheSkin) {
    const Looked looked =
        look_at(chain + "{'name': 'louse', 'constraints': [\n  {'name': 'sit', 'kind': 'surface', 'from': {'object': 'coat'}}]}",
                "'objects': [{'name': 'coat', 'follows': ['skin']}]");
    EXPECT_EQ(found("deform-feeds-rig", looked),
              "warning mechanism bone \"louse\" depends on deform bone \"skin\", by object \"coat\" and constraint \"louse/sit\" "
              "[skin louse]\n");
    EXPECT_EQ(first_found("deform-feeds-rig", looked).maker, "louse/sit");
    EXPECT_EQ(first_found("deform-feeds-rig", looked).place, (Place{4, 3}));
}

TEST(CheckDeformFeedsRig, OneFindingAPair) {
    EXPECT_EQ(found("deform-feeds-rig", chain + "{'name': 'lip', 'parent': 'skin', 'constraints': [{'name': 'follow', 'kind': "
                                                "'position', 'from': 'skin'}]}, {'name': 'tip', 'parent': 'lip'}"),
              "warning mechanism bone \"lip\" depends on deform bone \"skin\", as its child [skin lip]\n");
}

TEST(CheckDeformFeedsRig, NearMissADeformBoneThatIsAControl) {
    EXPECT_EQ(found("deform-feeds-rig", "{'name': 'both', 'roles': ['control', 'deform']}, {'name': 'mech', 'parent': 'both'}"),
              "");
    EXPECT_EQ(found("deform-feeds-rig", chain + "{'name': 'both', 'roles': ['control', 'deform'], 'parent': 'skin'}"),
              "warning control \"both\" depends on deform bone \"skin\", as its child [skin both]\n");
}

TEST(CheckDeformFeedsRig, NearMissADisabledConstraint) {
    EXPECT_EQ(found("deform-feeds-rig",
                    chain + "{'name': 'lip', 'constraints': [{'kind': 'position', 'from': 'skin', 'enabled': false}]}"),
              "");
}

TEST(CheckDeformFeedsRig, NearMissAReaderWhoseRoleWasMadeOutFromWeights) {
    Rig rig = tiny_rig(chain + "{'name': 'tip', 'parent': 'skin'}");
    EXPECT_NE(found("deform-feeds-rig", look_at(rig)), "");
    for (Bone& bone : rig.bones) bone.role_is_stated = false;
    EXPECT_EQ(found("deform-feeds-rig", look_at(rig)), "");
}

TEST(CheckDeformFeedsRig, CleanWhereDataFlowsOneWay) {
    EXPECT_EQ(found("deform-feeds-rig", chain + "{'name': 'tip', 'roles': ['deform'], 'parent': 'skin'}"), "");
}

}  // namespace ligament::testing
