#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>
#include <set>
#include <sstream>

#include "bounded.hpp"
#include "drawn.hpp"
#include "layout.hpp"
#include "ligament/read.hpp"
#include "ports.hpp"
#include "scene_rules.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {
namespace {

using testing::Judged;

/// In a child process, as drawing does it: what Graphviz leaks is then no leak of ours.
std::string in_child(const BoundedWork& work) {
    const BoundedResult result = run_bounded({work}, std::chrono::minutes(2), 1).at(0);
    return result.bytes ? *result.bytes : result.timed_out ? "timed out" : result.error;
}

Judged demo(const char* name) {
    const ReadResult read = read_rig_file(std::string(LIGAMENT_SOURCE_DIR "/examples/") + name);
    EXPECT_TRUE(read.rig);
    return Judged(*read.rig);
}

/// All that is wrong with the pages of all groups on a paper.
std::string faults_of_groups(const Judged& judged, Paper paper, const DrawingOptions& options = {}) {
    return in_child([&] {
        const Subject subject(judged.rig, judged.dependencies, judged.facts, options);
        std::string faults;
        for (std::uint32_t group : groups_to_draw(subject)) {
            std::vector<int> drawn(judged.rig.bones.size(), 0);
            for (const Sheet& sheet : plan_of_group(subject, group, room_on(paper))) {
                const std::string found = testing::faults_of(sheet, room_on(paper)) + testing::faults_of_page(sheet, paper);
                if (!found.empty()) faults += sheet.title + ": " + found;
                for (const Node& node : sheet.scene.nodes)
                    if (node.about.kind == About::Kind::bone) ++drawn[node.about.id];
            }
            for (BoneId b = 0; b < drawn.size() && !options.around; ++b)
                if (drawn[b] != (subject.group_of[b] == group))
                    faults += judged.rig.bones[b].name + " is drawn " + std::to_string(drawn[b]) + " times\n";
        }
        return faults;
    });
}

TEST(ViewGroup, EachBoneOnceAndNothingOverlaps) {
    for (const char* rig : {"heron.rig.json", "heron-faulty.rig.json"})
        EXPECT_EQ(faults_of_groups(demo(rig), Paper::a3), "") << rig;
    EXPECT_EQ(faults_of_groups(demo("heron.rig.json"), Paper::letter), "");
}

TEST(ViewGroup, ManyLegsOnSmallPaper) { EXPECT_EQ(faults_of_groups(Judged(testing::rig_of_legs(14, 9)), Paper::a4), ""); }

TEST(ViewGroup, AroundABone) {
    const Judged judged = demo("heron.rig.json");
    DrawingOptions options;
    options.around = find_bone(judged.rig, "wing_forearm_mech_l");
    EXPECT_EQ(faults_of_groups(judged, Paper::a3, options), "");
}

TEST(ViewGroup, CyclesLoopsAndLongNames) {
    std::string bones =
        "{'name': 'a', 'roles': ['control'], 'constraints': [{'kind': 'transform', 'from': 'b'}]},"
        "{'name': 'b', 'parent': 'a', 'group': 'g'},"
        "{'name': 'self', 'group': 'g', 'constraints': [{'kind': 'aim', 'from': 'self'}]},"
        "{'name': 'lost', 'roles': ['deform'], 'group': 'g'},"
        "{'name': '" +
        std::string(900, 'w') + "', 'roles': ['deform'], 'parent': 'a', 'group': '" + std::string(300, 'g') + "'}";
    for (const char* name : {"\u9dfa\u306e\u7ffc\u5de6", "\u05db\u05e0\u05e3_l", "<&>", "\u0939\u0902\u0938"})
        bones += ", {'name': '" + std::string(name) + "', 'parent': 'a', 'group': '\u6cbc'}";
    EXPECT_EQ(faults_of_groups(Judged(bones), Paper::a4), "");
}

TEST(ViewGroup, AHubIsDrawnWithItsPortsShared) {
    std::string bones = "{'name': 'hub', 'roles': ['control'], 'group': 'body'}";
    for (int i = 0; i < 90; ++i)
        bones += ", {'name': 'b" + std::to_string(i) + "', 'parent': 'hub', 'group': 'limb" + std::to_string(i) + "'}";
    const Judged judged(bones);
    EXPECT_EQ(faults_of_groups(judged, Paper::a4), "");
    const Subject subject(judged.rig, judged.dependencies, judged.facts, {});
    PagePart part;
    part.vertices = {0};
    part.whole.assign(subject.folded.vertices.size(), false);
    const PartPlan made = plan_part(subject, part);
    ASSERT_EQ(made.ports.size(), 12u);
    EXPECT_EQ(made.plan.boxes[made.ports.back().box].name, "79 other groups");
}

/// As one layout a rope takes dot longer than anybody waits; cut apart its parts stand side by side.
TEST(ViewGroup, ARopeOfBonesThatFollowEachOther) {
    std::string bones = "{'name': 'root', 'roles': ['control'], 'group': 'root'}";
    for (int i = 0; i < 130; ++i)
        bones += ", {'name': 'm" + std::to_string(i) + "', 'parent': 'root', 'group': 'rope', 'constraints': [{'kind': 'aim', " +
                 "'from': 'm" + std::to_string((i + 1) % 130) + "'}]}";
    const Judged judged(bones);
    EXPECT_EQ(faults_of_groups(judged, Paper::a3), "");
    DrawingOptions options;
    options.view = View::group;
    options.group = "rope";
    const Drawing drawing = judged.drawn(options);
    EXPECT_EQ(drawing.notice, "");
    EXPECT_LE(drawing.pages.size(), 6u);
}

TEST(ViewGroup, BoxesInRowsFitTheirPagesToo) {
    const Judged judged(testing::rig_of_legs(2, 12));
    Subject subject(judged.rig, judged.dependencies, judged.facts, {});
    subject.in_rows = true;
    for (const Sheet& sheet : plan_of_group(subject, 1, room_on(Paper::a4))) {
        testing::SceneFaults faults;
        testing::find_page_faults(sheet.scene, room_on(Paper::a4), faults);
        testing::find_node_faults(sheet.scene, faults);
        testing::find_label_faults(sheet.scene, faults);
        EXPECT_EQ(faults.text, "");
    }
}

/// Every dependence between the part and what lies outside is a stroke at the right box, of its kind, and named in a hover title.
TEST(ViewGroup, NothingThatTouchesAGroupIsLost) {
    const Judged judged = demo("heron-faulty.rig.json");
    const Subject subject(judged.rig, judged.dependencies, judged.facts, {});
    std::size_t outside = 0;
    for (std::uint32_t group = 0; group < subject.groups.size(); ++group) {
        PagePart part;
        part.vertices = subject.vertices_in[group];
        part.whole.assign(subject.folded.vertices.size(), false);
        part.ports_a_side = 3;
        const PartPlan made = plan_part(subject, part);
        std::vector<std::uint32_t> place(subject.folded.vertices.size(), none);
        for (std::uint32_t i = 0; i < part.vertices.size(); ++i) place[part.vertices[i]] = i;
        for (const FoldedArrow& arrow : subject.folded.arrows) {
            const std::uint32_t from = place[arrow.from], to = place[arrow.to];
            if ((from == none) == (to == none)) continue;
            ++outside;
            const std::string ends =
                isolated(name_of(judged.rig, judged.dependencies, subject.folded.vertices[arrow.from])) + " -> ";
            const bool told = std::any_of(made.plan.arrows.begin(), made.plan.arrows.end(), [&](const Arrow& drawn) {
                return (from == none ? drawn.to == to : drawn.from == from) && drawn.kind == arrow.kind &&
                       drawn.inert == arrow.inert && drawn.hover.find(ends) != std::string::npos;
            });
            EXPECT_TRUE(told) << ends;
        }
    }
    EXPECT_GT(outside, 200u);
}

/// A layout as Graphviz's own program gives it in its plain format, for nothing but the boxes and arrows.
Layout by_dot(const LayoutTask& task, const std::string& file) {
    std::ofstream graph(file);
    graph << "digraph { nodesep=0.15; ranksep=" << task.layer_gap / 72 << "; node [shape=box fixedsize=true label=\"\"];\n";
    for (std::size_t i = 0; i < task.nodes.size(); ++i)
        graph << "n" << i << " [width=" << task.nodes[i].width / 72 << " height=" << task.nodes[i].height / 72 << "];\n";
    for (const LayoutTask::Link& link : task.links) graph << "n" << link.from << " -> n" << link.to << ";\n";
    graph << "}\n";
    graph.close();
    Layout layout;
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> dot(popen(("dot -Tplain '" + file + "'").c_str(), "r"), pclose);
    std::string text;
    for (int c = std::fgetc(dot.get()); c != EOF; c = std::fgetc(dot.get())) text += static_cast<char>(c);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string what, from, to;
        std::size_t points = 0;
        words >> what >> from >> to >> points;
        if (what != "edge") continue;
        Curve curve;
        for (std::size_t i = 0; i < points; ++i) {
            Point p;
            words >> p.x >> p.y;
            curve.points.push_back({p.x * 72, p.y * 72});
        }
        curve.tip = curve.points.back();
        layout.curves.push_back(std::move(curve));
    }
    return layout;
}

