#include "ligament/drawing.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cstdlib>
#include <regex>

#include "drawn.hpp"
#include "ligament/version.hpp"

namespace ligament {
namespace {

using namespace std::chrono_literals;
using testing::count_of;
using testing::holds;
using testing::Judged;

/// The drawing of a box, from its hover title on.
std::string box_of(const std::string& svg, const std::string& name) {
    const std::regex box("<g class=\"b [^>]*><title>" + name + "\n(?:(?!</g>)[\\s\\S])*</g>");
    std::smatch found;
    return std::regex_search(svg, found, box) ? found.str() : "";
}

TEST(Draw, AnEmptyRig) {
    Rig rig;
    rig.name = "nothing";
    const Drawing drawing = Judged(rig).drawn();
    EXPECT_EQ(drawing.error, "");
    EXPECT_EQ(drawing.notice, "");
    EXPECT_TRUE(holds(drawing.svg, ">nothing<"));
    EXPECT_TRUE(holds(drawing.svg, "0 bones"));
}

TEST(Draw, OneBone) {
    const Drawing drawing = Judged("{'name': 'a', 'roles': ['control']}").drawn();
    EXPECT_EQ(drawing.error, "");
    EXPECT_EQ(count_of(drawing.svg, "<title>"), 1u);
    EXPECT_TRUE(holds(box_of(drawing.svg, "a"), ">control</text>"));
}

TEST(Draw, TitleNamesRigCountsAndVersion) {
    const std::string svg = Judged("{'name': 'a', 'roles': ['control', 'deform']}, {'name': 'b', 'parent': 'a'}").drawn().svg;
    EXPECT_TRUE(holds(svg, ">tiny</text>"));
    EXPECT_TRUE(
        holds(svg,
              "2 bones (1 control, 1 mechanism, 1 deform), 0 constraints, 0 drivers, 0 properties, 0 objects \u00b7 drawn "
              "by ligament " +
                  std::string(version())));
    EXPECT_TRUE(holds(box_of(svg, "a"), ">control + deform</text>"));
}

TEST(Draw, OneBoxAPropertyObjectAndSolverNoneADriver) {
    const std::string svg =
        Judged(
            "{'name': 'a'}, {'name': 'b', 'parent': 'a', 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': 't', 'chain': "
            "2,"
            "'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]}, {'name': 't'}",
            "'properties': [{'name': 'p'}, {'name': 'idle'}], 'objects': [{'name': 'skin', 'follows': ['b']}]")
            .drawn()
            .svg;
    for (const char* word : {">property</text>", ">object</text>", ">ik solver</text>"}) EXPECT_TRUE(holds(svg, word)) << word;
    EXPECT_TRUE(holds(svg, ">p</text>"));
    EXPECT_FALSE(holds(svg, ">idle</text>"));
    EXPECT_TRUE(holds(svg, "not drawn: 1 property that nothing reads"));
    EXPECT_TRUE(holds(svg, "<title>p -&gt; b/reach\ndriver\n"));
}

TEST(Draw, CyclesAreNumberedAndRinged) {
    const std::string svg =
        Judged(
            "{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'},"
            "{'name': 'c', 'constraints': [{'kind': 'aim', 'from': 'c'}]}, {'name': 'free'}")
            .drawn()
            .svg;
    for (const char* in_first : {"a", "b"}) {
        EXPECT_TRUE(holds(box_of(svg, in_first), ">cycle 1</text>")) << in_first;
        EXPECT_TRUE(holds(box_of(svg, in_first), "class=\"ring\"")) << in_first;
    }
    EXPECT_TRUE(holds(box_of(svg, "c"), ">cycle 2</text>"));
    EXPECT_FALSE(holds(box_of(svg, "free"), "ring"));
    EXPECT_TRUE(holds(svg, "<g class=\"a parent cyc wit\"><title>a -&gt; b\nparent\nin cycle 1, on its shortest loop\n"));
    EXPECT_TRUE(holds(svg, "<title>c -&gt; c\n"));  // a loop is drawn
    EXPECT_TRUE(holds(svg, ">2 cycles"));
}

TEST(Draw, UnattachedBonesAreFramed) {
    const std::string svg =
        Judged(
            "{'name': 'root', 'roles': ['control']}, {'name': 'hip', 'roles': ['control'], 'parent': 'root'},"
            "{'name': 'good', 'roles': ['deform'], 'parent': 'hip'}, {'name': 'rides', 'roles': ['deform'], 'parent': 'good'},"
            "{'name': 'stays', 'roles': ['deform'], 'parent': 'root'}, {'name': 'lost', 'roles': ['deform']}",
            "'roots': ['root']")
            .drawn()
            .svg;
    EXPECT_FALSE(holds(box_of(svg, "good"), "loose"));
    EXPECT_TRUE(holds(box_of(svg, "rides"), "class=\"ride\""));
    EXPECT_TRUE(holds(box_of(svg, "rides"), ">carried</text>"));
    EXPECT_TRUE(holds(box_of(svg, "stays"), "#ligament-hatch"));
    EXPECT_TRUE(holds(box_of(svg, "stays"), ">root-only</text>"));
    EXPECT_TRUE(holds(box_of(svg, "lost"), ">orphaned</text>"));
    EXPECT_TRUE(holds(svg, "1 deform bone orphaned, 1 deform bone root-only, 1 deform bone carried"));
}

TEST(Draw, InertEdgesAreFaint) {
    const std::string svg =
        Judged("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'aim', 'from': 'a', 'weight': 0}]}").drawn().svg;
    EXPECT_TRUE(holds(svg, "<g class=\"a constraint off\"><title>a -&gt; b\nconstraint, inert: disabled or of weight 0\n"));
}

TEST(Draw, ManyAlikeAreCounted) {
    const std::string svg =
        Judged(
            "{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'rotation', 'from': 'a'}, {'kind': 'rotation', 'from': 'a', "
            "'additive': true}]}")
            .drawn()
            .svg;
    EXPECT_TRUE(holds(svg, "constraint, 2 in one\n"));
    EXPECT_TRUE(holds(svg, ">rotation \u00d72</text>"));
}

TEST(Draw, WhatAnObjectFollowsInAGroupIsOneArrow) {
    const std::string svg = Judged(testing::rig_of_legs(1, 4)).drawn().svg;
    EXPECT_TRUE(holds(svg, ">follows \u00d74</text>"));
    EXPECT_TRUE(holds(svg, ">4 bones</text>"));
    EXPECT_TRUE(holds(svg, "<title>4 bones of group leg_0\nleg_0_0 (follows)\nleg_0_1 (follows)\n"));
    const std::string few = Judged(testing::rig_of_legs(1, 3)).drawn().svg;
    EXPECT_FALSE(holds(few, "follows \u00d7"));
    EXPECT_TRUE(holds(few, "<title>leg_0_0 -&gt; skin\n"));
}

TEST(Draw, AroundSaysHowManyAreLeftOut) {
    const Judged judged(testing::rig_of_legs(3, 3));
    DrawingOptions options;
    options.around = find_bone(judged.rig, "leg_1_1_mech");
    options.hops = 1;
    const Drawing drawing = judged.drawn(options);
    const std::string said = "showing 6 of 41 bones: up to 1 dependency from leg_1_1_mech";
    EXPECT_EQ(drawing.notice, said);
    EXPECT_TRUE(holds(drawing.svg, ">" + said + "</text>"));
    for (const char* kept : {"leg_1_1_mech", "leg_1_1_fk", "leg_1_1_ik", "leg_1_0_mech", "leg_1_2_mech", "leg_1_1"})
        EXPECT_NE(box_of(drawing.svg, kept), "") << kept;
    EXPECT_EQ(box_of(drawing.svg, "leg_0_1_mech"), "");
}

TEST(Draw, AroundABoneThatIsNotThere) {
    DrawingOptions options;
    options.around = 7;
    const Drawing drawing = Judged("{'name': 'a'}").drawn(options);
    EXPECT_EQ(drawing.svg, "");
    EXPECT_EQ(drawing.error, "there is no bone 7 to draw around, the rig has 1");
}

TEST(Draw, PastTheTimeLimitGroupsAreBoxes) {
    const Judged judged(testing::rig_of_legs(10, 6));
    DrawingOptions options;
    options.time_limit = 1ms;
    const Drawing drawing = judged.drawn(options);
    EXPECT_EQ(drawing.error, "");
    EXPECT_TRUE(drawing.notice.starts_with("the layout took longer than 1 ms, so each group is drawn as one box"))
        << drawing.notice;
    EXPECT_TRUE(holds(drawing.svg, ">" + drawing.notice + "</text>"));
    EXPECT_TRUE(holds(box_of(drawing.svg, "group leg_3"), ">25 bones</text>"));
    EXPECT_EQ(box_of(drawing.svg, "leg_3_0_mech"), "");
}

TEST(Draw, WhatNoLayoutWouldEndIsNotBegun) {
    const auto start = std::chrono::steady_clock::now();
    const Drawing drawing = Judged(testing::rig_of_legs(5, 500)).drawn();
    EXPECT_LT(std::chrono::steady_clock::now() - start, 15s);  // the time limit is 20 s
    EXPECT_TRUE(
        std::regex_match(drawing.notice, std::regex("[0-9]+ boxes and arrows are more than the 20000 that one layout takes, so "
                                                    "each group is drawn as one box")))
        << drawing.notice;
    EXPECT_TRUE(holds(box_of(drawing.svg, "group leg_4"), ">2001 bones</text>"));
}

TEST(Draw, SameRigSameBytes) {
    const Judged judged(testing::rig_of_legs(5, 3));
    const std::string first = judged.drawn().svg;
    std::vector<std::string> heap;  // whatever hangs on addresses would come out otherwise now and then
    for (std::size_t i = 0; i < 8; ++i) {
        heap.emplace_back(1000 * i + 17, 'x');
        EXPECT_TRUE(judged.drawn().svg == first) << i;
    }
    EXPECT_EQ(Judged(testing::rig_of_legs(5, 3)).drawn().svg, first);
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
    const std::string plain = judged.drawn().svg;
    const Environment fonts("FONTCONFIG_FILE", "/dev/null"), font_path("GDFONTPATH", "/nowhere"), home("HOME", "/nowhere");
    const char* comma = nullptr;  // a locale that writes numbers with a comma, where the machine has one
    for (const char* locale : {"de_DE.UTF-8", "fr_FR.UTF-8", "nl_NL.UTF-8"})
        if (!comma && std::setlocale(LC_ALL, locale)) comma = locale;
    const Environment variable("LC_ALL", comma ? comma : "C.UTF-8");
    EXPECT_EQ(judged.drawn().svg, plain);
    std::setlocale(LC_ALL, "C");
}

TEST(Draw, NoPathAndNoTime) {
    const std::string svg = Judged(testing::rig_of_legs(2, 2)).drawn().svg;
    EXPECT_FALSE(std::regex_search(svg, std::regex("/home/|/tmp/|/root/|20[0-9][0-9]-[0-9][0-9]|[0-9]+:[0-9]{2}:[0-9]{2}")));
}

}  // namespace
}  // namespace ligament
