// Is each deform bone attached, carried, root-only or orphaned as the rules say, and who reaches it?
#include <gtest/gtest.h>

#include <string>

#include "ligament/facts.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

std::string dump(const Rig& rig, const State& state) {
    std::string text;
    for (const Attachment& attachment : find_attachment(rig, build_dependencies(rig), state).deform) {
        if (!text.empty()) text += "; ";
        text += rig.bones[attachment.bone].name + " " + std::string(name_of(attachment.verdict));
        for (BoneId b : attachment.controls) text += " " + rig.bones[b].name;
    }
    return text;
}
std::string dump(const Rig& rig) { return dump(rig, default_state(rig)); }

/// The verdict on deform bone "d", which has the keys given; beside it controls "c" and "k", a mechanism bone "m" that nothing
/// moves, a deform bone "e" that follows "c" and, so that no control is a root, a deform bone "f" that follows "k".
std::string verdict(const std::string& keys, const std::string& rest = {}) {
    const Rig rig = tiny_rig(R"({'name': 'c', 'roles': ['control']}, {'name': 'k', 'roles': ['control']}, {'name': 'm'},
                                {'name': 'e', 'roles': ['deform'], 'parent': 'c'}, {'name': 'f', 'roles': ['deform'], 'parent': 'k'},
                                {'name': 'd', 'roles': ['deform'])" +
                                 (keys.empty() ? "" : ", " + keys) + "}",
                             rest);
    const std::string text = dump(rig);
    return text.substr(text.find("; d ") + 4);
}

std::string constraints(const std::string& list) { return "'constraints': [" + list + "]"; }

// ---- The four verdicts

TEST(Attachment, NoControlReachesAnOrphan) {
    EXPECT_EQ(verdict(""), "orphaned");
    EXPECT_EQ(verdict("'parent': 'm'"), "orphaned");
}

TEST(Attachment, ThroughAConstraint) { EXPECT_EQ(verdict(constraints("{'kind': 'transform', 'from': 'c'}")), "attached c"); }

TEST(Attachment, ThroughAParentThatIsNoDeformBone) { EXPECT_EQ(verdict("'parent': 'c'"), "attached c"); }

TEST(Attachment, OnADeformParentABoneIsCarried) { EXPECT_EQ(verdict("'parent': 'e'"), "carried c"); }

TEST(Attachment, OnADeformParentThatIsAControlTooItIsAttached) {
    EXPECT_EQ(dump(tiny_rig(R"({'name': 'a', 'roles': ['control', 'deform']}, {'name': 'b', 'roles': ['deform'], 'parent': 'a'},
                               {'name': 'x', 'roles': ['control']}, {'name': 'y', 'roles': ['deform'], 'parent': 'x'})")),
              "a attached a; b attached a; y attached x");
}

TEST(Attachment, AControlIsAttachedToItself) {
    EXPECT_EQ(dump(tiny_rig(R"({'name': 'r', 'roles': ['control']}, {'name': 'e', 'roles': ['deform'], 'parent': 'r'},
                               {'name': 'a', 'roles': ['control', 'deform'], 'parent': 'e'})")),
              "e root-only r; a attached r a");
}

TEST(Attachment, ThroughASolverOfAChainThatItIsIn) {
    EXPECT_EQ(dump(tiny_rig(R"({'name': 'c', 'roles': ['control']}, {'name': 'k', 'roles': ['control']},
                               {'name': 'f', 'roles': ['deform'], 'parent': 'k'},
                               {'name': 'upper', 'roles': ['deform'], 'parent': 'f'},
                               {'name': 'lower', 'roles': ['deform'], 'parent': 'upper',
                                'constraints': [{'kind': 'ik', 'chain': 2, 'target': 'c'}]})")),
              "f root-only k; upper attached c k; lower attached c k");
}

TEST(Attachment, ThroughADrivenChannel) {
    const std::string keys = "'parent': 'e', 'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}";
    EXPECT_EQ(verdict(keys, "'properties': [{'name': 'p', 'on': 'k'}]"), "attached c k");
    EXPECT_EQ(verdict(keys, "'properties': [{'name': 'p', 'on': 'm'}]"), "carried c") << "not on a control";
    EXPECT_EQ(verdict(keys, "'properties': [{'name': 'p'}]"), "carried c") << "not on anything";
}

TEST(Attachment, ADrivenPropertyOnAControlIsNoStart) {
    const std::string keys = "'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}";
    EXPECT_EQ(verdict(keys, "'properties': [{'name': 'p', 'on': 'k', 'value': {'expression': '1', 'inputs': {}}}]"), "orphaned");
    EXPECT_EQ(verdict(keys, R"('properties': [{'name': 'p', 'on': 'k', 'value': {'expression': 'x', 'inputs':
                                  {'x': {'bone': 'c', 'channel': 'rotation.x'}}}}])"),
              "attached c");
}