/// Outside reference: the program dot of Debian's graphviz, with its defaults, on the same boxes and arrows.
TEST(ViewGroup, LinesCrossNoOftenerThanInPlainDot) {
    const std::string file = ::testing::TempDir() + "ligament-group.dot";
    for (const Judged& judged : {demo("heron.rig.json"), Judged(testing::rig_of_legs(3, 5))}) {
        const std::string told = in_child([&] {
            const Subject subject(judged.rig, judged.dependencies, judged.facts, {});
            std::string faults;
            std::size_t compared = 0;
            for (std::uint32_t group : groups_to_draw(subject)) {
                for (const Sheet& sheet : plan_of_group(subject, group, room_on(Paper::a3))) {
                    LayoutTask task;
                    Layout ours;
                    for (const Node& node : sheet.scene.nodes) task.nodes.push_back({node.rect.width, node.rect.height});
                    for (const Stroke& stroke : sheet.scene.strokes) {
                        task.links.push_back({stroke.from, stroke.to});
                        ours.curves.push_back(stroke.curve);
                    }
                    const Layout plain = by_dot(task, file);
                    if (plain.curves.size() != task.links.size())
                        faults += "dot drew " + std::to_string(plain.curves.size()) + "\n";
                    const std::size_t own = crossings_of(ours), theirs = crossings_of(plain);
                    ++compared;
                    if (static_cast<double>(own) > 1.1 * static_cast<double>(theirs))
                        faults +=
                            sheet.title + ": " + std::to_string(own) + " crossings, plain dot " + std::to_string(theirs) + "\n";
                }
            }
            return compared >= 4 ? faults : "nothing was compared";
        });
        EXPECT_EQ(told, "") << judged.rig.name;
    }
}

TEST(ViewGroup, CrossingsCount) {
    auto line = [](Point a, Point b) { return Curve{{a, a, b, b}, b}; };
    Layout crossed, apart;
    crossed.curves = {line({0, 0}, {100, 100}), line({0, 90}, {100, -10})};
    apart.curves = {line({0, 0}, {100, 100}), line({0, 10}, {100, 110})};
    EXPECT_EQ(crossings_of(crossed), 1u);
    EXPECT_EQ(crossings_of(apart), 0u);
    EXPECT_NEAR(tangle_of(crossed) - tangle_of(apart), 100, 1e-6);  // lines of equal length
}

}  // namespace
}  // namespace ligament
