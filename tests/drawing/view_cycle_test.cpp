// Does the view of a cycle tell every edge of the loop, and where it is cut?
#include <gtest/gtest.h>

#include <algorithm>

#include "digraph_rig.hpp"
#include "drawn.hpp"
#include "figures.hpp"
#include "scene_rules.hpp"
#include "view_cycle.hpp"

namespace ligament::testing {
namespace {

constexpr Room a4{1047, 560}, letter{980, 580};

struct CycleSheets {
    Judged judged;
    DrawingOptions options;
    std::vector<Sheet> sheets;

    explicit CycleSheets(Judged of, std::uint32_t cycle = 0, Room room = a4) : judged(std::move(of)) {
        const Subject subject(judged.rig, judged.dependencies, judged.facts, options);
        sheets = plan_of_cycle(subject, cycle, room);
        for (const Sheet& sheet : sheets) expect_good(sheet, room);
    }
    /// All that is said in words, a line each.
    std::string words() const {
        std::string all;
        for (const Sheet& sheet : sheets)
            for (const Label& label : sheet.scene.labels) all += label.words + "\n";
        return all;
    }
};

/// A ring of bones, each constrained to the one before, with a switch that gates the first constraint.
Rig ring_of(std::size_t count, const std::string& stem) {
    std::string bones;
    for (std::size_t i = 0; i < count; ++i) {
        const std::string before = stem + std::to_string((i + count - 1) % count);
        bones += (i > 0 ? "," : "") + std::string("{'name': '") + stem + std::to_string(i) +
                 "', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': '" + before + "'}]}";
    }
    return tiny_rig(bones);
}

TEST(ViewCycle, TellsEveryEdgeWithItsNumberMakerAndLine) {
    const CycleSheets drawn(
        Judged("{'name': 'a', 'constraints': [{'name': 'look', 'kind': 'rotation', 'from': 'c'}]},\n"
               "{'name': 'b', 'parent': 'a'},\n"
               "{'name': 'c', 'parent': 'b'}"));
    ASSERT_EQ(drawn.sheets.size(), 1u);
    const std::vector<FoldedEdge>& witness = drawn.judged.facts.cycles[0].witness;
    ASSERT_EQ(witness.size(), 3u);
    const std::string words = drawn.words();
    for (std::size_t i = 0; i < witness.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        EXPECT_EQ(count_of("\n" + words, "\n" + number + "\n"), 1u) << "the number on edge " << number;
        const std::string arrow =
            number + " " + drawn.judged.rig.bones[witness[i].from].name + " -> " + drawn.judged.rig.bones[witness[i].to].name;
        EXPECT_TRUE(holds(words, arrow)) << arrow << " in\n" << words;
        const Place place = place_of(drawn.judged.rig, drawn.judged.dependencies, witness[i].maker);
        const std::string made = name_of(drawn.judged.rig, drawn.judged.dependencies, witness[i].maker) + ", line " +
                                 std::to_string(place.line) + ":" + std::to_string(place.column);
        EXPECT_TRUE(holds(words, made)) << made << " in\n" << words;
    }
    EXPECT_TRUE(holds(words, "constraint a/look, line 1:"));
    // Two strokes an edge, before its number and after it.
    std::size_t heavy = 0, heads = 0;
    for (const Stroke& stroke : drawn.sheets[0].scene.strokes)
        heavy += stroke.witness, heads += stroke.witness && !stroke.headless;
    EXPECT_EQ(heavy, 6u);
    EXPECT_EQ(heads, 3u);
}

TEST(ViewCycle, NumbersFollowTheDirectionOfTravel) {
    const CycleSheets drawn(Judged(ring_of(5, "reed_")));
    const Scene& scene = drawn.sheets.at(0).scene;
    ASSERT_EQ(scene.nodes.size(), 5u);
    ASSERT_EQ(scene.strokes.size(), 10u);
    for (std::size_t i = 0; i < 5; ++i) {
        const Stroke &after = scene.strokes[2 * i], &before = scene.strokes[2 * i + 1];
        EXPECT_EQ(before.from, i) << "from its bone to the number";
        EXPECT_EQ(after.to, (i + 1) % 5) << "and on to the next one";
        EXPECT_EQ(scene.nodes[i].about.id, drawn.judged.facts.cycles[0].witness[i].from);
    }
    // The upper row runs to the right, the lower one back.
    EXPECT_LT(scene.nodes[0].rect.x, scene.nodes[1].rect.x);
    EXPECT_LT(scene.nodes[2].rect.y, scene.nodes[3].rect.y);
    EXPECT_GT(scene.nodes[3].rect.x, scene.nodes[4].rect.x);
}

TEST(ViewCycle, MarksTheCutOnItsEdgeAndTellsItsCost) {
    // Of the two makers the constraint costs 2 and the parent link 8.
    const CycleSheets drawn(
        Judged("{'name': 'a', 'constraints': [{'name': 'look', 'kind': 'transform', 'from': 'b'}]},"
               "{'name': 'b', 'parent': 'a'}"));
    const Scene& scene = drawn.sheets.at(0).scene;
    ASSERT_EQ(scene.signs.size(), 1u);
    const std::string words = drawn.words();
    EXPECT_TRUE(holds(words, "cut 1, costs 2\n")) << "the plate on the edge";
    EXPECT_TRUE(holds(words, "cheapest cut: costs 2, none costs less\n")) << words;
    EXPECT_TRUE(holds(words, "cut 1, costs 2: constraint a/look, line 1:"));
    EXPECT_FALSE(holds(words, "not on this loop"));
    // The bars stand on the way of the edge that the constraint makes.
    const Point bars = scene.signs[0].extent.centre();
    bool on_its_edge = false;
    for (const Stroke& stroke : scene.strokes) {
        if (stroke.to == none || scene.nodes[stroke.to].box.name != "a") continue;  // from the number to a
        for (int i = 0; i <= 200; ++i) {
            const Point at = point_at(stroke.curve, i / 200.0);
            on_its_edge = on_its_edge || std::hypot(at.x - bars.x, at.y - bars.y) < 2;
        }
    }
    EXPECT_TRUE(on_its_edge);
}

TEST(ViewCycle, TellsWhatACutTakesFromDeformBones) {
    const CycleSheets drawn(
        Judged("{'name': 'hand', 'roles': ['control'], 'constraints': "
               "[{'name': 'hold', 'kind': 'transform', 'from': 'bar'}]},"
               "{'name': 'bar', 'parent': 'hand', 'from_parent': ['rotation', 'scale']},"
               "{'name': 'skin', 'roles': ['deform'], 'parent': 'bar'}"));
    const CycleCuts& cuts = drawn.judged.facts.cuts.at(0);
    const std::string words = drawn.words();
    for (const CutLoss& loss : cuts.cut.loses)
        EXPECT_TRUE(holds(words, "deform bone " + drawn.judged.rig.bones[loss.bone].name + " loses ")) << words;
    EXPECT_EQ(holds(words, "no deform bone loses a control by it"), cuts.cut.loses.empty());
}

TEST(ViewCycle, ListsCutsThatAreNotOnTheLoop) {
    // Two loops that share one bone: no maker lies on both, so the cut needs one beside the witness.
    const CycleSheets drawn(
        Judged("{'name': 'a', 'constraints': [{'name': 'p', 'kind': 'transform', 'from': 'b'},"
               "{'name': 'q', 'kind': 'position', 'from': 'c'}]},"
               "{'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'a'}"));
    ASSERT_EQ(drawn.judged.facts.cuts.at(0).cut.makers.size(), 2u);
    EXPECT_EQ(count_of(drawn.words(), "not on this loop"), 1u) << drawn.words();
    EXPECT_EQ(drawn.sheets.at(0).scene.signs.size(), 2u) << "the other one stands on the rest of the component";
    std::size_t faint = 0;
    for (const Node& node : drawn.sheets[0].scene.nodes) faint += node.faint;
    EXPECT_GE(faint, 1u);
}

TEST(ViewCycle, GoesOnToFurtherSheetsWithWhereItComesFrom) {
    const CycleSheets drawn(Judged(ring_of(41, "a_reed_with_a_name_that_is_rather_long_for_a_bone_")));
    std::vector<bool> seen(41);
    std::size_t faint = 0, with_track = 0;
    for (const Sheet& sheet : drawn.sheets) {
        with_track += !sheet.scene.nodes.empty();
        for (const Node& node : sheet.scene.nodes) {
            if (node.faint) {
                ++faint;
                EXPECT_TRUE(node.box.word.starts_with("on sheet ")) << node.box.word;
            } else {
                EXPECT_FALSE(seen[node.about.id]) << "twice";
                seen[node.about.id] = true;
            }
        }
    }
    EXPECT_EQ(std::count(seen.begin(), seen.end(), true), 41);
    EXPECT_GE(with_track, 2u);
    EXPECT_EQ(faint, 2 * with_track);
    EXPECT_TRUE(holds(drawn.sheets[1].title, "(2 of "));
    EXPECT_TRUE(holds(drawn.words(), "41 \u2068a_reed"));
}

TEST(ViewCycle, FoldsAVeryLongLoopAndSaysSo) {
    const CycleSheets drawn(Judged(ring_of(300, "reed_")));
    std::size_t shown = 0, not_drawn = 0;
    for (const Sheet& sheet : drawn.sheets)
        for (const Node& node : sheet.scene.nodes) shown += !node.faint, not_drawn += node.box.word == "not drawn";
    EXPECT_EQ(not_drawn, 2u) << "before the gap and after it";
    const std::string& line = drawn.sheets[0].subtitle.back();
    ASSERT_TRUE(holds(line, " of the loop are not drawn")) << line;
    const std::size_t first = std::stoul(line.substr(6)), last = std::stoul(line.substr(line.find(" to ") + 4));
    EXPECT_EQ(shown + last - first + 1, 300u);
    EXPECT_TRUE(holds(drawn.words(), "showing 120 of 300 edges"));
}

TEST(ViewCycle, NamesWhatIsTooMuchToDraw) {
    // The complete digraph: a loop of two, and all others around it.
    const CycleSheets drawn(Judged(rig_of(complete(45))), 0, letter);
    const std::string words = drawn.words();
    EXPECT_TRUE(holds(words, "not drawn: 43 more of the component")) << words;
    EXPECT_TRUE(holds(words, "showing 40 of 43"));
}

TEST(ViewCycle, DrawsLoopsOfPropertiesAsCapsules) {
    const CycleSheets drawn(Judged("{'name': 'a'}",
                                   "'properties': [{'name': 'alert', 'value': {'expression': 'c', 'inputs': "
                                   "{'c': {'property': 'calm'}}}}, {'name': 'calm', 'value': {'expression': "
                                   "'1 - a', 'inputs': {'a': {'property': 'alert'}}}}]"));
    const Scene& scene = drawn.sheets.at(0).scene;
    ASSERT_EQ(scene.nodes.size(), 2u);
    for (const Node& node : scene.nodes) EXPECT_EQ(node.box.shape, Shape::property);
    EXPECT_EQ(scene.nodes[0].about.kind, About::Kind::property);
    EXPECT_TRUE(holds(drawn.words(), "1 alert -> calm"));
}

TEST(ViewCycle, DrawsABoneThatNeedsItself) {
    const CycleSheets drawn(Judged("{'name': 'a', 'constraints': [{'name': 'me', 'kind': 'transform', 'from': 'a'}]}"));
    ASSERT_EQ(drawn.sheets.at(0).scene.nodes.size(), 1u);
    EXPECT_TRUE(holds(drawn.words(), "1 a -> a")) << drawn.words();
}

TEST(ViewCycle, KeepsToTheRoomWithHostileNames) {
    const std::string wide(70, 'W');
    const CycleSheets drawn(Judged("{'name': '" + wide + "\xe2\x80\xae<&\xe6\xb1\xbd " + wide +
                                   "', 'roles': ['deform'], 'constraints': [{'name': '" + wide +
                                   "', 'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': '" + wide +
                                   "\xe2\x80\xae<&\xe6\xb1\xbd " + wide + "'}"));
    EXPECT_EQ(drawn.sheets.size(), 1u);
    EXPECT_FALSE(holds(drawn.words(), "\xe2\x80\xae"));
}

TEST(ViewCycle, IsTheSameEveryTime) {
    const CycleSheets once(Judged(ring_of(9, "reed_"))), again(Judged(ring_of(9, "reed_")));
    EXPECT_EQ(write_svg(once.sheets[0], compose(once.sheets[0], Paper::a4)),
              write_svg(again.sheets[0], compose(again.sheets[0], Paper::a4)));
}

}  // namespace
}  // namespace ligament::testing
