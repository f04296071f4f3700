// Do two threads find what one finds, and a walk over states what a search from scratch finds?
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "ligament/facts.hpp"
#include "random_rig.hpp"
#include "switch_facts.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::random_rig;
using testing::tiny_rig;

/// All that there is to tell, in order.
std::string words_for(const Rig& rig, const SwitchFacts& facts) {
    std::string words = "looked at " + std::to_string(facts.looked_at) + "\n";
    for (const auto* lists : {&facts.worse, &facts.worse_yet})
        for (std::size_t place = 0; place < lists->size(); ++place)
            for (const Worse& worse : (*lists)[place]) {
                words += std::to_string(place) + " " + name_of(rig, facts.switches, worse.settings) + " " +
                         std::string(name_of(worse.verdict)) + (worse.by_others ? " by others" : "") +
                         (worse.blamed_is_off ? " off" : "") + " " + std::to_string(worse.blamed);
                for (BoneId bone : worse.right) words += " " + rig.bones[bone].name;
                words += "\n";
            }
    for (const std::vector<Settings>& live_in : facts.live_in) {
        for (const Settings& settings : live_in) words += name_of(rig, facts.switches, settings) + "; ";
        words += "\n";
    }
    for (const InteractingSet& set : facts.sets) {
        for (std::uint32_t index : set.switches) words += rig.properties[facts.switches[index].property].name + " ";
        words += std::to_string(set.looked_at) + " of " + std::to_string(set.combinations) + "\n";
    }
    for (std::size_t i = 0; i < facts.dead.size(); ++i)
        words += std::to_string(facts.dead[i]) + (facts.dead_is_replaced[i] ? " replaced\n" : " dead\n");
    for (const SwitchGap& gap : facts.gaps)
        words += rig.properties[gap.property].name + " leaves out " + rig.bones[gap.bone].name + " " +
                 std::to_string(gap.constraint) + "\n";
    return words;
}

SwitchFacts switches_found(const Rig& rig, unsigned workers, std::size_t trials = SwitchSearch::most_trials) {
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    const LiveMotion live = find_live_motion(dependencies);
    SwitchSearch search(rig, dependencies, cycles, live, trials);
    search.lay_ground();
    search.set_out();
    return search.find(workers);
}

std::size_t count_worse(const std::vector<std::vector<Worse>>& lists, bool with_blame) {
    std::size_t count = 0;
    for (const std::vector<Worse>& list : lists)
        count += static_cast<std::size_t>(
            std::count_if(list.begin(), list.end(), [&](const Worse& worse) { return !with_blame || worse.blamed != none; }));
    return count;
}

TEST(Halves, OfTheStatesAreTheSameInOneThreadAndInTwo) {
    std::size_t worse = 0, worse_yet = 0, live = 0, with_sets = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const SwitchFacts one = switches_found(rig, 1), two = switches_found(rig, 2);
        EXPECT_EQ(words_for(rig, one), words_for(rig, two)) << rig.name;
        worse += count_worse(one.worse, false);
        worse_yet += count_worse(one.worse_yet, false);
        for (const std::vector<Settings>& live_in : one.live_in) live += live_in.size();
        with_sets += one.sets.size() > 1;
    }
    EXPECT_GT(worse, 200u);
    EXPECT_GT(worse_yet, 20u);
    EXPECT_GT(live, 500u);
    EXPECT_GT(with_sets, 5u);
}

TEST(Halves, HaveTrialsOfTheirOwn) {
    std::size_t with_few = 0, with_all = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const SwitchFacts one = switches_found(rig, 1, 1), two = switches_found(rig, 2, 1);
        EXPECT_EQ(words_for(rig, one), words_for(rig, two)) << rig.name;
        with_few += count_worse(one.worse, true);
        with_all += count_worse(switches_found(rig, 1).worse, true);
    }
    EXPECT_GT(with_few, 20u);
    EXPECT_GT(with_all, with_few);
}

void expect_same(const Graph& one, const Graph& two) {
    EXPECT_EQ(one.rows, two.rows);
    EXPECT_EQ(one.first_of_bone, two.first_of_bone);
    EXPECT_TRUE(std::equal(
        one.vertices.begin(), one.vertices.end(), two.vertices.begin(), two.vertices.end(),
        [](const Vertex& a, const Vertex& b) { return a.element == b.element && a.kind == b.kind && a.channel == b.channel; }));
    EXPECT_TRUE(
        std::equal(one.edges.begin(), one.edges.end(), two.edges.begin(), two.edges.end(), [](const Edge& a, const Edge& b) {
            return a.from == b.from && a.gate == b.gate && a.maker == b.maker && a.kind_bits == b.kind_bits;
        }));
}

