#include "ligament/drawing.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cstdlib>
#include <regex>

#include "drawn.hpp"
#include "views.hpp"

namespace ligament {
namespace {

using namespace std::chrono_literals;
using testing::holds;
using testing::Judged;

/// The drawing of a box, from its hover title on.
std::string box_of(const std::string& svg, const std::string& name) {
    const std::regex box("<g class=\"b [^>]*><title>" + name + "\n(?:(?!</g>)[\\s\\S])*</g>");
    std::smatch found;
    return std::regex_search(svg, found, box) ? found.str() : "";
}

TEST(Draw, AnEmptyRigHasNoPage) {
    Rig rig;
    rig.name = "nothing";
    const Drawing drawing = Judged(rig).drawn();
    EXPECT_EQ(drawing.error, "");
    EXPECT_EQ(drawing.notice, "");
    EXPECT_TRUE(drawing.pages.empty());
}

TEST(Draw, OneBone) {
    const std::string svg = Judged("{'name': 'a', 'roles': ['control']}").bones();
    EXPECT_TRUE(holds(box_of(svg, "a"), ">control</text>"));
    EXPECT_TRUE(holds(svg, "data-about=\"bone:0\" role=\"graphics-symbol\" aria-label=\"a, control\""));
}

TEST(Draw, EveryViewOfARigIsDrawnOnPaper) {
    const Judged judged(
        "{'name': 'root', 'roles': ['control'], 'group': 'g'}, {'name': 'a', 'group': 'g', 'constraints': [{'kind': 'transform', "
        "'from': 'b', 'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]}, {'name': 'b', 'parent': 'a', "
        "'roles': ['deform'], 'group': 'h'}",
        "'properties': [{'name': 'p', 'on': 'root'}]");
    std::vector<View> views;
    for (const ViewEntry& entry : all_views()) views.push_back(entry.view);
    DrawingOptions options;
    options.paper = Paper::letter;
    const Drawing drawing = draw_views(judged.rig, judged.dependencies, judged.facts, views, options);
    std::string names;
    for (const DrawnPage& page : drawing.pages) {
        names += page.name + " ";
        EXPECT_TRUE(holds(page.svg, "width=\"279.4mm\" height=\"215.9mm\" viewBox=\"0 0 1056 816\"")) << page.name;
    }
    EXPECT_EQ(names, "plan group-1-g group-2-h cycle-1 order reach switch-p body matrix ");
}

TEST(Draw, OneBoxAPropertyObjectAndSolverNoneADriver) {
    const std::string svg =
        Judged(
            "{'name': 'a'}, {'name': 'b', 'parent': 'a', 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 't', 'chain': "
            "2,"
            "'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]}, {'name': 't'}",
            "'properties': [{'name': 'p'}, {'name': 'idle'}], 'objects': [{'name': 'skin', 'follows': ['b']}]")
            .bones();
    for (const char* word : {">property</text>", ">object</text>", ">ik solver</text>"}) EXPECT_TRUE(holds(svg, word)) << word;
    EXPECT_TRUE(holds(svg, ">p</text>"));
    EXPECT_FALSE(holds(svg, ">idle</text>"));
    EXPECT_TRUE(holds(svg, "<title>p -&gt; b/reach\ndriver\n"));
}

TEST(Draw, CyclesAreNumberedAndRinged) {
    const std::string svg =
        Judged(
            "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'},"
            "{'name': 'c', 'constraints': [{'kind': 'aim', 'from': 'c'}]}, {'name': 'free'}")
            .bones();
    for (const char* in_first : {"a", "b"}) {
        EXPECT_TRUE(holds(box_of(svg, in_first), ">cycle 1</text>")) << in_first;
        EXPECT_TRUE(holds(box_of(svg, in_first), "class=\"ring\"")) << in_first;
    }
    EXPECT_TRUE(holds(box_of(svg, "c"), ">cycle 2</text>"));
    EXPECT_FALSE(holds(box_of(svg, "free"), "ring"));
    EXPECT_TRUE(holds(svg, "<g class=\"a parent cyc wit\"><title>a -&gt; b\nparent\nin cycle 1, on its shortest loop\n"));
    EXPECT_TRUE(holds(svg, "<title>c -&gt; c\n"));  // a loop is drawn
    EXPECT_TRUE(holds(svg, "4 bones: 0 control, 4 mechanism, 0 deform; 3 bones in cycles"));
}

TEST(Draw, UnattachedBonesAreFramed) {
    const std::string svg =
        Judged(
            "{'name': 'root', 'roles': ['control']}, {'name': 'hip', 'roles': ['control'], 'parent': 'root'},"
            "{'name': 'good', 'roles': ['deform'], 'parent': 'hip'}, {'name': 'rides', 'roles': ['deform'], 'parent': 'good'},"
            "{'name': 'stays', 'roles': ['deform'], 'parent': 'root'}, {'name': 'lost', 'roles': ['deform']}",
            "'roots': ['root']")
            .bones();
    EXPECT_FALSE(holds(box_of(svg, "good"), "loose"));
    EXPECT_TRUE(holds(box_of(svg, "rides"), "class=\"ride\""));
    EXPECT_TRUE(holds(box_of(svg, "rides"), ">carried</text>"));
    EXPECT_TRUE(holds(box_of(svg, "stays"), "#ligament-hatch"));
    EXPECT_TRUE(holds(box_of(svg, "stays"), ">root-only</text>"));
    EXPECT_TRUE(holds(box_of(svg, "lost"), ">orphaned</text>"));
    EXPECT_TRUE(holds(svg, "6 bones: 2 control, 0 mechanism, 4 deform; 2 deform bones unattached; 1 deform bone carried"));
}

TEST(Draw, InertEdgesAreFaint) {
    const std::string svg =
        Judged("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'aim', 'from': 'a', 'weight': 0}]}").bones();
    EXPECT_TRUE(holds(svg, "<g class=\"a constraint off\"><title>a -&gt; b\nconstraint, inert: disabled or of weight 0\n"));
}

TEST(Draw, ManyAlikeAreCounted) {
    const std::string svg =
        Judged(
            "{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'rotation', 'from': 'a'}, {'kind': 'rotation', 'from': 'a', "
            "'additive': true}]}")
            .bones();
    EXPECT_TRUE(holds(svg, "constraint, 2 in one\n"));
    EXPECT_TRUE(holds(svg, ">rotation \u00d72</text>"));
}

TEST(Draw, AroundSaysHowManyAreLeftOut) {
    const Judged judged(testing::rig_of_legs(3, 3));
    DrawingOptions options;
    options.view = View::group;
    options.around = find_bone(judged.rig, "leg_1_1_mech");
    options.hops = 1;
    const Drawing drawing = judged.drawn(options);
    ASSERT_EQ(drawing.pages.size(), 1u);
    const std::string& svg = drawing.pages[0].svg;
    EXPECT_TRUE(holds(svg, "showing 6 of 41 bones: up to 1 dependency from leg_1_1_mech"));
    for (const char* kept : {"leg_1_1_mech", "leg_1_1_fk", "leg_1_1_ik", "leg_1_0_mech", "leg_1_2_mech", "leg_1_1"})
        EXPECT_NE(box_of(svg, kept), "") << kept;
    EXPECT_EQ(box_of(svg, "leg_0_1_mech"), "");
}

TEST(Draw, WhatIsNotThere) {
    auto error_with = [](auto set) {
        DrawingOptions options;
        set(options);
        const Drawing drawing = Judged("{'name': 'a'}").drawn(options);
        EXPECT_TRUE(drawing.pages.empty());
        return drawing.error;
    };
    EXPECT_EQ(error_with([](DrawingOptions& o) { o.around = 7; }), "there is no bone 7 to draw around, the rig has 1");
    EXPECT_EQ(error_with([](DrawingOptions& o) { o.cycle = 0; }), "there is no cycle 1, the rig has 0");
    EXPECT_EQ(error_with([](DrawingOptions& o) { o.property = 0; }), "there is no property 0, the rig has 0");
    EXPECT_EQ(error_with([](DrawingOptions& o) { o.group = "wing"; }), "there is no group \"wing\"");
}

TEST(Draw, PastTheTimeLimitBoxesStandInRows) {
    const Judged judged(testing::rig_of_legs(2, 6));
    DrawingOptions options;
    options.view = View::group;
    options.group = "leg_0";
    options.time_limit = 0ms;
    const Drawing drawing = judged.drawn(options);
    EXPECT_EQ(drawing.error, "");
    EXPECT_EQ(drawing.notice, "group \"leg_0\" took longer than 0 ms, so its boxes stand in rows");
    ASSERT_FALSE(drawing.pages.empty());
    std::string all;
    for (const DrawnPage& page : drawing.pages) all += page.svg;
    for (const char* bone : {"leg_0_0_mech", "leg_0_5_ik", "leg_0_3_fk"}) EXPECT_NE(box_of(all, bone), "") << bone;
}

std::string all_pages(const Judged& judged, unsigned workers = 0) {
    std::vector<View> views;
    for (const ViewEntry& entry : all_views()) views.push_back(entry.view);
    DrawingOptions options;
    options.workers = workers;
    std::string all;
    for (const DrawnPage& page : draw_views(judged.rig, judged.dependencies, judged.facts, views, options).pages) all += page.svg;
    return all;
}

TEST(Draw, SameRigSameBytes) {
    const Judged judged(testing::rig_of_legs(3, 3));
    const std::string first = all_pages(judged);
    std::vector<std::string> heap;  // whatever hangs on addresses would come out otherwise now and then
    for (std::size_t i = 0; i < 4; ++i) {
        heap.emplace_back(1000 * i + 17, 'x');
        EXPECT_TRUE(all_pages(judged, static_cast<unsigned>(i)) == first) << i;
    }
    EXPECT_TRUE(all_pages(Judged(testing::rig_of_legs(3, 3))) == first);
}

/// Sets a variable of the environment for a while.
struct Environment {
    std::string name;
    Environment(const char* variable, const char* value) : name(variable) { setenv(variable, value, 1); }
    ~Environment() { unsetenv(name.c_str()); }
    Environment(const Environment&) = delete;
    Environment& operator=(const Environment&) = delete;
};

TEST(Draw, FontsAndLocaleChangeNothing) {
    const Judged judged(testing::rig_of_legs(3, 3));
    const std::string plain = all_pages(judged);
    const Environment fonts("FONTCONFIG_FILE", "/dev/null"), font_path("GDFONTPATH", "/nowhere"), home("HOME", "/nowhere");
    const char* comma = nullptr;  // a locale that writes numbers with a comma, where the machine has one
    for (const char* locale : {"de_DE.UTF-8", "fr_FR.UTF-8", "nl_NL.UTF-8"})
        if (!comma && std::setlocale(LC_ALL, locale)) comma = locale;
    const Environment variable("LC_ALL", comma ? comma : "C.UTF-8");
    EXPECT_EQ(all_pages(judged), plain);
    std::setlocale(LC_ALL, "C");
}

TEST(Draw, NoPathAndNoTime) {
    const std::string svg = all_pages(Judged(testing::rig_of_legs(2, 2)));
    EXPECT_FALSE(std::regex_search(svg, std::regex("/home/|/tmp/|/root/|20[0-9][0-9]-[0-9][0-9]|[0-9]+:[0-9]{2}:[0-9]{2}")));
}

}  // namespace
}  // namespace ligament
