#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "sheets.hpp"
#include "view_reach_bands.hpp"

namespace ligament {
namespace {

using testing::bones_on;
using testing::chain_of;
using testing::dump_of;
using testing::example;
using testing::holds;
using testing::Judged;
using testing::rig_of_legs;
using testing::Viewed;
using testing::words_of;

/// A limb that is steered by fk at one stop and by ik at the other; `weight` gates the fk.
std::string limb(const std::string& weight) {
    return "{'name': 'root', 'roles': ['control']}, {'name': 'fk', 'roles': ['control'], 'parent': 'root', 'group': 'wing'},"
           "{'name': 'ik', 'roles': ['control'], 'parent': 'root', 'group': 'wing'},"
           "{'name': 'mech', 'group': 'wing', 'constraints': [{'kind': 'transform', 'from': ['ik']},"
           "{'name': 'fk', 'kind': 'transform', 'from': ['fk'], 'weight': " +
           weight +
           "}]}, {'name': 'plume', 'roles': ['deform'], 'group': 'wing', 'constraints': [{'kind': 'transform', 'from': "
           "['mech']}]}";
}
const std::string driven = "{'expression': 's', 'inputs': {'s': {'property': 'mode'}}}";
const std::string mode = "'properties': [{'name': 'mode', 'on': 'root', 'min': 0, 'max': 1, 'stops': {'ik': 0, 'fk': 1}}]";

std::string words_after(const std::string& words, const std::string& start) {
    const std::size_t at = words.find(start);
    return at == words.npos ? "" : words.substr(at);
}

TEST(ReachView, SaysByLimbAndStopWhoMovesWhat) {
    const Viewed viewed{Judged(limb(driven), mode)};
    const std::vector<Sheet> sheets = viewed.sheets(View::reach);
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(words_of(sheets[0]),
              "wing\nall by\nroot\n"
              "mode=ik (default)\nik\nplume\n"
              "mode=fk\nfk\nplume\n");
    EXPECT_EQ(sheets[0].subtitle[0], "1 deform bone, all attached \u00b7 1 limb \u00b7 1 switch");
    EXPECT_TRUE(sheets[0].scene.strokes.empty());  // nothing that could cross
}

TEST(ReachView, WithoutSwitchesNoStopIsNamed) {
    const Viewed viewed{Judged(limb("0.5"))};
    EXPECT_EQ(words_of(viewed.sheets(View::reach)[0]), "wing\nall by\nroot\nfk\nik\nby these alone\nplume\n");
}

/// Of each bone how often it should stand there: once for each row that has it, and once in the lanes on top.
std::map<BoneId, std::size_t> expected_on(const Viewed& viewed) {
    std::map<BoneId, std::size_t> count;
    for (const StateTable& table : find_state_tables(viewed.judged.rig, viewed.judged.dependencies))
        for (const StateRow& row : table.rows)
            for (BoneId bone : row.bones) ++count[bone];
    const Facts& facts = viewed.judged.facts;
    for (std::size_t i = 0; i < facts.attachment.deform.size(); ++i) {
        const Attachment& entry = facts.attachment.deform[i];
        const bool is_lost = !facts.switches.worse[i].empty() || !facts.switches.worse_yet[i].empty();
        count[entry.bone] += entry.verdict != Verdict::attached || is_lost;
    }
    return count;
}

TEST(ReachView, EachDeformBoneStandsOnceInEachState) {
    for (const Rig& rig : {example("heron"), example("heron-faulty"), rig_of_legs(12, 9)}) {
        const Viewed viewed{Judged(rig)};
        const std::map<BoneId, std::size_t> expected = expected_on(viewed);
        for (Paper paper : {Paper::a4, Paper::a3, Paper::letter}) {
            std::map<BoneId, std::size_t> count = bones_on(viewed.sheets(View::reach, paper));
            for (const auto& [bone, times] : expected) {
                if (rig.bones[bone].control) continue;  // stands there for what it moves, too
                EXPECT_EQ(count[bone], times) << rig.bones[bone].name;
            }
            for (const auto& [bone, times] : count) EXPECT_FALSE(rig.bones[bone].is_mechanism());
        }
    }
}

TEST(ReachView, WhatIsNotAttachedStandsOnTopWithVerdictAndPlace) {
    const Viewed viewed{
        Judged(limb(driven) + ", {'name': 'loose', 'roles': ['deform'], 'group': 'wing'}, {'name': 'stiff', 'roles': ['deform'], "
                              "'constraints': [{'kind': 'transform', 'from': ['root']}]}",
               mode)};
    const Sheet sheet = viewed.sheets(View::reach)[0];
    ASSERT_EQ(sheet.scene.nodes.size(), 2u);
    EXPECT_EQ(sheet.scene.nodes[0].box.name, "loose");
    EXPECT_EQ(sheet.scene.nodes[0].box.badges[0].word, "orphaned");
    EXPECT_EQ(sheet.scene.nodes[1].box.badges[0].word, "root-only");
    const auto lane = std::find_if(sheet.scene.backdrops.begin(), sheet.scene.backdrops.end(),
                                   [](const Backdrop& of) { return of.look == Backdrop::Look::alarm_lane; });
    ASSERT_NE(lane, sheet.scene.backdrops.end());
    for (const Node& node : sheet.scene.nodes) EXPECT_TRUE(lane->rect.contains(node.rect));
    for (const Label& label : sheet.scene.labels)
        EXPECT_TRUE(label.about.kind != About::Kind::group || lane->rect.bottom() < label.extent().y) << "above all limbs";
    const std::string words = words_of(sheet);
    EXPECT_TRUE(words.starts_with("not attached: 2 deform bones\nin wing, line 1:")) << words;
    EXPECT_TRUE(holds(words, "no control\nnot attached: orphaned\nloose\n")) << words;
    EXPECT_TRUE(holds(words, "no group\nall by\nroot\nby these alone\nnot attached: root-only\nstiff\n")) << words;
}

TEST(ReachView, WhatIsLostAtAStopStandsOnTopWithThatStop) {
    // at fk nothing but a weight of 1 from a bone that nobody moves is left
    const Viewed viewed{Judged(
        "{'name': 'root', 'roles': ['control']}, {'name': 'hand', 'roles': ['control'], 'parent': 'root'}, {'name': 'still'},"
        "{'name': 'plume', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': ['hand']},"
        "{'name': 'hold', 'kind': 'transform', 'from': ['still'], 'weight': " +
            driven + "}]}",
        mode)};
    const Sheet sheet = viewed.sheets(View::reach)[0];
    ASSERT_EQ(sheet.scene.nodes.size(), 1u);
    EXPECT_EQ(sheet.scene.nodes[0].box.badges[0].word, "orphaned");
    const std::string words = words_of(sheet);
    EXPECT_TRUE(holds(words, "not attached: 1 deform bone, in the default state or at a stop that is named\nno group")) << words;
    EXPECT_TRUE(holds(words, "\nat mode=fk\n")) << words;
    EXPECT_TRUE(holds(words_after(words, "mode=fk\nno"), "no control\nnot attached: orphaned\nplume\n")) << words;
}

TEST(ReachView, CarriedBonesAreToldQuietly) {
    const Viewed viewed{Judged(
        "{'name': 'hand', 'roles': ['control']}, {'name': 'other', 'roles': ['control']}, {'name': 'plume', 'roles': ['deform'], "
        "'constraints': [{'kind': 'transform', 'from': ['hand']}]}, {'name': 'rider', 'roles': ['deform'], 'parent': 'plume'},"
        "{'name': 'down', 'roles': ['deform'], 'parent': 'other'}")};
    const Sheet sheet = viewed.sheets(View::reach)[0];
    EXPECT_TRUE(words_of(sheet).starts_with("carried, moved only because their deform parent moves: 1 deform bone\nrider\n"))
        << words_of(sheet);
    EXPECT_TRUE(sheet.scene.nodes.empty());
    for (const Backdrop& backdrop : sheet.scene.backdrops) EXPECT_NE(backdrop.look, Backdrop::Look::alarm_lane);
}

TEST(ReachView, RowsOfAChainSayWhatIsNewInEach) {
    std::string bones = "{'name': 'root', 'roles': ['control']}, {'name': 'root_skin', 'roles': ['deform'], 'parent': 'root'}";
    for (int i = 0; i < 6; ++i)
        bones += ", {'name': 'c" + std::to_string(i) + "', 'roles': ['control'], 'parent': '" +
                 (i ? "c" + std::to_string(i - 1) : "root") + "'}, {'name': 's" + std::to_string(i) +
                 "', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': ['c" + std::to_string(i) + "']}]}";
    const std::string words = words_of(Viewed{Judged(bones)}.sheets(View::reach)[0]);
    EXPECT_TRUE(holds(words, "c0\nc1\nc2\ns2\nas above, and\nc3\ns3\nas above, and\nc4\ns4\n")) << words;
}

TEST(ReachView, MoreBonesThanAPageHoldsGoOnWithAllOfThem) {
    Rig rig = chain_of(1);
    rig.bones[0].control = true;
    for (int i = 0; i < 700; ++i) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "a_feather_with_a_name_that_goes_on_for_longer_than_a_card_" + std::to_string(i);
        bone.deform = true, bone.parent = 0, bone.group = "wing";
    }
    const Viewed viewed{Judged(rig)};
    const std::vector<Sheet> sheets = viewed.sheets(View::reach);
    EXPECT_EQ(bones_on(sheets).size(), 701u);
    for (const auto& [bone, times] : bones_on(sheets)) EXPECT_EQ(times, 1u);
    EXPECT_TRUE(holds(words_of(sheets[1]), "wing (continued)\n"));
}

TEST(ReachView, ManyUnattachedBonesAreRows) {
    Rig rig = chain_of(2);
    rig.bones[0].control = true, rig.bones[1].deform = true;
    for (int i = 0; i < 200; ++i) {
        rig.bones.emplace_back().name = "loose_" + std::to_string(i);
        rig.bones.back().deform = true;
    }
    const Viewed viewed{Judged(rig)};
    const std::vector<Sheet> sheets = viewed.sheets(View::reach);
    std::size_t told = 0;
    for (const Sheet& sheet : sheets)
        for (const Label& label : sheet.scene.labels) told += holds(label.words, " orphaned, no group");
    EXPECT_EQ(told, 200u);
    EXPECT_TRUE(holds(words_of(sheets[0]), "not attached: 200 deform bones\n"));
}

TEST(ReachView, MoreUnattachedBonesThanCanBeReadAreCountedByGroup) {
    Rig rig = chain_of(1);
    rig.bones[0].control = true;
    for (int i = 0; i < 1001; ++i) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "loose_" + std::to_string(i), bone.deform = true, bone.group = i < 1000 ? "plumage" : "tail";
    }
    const Viewed viewed{Judged(rig)};
    EXPECT_TRUE(words_of(viewed.sheets(View::reach)[0])
                    .starts_with("not attached: 1001 deform bones, counted by group since they are more than 1000\n"
                                 "plumage: 1000 orphaned\ntail: 1 orphaned\n"));
}

