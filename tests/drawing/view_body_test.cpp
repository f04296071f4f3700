// Do the bones stand where their rest transforms put them, and is what is wrong with them marked there?
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "drawn.hpp"
#include "scene_rules.hpp"
#include "view_body.hpp"

namespace ligament::testing {
namespace {

constexpr Room a4{1047, 560}, letter{980, 580};

struct BodySheets {
    Judged judged;
    DrawingOptions options;
    std::vector<Sheet> sheets;

    explicit BodySheets(Judged of, Room room = a4) : judged(std::move(of)) {
        const Subject subject(judged.rig, judged.dependencies, judged.facts, options);
        sheets = plan_of_body(subject, 0, room);
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
    /// The marks of a bone, in the order of painting: one or more in each of the three views.
    std::vector<Mark> marks_of(BoneId bone) const {
        std::vector<Mark> marks;
        for (const Mark& mark : sheets.at(0).scene.marks)
            if (mark.about.kind == About::Kind::bone && mark.about.id == bone) marks.push_back(mark);
        return marks;
    }
};

void expect_at(const Vector3& got, const Vector3& wanted, const std::string& what) {
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(got[i], wanted[i], 1e-9) << what << ", axis " << i;
}

// "Transformations" of the glTF 2.0 specification: a local matrix is T * R * S, scale first on a vertex; a global one is the
// parent's global one times the local one; rotations are unit quaternions x y z w. Worked out by hand.
TEST(ViewBody, PlacesBonesAsGltfHasIt) {
    const double half = std::sqrt(0.5);
    Rig rig = tiny_rig("{'name': 'child', 'parent': 'root'}, {'name': 'root'}, {'name': 'grandchild', 'parent': 'child'}");
    rig.bones[1].rest = Rest{{1, 0, 0}, {0, 0, half, half}, {2, 2, 2}};  // a quarter turn about z takes x to y
    rig.bones[0].rest = Rest{{1, 0, 0}, {half, 0, 0, half}, {1, 1, 1}};  // a quarter turn about x takes y to z
    rig.bones[0].tip = {0, 0.5, 0};
    rig.bones[2].rest = Rest{{0, 1, 0}, {0, 0, 0, 1}, {1, 1, 1}};
    const std::vector<BonePlace> places = find_places(rig);
    expect_at(places[1].base, {1, 0, 0}, "root");
    expect_at(places[0].base, {1, 2, 0}, "child: 1 along the root's x, which is doubled and points up");
    expect_at(places[0].tip, {1, 2, 1}, "tip: half along y, turned to z, doubled");
    expect_at(places[2].base, {1, 2, 2}, "grandchild");
    EXPECT_TRUE(places[1].has_tip) << "the child's base";
    expect_at(places[1].tip, {1, 2, 0}, "root's tip");
    EXPECT_FALSE(places[2].has_tip);
}

TEST(ViewBody, ScalesAfterTheChildIsTurned) {
    const double half = std::sqrt(0.5);
    Rig rig = tiny_rig("{'name': 'root'}, {'name': 'child', 'parent': 'root'}");
    rig.bones[0].rest = Rest{{0, 0, 0}, {0, 0, 0, 1}, {1, 2, 3}};
    rig.bones[1].rest = Rest{{1, 1, 1}, {0, 0, half, half}, {1, 1, 1}};
    rig.bones[1].tip = {1, 0, 0};
    const std::vector<BonePlace> places = find_places(rig);
    expect_at(places[1].base, {1, 2, 3}, "base");
    expect_at(places[1].tip, {1, 4, 3}, "tip: x is turned to y, and y is doubled by the parent");
}

TEST(ViewBody, LooksFromThreeSides) {
    // glTF 2.0: +Y up, the front of an asset faces +Z, right-handed. From +x then z runs to the left, from +y down the page.
    const Vector3 at{1, 2, 3};
    const Point front = project(at, Side::front), side = project(at, Side::side), top = project(at, Side::top);
    EXPECT_EQ(front.x, 1);
    EXPECT_EQ(front.y, -2);
    EXPECT_EQ(side.x, -3);
    EXPECT_EQ(side.y, -2);
    EXPECT_EQ(top.x, 1);
    EXPECT_EQ(top.y, 3);
}

Rig cross_of_controls() {
    Rig rig = tiny_rig(
        "{'name': 'a', 'roles': ['control']}, {'name': 'b', 'roles': ['control']}, {'name': 'c', 'roles': "
        "['control']}, {'name': 'd', 'roles': ['control']}");
    for (std::size_t i = 1; i < 4; ++i) {
        Rest rest;
        rest.translation[i - 1] = 1;
        rig.bones[i].rest = rest;
    }
    return rig;
}

TEST(ViewBody, DrawsThreeViewsToOneScaleWithABar) {
    const BodySheets drawn{Judged(cross_of_controls())};
    ASSERT_EQ(drawn.sheets.size(), 1u);
    std::vector<std::vector<Point>> at;  // by bone, by view
    for (BoneId bone = 0; bone < 4; ++bone) {
        at.emplace_back();
        for (const Mark& mark : drawn.marks_of(bone)) at.back().push_back(mark.extent.centre());
        ASSERT_EQ(at.back().size(), 3u) << "one mark a view";
    }
    const double metre = at[1][0].x - at[0][0].x;
    EXPECT_GT(metre, 50);
    auto expect_offset = [&](BoneId bone, std::size_t view, double x, double y) {
        EXPECT_NEAR(at[bone][view].x - at[0][view].x, x * metre, 0.01) << bone << " in view " << view;
        EXPECT_NEAR(at[bone][view].y - at[0][view].y, y * metre, 0.01) << bone << " in view " << view;
    };
    expect_offset(1, 0, 1, 0), expect_offset(2, 0, 0, -1), expect_offset(3, 0, 0, 0);   // front
    expect_offset(1, 1, 0, 0), expect_offset(2, 1, 0, -1), expect_offset(3, 1, -1, 0);  // side
    expect_offset(1, 2, 1, 0), expect_offset(2, 2, 0, 0), expect_offset(3, 2, 0, 1);    // top
    const auto bar = std::find_if(drawn.sheets[0].scene.marks.begin(), drawn.sheets[0].scene.marks.end(),
                                  [](const Mark& mark) { return mark.look == Mark::Look::ink && mark.hover.ends_with(" m"); });
    ASSERT_NE(bar, drawn.sheets[0].scene.marks.end());
    EXPECT_NEAR(bar->extent.width, std::stod(bar->hover) * metre, 0.01);
    EXPECT_TRUE(holds(drawn.words(), "1 bone without a rest transform"));
    for (const char* words :
         {"front, from +z", "side, from +x", "top, from +y", "x right, y up", "z left, y up", "x right, z down"})
        EXPECT_TRUE(holds(drawn.words(), words)) << words;
}

TEST(ViewBody, RingsAndNumbersWhatIsWrong) {
    Rig rig = tiny_rig(
        "{'name': 'loose', 'roles': ['deform']}, {'name': 'hand', 'roles': ['control']},"
        "{'name': 'p', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': 'q'}]},"
        "{'name': 'q', 'parent': 'p'}, {'name': 'fine', 'parent': 'hand'}");
    double x = 0;
    for (Bone& bone : rig.bones) bone.rest = Rest{{x += 0.1, 0, 0}, {0, 0, 0, 1}, {1, 1, 1}};
    const BodySheets drawn{Judged(std::move(rig))};
    const std::string words = drawn.words();
    EXPECT_TRUE(holds(words, "3 bones to look at"));
    EXPECT_TRUE(holds(words, "1 loose: orphaned, line 1:")) << words;
    EXPECT_TRUE(holds(words, "2 p: in cycle 1, line 1:"));
    EXPECT_TRUE(holds(words, "3 q: in cycle 1, line 1:"));
    auto count = [&](BoneId bone, Mark::Look look) {
        const std::vector<Mark> marks = drawn.marks_of(bone);
        return std::count_if(marks.begin(), marks.end(), [&](const Mark& mark) { return mark.look == look; });
    };
    EXPECT_EQ(count(0, Mark::Look::hatch), 3) << "in each view";
    EXPECT_EQ(count(2, Mark::Look::alarm_line), 3);
    EXPECT_EQ(count(3, Mark::Look::alarm_line), 3);
    for (BoneId bone : {0u, 2u, 3u}) EXPECT_GE(count(bone, Mark::Look::ink), 1) << "a number";
    EXPECT_EQ(count(4, Mark::Look::ink), 0);
}

TEST(ViewBody, SaysHowARestIsGivenWhereThereIsNone) {
    const BodySheets drawn{Judged("{'name': 'a'}, {'name': 'b'}")};
    ASSERT_EQ(drawn.sheets.size(), 1u);
    EXPECT_TRUE(holds(drawn.words(), "none of the 2 bones has a rest transform"));
    EXPECT_TRUE(holds(drawn.words(), "\"rest\""));
}

TEST(ViewBody, CountsBonesInOnePlace) {
    Rig rig = tiny_rig("{'name': 'a'}, {'name': 'b'}, {'name': 'c'}");
    rig.bones[0].rest = rig.bones[1].rest = Rest{{1, 1, 1}, {0, 0, 0, 1}, {1, 1, 1}};
    const BodySheets drawn{Judged(std::move(rig))};
    EXPECT_TRUE(holds(drawn.words(), "1 place shared by several bones")) << drawn.words();
    ASSERT_FALSE(drawn.marks_of(0).empty());
    EXPECT_TRUE(holds(drawn.marks_of(0)[0].hover, "1 more bone in the same place"));
}

TEST(ViewBody, KeepsToTheRoomWhateverTheShape) {
    for (const Vector3& size : {Vector3{0, 0, 0}, Vector3{100, 0, 0}, Vector3{0, 1e-6, 0}, Vector3{0, 0, 3}, Vector3{1e30, 1, 1},
                                Vector3{1e200, 0, 0}, Vector3{50, 1, 50}}) {
        Rig rig = tiny_rig("{'name': 'a', 'group': 'g'}, {'name': 'b', 'roles': ['deform'], 'group': 'h'}");
        rig.bones[0].rest = Rest{};
        rig.bones[1].rest = Rest{size, {0, 0, 0, 1}, {1, 1, 1}};
        for (Room room : {a4, letter}) EXPECT_FALSE(BodySheets(Judged(rig), room).sheets.empty());
    }
}

TEST(ViewBody, LeavesMechanismOutOfLargeRigsAndSaysSo) {
    Rig rig = rig_of_legs(12, 9);
    double x = 0;
    for (Bone& bone : rig.bones) {
        bone.rest = Rest{{0.01, 0.02, 0.03}, {0, 0, 0, 1}, {1, 1, 1}};
        bone.rest->translation[0] += x += 0.001;
    }
    ASSERT_GT(rig.bones.size(), 400u);
    const BodySheets once{Judged(rig)};
    EXPECT_TRUE(holds(once.words(), "of more than 400 bones only deform bones, controls"));
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        EXPECT_EQ(once.marks_of(bone).empty(), rig.bones[bone].is_mechanism()) << rig.bones[bone].name;
    const Subject subject(once.judged.rig, once.judged.dependencies, once.judged.facts, once.options);
    const Sheet again = plan_of_body(subject, 0, a4).at(0);
    EXPECT_EQ(write_svg(once.sheets[0], compose(once.sheets[0], Paper::a4)), write_svg(again, compose(again, Paper::a4)));
}

}  // namespace
}  // namespace ligament::testing
