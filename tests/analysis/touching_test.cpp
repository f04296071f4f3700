// Which switches meet in a deform bone, and in which order are their combinations looked at?
#include "touching.hpp"

#include <gtest/gtest.h>

#include "motion.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

std::string by(const std::string& property) {
    return "'weight': {'expression': 's', 'inputs': {'s': {'property': '" + property + "'}}}";
}
std::string gated(const std::string& from, const std::string& property) {
    return "{'kind': 'transform', 'from': '" + from + "', " + by(property) + "}";
}
std::string properties(int count) {
    std::string text = "'properties': [";
    for (int p = 0; p < count; ++p) text += (p > 0 ? ", {'name': 'p" : "{'name': 'p") + std::to_string(p) + "'}";
    return text + "]";
}

/// "p0 p1 4/4; ..." : the sets, the combinations that there are and that were looked at.
std::string set_words(const Rig& rig) {
    const SwitchFacts facts = find_switch_facts(rig, build_dependencies(rig), {});
    std::string words;
    for (const InteractingSet& set : facts.sets) {
        words += words.empty() ? "" : "; ";
        for (std::uint32_t s : set.switches) words += rig.properties[facts.switches[s].property].name + " ";
        words += std::to_string(set.looked_at) + "/" + std::to_string(set.combinations);
    }
    return words;
}

const std::string controls = "{'name': 'a', 'roles': ['control']}, {'name': 'b', 'roles': ['control']}, ";

TEST(Touching, SwitchesOfSeparateLimbsAreIndependent) {
    EXPECT_EQ(set_words(tiny_rig(controls + "{'name': 'd', 'roles': ['deform'], 'constraints': [" + gated("a", "p0") +
                                     "]}, {'name': 'e', 'roles': ['deform'], 'constraints': [" + gated("a", "p1") + "]}",
                                 properties(2))),
              "");
}

TEST(Touching, SwitchesOfOneStackMeet) {
    EXPECT_EQ(set_words(tiny_rig(controls + "{'name': 'd', 'roles': ['deform'], 'constraints': [" + gated("a", "p0") + ", " +
                                     gated("b", "p1") + "]}",
                                 properties(2))),
              "p0 p1 1/1");
}

TEST(Touching, SwitchesAboveABoneTouchIt) {
    EXPECT_EQ(
        set_words(tiny_rig(controls + "{'name': 'm', 'constraints': [" + gated("a", "p0") +
                               "]}, {'name': 'd', 'roles': ['deform'], 'parent': 'm', 'constraints': [" + gated("b", "p1") + "]}",
                           properties(2))),
        "p0 p1 1/1");
}

TEST(Touching, MotionDoesNotGoOnThroughAWeight) {
    EXPECT_EQ(set_words(tiny_rig(
                  controls + "{'name': 'm', 'constraints': [" + gated("a", "p0") +
                      "]}, {'name': 'd', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'a', 'weight': "
                      "{'expression': 'x', 'inputs': {'x': {'bone': 'm', 'channel': 'position.x', 'space': 'final'}}}}, " +
                      gated("b", "p1") + "]}",
                  properties(2))),
              "");
}

TEST(Touching, ASetInsideAnotherIsNotLookedAtTwice) {
    EXPECT_EQ(set_words(tiny_rig(controls + "{'name': 'd', 'roles': ['deform'], 'constraints': [" + gated("a", "p0") + ", " +
                                     gated("b", "p1") + "]}, {'name': 'e', 'roles': ['deform'], 'parent': 'd', 'constraints': [" +
                                     gated("b", "p2") + "]}",
                                 properties(3))),
              "p0 p1 p2 4/4");
}

TEST(Touching, AHubMakesPairsNotOneSetOfAll) {
    EXPECT_EQ(set_words(tiny_rig(
                  controls + "{'name': 'hub', 'constraints': [" + gated("a", "p0") +
                      "]}, {'name': 'd', 'roles': ['deform'], 'parent': 'hub', 'constraints': [" + gated("b", "p1") +
                      "]}, {'name': 'e', 'roles': ['deform'], 'parent': 'hub', 'constraints': [" + gated("b", "p2") + "]}",
                  properties(3))),
              "p0 p1 1/1; p0 p2 1/1");
}