/// `count` limbs of five bones and a control, the first with a bone that nothing drives and the second with one that goes with
/// the root alone; every tenth limb under a switch of its own, all of these under a common one too. With a list of roots.
Rig rig_of_limbs(std::size_t count) {
    std::string bones = "{'name': 'root', 'roles': ['control']}";
    std::string properties = "'roots': ['root'], 'properties': [{'name': 'all'}";
    for (std::size_t l = 0; l < count; ++l) {
        const std::string limb = std::to_string(l), control = "control_" + limb;
        const auto by = [](const std::string& property) {
            return ", 'weight': {'expression': 's', 'inputs': {'s': {'property': '" + property + "'}}}";
        };
        bones += ",\n{'name': '" + control + "', 'roles': ['control'], 'parent': 'root'}";
        for (int j = 0; j < 5; ++j) {
            const std::string name = "bone_" + limb + "_" + std::to_string(j);
            const std::string from = l == 1 && j == 4 ? "root" : control;
            bones += ",\n{'name': '" + name + "', 'roles': ['deform']";
            if (j > 0 && !(l == 0 && j == 4)) bones += ", 'parent': 'bone_" + limb + "_" + std::to_string(j - 1) + "'";
            if (l > 0 || j < 4)
                bones += ", 'constraints': [{'kind': 'transform', 'from': '" + from + "'" +
                         (l % 10 == 0 ? by(j < 3 ? "own_" + limb : "all") : std::string()) + "}]";
            bones += "}";
        }
        if (l % 10 == 0) properties += ", {'name': 'own_" + limb + "', 'default': 1}";
    }
    return tiny_rig(bones, properties + "]");
}

TEST(Halves, OfALargeRigAreTheSameInOneThreadAndInTwoAndFromScratch) {
    const Rig rig = rig_of_limbs(4'000);
    ASSERT_GT(rig.bones.size(), controls_limit);  // so that the walk over states gives the verdicts
    const Dependencies in_one = build_dependencies(rig, 1), in_two = build_dependencies(rig, 2);
    expect_same(in_one.motion, in_two.motion);
    expect_same(in_one.bone, in_two.bone);
    expect_same(in_one.at(rig, Grain::channel), in_two.at(rig, Grain::channel));
    EXPECT_TRUE(std::equal(
        in_one.gates.begin(), in_one.gates.end(), in_two.gates.begin(), in_two.gates.end(), [](const Gate& a, const Gate& b) {
            return a.constraint == b.constraint && a.source == b.source && a.inert == b.inert && a.off == b.off;
        }));
    EXPECT_TRUE(std::equal(in_one.makers.begin(), in_one.makers.end(), in_two.makers.begin(), in_two.makers.end(),
                           [](const Maker& a, const Maker& b) { return a.kind == b.kind && a.element == b.element; }));
    EXPECT_TRUE(
        std::equal(in_one.driver_uses.begin(), in_one.driver_uses.end(), in_two.driver_uses.begin(), in_two.driver_uses.end(),
                   [](const DriverUse& a, const DriverUse& b) { return a.target == b.target && a.element == b.element; }));
    FactOptions options;
    options.workers = 1;
    const Facts one = find_facts(rig, in_one, options);
    options.workers = 2;
    const Facts two = find_facts(rig, in_two, options);
    EXPECT_GT(one.switches.looked_at, 800u);
    EXPECT_EQ(words_for(rig, one.switches), words_for(rig, two.switches));

    const AttachmentFacts from_scratch = find_attachment(rig, in_one, default_state(rig));
    EXPECT_EQ(one.attachment.root_controls, from_scratch.root_controls);
    EXPECT_EQ(one.attachment.controls_listed, from_scratch.controls_listed);
    ASSERT_EQ(one.attachment.deform.size(), from_scratch.deform.size());
    std::array<std::size_t, 4> verdicts{};
    for (std::size_t i = 0; i < from_scratch.deform.size(); ++i) {
        EXPECT_EQ(one.attachment.deform[i].bone, from_scratch.deform[i].bone);
        EXPECT_EQ(one.attachment.deform[i].verdict, from_scratch.deform[i].verdict);
        EXPECT_EQ(two.attachment.deform[i].verdict, from_scratch.deform[i].verdict);
        ++verdicts[static_cast<std::size_t>(from_scratch.deform[i].verdict)];
    }
    EXPECT_GT(verdicts[static_cast<std::size_t>(Verdict::attached)], 18'000u);
    EXPECT_GE(verdicts[static_cast<std::size_t>(Verdict::orphaned)], 1u);
    EXPECT_EQ(verdicts[static_cast<std::size_t>(Verdict::root_only)], 1u);
}

}  // namespace
}  // namespace ligament
