// Does `constraint-repeated` name the constraints that stand twice on one bone?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

std::string on_bone(const std::string& constraints) {
    return "{'name': 'ctl', 'roles': ['control'], 'curve': {'segments': 4}}, {'name': 'mech', 'parent': 'ctl'}, {'name': 'd', "
           "'roles': ['deform'], 'parent': 'mech', 'constraints': [" +
           constraints + "]}";
}

std::string found_on_bone(const std::string& constraints) {
    return found("constraint-repeated", on_bone(constraints), "'objects': [{'name': 'bank'}]");
}

}  // namespace

TEST(CheckConstraintRepeated, NamesTheSecondAndTheFirst) {
    const Looked looked =
        look_at(on_bone("{'name': 'turn', 'kind': 'rotation', 'from': 'ctl'},\n{'name': 'turn_2', 'kind': "
                        "'rotation', 'from': 'ctl', 'weight': 0.5}"));
    EXPECT_EQ(found("constraint-repeated", looked),
              "warning constraint \"d/turn_2\" repeats \"turn\" of the same bone: same kind, sources and channels [d]\n");
    EXPECT_EQ(first_found("constraint-repeated", looked).maker, "d/turn_2");
    EXPECT_EQ(first_found("constraint-repeated", looked).place, (Place{2, 1}));
}

TEST(CheckConstraintRepeated, EachRepetitionIsOneFinding) {
    const std::string turn = "'kind': 'rotation', 'from': 'ctl'}";
    EXPECT_EQ(found_on_bone("{'name': 'a', " + turn + ", {'kind': 'position', 'from': 'ctl'}, {'name': 'b', " + turn +
                            ", {'name': 'c', " + turn),
              "warning constraint \"d/b\" repeats \"a\" of the same bone: same kind, sources and channels [d]\n"
              "warning constraint \"d/c\" repeats \"a\" of the same bone: same kind, sources and channels [d]\n");
}

TEST(CheckConstraintRepeated, RangesDoNotTellApart) {
    EXPECT_NE(found_on_bone(
                  "{'kind': 'distance', 'from': 'ctl', 'range': [0, 1]}, {'kind': 'distance', 'from': 'ctl', 'range': [0, 2]}"),
              "");
    EXPECT_NE(found_on_bone("{'kind': 'limit', 'channels': ['rotation.x'], 'range': [0, 1]}, {'kind': 'limit', 'channels': "
                            "['rotation.x'], 'range': [0, 2]}"),
              "");
}

TEST(CheckConstraintRepeated, ComparesSolvers) {
    const auto twice = [](const std::string& more) {
        return found_on_bone("{'kind': 'ik', 'target': 'ctl', 'chain': 1}, {'kind': 'ik', 'target': 'ctl', " + more + "}");
    };
    EXPECT_NE(twice("'chain': 1"), "");
    EXPECT_EQ(twice("'chain': 2"), "");
    EXPECT_EQ(twice("'chain': 1, 'pole': 'mech'"), "");
    EXPECT_EQ(twice("'chain': 1, 'orient': true"), "");
}

// One row for each thing that tells two constraints apart.
TEST(CheckConstraintRepeated, NearMisses) {
    for (const std::string& second : std::initializer_list<std::string>{
             "'kind': 'transform', 'from': 'ctl'", "'kind': 'rotation', 'from': 'mech'",
             "'kind': 'rotation', 'from': {'object': 'bank'}", "'kind': 'rotation', 'from': ['ctl', 'mech']",
             "'kind': 'rotation', 'from': {'bone': 'ctl', 'at': 0.5}",
             "'kind': 'rotation', 'from': {'bone': 'ctl', 'curved': true}", "'kind': 'rotation', 'from': 'ctl', 'space': 'local'",
             "'kind': 'rotation', 'from': 'ctl', 'axes': 'xy'", "'kind': 'rotation', 'from': 'ctl', 'enabled': false",
             "'kind': 'rotation', 'from': 'ctl', 'weight': 0"})
        EXPECT_EQ(found_on_bone("{'kind': 'rotation', 'from': 'ctl'}, {" + second + "}"), "") << second;
    EXPECT_EQ(
        found_on_bone("{'kind': 'transform', 'from': 'ctl', 'channels': ['position']}, {'kind': 'transform', 'from': 'ctl', "
                      "'channels': ['rotation']}"),
        "");
    EXPECT_EQ(found_on_bone("{'kind': 'aim', 'from': 'ctl'}, {'kind': 'aim', 'from': 'ctl', 'up': 'mech'}"), "");
    EXPECT_EQ(found_on_bone("{'kind': 'roll', 'from': 'ctl', 'axis': 'x'}, {'kind': 'roll', 'from': 'ctl', 'axis': 'y'}"), "");
    EXPECT_EQ(found_on_bone("{'kind': 'surface', 'from': {'object': 'bank'}}, {'kind': 'surface', 'from': {'object': 'bank'}, "
                            "'align': true}"),
              "");
    EXPECT_EQ(
        found_on_bone("{'kind': 'custom', 'from': 'ctl', 'reads': ['rotation'], 'writes': ['rotation'], 'label': 'lag'}, "
                      "{'kind': 'custom', 'from': 'ctl', 'reads': ['rotation'], 'writes': ['rotation'], 'label': 'shiver'}"),
        "");
    EXPECT_EQ(
        found_on_bone("{'kind': 'custom', 'from': 'ctl', 'reads': ['rotation'], 'writes': ['rotation']}, {'kind': 'custom', "
                      "'from': 'ctl', 'reads': ['rotation'], 'writes': ['position']}"),
        "");
}

TEST(CheckConstraintRepeated, CleanOnDifferentBones) {
    EXPECT_EQ(found("constraint-repeated",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'a', 'constraints': [{'kind': 'rotation', 'from': 'ctl'}]}, "
                    "{'name': 'b', 'constraints': [{'kind': 'rotation', 'from': 'ctl'}]}"),
              "");
}

}  // namespace ligament::testing