TEST(Attachment, ThroughACurveHandle) {
    EXPECT_EQ(verdict("'parent': 'e', 'curve': {'segments': 4, 'start': 'k'}"), "attached c k");
    EXPECT_EQ(verdict("'parent': 'e', 'curve': {'segments': 4, 'start': 'm'}"), "carried c");
    EXPECT_EQ(verdict("'curve': {'segments': 4, 'end': 'k'}"), "attached k") << "what reaches the curve reaches the bone";
}

TEST(Attachment, ThroughAnObject) {
    EXPECT_EQ(
        verdict(constraints("{'kind': 'surface', 'from': {'object': 'o'}}"), "'objects': [{'name': 'o', 'follows': ['c', 'm']}]"),
        "attached c");
}

TEST(Attachment, ThroughAConstraintThatReadsTheDeformParent) {
    EXPECT_EQ(verdict("'parent': 'e', " + constraints("{'kind': 'rotation', 'from': 'e'}")), "attached c");
}

// The late local-space step takes the parent's final into account: that is the parent's way in, not the constraint's.
TEST(Attachment, ALateLocalSpaceStepIsNoWayInForTheParent) {
    EXPECT_EQ(
        verdict("'parent': 'e', 'from_parent': ['scale'], " +
                constraints("{'kind': 'limit', 'channels': ['rotation']}, {'kind': 'scale', 'space': 'local', 'from': 'm'}")),
        "carried c");
    EXPECT_EQ(
        verdict("'parent': 'e', 'from_parent': ['scale'], " +
                constraints("{'kind': 'limit', 'channels': ['rotation']}, {'kind': 'scale', 'space': 'local', 'from': 'k'}")),
        "attached c k");
}

// ---- Weights

TEST(Attachment, AConstraintWhoseWeightIsZeroInTheStateIsDead) {
    const Rig rig = tiny_rig(R"({'name': 'c', 'roles': ['control']}, {'name': 'k', 'roles': ['control']},
                                {'name': 'f', 'roles': ['deform'], 'parent': 'k'},
                                {'name': 'd', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'c', 'weight':
                                     {'expression': 's', 'inputs': {'s': {'property': 's'}}}}]})",
                             "'properties': [{'name': 's', 'on': 'k'}]");
    EXPECT_EQ(dump(rig), "f attached k; d orphaned");
    EXPECT_EQ(dump(rig, State{{0.5}}), "f attached k; d attached c") << "the switch on k does not move it";
}

TEST(Attachment, ASourceWhoseWeightIsZeroIsDead) {
    EXPECT_EQ(verdict(constraints(R"({'kind': 'position', 'from': [{'bone': 'c', 'weight': 0}, {'bone': 'k', 'weight': 0.5}]})")),
              "attached k");
    EXPECT_EQ(verdict(constraints(R"({'kind': 'position', 'from': [{'bone': 'c', 'weight':
                      {'expression': '1 - s', 'inputs': {'s': {'property': 's'}}}}, 'k']})"),
                      "'properties': [{'name': 's', 'default': 1}]"),
              "attached k");
}

TEST(Attachment, DisabledConstraintsAreDead) {
    EXPECT_EQ(verdict(constraints("{'kind': 'position', 'from': 'c', 'enabled': false}")), "orphaned");
}

