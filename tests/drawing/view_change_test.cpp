// Sources: what should be on a page is worked out by hand from the two rigs beside it; geometry is held by scene_rules.hpp.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "random_rig.hpp"
#include "sheets.hpp"
#include "view_change.hpp"

namespace ligament {
namespace {

using testing::count_of;
using testing::example;
using testing::expect_good;
using testing::faults_of_page;
using testing::holds;
using testing::Judged;
using testing::words_of;

/// Two judged rigs with what the view of their change reads.
struct Changed {
    Judged before, after;
    Comparison comparison;
    DrawingOptions options;
    Subject was, is;
    ChangeSubject change{was, comparison};

    Changed(Judged old_rig, Judged new_rig)
        : before(std::move(old_rig)),
          after(std::move(new_rig)),
          comparison(compare_rigs(revision(before), revision(after))),
          was(before.rig, before.dependencies, before.facts, options),
          is(after.rig, after.dependencies, after.facts, options) {
        is.change = &change;
    }
    Changed(const Changed&) = delete;

    static Revision revision(const Judged& of) { return {of.rig, of.dependencies, of.facts}; }

    /// Each sheet held against the rules of geometry, by itself and as a page; signs keep off words, too.
    std::vector<Sheet> sheets(Paper paper = Paper::a4) const {
        const Room room = room_on(paper);
        std::vector<Sheet> all = plan_of_change(is, 0, room);
        for (const Sheet& sheet : all) {
            expect_good(sheet, room);
            EXPECT_EQ(faults_of_page(sheet, paper), "") << sheet.title;
            for (const Mark& sign : sheet.scene.signs)
                for (const Label& label : sheet.scene.labels)
                    EXPECT_FALSE(sign.extent.height > 1 && sign.extent.overlaps(label.extent()))
                        << label.words;  // a lower one strikes words out
        }
        return all;
    }
    Drawing drawn() const { return draw_change(revision(before), revision(after), comparison, options); }
};

std::vector<const Node*> with(const std::vector<Sheet>& sheets, Novelty novelty) {
    std::vector<const Node*> nodes;
    for (const Sheet& sheet : sheets)
        for (const Node& node : sheet.scene.nodes)
            if (node.novelty == novelty) nodes.push_back(&node);
    return nodes;
}

std::string all_words(const std::vector<Sheet>& sheets) {
    std::string text;
    for (const Sheet& sheet : sheets) text += words_of(sheet);
    return text;
}

std::string legend_of_all(const std::vector<Sheet>& sheets) {
    std::string text;
    for (const Sheet& sheet : sheets)
        for (const LegendEntry& entry : sheet.legend) text += entry.text + "\n";
    return text;
}

TEST(ChangeView, NothingChangedIsOnePageThatSaysSo) {
    const Changed same{Judged("{'name': 'a'}"), Judged("{'name': 'a'}")};
    const std::vector<Sheet> sheets = same.sheets();
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(words_of(sheets[0]), "nothing changed between the two revisions\n");
    const Drawing drawing = same.drawn();
    EXPECT_EQ(drawing.error, "");
    ASSERT_EQ(drawing.pages.size(), 1u);
    EXPECT_EQ(drawing.pages[0].view, View::change);
    EXPECT_EQ(drawing.pages[0].name, "change");
}

TEST(ChangeView, RigsWithoutBonesHaveAPage) {
    Rig empty;
    empty.name = "nothing";
    const Changed same{Judged(empty), Judged(empty)};
    EXPECT_EQ(same.drawn().pages.size(), 1u);
}

TEST(ChangeView, ARenamedRigAloneIsToldAboveThePage) {
    Rig other;
    other.name = "other";
    Rig one;
    one.name = "one";
    const Changed changed{Judged(one), Judged(other)};
    const std::vector<Sheet> sheets = changed.sheets();
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(sheets[0].subtitle, std::vector<std::string>{"name: one \u2192 other"});
    EXPECT_EQ(words_of(sheets[0]), "no bone, constraint, property or object changed\n");
}

TEST(ChangeView, WhatIsNewGoneAndChangedIsToldByOutlineAndByWord) {
    const Changed changed{
        Judged("{'name': 'root', 'roles': ['control'], 'group': 'g'}, {'name': 'old', 'parent': 'root', 'group': 'g', 'roles': "
               "['deform']},"
               "{'name': 'kept', 'parent': 'root', 'group': 'g', 'constraints': [{'name': 'hold', 'kind': 'position', 'from': "
               "'old'}]}"),
        Judged("{'name': 'root', 'roles': ['control'], 'group': 'g'}, {'name': 'kept', 'parent': 'root', 'group': 'g', "
               "'constraints': ["
               "{'name': 'hold', 'kind': 'position', 'from': 'fresh'}]}, {'name': 'fresh', 'roles': ['control'], 'group': 'g'}")};
    const std::vector<Sheet> sheets = changed.sheets();
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(words_of(sheets[0]),
              "needs\nwhat changed\nis needed by\ngroup g\n"
              "kept\nmechanism, changed\nhold (position) from: old \u2192 fresh\n+ fresh\n+ position\ngone: old\ngone: "
              "position\nroot\nparent\n"
              "fresh\ncontrol, new\nkept\n+ position\n"
              "old\ndeform, gone\nroot\ngone: parent\nkept\ngone: position\n");
    EXPECT_EQ(with(sheets, Novelty::changed).size(), 1u);
    EXPECT_EQ(with(sheets, Novelty::added).size(), 2u);  // its own card, and beside the one that reads it
    EXPECT_EQ(with(sheets, Novelty::removed).size(), 2u);
    EXPECT_EQ(legend_of_all(sheets),
              "heavy outline, +: new\ndashed outline, name struck out: gone\nheavy left edge: changed\nthin and pale: as before\n"
              "\u201c+\u201d on a line: a new dependence; crossed, \u201cgone\u201d: no more\n");
    EXPECT_TRUE(holds(sheets[0].subtitle[0], "2 bones: 1 new, 1 gone \u00b7 1 constraint: 1 changed")) << sheets[0].subtitle[0];
    // What is gone is struck out wherever its name stands.
    const auto& signs = sheets[0].scene.signs;
    EXPECT_EQ(std::count_if(signs.begin(), signs.end(), [](const Mark& sign) { return sign.extent.height < 1; }), 2);
    EXPECT_EQ(std::count_if(signs.begin(), signs.end(), [](const Mark& sign) { return sign.look == Mark::Look::alarm_line; }), 3);
}

TEST(ChangeView, ARenameStandsInTheBoxAndAloneInAList) {
    const std::string head = "{'name': 'root', 'group': 'g'}, ";
    const Changed changed{
        Judged(head + "{'name': 'arm_1', 'parent': 'root', 'group': 'g', 'tip': [0, 1, 0], 'rest': {'translation': [0, 1, 0]}}, "
                      "{'name': 'arm_2', 'parent': 'arm_1', 'group': 'g', 'tip': [0, 2, 0]}"),
        Judged(head + "{'name': 'fin_1', 'parent': 'root', 'group': 'g', 'tip': [0, 3, 0], 'rest': {'translation': [0, 1, 0]}}, "
                      "{'name': 'fin_2', 'parent': 'fin_1', 'group': 'g', 'tip': [0, 2, 0]}")};
    const std::vector<Sheet> sheets = changed.sheets();
    ASSERT_EQ(sheets.size(), 1u);
    const std::string words = words_of(sheets[0]);
    EXPECT_TRUE(holds(words, "arm_1 \u2192 fin_1\nmechanism, changed and renamed, 0.")) << words;
    EXPECT_TRUE(holds(words, "tip: 0, 1, 0 \u2192 0, 3, 0")) << words;
    EXPECT_TRUE(holds(words, "renamed, else as before (with how sure it is that they are the same)\narm_2 \u2192 fin_2 0."))
        << words;
}

TEST(ChangeView, ADependenceThatIsSwitchedOffSaysSo) {
    const std::string bones =
        "{'name': 'a'}, {'name': 'b', 'constraints': [{'name': 'hold', 'kind': 'scale', 'from': 'a', 'enabled': ON}]}";
    const auto with_on = [&](const char* on) { return Judged(std::string(bones).replace(bones.find("ON"), 2, on)); };
    const Changed off{with_on("true"), with_on("false")}, on{with_on("false"), with_on("true")};
    EXPECT_TRUE(holds(all_words(off.sheets()), "off: scale\n"));
    EXPECT_TRUE(holds(legend_of_all(off.sheets()), "was off, or on, before"));
    EXPECT_TRUE(holds(all_words(on.sheets()), "on: scale\n"));
}

TEST(ChangeView, NeighboursBesideTiesThatStayedAreCountedPastFour) {
    std::string bones = "{'name': 'hub', 'tip': [0, TIP, 0]}";
    for (int i = 0; i < 30; ++i) bones += ", {'name': 'leaf_" + std::to_string(i) + "', 'parent': 'hub'}";
    const auto with_tip = [&](const char* tip) { return Judged(std::string(bones).replace(bones.find("TIP"), 3, tip)); };
    const Changed changed{with_tip("1"), with_tip("2")};
    const std::vector<Sheet> sheets = changed.sheets();
    EXPECT_TRUE(holds(all_words(sheets), "26 more\n"));
    EXPECT_EQ(sheets[0].subtitle.back(), "26 neighbours told by number, beside ties that stayed as they were");
    const auto& nodes = sheets[0].scene.nodes;
    const auto stack = std::find_if(nodes.begin(), nodes.end(), [](const Node& node) { return node.box.shape == Shape::bundle; });
    ASSERT_NE(stack, nodes.end());
    EXPECT_EQ(count_of(stack->box.hover, "leaf_"), 26u);  // all of them in the hover title
}

TEST(ChangeView, PropertiesAndObjectsHaveCards) {
    const Changed changed{
        Judged("{'name': 'a', 'group': 'g'}, {'name': 'b'}",
               "'properties': [{'name': 'mode', 'on': 'a', 'max': 1}], 'objects': [{'name': 'skin', 'follows': ['a']}]"),
        Judged("{'name': 'a', 'group': 'g'}, {'name': 'b'}",
               "'properties': [{'name': 'mode', 'on': 'a', 'max': 2}], 'objects': [{'name': 'skin', 'follows': ['b']}]")};
    const std::string words = all_words(changed.sheets());
    EXPECT_TRUE(holds(words, "group g\nmode\nproperty, changed\nmax: 1 \u2192 2\n")) << words;
    EXPECT_TRUE(holds(words, "skin\nobject, changed\nfollows: a \u2192 b\n")) << words;
}

/// The rig with every `step`-th of its bones changed: by role, tip, group, stack or by being gone at the end.
Rig with_changes(Rig rig, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        Bone& bone = rig.bones[(i * 7) % rig.bones.size()];
        switch (i % 4) {
            case 0:
                bone.tip = {{0, static_cast<double>(i) + 5, 0}};
                break;
            case 1:
                bone.constraints.emplace_back().name = "fresh_" + std::to_string(i);
                bone.constraints.back().kind = ConstraintKind::limit;
                bone.constraints.back().channels = rotation_channels;
                break;
            case 2:
                bone.group += "_moved";
                break;
            default:
                rig.bones.emplace_back().name = "added_" + std::to_string(i);
                rig.bones.back().parent = static_cast<BoneId>((i * 7) % 5);
        }
    }
    return rig;
}

TEST(ChangeView, EveryChangedBoneStandsOnAPageFromOneToAHundred) {
    for (const std::size_t count : {1u, 2u, 5u, 13u, 40u, 100u}) {
        const Rig heron = example("heron");
        const Changed changed{Judged(heron), Judged(with_changes(heron, count))};
        for (const Paper paper : {Paper::a4, Paper::a3, Paper::letter}) {
            const std::vector<Sheet> sheets = changed.sheets(paper);
            std::set<BoneId> cards;
            for (const Sheet& sheet : sheets)
                for (const Node& node : sheet.scene.nodes)
                    if (node.about.kind == About::Kind::bone && node.rect.width > 250) cards.insert(node.about.id);
            std::set<BoneId> wanted;
            for (const Change& change : changed.comparison.changes) {
                if (change.element == Element::bone) wanted.insert(change.after);
                if (change.element == Element::constraint)
                    wanted.insert(changed.after.dependencies.constraints[change.after].bone);
            }
            EXPECT_EQ(cards, wanted) << count;
        }
    }
}

TEST(ChangeView, ThousandsOfChangesAreDrawnInPartAndCounted) {
    Rig before = testing::chain_of(1500), after = before;
    for (Bone& bone : after.bones) bone.tip = {{0, 1, 0}};
    const Changed changed{Judged(before), Judged(after)};
    const std::vector<Sheet> sheets = plan_of_change(changed.is, 0, room_on(Paper::a4));
    EXPECT_TRUE(holds(sheets[0].subtitle.back(), "showing 400 of 1500 changed elements")) << sheets[0].subtitle.back();
    EXPECT_EQ(with(sheets, Novelty::changed).size(), 400u);
}

TEST(ChangeView, RandomRigsAndTheFaultyHeronKeepTheRules) {
    for (unsigned seed = 0; seed < 60; ++seed) {
        const Changed changed{Judged(testing::random_rig(seed)), Judged(testing::random_rig(seed % 7 == 0 ? seed : seed + 1))};
        changed.sheets();
    }
    const Changed heron{Judged(example("heron")), Judged(example("heron-faulty"))},
        back{Judged(example("heron-faulty")), Judged(example("heron"))};
    for (const Paper paper : {Paper::a4, Paper::a3}) {
        heron.sheets(paper);
        back.sheets(paper);
    }
}

TEST(ChangeView, LongAndStrangeNamesAreCutAndHarmless) {
    const std::string longest(900, 'w'), strange = "<b>\u202e\U0001f426";
    Rig before = testing::chain_of(3), after = before;
    before.bones[1].name = longest;
    after.bones[1].name = strange;
    before.bones[1].tip = after.bones[1].tip = {{0, 1, 0}};
    before.bones[1].rest = after.bones[1].rest = Rest{{0, 1, 0}, {0, 0, 0, 1}, {1, 1, 1}};
    after.bones[2].group = longest;
    const Changed changed{Judged(before), Judged(after)};
    changed.sheets();
    const Drawing drawing = changed.drawn();
    ASSERT_FALSE(drawing.pages.empty());
    EXPECT_FALSE(holds(drawing.pages[0].svg, "<b>"));
}

TEST(ChangeView, TheSameBytesAgain) {
    const Changed one{Judged(example("heron")), Judged(example("heron-faulty"))},
        other{Judged(example("heron")), Judged(example("heron-faulty"))};
    EXPECT_EQ(testing::dump_of(one.sheets()), testing::dump_of(other.sheets()));
}

}  // namespace
}  // namespace ligament
