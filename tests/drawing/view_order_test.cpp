#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "sheets.hpp"
#include "view_order_columns.hpp"

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

/// "level 9" of the lane that holds a point.
std::uint32_t level_at(const Scene& scene, Point at) {
    for (const Backdrop& lane : scene.backdrops) {
        if (lane.look != Backdrop::Look::lane || !lane.rect.contains({at.x, at.y, 0, 0})) continue;
        for (const Label& label : scene.labels)
            if (label.words.starts_with("level ") && lane.rect.contains(label.extent()))
                return static_cast<std::uint32_t>(std::stoul(label.words.substr(6)));
    }
    return 0;
}

bool is_in_alarm_lane(const Scene& scene, Point at) {
    return std::any_of(scene.backdrops.begin(), scene.backdrops.end(), [&](const Backdrop& lane) {
        return lane.look == Backdrop::Look::alarm_lane && lane.rect.contains({at.x, at.y, 0, 0});
    });
}

void expect_each_bone_once_at_its_level(const Viewed& viewed, Paper paper) {
    const std::vector<Sheet> sheets = viewed.sheets(View::order, paper);
    const std::map<BoneId, std::size_t> count = bones_on(sheets);
    EXPECT_EQ(count.size(), viewed.judged.rig.bones.size());
    for (const auto& [bone, times] : count) EXPECT_EQ(times, 1u) << viewed.judged.rig.bones[bone].name;
    const std::vector<std::uint32_t>& level = viewed.judged.facts.order.level;
    for (const Sheet& sheet : sheets) {
        for (const Node& node : sheet.scene.nodes) EXPECT_EQ(level_at(sheet.scene, node.rect.centre()), level[node.about.id]);
        for (const Label& label : sheet.scene.labels) {
            if (label.about.kind != About::Kind::bone) continue;
            if (is_in_alarm_lane(sheet.scene, label.at))
                EXPECT_TRUE(label.words.ends_with(" \u00b7 " + std::to_string(level[label.about.id]))) << label.words;
            else
                EXPECT_EQ(level_at(sheet.scene, label.at), level[label.about.id]) << label.words;
        }
    }
}

TEST(OrderView, EachBoneStandsOnceAtItsLevel) {
    for (const char* name : {"heron", "heron-faulty"}) {
        const Viewed viewed{Judged(example(name))};
        for (Paper paper : {Paper::a4, Paper::a3, Paper::letter}) expect_each_bone_once_at_its_level(viewed, paper);
    }
    expect_each_bone_once_at_its_level(Viewed{Judged(rig_of_legs(20, 8))}, Paper::a4);
    expect_each_bone_once_at_its_level(Viewed{Judged(chain_of(300))}, Paper::a4);
    expect_each_bone_once_at_its_level(Viewed{Judged("{'name': 'alone'}")}, Paper::a4);
}

TEST(OrderView, ALevelTooWideForAPageGoesOn) {
    Rig rig = chain_of(2);
    for (int i = 0; i < 1500; ++i) {
        rig.bones.emplace_back().name = "feather_of_a_long_name_" + std::to_string(i);
        rig.bones.back().parent = 0;
    }
    const Viewed viewed{Judged(rig)};
    expect_each_bone_once_at_its_level(viewed, Paper::a4);
    const std::vector<Sheet> sheets = viewed.sheets(View::order);
    ASSERT_GT(sheets.size(), 2u);
    EXPECT_TRUE(holds(words_of(sheets[1]), "level 2 (continued)\n1501 bones\n"));
    EXPECT_EQ(sheets[1].name, "order-2");
    EXPECT_TRUE(holds(sheets[1].title, "(2 of " + std::to_string(sheets.size()) + ")"));
}

TEST(OrderView, TheLongestChainIsBoxesJoinedByLines) {
    const Viewed viewed{Judged(example("heron"))};
    const std::vector<BoneId>& chain = viewed.judged.facts.order.longest_chain;
    for (Paper paper : {Paper::a4, Paper::a3}) {
        std::vector<BoneId> boxes;
        for (const Sheet& sheet : viewed.sheets(View::order, paper)) {
            for (const Node& node : sheet.scene.nodes) boxes.push_back(node.about.id);
            for (std::size_t i = 0; i < sheet.scene.strokes.size(); ++i) {
                const Stroke& stroke = sheet.scene.strokes[i];
                // the first line of a further sheet comes from the margin
                EXPECT_EQ(stroke.from == none, boxes.size() > sheet.scene.nodes.size() && i == 0);
                EXPECT_EQ(stroke.from == none ? 0 : stroke.from + 1, stroke.to);
            }
        }
        EXPECT_EQ(boxes, chain);
    }
}

TEST(OrderView, TheProfileHasABarALevel) {
    const Viewed viewed{Judged(example("heron"))};
    const auto& levels = viewed.judged.facts.order.levels;
    for (const Sheet& sheet : viewed.sheets(View::order)) {
        std::vector<std::string> bars;
        for (const Backdrop& backdrop : sheet.scene.backdrops)
            if (backdrop.hover.starts_with("level ")) bars.push_back(backdrop.hover);
        ASSERT_EQ(bars.size(), levels.size());
        for (std::size_t l = 0; l < levels.size(); ++l)
            EXPECT_EQ(bars[l], "level " + std::to_string(l + 1) + ": " + std::to_string(levels[l].size()) +
                                   (levels[l].size() == 1 ? " bone" : " bones"));
    }
}