TEST(Attachment, AWeightDrivenByBonesIsLiveAndNeverOne) {
    const std::string weight = "'weight': {'expression': '0 * x', 'inputs': {'x': {'bone': 'm', 'channel': 'scale.x'}}}";
    EXPECT_EQ(verdict("'parent': 'c', " + constraints("{'kind': 'transform', 'from': 'k', " + weight + "}")), "attached c k");
}

TEST(Attachment, NeverEntersThroughAWeight) {
    EXPECT_EQ(verdict(constraints(R"({'kind': 'transform', 'from': 'm', 'weight':
                      {'expression': 'x', 'inputs': {'x': {'bone': 'c', 'channel': 'rotation.x'}}}})")),
              "orphaned");
    EXPECT_EQ(verdict(constraints(R"({'kind': 'transform', 'from': {'bone': 'm', 'weight':
                      {'expression': 'x', 'inputs': {'x': {'bone': 'c', 'channel': 'rotation.x'}}}}})")),
              "orphaned");
}

// ---- Overriding

/// Whether d's parent c still reaches it under one constraint that reads k.
bool parent_is_thrown_away(const std::string& constraint, const std::string& rest = {}) {
    return verdict("'parent': 'c', " + constraints(constraint), rest) == "attached k";
}

TEST(Attachment, AFullTransformThrowsTheParentAway) {
    EXPECT_TRUE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k'}"));
    EXPECT_TRUE(parent_is_thrown_away("{'kind': 'space', 'from': 'k'}"));
}

TEST(Attachment, WhatIsNotWrittenStays) {
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'channels': ['position', 'rotation']}"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'position', 'from': 'k'}"));
    EXPECT_TRUE(parent_is_thrown_away(
        "{'kind': 'position', 'from': 'k'}, {'kind': 'rotation', 'from': 'k'}, {'kind': 'scale', 'from': 'k'}"));
    EXPECT_TRUE(
        parent_is_thrown_away("{'kind': 'surface', 'align': true, 'from': {'object': 'o'}}, {'kind': 'scale', 'from': 'k'}",
                              "'objects': [{'name': 'o', 'follows': ['k']}]"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'surface', 'from': {'object': 'o'}}, {'kind': 'scale', 'from': 'k'}",
                                       "'objects': [{'name': 'o', 'follows': ['k']}]"));
}

TEST(Attachment, APartIsThrownAwayOnlyWithAllItsAxes) {
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'axes': 'xy'}"));
    EXPECT_FALSE(
        parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'channels': ['position', 'rotation', 'scale.x', 'scale.y']}"));
    EXPECT_TRUE(parent_is_thrown_away(
        "{'kind': 'transform', 'from': 'k', 'channels': ['position', 'rotation', 'scale.x', 'scale.y', 'scale.z']}"));
}

TEST(Attachment, AdditiveAndPartWeightsThrowNothingAway) {
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'additive': true}"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'weight': 0.9}"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'weight': 0.99999}"));
    EXPECT_TRUE(parent_is_thrown_away("{'kind': 'transform', 'from': 'k', 'weight': 0.9999999999}"));
}

TEST(Attachment, SourceWeightsHaveToSumToOne) {
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': ['k', 'm']}")) << "two";
    EXPECT_TRUE(
        parent_is_thrown_away("{'kind': 'transform', 'from': [{'bone': 'k', 'weight': 0.25}, {'bone': 'm', 'weight': 0.75}]}"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'transform', 'from': [{'bone': 'k', 'weight': 0.25}]}"));
    EXPECT_FALSE(parent_is_thrown_away(R"({'kind': 'transform', 'from': ['k', {'bone': 'm', 'weight':
        {'expression': '0 * x', 'inputs': {'x': {'bone': 'm', 'channel': 'scale.x'}}}}]})"));
}

