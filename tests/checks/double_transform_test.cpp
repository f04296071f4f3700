// Does `double-transform` name the additive constraints whose motion the parent brings along already?
#include <gtest/gtest.h>

#include <algorithm>

#include "found.hpp"

namespace ligament::testing {

namespace {

// A bone `toe` below `foot`, with one constraint; `foot` is below `ctl` unless it says otherwise.
std::string found_on_toe(const std::string& constraint, const std::string& foot = "'parent': 'ctl'",
                         const std::string& of_toe = "") {
    return found("double-transform",
                 "{'name': 'ctl', 'roles': ['control']}, {'name': 'aside', 'roles': ['control']}, {'name': 'foot', " + foot +
                     "}, {'name': 'toe', 'parent': 'foot'" + of_toe + ", 'constraints': [{'name': 'add', 'additive': true, " +
                     constraint + "}]}",
                 "'properties': [{'name': 'mode'}]");
}

std::string says(const std::string& parts) {
    return "warning additive constraint \"toe/add\" adds the " + parts +
           " of \"ctl\", which \"toe\" takes over already from its parent \"foot\" [toe]\n";
}

std::string by_mode(const std::string& expression) {
    return ", 'weight': {'expression': '" + expression + "', 'inputs': {'m': {'property': 'mode'}}}";
}

std::string foot_follows(const std::string& constraint) { return "'constraints': [{" + constraint + "}]"; }

const std::string rotation = "'kind': 'rotation', 'from': 'ctl'";

}  // namespace

TEST(CheckDoubleTransform, NamesAnAncestorThatIsReadOnceMore) {
    EXPECT_EQ(found_on_toe(rotation), says("rotation"));
    EXPECT_EQ(found_on_toe("'kind': 'transform', 'from': 'ctl'"), says("position, rotation and scale"));
    EXPECT_EQ(found_on_toe("'kind': 'transform', 'from': 'ctl', 'channels': ['position', 'scale']"), says("position and scale"));
    EXPECT_EQ(found_on_toe("'kind': 'position', 'from': {'bone': 'ctl', 'at': 0.5}"), says("position"));
}

TEST(CheckDoubleTransform, NamesWhatMovesAnAncestorByAConstraint) {
    EXPECT_EQ(found_on_toe(rotation, foot_follows("'kind': 'transform', 'from': 'ctl'")), says("rotation"));
    EXPECT_EQ(found_on_toe(rotation, foot_follows("'kind': 'rotation', 'from': 'ctl', 'space': 'local'")), says("rotation"));
}

TEST(CheckDoubleTransform, StandsAtTheConstraint) {
    const Finding finding =
        first_found("double-transform",
                    look_at("{'name': 'ctl', 'roles': ['control']}, {'name': 'toe', 'parent': 'ctl', 'constraints': [\n {'name': "
                            "'add', 'kind': 'rotation', 'from': 'ctl', 'additive': true}]}"));
    EXPECT_EQ(finding.place, (Place{2, 2}));
    EXPECT_EQ(finding.maker, "toe/add");
}

TEST(CheckDoubleTransform, ListsTheSourcesThatAreTakenOver) {
    EXPECT_EQ(found_on_toe("'kind': 'rotation', 'from': ['aside', 'ctl']"), says("rotation"));
}

TEST(CheckDoubleTransform, NearMissAnotherPart) {
    EXPECT_EQ(found_on_toe(rotation, foot_follows("'kind': 'position', 'from': 'ctl'")), "");
    EXPECT_EQ(found_on_toe("'kind': 'aim', 'from': 'ctl'"), "");
    EXPECT_EQ(found_on_toe(rotation, "'parent': 'ctl'", ", 'from_parent': ['position', 'scale']"), "");
    EXPECT_EQ(found_on_toe(rotation, "'parent': 'ctl', 'from_parent': ['position']"), "");
}

TEST(CheckDoubleTransform, NearMissAReplacingConstraint) {
    EXPECT_EQ(found("double-transform",
                    "{'name': 'ctl', 'roles': ['control']}, {'name': 'toe', 'parent': 'ctl', 'constraints': [{'kind': "
                    "'rotation', 'from': 'ctl'}]}"),
              "");
}

// Common practice, no source: each bone of a finger adds the turn of one curl control in its own space.
TEST(CheckDoubleTransform, NearMissACurlInLocalSpace) {
    EXPECT_EQ(found_on_toe(rotation + ", 'space': 'local'",
                           foot_follows("'kind': 'rotation', 'from': 'ctl', 'space': 'local', 'additive': true")),
              "");
    EXPECT_EQ(found_on_toe(rotation + ", 'space': 'local'"), "");
}

TEST(CheckDoubleTransform, NearMissABoneAside) { EXPECT_EQ(found_on_toe("'kind': 'rotation', 'from': 'aside'"), ""); }

TEST(CheckDoubleTransform, NearMissWhatTheAncestorThrowsAway) {
    EXPECT_EQ(found_on_toe(rotation, "'parent': 'ctl', " + foot_follows("'kind': 'rotation', 'from': 'aside'")), "");
    EXPECT_EQ(found_on_toe(rotation, "'parent': 'ctl', " + foot_follows("'kind': 'rotation', 'from': 'aside', 'weight': 0.5")),
              says("rotation"));
}

TEST(CheckDoubleTransform, NearMissInertOnes) {
    EXPECT_EQ(found_on_toe(rotation + ", 'enabled': false"), "");
    EXPECT_EQ(found_on_toe("'kind': 'rotation', 'from': {'bone': 'ctl', 'weight': 0}"), "");
    EXPECT_EQ(found_on_toe(rotation, foot_follows("'kind': 'rotation', 'from': 'ctl', 'enabled': false")), "");
}

TEST(CheckDoubleTransform, NearMissTakingTurnsByASwitch) {
    const auto with = [](const std::string& foot) {
        return found_on_toe(rotation + by_mode("m"), foot_follows("'kind': 'rotation', 'from': 'ctl'" + by_mode(foot)));
    };
    EXPECT_EQ(with("1 - m"), "");
    EXPECT_EQ(with("m"), says("rotation"));
}

TEST(CheckDoubleTransform, NearMissWhatACustomConstraintReads) {
    const std::string lag = "'kind': 'custom', 'from': 'ctl', 'reads': ['rotation'], 'writes': ['rotation'], 'label': 'lag'";
    EXPECT_EQ(found_on_toe(lag), "");
    EXPECT_EQ(found_on_toe(rotation, foot_follows(lag)), "");
}

// What is near is looked for one by one, what is far 64 bones at a time.
TEST(CheckDoubleTransform, FindsAllOfManySourcesNearAndFar) {
    for (const int away : {1, 60}) {
        std::string bones;
        for (int i = 0; i < 200; ++i) {
            bones += (i > 0 ? ", {'name': 'b" : "{'name': 'b") + std::to_string(i) + "'";
            if (i > 0) bones += ", 'parent': 'b" + std::to_string(i - 1) + "'";
            if (i >= away)
                bones += ", 'constraints': [{'kind': 'position', 'additive': true, 'from': 'b" + std::to_string(i - away) + "'}]";
            bones += "}";
        }
        const std::string text = found("double-transform", bones);
        EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 200 - away);
        EXPECT_NE(text.find("of \"b139\", which \"b" + std::to_string(139 + away) + "\" takes over"), std::string::npos);
    }
}

TEST(CheckDoubleTransform, NearMissManyBonesAwayWhereTheWayIsCut) {
    std::string bones = "{'name': 'ctl', 'roles': ['control']}, {'name': 'b0', 'parent': 'ctl', 'from_parent': ['rotation']}";
    for (int i = 1; i < 100; ++i) bones += ", {'name': 'b" + std::to_string(i) + "', 'parent': 'b" + std::to_string(i - 1) + "'}";
    const auto add = [&](const std::string& kind) {
        return found("double-transform", bones + ", {'name': 'toe', 'parent': 'b99', 'constraints': [{'kind': '" + kind +
                                             "', 'additive': true, 'from': 'ctl'}]}");
    };
    EXPECT_EQ(add("position"), "");
    EXPECT_NE(add("rotation"), "");
}

}  // namespace ligament::testing
