#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "bounded.hpp"
#include "drawn.hpp"
#include "layout.hpp"
#include "plan.hpp"
#include "svg.hpp"

namespace ligament {
namespace {

using testing::Judged;

/// In a child process, as drawing does it: what Graphviz leaks is then no leak of ours.
Layout laid_out(const LayoutTask& task, const std::function<Layout(const LayoutTask&)>& how = lay_out_best) {
    const BoundedResult result = run_bounded(std::chrono::minutes(2), [&] { return flatten(how(task)); });
    EXPECT_TRUE(result.values) << result.error;
    return result.values ? unflatten(*result.values, task).value() : Layout{};
}

std::function<Layout(const LayoutTask&)> layered(bool ranks_by_group) {
    return [ranks_by_group](const LayoutTask& task) { return lay_out_layered(task, {.ranks_by_group = ranks_by_group}); };
}

struct Pictured {
    Plan plan;
    Page page;
};

Pictured picture(const Judged& judged, bool by_groups = false) {
    const FoldedRig folded = fold(judged.rig, judged.dependencies, judged.facts);
    Pictured made;
    made.plan = by_groups ? plan_groups(judged.rig, judged.dependencies, judged.facts, folded)
                          : plan_bones(judged.rig, judged.dependencies, judged.facts, folded);
    made.page = compose(made.plan, laid_out(task_of(made.plan)));
    return made;
}

void expect_apart(const std::vector<Rect>& rects, const char* what) {
    for (std::size_t i = 0; i < rects.size(); ++i)
        for (std::size_t k = i + 1; k < rects.size(); ++k)
            EXPECT_FALSE(rects[i].overlaps(rects[k])) << what << " " << i << " " << k;
}

void expect_apart(const std::vector<Rect>& some, const std::vector<Rect>& others, const char* what) {
    for (std::size_t i = 0; i < some.size(); ++i)
        for (std::size_t k = 0; k < others.size(); ++k) EXPECT_FALSE(some[i].overlaps(others[k])) << what << " " << i << " " << k;
}

double distance(Point p, const Rect& r) {
    const double dx = std::max({r.x - p.x, 0.0, p.x - r.right()}), dy = std::max({r.y - p.y, 0.0, p.y - r.bottom()});
    return std::hypot(dx, dy);
}

/// All rules that a page keeps, whatever is on it.
void expect_good(const Pictured& picture) {
    const Layout& layout = picture.page.layout;
    const Rect page{0, 0, picture.page.width, picture.page.height};
    ASSERT_EQ(layout.boxes.size(), picture.plan.boxes.size());
    ASSERT_EQ(layout.groups.size(), picture.plan.groups.size());
    ASSERT_EQ(layout.curves.size(), picture.plan.arrows.size());
    std::vector<Rect> labels;
    for (const auto& label : picture.page.labels)
        if (label) labels.push_back(*label);
    expect_apart(layout.boxes, "boxes");
    expect_apart(layout.groups, "groups");
    expect_apart(labels, "labels");
    expect_apart(labels, layout.boxes, "label and box");
    expect_apart(labels, picture.page.titles, "label and title");
    expect_apart(picture.page.titles, layout.boxes, "title and box");
    for (const std::vector<Rect>* rects :
         std::initializer_list<const std::vector<Rect>*>{&layout.boxes, &layout.groups, &labels, &picture.page.titles}) {
        expect_apart(*rects, {picture.page.legend}, "legend");
        for (const Rect& r : *rects) EXPECT_TRUE(page.contains(r));
    }
    EXPECT_TRUE(page.contains(picture.page.legend));
    for (std::size_t b = 0; b < layout.boxes.size(); ++b)
        for (std::uint32_t g = 0; g < layout.groups.size(); ++g) {
            if (picture.plan.boxes[b].group == g)
                EXPECT_TRUE(layout.groups[g].contains(layout.boxes[b])) << picture.plan.boxes[b].name;
            else
                EXPECT_FALSE(layout.groups[g].overlaps(layout.boxes[b])) << picture.plan.boxes[b].name;
        }
    for (std::size_t a = 0; a < layout.curves.size(); ++a) {
        const Arrow& arrow = picture.plan.arrows[a];
        EXPECT_LT(distance(layout.curves[a].points.front(), layout.boxes[arrow.from]), 3) << arrow.hover;
        EXPECT_LT(distance(layout.curves[a].tip, layout.boxes[arrow.to]), 3) << arrow.hover;
        for (Point p : layout.curves[a].points) EXPECT_EQ(distance(p, page), 0) << arrow.hover;
        EXPECT_EQ(layout.curves[a].points.size() % 3, 1u);
    }
}

TEST(Geometry, OneLeg) { expect_good(picture(Judged(testing::rig_of_legs(1, 2)))); }

TEST(Geometry, ManyLegs) {
    const Judged judged(testing::rig_of_legs(10, 5));
    const Pictured made = picture(judged);
    expect_good(made);
    EXPECT_GT(made.plan.boxes.size(), 210u);
    EXPECT_LT(made.page.labels_left_out, made.plan.arrows.size() / 10);
}

TEST(Geometry, ManyLegsByGroups) { expect_good(picture(Judged(testing::rig_of_legs(10, 5)), true)); }

TEST(Geometry, ControlsLeftDeformBonesRight) {
    const Judged judged(testing::rig_of_legs(4, 3));
    const Pictured made = picture(judged);
    for (std::size_t a = 0; a < made.plan.arrows.size(); ++a) {  // no cycle, so every arrow runs to the right
        const Arrow& arrow = made.plan.arrows[a];
        EXPECT_LT(made.page.layout.boxes[arrow.from].right(), made.page.layout.boxes[arrow.to].x) << arrow.hover;
    }
}

TEST(Geometry, CyclesLoopsLongNamesAndFrames) {
    std::string bones =
        "{'name': 'a', 'roles': ['control'], 'constraints': [{'kind': 'transform', 'from': 'b'}]},"
        "{'name': 'b', 'parent': 'a', 'group': 'g'},"
        "{'name': 'self', 'group': 'g', 'constraints': [{'kind': 'aim', 'from': 'self'}]},"
        "{'name': 'lost', 'roles': ['deform'], 'group': 'g'},"
        "{'name': '" +
        std::string(900, 'w') + "', 'roles': ['deform'], 'parent': 'a', 'group': '" + std::string(300, 'g') + "'}";
    for (const char* name : {"\u9dfa\u306e\u7ffc\u5de6", "\u05db\u05e0\u05e3_l", "<&>", "\u0939\u0902\u0938"})
        bones += ", {'name': '" + std::string(name) + "', 'parent': 'a', 'group': '\u6cbc'}";
    expect_good(picture(Judged(bones)));
}

TEST(Geometry, RowsKeepTheSameRules) {
    const Judged judged(testing::rig_of_legs(7, 3));
    Pictured made;
    made.plan = plan_groups(judged.rig, judged.dependencies, judged.facts, fold(judged.rig, judged.dependencies, judged.facts));
    made.page = compose(made.plan, lay_out_grid(task_of(made.plan)));
    expect_good(made);
}

TEST(Geometry, AnEmptyPage) {
    const Pictured made = picture(Judged(Rig{}));
    EXPECT_GT(made.page.width, 0);
    EXPECT_GT(made.page.height, 0);
}

TEST(Geometry, ALayoutSurvivesTheWayBetweenProcesses) {
    const Judged judged(testing::rig_of_legs(2, 2));
    const Plan plan =
        plan_bones(judged.rig, judged.dependencies, judged.facts, fold(judged.rig, judged.dependencies, judged.facts));
    const LayoutTask task = task_of(plan);
    const std::vector<double> values = flatten(laid_out(task));
    const std::optional<Layout> back = unflatten(values, task);
    ASSERT_TRUE(back);
    EXPECT_EQ(flatten(*back), values);
    for (std::size_t cut : {std::size_t{0}, std::size_t{1}, values.size() / 2, values.size() - 1})
        EXPECT_FALSE(unflatten({values.begin(), values.begin() + static_cast<std::ptrdiff_t>(cut)}, task)) << cut;
}

TEST(Geometry, TheLeastTangledVariantIsKept) {
    const Judged judged(testing::rig_of_legs(4, 3));
    const LayoutTask task =
        task_of(plan_bones(judged.rig, judged.dependencies, judged.facts, fold(judged.rig, judged.dependencies, judged.facts)));
    const double best = tangle_of(laid_out(task));
    EXPECT_LE(best, tangle_of(laid_out(task, layered(true))));
    EXPECT_LE(best, tangle_of(laid_out(task, layered(false))));
}

TEST(Geometry, CrossingsCount) {
    auto line = [](Point a, Point b) { return Curve{{a, a, b, b}, b}; };
    Layout crossed, apart;
    crossed.curves = {line({0, 0}, {100, 100}), line({0, 90}, {100, -10})};
    apart.curves = {line({0, 0}, {100, 100}), line({0, 10}, {100, 110})};
    EXPECT_NEAR(tangle_of(crossed) - tangle_of(apart), 100, 1e-6);  // lines of equal length
}

}  // namespace
}  // namespace ligament
