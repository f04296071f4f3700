// Does `deform-orphaned` name the deform bones that no control moves, and where motion could have come from?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

TEST(CheckDeformOrphaned, NamesABoneWithoutAnyWayIn) {
    EXPECT_EQ(found("deform-orphaned", "{'name': 'ctl', 'roles': ['control']}, {'name': 'feather', 'roles': ['deform']}"),
              "error no control reaches deform bone \"feather\": it takes nothing from a parent and has no live constraint or "
              "driver of its "
              "own [feather]\n");
}

TEST(CheckDeformOrphaned, NamesTheWaysInThatBringNothing) {
    EXPECT_EQ(
        found("deform-orphaned",
              "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech'},"
              "{'name': 'd1', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'mech'}]},"
              "{'name': 'd2', 'roles': ['deform'], 'parent': 'mech', 'constraints': [{'name': 'seat', 'kind': 'transform', "
              "'from': 'mech'}]}"),
        "error no control reaches deform bone \"d1\": constraint \"seat\" brings no control's motion [d1]\n"
        "error no control reaches deform bone \"d2\": neither parent \"mech\" nor constraint \"seat\" brings a control's motion "
        "[d2]\n");
}

TEST(CheckDeformOrphaned, StandsAtTheBone) {
    EXPECT_EQ(
        first_found("deform-orphaned", look_at("{'name': 'ctl', 'roles': ['control']},\n {'name': 'd', 'roles': ['deform']}"))
            .place,
        (Place{2, 2}));
}

TEST(CheckDeformOrphaned, HintsAtMissingControls) {
    EXPECT_EQ(first_found("deform-orphaned", look_at("{'name': 'd', 'roles': ['deform']}")).hint,
              "no bone of this rig has the role control: mark the bones that animators pose");
}

TEST(CheckDeformOrphaned, ADisabledConstraintIsNoWayIn) {
    EXPECT_EQ(
        found("deform-orphaned",
              "{'name': 'ctl', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], 'constraints': "
              "[{'kind': 'transform', 'from': 'ctl', 'enabled': false}]}"),
        "error no control reaches deform bone \"d\": it takes nothing from a parent and has no live constraint or driver of "
        "its own "
        "[d]\n");
}

TEST(CheckDeformOrphaned, NearMissOneChannelIsEnough) {
    EXPECT_EQ(found("deform-orphaned",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], 'constraints': "
                    "[{'kind': 'rotation', 'from': 'ctl', 'axes': 'y'}]}"),
              "");
}

TEST(CheckDeformOrphaned, CleanRigAndMechanismBonesSayNothing) {
    EXPECT_EQ(found("deform-orphaned",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'mech', 'parent': 'ctl'}, {'name': 'loose'},"
                    "{'name': 'd', 'roles': ['deform'], 'parent': 'mech'}"),
              "");
}

}  // namespace ligament::testing
