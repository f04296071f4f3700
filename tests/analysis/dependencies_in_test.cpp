// What is switched off in a state?
#include <gtest/gtest.h>

#include "ligament/facts.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

Rig blended() {
    return tiny_rig(
        "{'name': 'ik', 'roles': ['control']}, {'name': 'fk', 'roles': ['control']}, {'name': 'mech', 'constraints': ["
        "{'name': 'ik', 'kind': 'transform', 'from': 'ik'}, {'name': 'fk', 'kind': 'transform', 'from': 'fk', 'weight': "
        "{'expression': 's', "
        "'inputs': {'s': {'property': 'mode'}}}}]}",
        "'properties': [{'name': 'mode'}]");
}

bool leads(const Rig& rig, const Dependencies& dependencies, Grain grain, const char* from) {
    return !find_path(rig, dependencies, grain, {.bone = find_bone(rig, from)}, {.bone = find_bone(rig, "mech")}).empty();
}

Dependencies at(const Rig& rig, double mode, bool overrides) {
    return dependencies_in(rig, build_dependencies(rig), State{{mode}}, overrides);
}

TEST(DependenciesIn, AWeightOfZeroCutsAtEveryGrain) {
    const Rig rig = blended();
    for (Grain grain : {Grain::bone, Grain::step, Grain::channel}) {
        EXPECT_FALSE(leads(rig, at(rig, 0, false), grain, "fk"));
        EXPECT_TRUE(leads(rig, at(rig, 0, false), grain, "ik"));
        EXPECT_TRUE(leads(rig, at(rig, 0.5, false), grain, "fk"));
    }
}

TEST(DependenciesIn, WhatIsReplacedIsKeptForTheOrderAndCutForTraces) {
    const Rig rig = blended();
    for (Grain grain : {Grain::bone, Grain::step, Grain::channel}) {
        EXPECT_TRUE(leads(rig, at(rig, 1, false), grain, "ik"));
        EXPECT_FALSE(leads(rig, at(rig, 1, true), grain, "ik"));
        EXPECT_TRUE(leads(rig, at(rig, 1, true), grain, "fk"));
        EXPECT_TRUE(leads(rig, at(rig, 0.5, true), grain, "ik"));
    }
}

TEST(DependenciesIn, CyclesOpenWhereTheirWeightIsZero) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b', 'weight': {'expression': 's', 'inputs': {'s': "
        "{'property': "
        "'mode'}}}}]}, {'name': 'b', 'parent': 'a'}",
        "'properties': [{'name': 'mode'}]");
    EXPECT_EQ(find_cycles(rig, build_dependencies(rig)).size(), 1u);
    EXPECT_EQ(find_cycles(rig, at(rig, 0, false)).size(), 0u);
    EXPECT_EQ(find_cycles(rig, at(rig, 1, false)).size(), 1u);
}

TEST(DependenciesIn, ASwitchStillReachesWhatItGates) {
    const Rig rig = blended();
    EXPECT_EQ(find_fan_out(rig, at(rig, 0, true)).front().bones_moved, 1u);
}

TEST(FactsInAState, AreOfThatState) {
    const Rig rig = tiny_rig(
        "{'name': 'root', 'roles': ['control']}, {'name': 'ctl', 'roles': ['control'], 'parent': 'root'}, {'name': 'd', 'roles': "
        "['deform'], 'parent': 'root', 'constraints': [{'kind': 'transform', 'from': 'ctl', 'weight': {'expression': 's', "
        "'inputs': {'s': "
        "{'property': 'p'}}}}]}",
        "'roots': ['root'], 'properties': [{'name': 'p'}]");
    const Dependencies dependencies = build_dependencies(rig);
    FactOptions options;
    options.state = State{{1.0}};
    options.state_name = "p=1";
    const Facts facts = find_facts(rig, dependencies, options);
    EXPECT_EQ(facts.state_name, "p=1");
    EXPECT_FALSE(facts.is_default_state);
    EXPECT_EQ(facts.attachment.deform.front().controls.size(), 2u);
    EXPECT_EQ(find_facts(rig, dependencies).attachment.deform.front().controls.size(), 1u);
    EXPECT_TRUE(facts.switches.live_in.empty());
}

}  // namespace
}  // namespace ligament