TEST(Attachment, AimRollStretchDistanceLimitAndCustomThrowNothingAway) {
    EXPECT_FALSE(
        parent_is_thrown_away("{'kind': 'position', 'from': 'k'}, {'kind': 'scale', 'from': 'k'}, {'kind': 'aim', 'from': 'k'}"));
    EXPECT_FALSE(parent_is_thrown_away(
        "{'kind': 'position', 'from': 'k'}, {'kind': 'scale', 'from': 'k'}, {'kind': 'roll', 'from': 'k'}"));
    EXPECT_FALSE(parent_is_thrown_away("{'kind': 'position', 'from': 'k'}, {'kind': 'stretch', 'from': 'k'}"));
    EXPECT_FALSE(parent_is_thrown_away(
        "{'kind': 'rotation', 'from': 'k'}, {'kind': 'scale', 'from': 'k'}, {'kind': 'distance', 'from': 'k'}"));
    EXPECT_FALSE(parent_is_thrown_away(R"({'kind': 'custom', 'from': 'k', 'reads': ['position', 'rotation', 'scale'],
                                           'writes': ['position', 'rotation', 'scale']})"));
    EXPECT_EQ(verdict("'parent': 'c', " + constraints("{'kind': 'limit', 'channels': ['position', 'rotation', 'scale']}")),
              "attached c");
}

// `space` keeps the owner's offset, its local, while it throws the value of the step before away.
TEST(Attachment, ASpaceStepStillReadsTheLocalOfItsOwner) {
    EXPECT_EQ(verdict("'parent': 'e', 'channels': {'rotation.x': {'expression': 'p', 'inputs': {'p': {'property': 'p'}}}}, " +
                          constraints("{'kind': 'space', 'from': 'm'}"),
                      "'properties': [{'name': 'p', 'on': 'k'}]"),
              "attached k");
}

TEST(Attachment, DisabledConstraintsThrowNothingAway) {
    EXPECT_EQ(verdict("'parent': 'c', " + constraints("{'kind': 'transform', 'from': 'k', 'enabled': false}")), "attached c");
}

TEST(Attachment, WhatALaterStepThrowsAwayAttachesNothing) {
    EXPECT_EQ(verdict("'parent': 'e', " + constraints("{'kind': 'rotation', 'from': 'k'}, {'kind': 'rotation', 'from': 'm'}")),
              "carried c");
    EXPECT_EQ(verdict(constraints("{'kind': 'transform', 'from': 'k'}, {'kind': 'transform', 'from': 'm'}")), "orphaned");
}

TEST(Attachment, ASwitchChoosesWhatIsThrownAway) {
    const Rig rig = tiny_rig(R"({'name': 'ik', 'roles': ['control']}, {'name': 'fk', 'roles': ['control']},
                                {'name': 'd', 'roles': ['deform'], 'constraints': [
                                   {'kind': 'transform', 'from': 'ik'},
                                   {'kind': 'transform', 'from': 'fk', 'weight':
                                      {'expression': 's', 'inputs': {'s': {'property': 's'}}}}]},
                                {'name': 'e', 'roles': ['deform'], 'parent': 'fk'}, {'name': 'f', 'roles': ['deform'], 'parent': 'ik'})",
                             "'properties': [{'name': 's'}]");
    EXPECT_EQ(dump(rig), "d attached ik; e attached fk; f attached ik");
    EXPECT_EQ(dump(rig, State{{1}}), "d attached fk; e attached fk; f attached ik");
    EXPECT_EQ(dump(rig, State{{0.5}}), "d attached ik fk; e attached fk; f attached ik");
}

TEST(Attachment, FromParentLetsOnlySomeThrough) {
    EXPECT_EQ(verdict("'parent': 'c', 'from_parent': ['rotation']"), "attached c");
    EXPECT_EQ(verdict("'parent': 'c', 'from_parent': []"), "orphaned");
    EXPECT_EQ(verdict("'parent': 'c', 'from_parent': ['rotation'], " + constraints("{'kind': 'rotation', 'from': 'm'}")),
              "orphaned");
}

// ---- Root controls

