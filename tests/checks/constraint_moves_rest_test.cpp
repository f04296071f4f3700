// Does `constraint-moves-rest` name constraints that move their bone out of its rest pose?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string moved = "'rest': {'translation': [0, 1.5, 0]}, ",
                  turned = "'rest': {'rotation': [0, 0, 0.5, 0.8660254037844386]}, ";

/// A bone "lid" at (0, 1, 0) that reads "eye", which hangs at (0, 1, 0) below the root unless `rest` says otherwise.
std::string lid(const std::string& constraint, const std::string& rest = "'rest': {'translation': [0, 1, 0]}, ",
                const std::string& more = {}) {
    return "{'name': 'root', 'roles': ['control'], 'rest': {}}, {'name': 'eye', " + rest + more +
           "'parent': 'root', 'tip': [0, 0.5, 0]}, {'name': 'lid', 'rest': {'translation': [0, 1, 0]}, 'constraints': [{'name': "
           "'seat', " +
           constraint + "}]}";
}

std::string moves(const std::string& bones, const std::string& rest = {}) { return found("constraint-moves-rest", bones, rest); }

const std::string transform = "'kind': 'transform', 'from': 'eye'", position = "'kind': 'position', 'from': 'eye'",
                  rotation = "'kind': 'rotation', 'from': 'eye'";
const std::string seat = "warning constraint \"lid/seat\" moves its bone at rest: it takes over the ";

}  // namespace

// Common practice, no source: a deform bone stands exactly on the bone that it takes its transform from.
TEST(CheckConstraintMovesRest, TellsHowFarAndHowMuchItTurns) {
    EXPECT_EQ(moves(lid(transform, moved)), seat + "transform of \"eye\", but it is 0.5 away [lid]\n");
    EXPECT_EQ(moves(lid(transform, turned)), seat + "transform of \"eye\", but it is 1 away, it is turned by 60 degrees [lid]\n");
    EXPECT_EQ(moves(lid(position, turned)), seat + "position of \"eye\", but it is 1 away [lid]\n");
    EXPECT_EQ(moves(lid(rotation, turned)), seat + "rotation of \"eye\", but it is turned by 60 degrees [lid]\n");
    EXPECT_EQ(moves(lid(transform, "'rest': {'translation': [0, 1, 0], 'scale': [1, 2, 1]}, ")),
              seat + "transform of \"eye\", but it has another scale [lid]\n");
    EXPECT_EQ(first_found("constraint-moves-rest", look_at(lid(transform, moved))).maker, "lid/seat");
}

TEST(CheckConstraintMovesRest, WhatStandsWhereItsSourceStandsIsSilent) {
    EXPECT_EQ(moves(lid(transform)), "");
    EXPECT_EQ(moves(lid(rotation, moved)), "") << "the place is not taken";
    EXPECT_EQ(moves(lid(transform + ", 'channels': ['rotation']", moved)), "");
    EXPECT_EQ(moves(lid(transform + ", 'channels': ['position.x']", moved)), "") << "taken in part";
    EXPECT_EQ(moves(lid(transform, "'rest': {'translation': [0, 1.00005, 0]}, ")), "") << "a tenth of a millimetre is allowed";
    EXPECT_NE(moves(lid(transform, "'rest': {'translation': [0, 1.00015, 0]}, ")), "");
}

TEST(CheckConstraintMovesRest, APlaceAlongTheSourceIsComparedAsSuch) {
    const std::string half = "'kind': 'position', 'from': {'bone': 'eye', 'at': 0.5}";
    EXPECT_EQ(moves(lid(half, "'rest': {'translation': [0, 0.75, 0]}, ")), "");
    EXPECT_EQ(moves(lid(half)), seat + "position of \"eye at 0.5\", but that place on it is 0.25 away [lid]\n");
}

TEST(CheckConstraintMovesRest, BlendsSpacesAndOffsetsAreNotLookedAt) {
    for (const std::string more :
         {", 'additive': true", ", 'space': 'local'", ", 'axes': 'xy'", ", 'enabled': false", ", 'weight': 0"})
        EXPECT_EQ(moves(lid(transform + more, moved)), "") << more;
    EXPECT_EQ(moves(lid("'kind': 'transform', 'from': ['eye', 'root']", moved)), "");
    EXPECT_EQ(moves(lid("'kind': 'space', 'from': 'eye'", moved)), "");
    EXPECT_EQ(moves(lid("'kind': 'transform', 'from': {'bone': 'eye', 'curved': true}", moved, "'curve': {}, ")), "");
    EXPECT_EQ(moves("{'name': 'eye', 'rest': {}}, {'name': 'lid', 'constraints': [{'kind': 'transform', 'from': 'eye'}]}"), "")
        << "no rest";
    EXPECT_EQ(moves(lid(transform, "", "")), "") << "nor here";
}

TEST(CheckConstraintMovesRest, AWeightThatSomeStopLetsThroughCounts) {
    const std::string weight = ", 'weight': {'expression': 'm', 'inputs': {'m': {'property': 'mode'}}}";
    EXPECT_NE(moves(lid(transform + weight, moved), "'properties': [{'name': 'mode'}]"), "");
    EXPECT_EQ(moves(lid(transform + weight, moved), "'properties': [{'name': 'mode', 'min': 0, 'max': 0}]"), "") << "dead";
}

TEST(CheckConstraintMovesRest, BonesThatAreDrivenAwayFromRestAreNotLookedAt) {
    const auto driven = [](const std::string& value) { return "'channels': {'position.y': " + value + "}, "; };
    EXPECT_EQ(moves(lid(transform, moved, driven("-0.5"))), "");
    EXPECT_NE(moves(lid(transform, moved, driven("0"))), "");
    EXPECT_EQ(moves(lid(transform, moved, driven("{'expression': 'p - 0.5', 'inputs': {'p': {'property': 'p'}}}")),
                    "'properties': [{'name': 'p'}]"),
              "");
    EXPECT_NE(moves(lid(transform, moved, driven("{'expression': 'p', 'inputs': {'p': {'property': 'p'}}}")),
                    "'properties': [{'name': 'p'}]"),
              "");
    EXPECT_NE(
        moves(lid(transform, moved, driven("{'expression': 's', 'inputs': {'s': {'bone': 'root', 'channel': 'rotation.x'}}}"))),
        "")
        << "a slider at rest";
    EXPECT_EQ(moves(lid(transform, moved, driven("{'expression': 'd', 'inputs': {'d': {'distance': ['root', 'lid']}}}"))), "");
    EXPECT_EQ(moves("{'name': 'root', 'rest': {}, 'channels': {'position.y': 1}}, {'name': 'eye', 'parent': 'root', 'rest': {}}, "
                    "{'name': 'lid', 'rest': {'translation': [0, 1, 0]}, 'constraints': [{'kind': 'transform', 'from': 'eye'}]}"),
              "");
}

}  // namespace ligament::testing
