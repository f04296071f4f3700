// Does `deform-root-only` name the deform bones that nothing but the root controls moves?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {
constexpr std::string_view two_limbs =
    "{'name': 'root', 'roles': ['control']}, {'name': 'wing_ctl', 'roles': ['control'], 'parent': 'root'},"
    "{'name': 'wing', 'roles': ['deform'], 'parent': 'wing_ctl'}, {'name': 'tail', 'roles': ['deform'], 'parent': 'root'}";
}

TEST(CheckDeformRootOnly, NamesTheBoneAndTheRootControl) {
    const std::string expected = "warning deform bone \"tail\" moves only with the root control \"root\" [tail]\n";
    EXPECT_EQ(found("deform-root-only", two_limbs), expected);
    EXPECT_EQ(found("deform-root-only", two_limbs, "'roots': ['root']"), expected);
}

TEST(CheckDeformRootOnly, NearMissListedRootsAreTakenAsTheyAre) {
    EXPECT_EQ(found("deform-root-only", two_limbs, "'roots': []"), "");
}

TEST(CheckDeformRootOnly, NearMissNoOtherControlReachesAnyDeformBone) {
    EXPECT_EQ(found("deform-root-only",
                    "{'name': 'root', 'roles': ['control']}, {'name': 'a', 'roles': ['deform'], 'parent': 'root'},"
                    "{'name': 'idle', 'roles': ['control'], 'parent': 'root'}"),
              "");
}

TEST(CheckDeformRootOnly, CleanWhenEachLimbHasItsControl) {
    EXPECT_EQ(found("deform-root-only",
                    "{'name': 'root', 'roles': ['control']}, {'name': 'wing_ctl', 'roles': ['control'], 'parent': 'root'},"
                    "{'name': 'tail_ctl', 'roles': ['control'], 'parent': 'root'},"
                    "{'name': 'wing', 'roles': ['deform'], 'parent': 'wing_ctl'},"
                    "{'name': 'tail', 'roles': ['deform'], 'parent': 'tail_ctl'}"),
              "");
}

}  // namespace ligament::testing
