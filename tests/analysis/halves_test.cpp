// Do two threads find what one finds, and a walk over states what a search from scratch finds?
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <string>

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
    for (const InteractingSet& set : facts.sets) words += std::to_string(set.looked_at) + " of a set\n";
    for (std::size_t i = 0; i < facts.dead.size(); ++i)
        words += std::to_string(facts.dead[i]) + (facts.dead_is_replaced[i] ? " replaced\n" : " dead\n");
    for (const SwitchGap& gap : facts.gaps) words += std::to_string(gap.constraint) + " gap\n";
    return words;
}

std::string switches_found(const Rig& rig, unsigned workers) {
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    const LiveMotion live = find_live_motion(dependencies);
    SwitchSearch search(rig, dependencies, cycles, live);
    search.lay_ground();
    search.set_out();
    return words_for(rig, search.find(workers));
}

TEST(Halves, OfTheStatesAreTheSameInOneThreadAndInTwo) {
    std::size_t lines = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const std::string in_one = switches_found(rig, 1);
        EXPECT_EQ(switches_found(rig, 2), in_one) << rig.name;
        lines += static_cast<std::size_t>(std::count(in_one.begin(), in_one.end(), '\n'));
    }
    EXPECT_GT(lines, 2'500u);
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
    EXPECT_EQ(in_one.motion.rows, in_two.motion.rows);
    EXPECT_EQ(in_one.bone.rows, in_two.bone.rows);
    EXPECT_EQ(in_one.gates.size(), in_two.gates.size());
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