TEST(Touching, PastTheLimitItSaysHowManyWereLookedAt) {
    std::string stack;
    for (int p = 0; p < 12; ++p) stack += (p > 0 ? ", " : "") + gated("a", "p" + std::to_string(p));
    // 2 to the power of 12, less the default state and the twelve single ones.
    EXPECT_EQ(
        set_words(tiny_rig(controls + "{'name': 'd', 'roles': ['deform'], 'constraints': [" + stack + "]}", properties(12))),
        "p0 p1 p2 p3 p4 p5 p6 p7 p8 p9 p10 p11 256/4083");
}

TEST(Touching, ManySetsShareTheLimitOfTheRig) {
    // 250 limbs with eight switches each: 247 combinations a limb, of which a share is looked at.
    std::string bones = controls + "{'name': 'top', 'parent': 'a'}", names;
    for (int limb = 0; limb < 250; ++limb) {
        std::string stack;
        for (int p = 0; p < 8; ++p) {
            const std::string name = "p" + std::to_string(limb) + "_" + std::to_string(p);
            stack += (p > 0 ? ", " : "") + gated("a", name);
            names += (names.empty() ? "{'name': '" : ", {'name': '") + name + "'}";
        }
        bones += ", {'name': 'd" + std::to_string(limb) + "', 'roles': ['deform'], 'constraints': [" + stack + "]}";
    }
    const Rig rig = tiny_rig(bones, "'properties': [" + names + "]");
    const SwitchFacts facts = find_switch_facts(rig, build_dependencies(rig), {});
    ASSERT_EQ(facts.sets.size(), 250u);
    for (const InteractingSet& set : facts.sets) {
        EXPECT_EQ(set.combinations, 247u);
        EXPECT_EQ(set.looked_at, combination_limit_of_rig / 250);
    }
}

TEST(Touching, ManySwitchesAreCountedUpToABound) {
    std::string stack;
    for (int p = 0; p < 70; ++p) stack += (p > 0 ? ", " : "") + gated("a", "p" + std::to_string(p));
    const Rig rig = tiny_rig(controls + "{'name': 'd', 'roles': ['deform'], 'constraints': [" + stack + "]}", properties(70));
    const SwitchFacts facts = find_switch_facts(rig, build_dependencies(rig), {});
    ASSERT_EQ(facts.sets.size(), 1u);
    EXPECT_FALSE(facts.sets[0].is_counted());
    EXPECT_EQ(facts.looked_at, 1u + 2 * 70 + combination_limit);
}

TEST(Touching, SideBySideIsTheSameAsOneByOne) {
    // Every switch moves every bone, so that the searches soon have looked at the rig a few times.
    std::string bones = controls + "{'name': 'hub', 'constraints': [";
    for (int p = 0; p < 90; ++p) bones += (p > 0 ? ", " : "") + gated("a", "p" + std::to_string(p));
    bones += "]}";
    for (int b = 0; b < 20; ++b) bones += ", {'name': 'd" + std::to_string(b) + "', 'roles': ['deform'], 'parent': 'hub'}";
    const Rig rig = tiny_rig(bones, properties(90));
    const Dependencies dependencies = build_dependencies(rig);
    const LiveMotion live = find_live_motion(dependencies);
    const auto touching = find_touching(rig, dependencies, live.needed_by, live.order, find_switches(rig, dependencies));
    ASSERT_EQ(touching.size(), 20u);
    for (const std::vector<std::uint32_t>& set : touching) {
        ASSERT_EQ(set.size(), 90u);
        for (std::uint32_t s = 0; s < 90; ++s) EXPECT_EQ(set[s], s);
    }
}

TEST(Combinations, FewestSwitchesFirstThenInFileOrder) {
    const Rig rig = tiny_rig("{'name': 'a'}, {'name': 'd', 'constraints': [" + gated("a", "p0") + ", " + gated("a", "p1") + ", " +
                                 gated("a", "p2") + "]}",
                             "'properties': [{'name': 'p0'}, {'name': 'p1', 'stops': {'x': 0, 'y': 0.5, 'z': 1}}, {'name': 'p2', "
                             "'default': 1}]");
    const std::vector<Switch> switches = find_switches(rig, build_dependencies(rig));
    Combinations combinations(rig, switches, {{0, 1, 2}, 0, 0});
    std::string all;
    for (Settings settings = combinations.next(); !settings.empty(); settings = combinations.next())
        all += name_of(rig, switches, settings) + "\n";
    EXPECT_EQ(all, "p0=1 + p1=y\np0=1 + p1=z\np0=1 + p2=0\np1=y + p2=0\np1=z + p2=0\np0=1 + p1=y + p2=0\np0=1 + p1=z + p2=0\n");
}

}  // namespace
}  // namespace ligament