TEST(Attachment, RootsAreFoundAsTheControlsThatReachAll) {
    const Rig rig = tiny_rig(R"({'name': 'root', 'roles': ['control']}, {'name': 'main', 'roles': ['control'], 'parent': 'root'},
                                {'name': 'c', 'roles': ['control'], 'parent': 'main'},
                                {'name': 'd', 'roles': ['deform'], 'parent': 'c'}, {'name': 'e', 'roles': ['deform'], 'parent': 'main'},
                                {'name': 'lost', 'roles': ['deform']})");
    EXPECT_EQ(dump(rig), "d attached root main c; e root-only root main; lost orphaned");
    EXPECT_EQ(find_attachment(rig, build_dependencies(rig), default_state(rig)).root_controls, (std::vector<BoneId>{0, 1}));
}

TEST(Attachment, NothingIsRootOnlyWhereNoOtherControlMovesAnything) {
    EXPECT_EQ(dump(tiny_rig("{'name': 'root', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], 'parent': 'root'}")),
              "d attached root");
}

TEST(Attachment, ListedRootsAreTakenAsTheyAre) {
    const std::string bones = R"({'name': 'root', 'roles': ['control']}, {'name': 'c', 'roles': ['control'], 'parent': 'root'},
                                 {'name': 'd', 'roles': ['deform'], 'parent': 'c'}, {'name': 'e', 'roles': ['deform'], 'parent': 'root'})";
    EXPECT_EQ(dump(tiny_rig(bones)), "d attached root c; e root-only root");
    EXPECT_EQ(dump(tiny_rig(bones, "'roots': []")), "d attached root c; e attached root");
    EXPECT_EQ(dump(tiny_rig(bones, "'roots': ['c']")), "d attached root c; e attached root");
    EXPECT_EQ(dump(tiny_rig(bones, "'roots': ['root', 'c']")), "d attached root c; e attached root")
        << "no other control moves anything";
}

TEST(Attachment, RootsAreFoundAnewInEachState) {
    const Rig rig = tiny_rig(R"({'name': 'a', 'roles': ['control']}, {'name': 'b', 'roles': ['control']},
                                {'name': 'd', 'roles': ['deform'], 'parent': 'a'},
                                {'name': 'e', 'roles': ['deform'], 'parent': 'b', 'constraints': [{'kind': 'position', 'from': 'a',
                                   'weight': {'expression': 's', 'inputs': {'s': {'property': 's'}}}}]})",
                             "'properties': [{'name': 's', 'default': 0.5}]");
    const Dependencies dependencies = build_dependencies(rig);
    EXPECT_EQ(find_attachment(rig, dependencies, State{{0.5}}).root_controls, (std::vector<BoneId>{0}));
    EXPECT_EQ(find_attachment(rig, dependencies, State{{0}}).root_controls, (std::vector<BoneId>{}));
}

TEST(Attachment, OfARigWithoutControlsAllAreOrphaned) {
    const Rig rig = tiny_rig("{'name': 'a', 'roles': ['deform']}, {'name': 'b', 'roles': ['deform'], 'parent': 'a'}");
    EXPECT_EQ(dump(rig), "a orphaned; b orphaned");
    EXPECT_TRUE(find_attachment(rig, build_dependencies(rig), default_state(rig)).root_controls.empty());
}

TEST(Attachment, ListsNoControlsAboveTheLimit) {
    Rig rig;
    rig.bones.resize(controls_limit + 1);
    for (BoneId b = 0; b < rig.bones.size(); ++b) rig.bones[b].parent = b == 0 ? none : b - 1;
    rig.bones[0].control = rig.bones[1].deform = rig.bones.back().deform = true;
    AttachmentFacts facts = find_attachment(rig, build_dependencies(rig), default_state(rig));
    EXPECT_FALSE(facts.controls_listed);
    ASSERT_EQ(facts.deform.size(), 2u);
    EXPECT_TRUE(facts.deform[0].controls.empty());
    EXPECT_EQ(facts.deform[1].verdict, Verdict::attached);
    rig.bones.pop_back();
    rig.bones.back().deform = true;
    facts = find_attachment(rig, build_dependencies(rig), default_state(rig));
    EXPECT_TRUE(facts.controls_listed);
    EXPECT_EQ(facts.deform[1].controls, (std::vector<BoneId>{0}));
}

}  // namespace
}  // namespace ligament