TEST(OrderView, CyclesAndWhatWaitsForThemStandApart) {
    const Viewed viewed{
        Judged("{'name': 'a', 'constraints': [{'kind': 'transform', 'from': ['b']}]},"
               "{'name': 'b', 'constraints': [{'kind': 'transform', 'from': ['a']}]},"
               "{'name': 'free'}, {'name': 'late', 'parent': 'b'}, {'name': 'later', 'parent': 'late'}, {'name': 'too', "
               "'parent': 'b'}")};
    const std::vector<Sheet> sheets = viewed.sheets(View::order);
    ASSERT_EQ(sheets.size(), 1u);
    const std::string words = words_of(sheets[0]);
    EXPECT_TRUE(holds(words, "in cycle 1: 1 bone and 1 on the longest chain\n")) << words;
    EXPECT_TRUE(holds(words, "waits for cycle 1: 1 bone\ntoo \u00b7 2\n")) << words;
    std::vector<std::string> boxes;
    for (const Node& node : sheets[0].scene.nodes) boxes.push_back(node.box.name + ": " + node.box.word);
    ASSERT_EQ(boxes.size(), 3u);
    EXPECT_EQ(boxes[1], "late: mechanism, waits");
    EXPECT_EQ(boxes[2], "later: mechanism, waits");
    EXPECT_TRUE(sheets[0].scene.nodes[0].box.has(Badge::Kind::cycle));
    EXPECT_TRUE(holds(sheets[0].subtitle.back(), "no order for 2 bones in cycles and 3 waiting for them"));
}

TEST(OrderView, WaitsForSeveralCycles) {
    const Viewed viewed{Judged(
        "{'name': 'a', 'constraints': [{'kind': 'aim', 'from': ['b']}]}, {'name': 'b', 'constraints': [{'kind': 'aim', 'from': "
        "['a']}]},"
        "{'name': 'c', 'constraints': [{'kind': 'aim', 'from': ['d']}]}, {'name': 'd', 'constraints': [{'kind': 'aim', 'from': "
        "['c']}]},"
        "{'name': 'x', 'parent': 'a'}, {'name': 'y', 'parent': 'x'},"
        "{'name': 'both', 'parent': 'b', 'constraints': [{'kind': 'aim', 'from': ['d']}]}, {'name': 'one', 'parent': 'd'}")};
    const std::string words = words_of(viewed.sheets(View::order)[0]);
    EXPECT_TRUE(holds(words, "waits for cycle 2: 1 bone\none \u00b7 2\n")) << words;
    EXPECT_TRUE(holds(words, "waits for cycles 1, 2: 1 bone\nboth \u00b7 2\n")) << words;
}

TEST(OrderView, ManyBonesAreCountedByGroup) {
    Rig rig = chain_of(300);
    for (std::size_t i = 0; i < 5000; ++i) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "barb_" + std::to_string(i);
        bone.group = "plume_" + std::to_string(i % 20);
        bone.parent = static_cast<BoneId>(i % 7);
    }
    const Viewed viewed{Judged(rig)};
    const OrderPlan plan = plan_columns(viewed.subject);
    EXPECT_LE(plan.levels.size(), most_columns);
    std::size_t bones = 0;
    for (const OrderLevel& level : plan.levels) {
        bones += level.bones;
        EXPECT_LE(level.rows.size(), most_groups_named + 1);
    }
    EXPECT_EQ(bones, rig.bones.size());
    const std::vector<Sheet> sheets = viewed.sheets(View::order, Paper::a3);
    EXPECT_LT(sheets.size(), 8u);
    EXPECT_EQ(sheets[0].subtitle[1],
              "above 5000 bones a level is counted by group, its 12 largest groups named; 300 levels told in 150 columns");
    EXPECT_TRUE(holds(words_of(sheets[0]), "plume_0 \u00d7"));
    EXPECT_TRUE(holds(words_of(sheets[0]), " of 9 more groups\n"));
}

TEST(OrderView, SlackIsToldInTheHover) {
    const Viewed viewed{Judged("{'name': 'a'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'd'}")};
    const auto time_in = [](const std::string& hover) { return hover.substr(hover.find("\nlevel")); };
    const Sheet sheet = viewed.sheets(View::order)[0];
    std::set<std::string> said;
    for (const Label& label : sheet.scene.labels)
        if (label.about.kind == About::Kind::bone) said.insert(time_in(label.hover));
    EXPECT_EQ(said, (std::set<std::string>{"\nlevel 1\nslack 2: may start so many bones later"}));
    EXPECT_EQ(time_in(sheet.scene.nodes[2].box.hover), "\nlevel 3\nno slack: started later, all is done later");
}

TEST(OrderView, TwiceTheSame) {
    const Rig rig = example("heron-faulty");
    EXPECT_EQ(dump_of(Viewed{Judged(rig)}.sheets(View::order)), dump_of(Viewed{Judged(rig)}.sheets(View::order)));
}

}  // namespace
}  // namespace ligament
