// Does the plan count what groups need, fold by its rule, and keep the rules of geometry?
#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "drawn.hpp"
#include "ligament/read.hpp"
#include "paper.hpp"
#include "scene_rules.hpp"
#include "view_plan_cards.hpp"
#include "view_plan_graph.hpp"

namespace ligament {
namespace {

using testing::Judged;

Rig example(const std::string& name) {
    std::ifstream file(LIGAMENT_SOURCE_DIR "/examples/" + name);
    std::ostringstream text;
    text << file.rdbuf();
    return read_rig(text.str()).rig.value();
}

struct Viewed {
    Judged judged;
    DrawingOptions options = {};
    Subject subject;

    explicit Viewed(Rig rig) : judged(std::move(rig)), subject(judged.rig, judged.dependencies, judged.facts, options) {}

    Sheet sheet(Paper paper) const {
        const std::vector<Sheet> sheets = plan_of_groups(subject, 0, room_on(paper));
        EXPECT_EQ(sheets.size(), 1u);
        return sheets.at(0);
    }
};

/// One control a group; who needs whom by parent links (the first of a list) and rotation constraints (the others).
Rig rig_of_groups(const std::vector<std::pair<std::string, std::vector<std::uint32_t>>>& groups, bool skin = true) {
    Rig rig;
    rig.name = "flock";
    for (const auto& [name, needs] : groups) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = name + "_bone", bone.group = name, bone.control = true, bone.deform = true;
        for (std::size_t i = 0; i < needs.size(); ++i) {
            if (i == 0) {
                bone.parent = needs[i];
                continue;
            }
            Constraint& made = bone.constraints.emplace_back();
            made.name = "turn_" + std::to_string(i), made.kind = ConstraintKind::rotation;
            made.sources.emplace_back().bone = needs[i];
        }
    }
    if (!skin) return rig;
    rig.objects.push_back({"skin", {}, {}});
    for (BoneId b = 0; b < rig.bones.size(); ++b) rig.objects[0].follows.push_back(b);
    return rig;
}

Rig hub(std::uint32_t limbs) {
    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> groups{{"root", {}}, {"body", {0}}};
    for (std::uint32_t i = 0; i < limbs; ++i) groups.push_back({"plume_" + std::to_string(i), {1}});
    return rig_of_groups(groups);
}

Rig chain(std::uint32_t links) {
    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> groups{{"root", {}}};
    for (std::uint32_t i = 0; i + 1 < links; ++i) groups.push_back({"link_" + std::to_string(i), {i}});
    return rig_of_groups(groups);
}

Rig mesh(std::uint32_t count, std::uint32_t needs) {
    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> groups{{"root", {}}};
    for (std::uint32_t i = 1; i < count; ++i) {
        groups.push_back({"reed " + std::to_string(i), {}});
        for (std::uint32_t k = 0; k < needs; ++k) groups.back().second.push_back((i * 7 + k * k * 13) % i);
    }
    return rig_of_groups(groups);
}

/// Dependencies inside cards and between them.
std::size_t all_of(const GroupGraph& graph) {
    std::size_t count = 0;
    for (const GroupCard& card : graph.cards) count += card.tally.inside;
    for (const GroupNeed& need : graph.needs) count += need.live_count() + need.inert_count();
    return count;
}

TEST(PlanView, KeepsTheRulesOfGeometry) {
    std::vector<Rig> rigs{
        hub(58), chain(60), mesh(60, 3), mesh(60, 12), mesh(1, 0), example("heron.rig.json"), example("heron-faulty.rig.json")};
    rigs.push_back(rig_of_groups({{std::string(300, 'x'), {}},
                                  {"<b>&\"' \xE9\xB7\xBA\xE9\xB7\xBA\xE9\xB7\xBA\xE9\xB7\xBA\xE9\xB7\xBA\xE9\xB7\xBA", {0}},
                                  {"\xD9\x86\xD8\xAE\xE2\x80\xAE wing\n", {1, 0}},
                                  {"", {0}},
                                  {" ", {}}}));
    for (Rig& rig : rigs) {
        const Viewed viewed(std::move(rig));
        for (const Paper paper : {Paper::a4, Paper::a3, Paper::letter}) {
            const Sheet sheet = viewed.sheet(paper);
            testing::expect_good(sheet, room_on(paper));
            EXPECT_EQ(testing::faults_of_page(sheet, paper), "");
            EXPECT_EQ(sheet.scene.nodes.size(), build_group_graph(viewed.subject).cards.size());
        }
    }
}

/// Parent links between groups and bones that objects follow, counted from the rig itself.
TEST(PlanView, CountsWhatTheRigSays) {
    const Viewed viewed(example("heron.rig.json"));
    const Rig& rig = viewed.judged.rig;
    std::map<std::pair<std::string, std::string>, std::size_t> counted, told;
    for (const Bone& bone : rig.bones)
        if (bone.parent != none && bone.from_parent && rig.bones[bone.parent].group != bone.group)
            ++counted[{rig.bones[bone.parent].group, bone.group}];
    for (const Object& object : rig.objects) {
        std::set<std::string> groups;
        for (BoneId b : object.follows) groups.insert(rig.bones[b].group);
        if (groups.size() < 2) continue;
        for (BoneId b : object.follows) ++counted[{rig.bones[b].group, object.name}];
    }
    const GroupGraph graph = build_group_graph(viewed.subject);
    for (const GroupNeed& need : graph.needs) {
        const auto name = [&](std::uint32_t c) {
            return graph.cards[c].groups.empty() ? graph.cards[c].name : viewed.subject.groups[graph.cards[c].groups[0]];
        };
        if (const std::size_t links = need.live[static_cast<std::size_t>(EdgeKind::parent)])
            told[{name(need.from), name(need.to)}] = links;
    }
    EXPECT_EQ(told, counted);
    EXPECT_GT(told.size(), 5u);
    std::size_t bones = 0;
    for (const GroupCard& card : graph.cards) bones += card.tally.bones();
    EXPECT_EQ(bones, rig.bones.size());
}

TEST(PlanView, EveryNeedHasARowAndAWire) {
    const Viewed viewed(hub(58));
    const GroupGraph graph = build_group_graph(viewed.subject);
    const Sheet sheet = viewed.sheet(Paper::a3);
    std::set<std::pair<std::uint32_t, std::uint32_t>> wires, needs;
    for (const Stroke& stroke : sheet.scene.strokes) wires.emplace(stroke.from, stroke.to);
    for (const GroupNeed& need : graph.needs) needs.emplace(need.from, need.to);
    EXPECT_EQ(wires, needs);
    EXPECT_EQ(sheet.scene.strokes.size(), needs.size());

    const std::vector<Card> cards = make_cards(viewed.subject, graph, CardStyle{});
    const Card& skin = cards.back();
    ASSERT_EQ(skin.needs.size(), 7u);
    EXPECT_EQ(skin.needs.back().name, "54 more");
    EXPECT_EQ(skin.needs.back().counts.words, "parent 54");
    EXPECT_EQ(skin.needs.back().counts.letters, "p54");
    EXPECT_EQ(testing::count_of(skin.needs.back().hover, "\nplume_"), 54u);
}

TEST(PlanView, RowsTellKindsAndWhatIsOff) {
    const Viewed viewed(
        testing::tiny_rig("{'name': 'body', 'roles': ['control'], 'group': 'body'},"
                          "{'name': 'wing', 'roles': ['deform'], 'group': 'wing', 'parent': 'body', 'constraints': ["
                          "{'kind': 'aim', 'from': 'body'}, {'kind': 'rotation', 'from': 'body'},"
                          "{'kind': 'scale', 'from': 'body', 'enabled': false}]}"));
    const std::vector<Card> cards = make_cards(viewed.subject, build_group_graph(viewed.subject), CardStyle{});
    ASSERT_EQ(cards[1].needs.size(), 1u);
    EXPECT_EQ(cards[1].needs[0].counts.words, "constraint 2, parent 1, off 1");
    EXPECT_EQ(cards[1].needs[0].counts.letters, "c2 p1 off1");
    EXPECT_TRUE(testing::holds(cards[1].needs[0].hover, "made by wing, line 1:")) << cards[1].needs[0].hover;
}

TEST(PlanView, SaysWhatIsWrong) {
    const Viewed viewed(testing::tiny_rig(
        "{'name': 'body', 'roles': ['control'], 'group': 'body', 'constraints': [{'kind': 'rotation', 'from': 'wing'}]},"
        "{'name': 'wing', 'group': 'wing', 'parent': 'body'},"
        "{'name': 'feather', 'roles': ['deform'], 'group': 'tail'}"));
    const GroupGraph graph = build_group_graph(viewed.subject);
    const std::vector<Card> cards = make_cards(viewed.subject, graph, CardStyle{});
    EXPECT_TRUE(cards[0].box.has(Badge::Kind::cycle) && cards[1].box.has(Badge::Kind::cycle));
    EXPECT_EQ(cards[0].lines.at(0).left, "cycle 1");
    EXPECT_TRUE(cards[2].box.has(Badge::Kind::unattached));
    EXPECT_EQ(cards[2].lines.at(0).left, "1 orphaned");
    for (const Stroke& stroke : viewed.sheet(Paper::a4).scene.strokes) EXPECT_TRUE(stroke.cycle);
}

TEST(PlanView, LevelsRunFromRootsToSkin) {
    // root -> body -> wing -> skin; what body needs of wing runs against the order of evaluation
    Rig rig = rig_of_groups({{"root", {}}, {"body", {0}}, {"wing", {1}}});
    const Viewed straight(rig);
    EXPECT_EQ(find_card_levels(build_group_graph(straight.subject)), (std::vector<std::uint32_t>{0, 1, 2, 3}));
    rig.bones.push_back(rig.bones[2]);
    rig.bones.back().name = "tip", rig.bones.back().group = "body", rig.bones.back().parent = 2;
    const Viewed back(rig);
    EXPECT_EQ(find_card_levels(build_group_graph(back.subject)), (std::vector<std::uint32_t>{0, 1, 2, 3}));
}

TEST(PlanView, AGroupWhoseBonesComeLateStandsAboveWhatNeedsIt) {
    // most of body is computed after the tail, which needs body and is not needed by it
    Rig rig = rig_of_groups({{"body", {}}, {"tail", {0}}});
    for (BoneId last = 0, i = 0; i < 4; ++i) {
        rig.bones.push_back(rig.bones[0]);
        Bone& late = rig.bones.back();
        late.name = "late_" + std::to_string(i), late.parent = last;
        last = static_cast<BoneId>(rig.bones.size() - 1);
    }
    const Viewed viewed(rig);
    const GroupGraph graph = build_group_graph(viewed.subject);
    ASSERT_LT(graph.cards[1].place, graph.cards[0].place);
    EXPECT_EQ(find_card_levels(graph)[0], 0u);
    EXPECT_EQ(find_card_levels(graph)[1], 1u);
}

/// By place in the rig: what the levels say of a chain some of whose needs are off.
TEST(PlanView, WhatIsOffMakesNoLevel) {
    Rig rig = rig_of_groups({{"root", {}}, {"body", {0}}, {"leg", {0, 1}}}, false);
    const Viewed on(rig);
    EXPECT_EQ(find_card_levels(build_group_graph(on.subject)), (std::vector<std::uint32_t>{0, 1, 2}));
    rig.bones[2].constraints[0].enabled = false;
    const Viewed off(rig);
    EXPECT_EQ(find_card_levels(build_group_graph(off.subject)), (std::vector<std::uint32_t>{0, 1, 1}));
}

void expect_folded(const Viewed& viewed, const std::string& rule, std::size_t cards) {
    const GroupGraph graph = build_group_graph(viewed.subject);
    const FoldedGroups folded = fold_groups(viewed.subject, graph, 60);
    EXPECT_EQ(folded.rule, rule);
    EXPECT_EQ(folded.graph.cards.size(), cards);
    EXPECT_EQ(all_of(folded.graph), all_of(graph));
    std::set<std::uint32_t> groups;
    for (const GroupCard& card : folded.graph.cards)
        for (std::uint32_t g : card.groups) EXPECT_TRUE(groups.insert(g).second);
    EXPECT_EQ(groups.size(), viewed.subject.groups.size());
}

TEST(PlanView, FoldsNoMoreThanItMust) {
    const Viewed enough(hub(58));
    EXPECT_EQ(fold_groups(enough.subject, build_group_graph(enough.subject), 60).rule, "");

    // 118 plumes in pairs are 59 cards and one for root and body each: one too many, so threes are wanted
    expect_folded(Viewed(hub(116)),
                  "118 groups folded to 60: names that differ only in side or number share a card, up to 2 in one", 61);
    expect_folded(Viewed(hub(118)),
                  "120 groups folded to 42: names that differ only in side or number share a card, up to 3 in one", 43);

    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> sided;
    for (char c = 'a'; c < 'a' + 26; ++c)
        for (const char* side : {"_l", "_r", "_mid"}) sided.push_back({std::string("quill") + c + side, {}});
    const Viewed sides(rig_of_groups(sided, false));
    expect_folded(sides, "78 groups folded to 52: names that differ only in side or number share a card, up to 2 in one", 52);

    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> words;
    for (char c = 'a'; c < 'a' + 26; ++c)
        for (char d = 'a'; d < 'a' + 6; ++d) words.push_back({std::string("reed") + c + "_" + d + "q", {}});
    expect_folded(
        Viewed(rig_of_groups(words, false)),
        "156 groups folded to 52: names that differ only in side or number share a card, then names that begin with the "
        "same word, up to 3 in one",
        52);
}

TEST(PlanView, FoldedCardsHaveNamesOfTheirOwn) {
    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> groups;
    for (int i = 95; i < 305; ++i) groups.push_back({"plume_" + std::to_string(i), {}});
    const Viewed viewed(rig_of_groups(groups, false));
    const FoldedGroups folded = fold_groups(viewed.subject, build_group_graph(viewed.subject), 60);
    std::set<std::string> names;
    for (const GroupCard& card : folded.graph.cards) names.insert(card.name);
    EXPECT_EQ(names.size(), folded.graph.cards.size());
    EXPECT_EQ(folded.graph.cards[0].name, "plume_95\u201398");
    EXPECT_EQ(folded.graph.cards[1].name, "plume_99\u2013102");
    EXPECT_EQ(folded.graph.cards[2].name, "plume_103\u201306");
}

TEST(PlanView, FoldsTheSmallestByWhatTheyNeed) {
    std::vector<std::pair<std::string, std::vector<std::uint32_t>>> groups{{"root", {}}, {"body", {0}}};
    for (char c = 'a'; c < 'a' + 26; ++c)
        for (char d = 'a'; d < 'a' + 4; ++d) groups.push_back({std::string("z") + c + d + "t", {d < 'c' ? 0u : 1u}});
    const Viewed viewed(rig_of_groups(groups, false));
    expect_folded(
        viewed,
        "106 groups folded to 60: names that differ only in side or number share a card, then names that begin with the "
        "same word, then the smallest, by the group that they need most",
        60);
    const FoldedGroups folded = fold_groups(viewed.subject, build_group_graph(viewed.subject), 60);
    for (const GroupCard& card : folded.graph.cards) {
        std::set<BoneId> parents;
        for (std::uint32_t g : card.groups) parents.insert(viewed.judged.rig.bones[g].parent);
        EXPECT_EQ(parents.size(), 1u) << card.name;
    }
}

TEST(PlanView, SameRigSameSheet) {
    const Viewed one(mesh(40, 4)), other(mesh(40, 4));
    const Sheet a = one.sheet(Paper::a4), b = other.sheet(Paper::a4);
    EXPECT_EQ(write_svg(a, compose(a, Paper::a4)), write_svg(b, compose(b, Paper::a4)));
}

}  // namespace
}  // namespace ligament