TEST(ReachView, AStateThatWasAskedForIsTheOnlyOne) {
    Judged judged(limb(driven), mode);
    State state = default_state(judged.rig);
    state.properties[0] = 1;
    FactOptions wanted;
    wanted.state = state, wanted.state_name = "mode=fk";
    judged.facts = find_facts(judged.rig, judged.dependencies, wanted);
    judged.dependencies = dependencies_in(judged.rig, judged.dependencies, state, true);
    const Viewed viewed{std::move(judged)};
    const Sheet sheet = viewed.sheets(View::reach)[0];
    EXPECT_EQ(words_of(sheet), "wing\nall by\nroot\nfk\nat mode=fk\nby these alone\nplume\n");
    EXPECT_TRUE(sheet.in_state);
    EXPECT_TRUE(holds(sheet.subtitle[0], "in state mode=fk"));
}

TEST(ReachView, LargeRigsAreCounted) {
    Rig rig = rig_of_legs(2, 3);
    while (rig.bones.size() <= most_bones_joined) rig.bones.emplace_back().name = "filler_" + std::to_string(rig.bones.size());
    const Viewed viewed{Judged(rig)};
    const std::vector<Sheet> sheets = viewed.sheets(View::reach);
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_TRUE(words_of(sheets[0]).starts_with("leg_0\nall by\n2 controls\nmode_0=0 (default)\n")) << words_of(sheets[0]);
    EXPECT_TRUE(holds(words_of(sheets[0]), "\n3 deform bones\nmode_0=1\n5 controls\n3 deform bones\n")) << words_of(sheets[0]);
    EXPECT_TRUE(holds(sheets[0].subtitle[1], "above 5000 bones controls and deform bones are counted"));
}

TEST(ReachView, ARigWithoutDeformBonesSaysSo) {
    const std::vector<Sheet> sheets = Viewed{Judged("{'name': 'a', 'roles': ['control']}")}.sheets(View::reach);
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(words_of(sheets[0]), "no bone of this rig deforms, so that controls have nothing to move\n");
}

TEST(ReachView, TwiceTheSame) {
    const Rig rig = example("heron-faulty");
    EXPECT_EQ(dump_of(Viewed{Judged(rig)}.sheets(View::reach)), dump_of(Viewed{Judged(rig)}.sheets(View::reach)));
}

}  // namespace
}  // namespace ligament
