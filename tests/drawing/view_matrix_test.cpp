// Is there a mark for every need, in an order that keeps all of them below the diagonal but those of cycles?
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "digraph_rig.hpp"
#include "drawn.hpp"
#include "figures.hpp"
#include "random_rig.hpp"
#include "scene_rules.hpp"
#include "view_matrix.hpp"

namespace ligament::testing {
namespace {

constexpr Room a4{1047, 560}, letter{980, 580};

struct MatrixSheets {
    Judged judged;
    DrawingOptions options;
    Subject subject;
    Matrix matrix;
    std::vector<Sheet> sheets;

    explicit MatrixSheets(Judged of, Room room = a4)
        : judged(std::move(of)), subject(judged.rig, judged.dependencies, judged.facts, options), matrix(subject) {
        sheets = plan_of_matrix(subject, 0, room);
        for (const Sheet& sheet : sheets) expect_good(sheet, room);
    }
    std::string words() const {
        std::string all;
        for (const Sheet& sheet : sheets) {
            for (const std::string& line : sheet.subtitle) all += line + "\n";
            for (const Label& label : sheet.scene.labels) all += label.words + "\n";
        }
        return all;
    }
    std::size_t marks(Mark::Look look) const {
        std::size_t count = 0;
        for (const Mark& mark : sheets.at(0).scene.marks)
            if (mark.look == look) count += count_of(mark.path, "M");
        return count;
    }
};

/// Pairs of bones of which the first needs the second, from the graph itself: searched through everything that is no bone.
std::set<std::pair<BoneId, BoneId>> naive_needs(const Dependencies& dependencies) {
    const Graph& graph = dependencies.bone;
    std::set<std::pair<BoneId, BoneId>> needs;
    for (VertexId bone = 0; bone < graph.first_property; ++bone) {
        std::vector<VertexId> stack{bone};
        std::set<VertexId> seen;
        while (!stack.empty()) {
            const VertexId v = stack.back();
            stack.pop_back();
            for (const Edge& edge : graph.needs(v)) {
                if (dependencies.is_inert(edge)) continue;
                if (edge.from < graph.first_property)
                    needs.emplace(bone, edge.from);
                else if (seen.insert(edge.from).second)
                    stack.push_back(edge.from);
            }
        }
    }
    return needs;
}

void expect_right(const MatrixSheets& drawn) {
    const std::vector<std::size_t>& place = drawn.matrix.order.place;
    const auto needs = naive_needs(drawn.judged.dependencies);
    std::size_t below = 0, loud = 0;
    for (const auto& [bone, needed] : needs) {
        if (place[bone] > place[needed]) {
            ++below;
            continue;
        }
        ++loud;
        EXPECT_NE(drawn.subject.folded.vertices[bone].cycle, 0u);
        EXPECT_EQ(drawn.subject.folded.vertices[bone].cycle, drawn.subject.folded.vertices[needed].cycle) << "both in one cycle";
    }
    EXPECT_EQ(drawn.matrix.needs.all.size(), needs.size());
    for (const BoneNeed& need : drawn.matrix.needs.all) EXPECT_TRUE(needs.contains({need.bone, need.needed}));
    EXPECT_EQ(drawn.marks(Mark::Look::ink), below) << "a mark for each need below the diagonal";
    EXPECT_EQ(drawn.marks(Mark::Look::alarm), loud) << "and a loud one for each above";
    std::set<BoneId> all(drawn.matrix.order.bones.begin(), drawn.matrix.order.bones.end());
    EXPECT_EQ(all.size(), drawn.judged.rig.bones.size()) << "every bone once";
}

// That the matrix of a digraph can be brought to triangular form just when it has no cycle is a theorem of Harary, Norman and
// Cartwright, Structural Models (1965; from memory).
TEST(ViewMatrix, HasNothingAboveTheDiagonalWithoutCycles) {
    const MatrixSheets drawn{Judged(rig_of_legs(2, 3))};
    ASSERT_TRUE(drawn.judged.facts.cycles.empty());
    expect_right(drawn);
    EXPECT_EQ(drawn.marks(Mark::Look::alarm), 0u);
    EXPECT_TRUE(holds(drawn.words(), "nothing above the diagonal"));
}

TEST(ViewMatrix, MakesOneBlockOfALimb) {
    const MatrixSheets drawn{Judged(rig_of_legs(3, 3))};
    ASSERT_EQ(drawn.matrix.order.runs.size(), 4u) << "root and three legs";
    for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(drawn.matrix.order.runs[i].group, i);
    EXPECT_TRUE(holds(drawn.words(), "4 blocks of 4 groups"));
    EXPECT_TRUE(holds(drawn.words(), "leg_2"));
}

TEST(ViewMatrix, MarksEveryNeedOfRandomRigs) {
    for (unsigned seed = 1; seed <= 25; ++seed) {
        const MatrixSheets drawn{Judged(random_rig(seed))};
        SCOPED_TRACE(seed);
        expect_right(drawn);
    }
}

// tinyDG of Sedgewick and Wayne has five strong components, three of them with more than one vertex: 0 2 3 4 5, 6 8 and 9 to 12.
TEST(ViewMatrix, RingsTheStrongComponentsOfATextbookDigraph) {
    const MatrixSheets drawn{Judged(rig_of(tiny_dg()))};
    expect_right(drawn);
    EXPECT_EQ(drawn.marks(Mark::Look::alarm_line), 3u);
    std::multiset<std::size_t> sizes;
    for (const Cycle& cycle : drawn.judged.facts.cycles) {
        sizes.insert(cycle.bones.size());
        std::vector<std::size_t> places;
        for (BoneId bone : cycle.bones) places.push_back(drawn.matrix.order.place[bone]);
        const auto [low, high] = std::minmax_element(places.begin(), places.end());
        EXPECT_EQ(*high - *low + 1, places.size()) << "bones of a cycle stand together";
    }
    EXPECT_EQ(sizes, (std::multiset<std::size_t>{2, 4, 5}));
    EXPECT_TRUE(holds(drawn.words(), "cycle 3"));
}

TEST(ViewMatrix, FollowsDriversAndProperties) {
    const MatrixSheets drawn{
        Judged("{'name': 'slide'}, {'name': 'lift', 'channels': {'rotation.x': {'expression': 'p', 'inputs': "
               "{'p': {'property': 'amount'}}}}}",
               "'properties': [{'name': 'amount', 'value': {'expression': 's', 'inputs': {'s': {'bone': "
               "'slide', 'channel': 'position.x'}}}}]")};
    ASSERT_EQ(drawn.matrix.needs.all.size(), 1u);
    EXPECT_EQ(drawn.matrix.needs.all[0].bone, 1u);
    EXPECT_EQ(drawn.matrix.needs.all[0].needed, 0u);
    EXPECT_EQ(drawn.matrix.needs.all[0].kind, EdgeKind::driver);
}

TEST(ViewMatrix, LeavesOutWhatCountsForNothing) {
    const MatrixSheets drawn{
        Judged("{'name': 'a', 'constraints': [{'name': 'off', 'kind': 'transform', 'from': 'b', 'enabled': "
               "false}]}, {'name': 'b', 'parent': 'a'}")};
    expect_right(drawn);
    EXPECT_TRUE(holds(drawn.words(), "not marked: 1 dependency that counts for nothing"));
}

TEST(ViewMatrix, NamesRowsWhereTheyAreHighEnough) {
    const std::string wide(60, 'W');
    const MatrixSheets drawn(Judged("{'name': '" + wide + "\xe2\x80\xae<&', 'group': '" + wide + "'}, {'name': 'b', 'parent': '" +
                                    wide + "\xe2\x80\xae<&'}"),
                             letter);
    EXPECT_TRUE(holds(drawn.words(), "b 2\n"));
    EXPECT_FALSE(holds(drawn.words(), "\xe2\x80\xae"));
}

TEST(ViewMatrix, CountsBlocksThatAreTooSmallForAName) {
    const MatrixSheets drawn{Judged(rig_of_legs(90, 1))};
    EXPECT_TRUE(holds(drawn.words(), "91 blocks of 91 groups"));
    std::size_t named = 0;
    for (const Label& label : drawn.sheets[0].scene.labels) named += label.plate;
    EXPECT_LT(named, 91u);
    EXPECT_TRUE(holds(drawn.words(), std::to_string(91 - named) + " blocks without room for a name")) << named;
}

TEST(ViewMatrix, FoldsSeveralBonesIntoACell) {
    const MatrixSheets once{Judged(rig_of_legs(20, 10))};
    const std::size_t bones = once.judged.rig.bones.size();
    ASSERT_GT(bones, 800u);
    EXPECT_TRUE(holds(once.words(), "a cell stands for 4 bones")) << once.words().substr(0, 400);
    // One mark a cell of four by four bones that holds any need, off the diagonal.
    std::set<std::pair<std::size_t, std::size_t>> cells;
    for (const auto& [bone, needed] : naive_needs(once.judged.dependencies))
        cells.emplace(once.matrix.order.place[bone] / 4, once.matrix.order.place[needed] / 4);
    std::erase_if(cells, [](const auto& cell) { return cell.first == cell.second; });
    EXPECT_EQ(once.marks(Mark::Look::ink), cells.size());
    const Sheet again = plan_of_matrix(once.subject, 0, a4).at(0);
    EXPECT_EQ(write_svg(once.sheets[0], compose(once.sheets[0], Paper::a4)), write_svg(again, compose(again, Paper::a4)));
}

}  // namespace
}  // namespace ligament::testing
