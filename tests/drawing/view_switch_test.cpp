#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "sheets.hpp"
#include "view_switch_rows.hpp"

namespace ligament {
namespace {

using testing::dump_of;
using testing::example;
using testing::holds;
using testing::Judged;
using testing::Viewed;
using testing::words_of;

std::string driven(const std::string& expression, const std::string& property) {
    return "{'expression': '" + expression + "', 'inputs': {'s': {'property': '" + property + "'}}}";
}

Viewed small_switch() {
    return Viewed{
        Judged("{'name': 'root', 'roles': ['control']}, {'name': 'fk', 'roles': ['control'], 'parent': 'root', 'group': 'wing'},"
               "{'name': 'mech', 'group': 'wing', 'channels': {'scale.x': " +
                   driven("1 + s", "mode") + ", 'scale.y': " + driven("1 + s", "mode") +
                   "}, 'constraints': [{'name': 'hold', 'kind': 'transform', 'from': ['root']},"
                   "{'name': 'take', 'kind': 'transform', 'from': ['fk'], 'weight': " +
                   driven("s", "mode") +
                   "}]}, {'name': 'plume', 'roles': ['deform'], 'group': 'wing', 'constraints': [{'kind': 'transform', 'from': "
                   "['mech']}]}",
               "'properties': [{'name': 'mode', 'on': 'root', 'min': 0, 'max': 1, 'stops': {'ik': 0, 'fk': 1}},"
               "{'name': 'half', 'on': 'root', 'value': " +
                   driven("s / 2", "mode") + "}, {'name': 'idle', 'on': 'root'}]")};
}

TEST(SwitchView, SaysWhatIsDrivenGatedAndMoved) {
    const Viewed viewed = small_switch();
    const std::vector<Sheet> sheets = viewed.sheets(View::switches);
    ASSERT_EQ(sheets.size(), 1u);  // of three properties one drives something
    EXPECT_EQ(sheets[0].subject, 0u);
    EXPECT_EQ(sheets[0].name, "switch-01-mode");
    EXPECT_EQ(sheets[0].subtitle[0],
              "drives 1 weight, 2 channels, 1 property \u00b7 gates 1 constraint \u00b7 can move 2 bones, 1 of them deform");
    EXPECT_EQ(words_of(sheets[0]),
              "on\nroot\ndefault 0\nfrom 0 to 1\nstop ik = 0 (default)\nstop fk = 1\n"
              "1 + s\ns: mode\nscale.x, scale.y\nmech\n"
              "s\ns: mode\ntake, transform, 2 of 2\nmech\n"
              "s / 2\ns: mode\nits value\nhalf\n"
              "wing: 2 bones, 1 deform\nplume\n"
              "property\nthrough drivers\nbone or property\nconstraint, kind, place\nmoves\n");
    const Node& property = sheets[0].scene.nodes[0];
    EXPECT_EQ(property.box.shape, Shape::property);
    EXPECT_EQ(property.box.word, "switch");
}

TEST(SwitchView, APropertyThatDrivesNothingSaysSo) {
    const Viewed all = small_switch();
    DrawingOptions options;
    options.property = 2;
    const Viewed viewed{Judged(all.judged.rig), options};
    const std::vector<Sheet> sheets = viewed.sheets(View::switches);
    ASSERT_EQ(sheets.size(), 1u);
    EXPECT_EQ(sheets[0].subtitle,
              std::vector<std::string>{"it drives nothing that counts: no weight, no channel, no other property"});
    EXPECT_EQ(sheets[0].scene.nodes.size(), 1u);
}

TEST(SwitchView, ARigWithoutPropertiesHasNoPages) {
    EXPECT_TRUE((Viewed{Judged("{'name': 'a'}")}.sheets(View::switches).empty()));
}

/// How many weights, channels and properties a sheet names; channels of one bone stand in one line.
std::size_t targets_on(const Sheet& sheet) {
    std::size_t count = 0;
    for (const Label& label : sheet.scene.labels) {
        if (label.hover.empty() || label.tone != Tone::quiet) continue;
        const bool are_channels =
            label.hover.starts_with("position.") || label.hover.starts_with("rotation.") || label.hover.starts_with("scale.");
        count += 1 + (are_channels ? testing::count_of(label.hover, ", ") : 0);
    }
    return count;
}

TEST(SwitchView, EveryTargetHasItsBoxOrItsWord) {
    for (const char* name : {"heron", "heron-faulty"}) {
        const Viewed viewed{Judged(example(name))};
        std::map<std::uint32_t, std::size_t> drawn;
        for (const Sheet& sheet : viewed.sheets(View::switches)) drawn[sheet.subject] += targets_on(sheet);
        for (const FanOut& fan : viewed.judged.facts.fan_out) EXPECT_EQ(drawn[fan.property], fan.targets()) << fan.property;
    }
}

/// A run of feathers, each gated, but for those that are left out.
Rig run_of(unsigned count, const std::set<unsigned>& left_out) {
    Rig rig;
    rig.name = "run";
    rig.bones.emplace_back().name = "hand";
    rig.bones.back().control = true;
    rig.properties.emplace_back().name = "spread";
    rig.properties.back().on = 0;
    for (unsigned i = 0; i < count; ++i) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "feather_" + std::to_string(i);
        bone.parent = static_cast<BoneId>(rig.bones.size() - 2);
        bone.group = "fan_" + std::to_string(i / 50);
        Constraint& constraint = bone.constraints.emplace_back();
        constraint.name = "follow", constraint.kind = ConstraintKind::rotation;
        constraint.sources.emplace_back().bone = 0;
        if (left_out.contains(i)) continue;
        constraint.weight.driver = static_cast<DriverId>(rig.drivers.size());
        Driver& driver = rig.drivers.emplace_back();
        driver.expression = "spread";
        driver.inputs.push_back({.name = "spread", .property = 0, .place = {}});
    }
    return rig;
}

TEST(SwitchView, GapsStandInTheirPlaceInTheRun) {
    const Viewed viewed{Judged(run_of(6, {0, 3}))};
    ASSERT_EQ(viewed.judged.facts.switches.gaps.size(), 2u);
    const Sheet sheet = viewed.sheets(View::switches)[0];
    std::vector<std::pair<double, std::string>> column;
    for (const Label& label : sheet.scene.labels)
        if (holds(label.words, "feather_")) column.emplace_back(label.at.y, label.words);
    std::sort(column.begin(), column.end());
    ASSERT_EQ(column.size(), 6u);
    EXPECT_EQ(column[0].second, "gap feather_0");
    EXPECT_EQ(column[1].second, "feather_1");
    EXPECT_EQ(column[3].second, "gap feather_3");
    EXPECT_TRUE(holds(words_of(sheet), "follow, rotation, 1 of 1, not driven\n"));
    EXPECT_EQ(sheet.scene.nodes.size(), 2u + 4u);  // the property, its driver and the members that are driven: none for a gap
    EXPECT_EQ(sheet.scene.marks.size(), 1u + 2u * 2u + 2u);  // sign of the bone it is on; outline and hatch; bracket and arrow
    EXPECT_TRUE(sheet.subtitle[1].starts_with("2 gaps: "));
    EXPECT_TRUE(std::any_of(sheet.legend.begin(), sheet.legend.end(),
                            [](const LegendEntry& entry) { return entry.text.starts_with("gap: "); }));
}

TEST(SwitchView, FiveHundredTargetsAreFoldedByGroup) {
    const Viewed viewed{Judged(run_of(500, {77}))};
    const SwitchPlan plan = plan_targets(viewed.subject, 0);
    EXPECT_TRUE(plan.is_folded);
    ASSERT_EQ(plan.cards.size(), 1u);
    std::size_t counted = 0, gaps = 0;
    for (const DriveTarget& target : plan.cards[0].targets) {
        gaps += target.kind == DriveTarget::Kind::gap;
        if (target.kind == DriveTarget::Kind::folded) counted += std::stoul(target.words.substr(target.words.find("\u00d7") + 2));
    }
    EXPECT_EQ(counted, 499u);
    EXPECT_EQ(gaps, 1u);
    const std::vector<Sheet> sheets = viewed.sheets(View::switches);
    EXPECT_EQ(sheets.size(), 1u);
    EXPECT_EQ(sheets[0].subtitle.back(), "more than 60 targets: those of one group that are alike are counted as one");
}

TEST(SwitchView, WhatDoesNotGoOntoAPageGoesOn) {
    const Viewed viewed{Judged(run_of(55, {}))};
    const std::vector<Sheet> sheets = viewed.sheets(View::switches);
    ASSERT_EQ(sheets.size(), 3u);
    std::size_t boxes = 0;
    for (const Sheet& sheet : sheets) {
        for (const Node& node : sheet.scene.nodes) boxes += node.about.kind == About::Kind::bone;
        EXPECT_EQ(sheet.scene.nodes[0].box.name, "spread");
    }
    EXPECT_EQ(boxes, 55u);
    EXPECT_TRUE(holds(words_of(sheets[2]), "moves: on a page before\n"));
}

/// Whether two lines of right angles cross in the open: not end to end, and not along each other.
bool cross(const Stroke& one, const Stroke& other) {
    const auto corners = [](const Stroke& stroke) {
        std::vector<Point> points = stroke.curve.points;
        points.push_back(stroke.curve.tip);
        return points;
    };
    const std::vector<Point> a = corners(one), b = corners(other);
    for (std::size_t i = 1; i < a.size(); ++i)
        for (std::size_t k = 1; k < b.size(); ++k) {
            const bool a_across = std::abs(a[i].y - a[i - 1].y) < 0.01, b_across = std::abs(b[k].y - b[k - 1].y) < 0.01;
            if (a_across == b_across) continue;
            const auto [h0, h1, v0, v1] =
                a_across ? std::tuple{a[i - 1], a[i], b[k - 1], b[k]} : std::tuple{b[k - 1], b[k], a[i - 1], a[i]};
            const bool inside_h = v0.x > std::min(h0.x, h1.x) + 0.1 && v0.x < std::max(h0.x, h1.x) - 0.1;
            const bool inside_v = h0.y > std::min(v0.y, v1.y) + 0.1 && h0.y < std::max(v0.y, v1.y) - 0.1;
            if (inside_h && inside_v) return true;
        }
    return false;
}

TEST(SwitchView, NoLinesCross) {
    for (const char* name : {"heron", "heron-faulty"})
        for (Paper paper : {Paper::a4, Paper::a3, Paper::letter})
            for (const Sheet& sheet : Viewed{Judged(example(name))}.sheets(View::switches, paper))
                for (std::size_t i = 0; i < sheet.scene.strokes.size(); ++i)
                    for (std::size_t k = i + 1; k < sheet.scene.strokes.size(); ++k)
                        EXPECT_FALSE(cross(sheet.scene.strokes[i], sheet.scene.strokes[k])) << sheet.title;
}

TEST(SwitchView, LongAndStrangeNamesStayInTheirPlace) {
    Rig rig = run_of(70, {5});
    const std::string strange = "\u202e<b>&\"'\t" + std::string(300, 'x') + "\u9db4\u9db4\u9db4";
    for (Bone& bone : rig.bones) bone.name += strange, bone.group += strange;
    for (int i = 0; i < 30; ++i) {
        Bone& loose = rig.bones.emplace_back();
        loose.name = std::to_string(i) + strange, loose.group = strange, loose.deform = true;
    }
    rig.properties[0].name += strange;
    for (std::size_t i = 0; i < 40; ++i)
        rig.properties[0].stops.emplace_back(strange + std::to_string(i), static_cast<double>(i));
    rig.name = strange;
    const Viewed viewed{Judged(rig)};
    for (Paper paper : {Paper::a4, Paper::a3, Paper::letter}) {
        for (const Sheet& sheet : viewed.sheets(View::switches, paper))
            EXPECT_EQ(sheet.name.find_first_of("<>&/ \t"), sheet.name.npos);
        viewed.sheets(View::order, paper);
        viewed.sheets(View::reach, paper);
    }
}

TEST(SwitchView, TwiceTheSame) {
    const Rig rig = example("heron-faulty");
    EXPECT_EQ(dump_of(Viewed{Judged(rig)}.sheets(View::switches)), dump_of(Viewed{Judged(rig)}.sheets(View::switches)));
}

}  // namespace
}  // namespace ligament
