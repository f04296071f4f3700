// Does `deform-carried` note the deform bones that only ride on their deform parent?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

TEST(CheckDeformCarried, NamesTheBoneAndItsParent) {
    EXPECT_EQ(found("deform-carried",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'bill', 'roles': ['deform'], 'parent': 'ctl'},"
                    "{'name': 'tip', 'roles': ['deform'], 'parent': 'bill'}"),
              "note deform bone \"tip\" only rides on its deform parent \"bill\" [tip]\n");
}

TEST(CheckDeformCarried, NearMissAParentThatIsAControlTooAttaches) {
    EXPECT_EQ(found("deform-carried",
                    "{'name': 'ctl', 'roles': ['control', 'deform']},"
                    "{'name': 'tip', 'roles': ['deform'], 'parent': 'ctl'}"),
              "");
}

TEST(CheckDeformCarried, NearMissALiveConstraintOfItsOwnAttaches) {
    const auto rig = [](std::string_view enabled) {
        return "{'name': 'ctl', 'roles': ['control']}, {'name': 'bill', 'roles': ['deform'], 'parent': 'ctl'},"
               "{'name': 'tip', 'roles': ['deform'], 'parent': 'bill', 'constraints': [{'kind': 'rotation', 'from': 'ctl', "
               "'enabled': " +
               std::string(enabled) + "}]}";
    };
    EXPECT_EQ(found("deform-carried", rig("true")), "");
    EXPECT_EQ(found("deform-carried", rig("false")), "note deform bone \"tip\" only rides on its deform parent \"bill\" [tip]\n");
}

TEST(CheckDeformCarried, CleanRigSaysNothing) {
    EXPECT_EQ(
        found("deform-carried", "{'name': 'ctl', 'roles': ['control']}, {'name': 'bill', 'roles': ['deform'], 'parent': 'ctl'}"),
        "");
}

}  // namespace ligament::testing
