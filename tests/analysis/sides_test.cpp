// Do names pair by their side tokens, and is told what has no mirror or is not the same on the other side?
#include "ligament/sides.hpp"

#include <gtest/gtest.h>

#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

const std::string sides = "'sides': [['_l', '_r']]";

std::string mirrored(std::vector<std::pair<std::string, std::string>> tokens, const std::string& name) {
    Rig rig;
    rig.sides = std::move(tokens);
    const SidedName looked = look_at_side(rig, name);
    if (!looked.side) return looked.mirrored == name ? "no side" : "a fault: no side, but another name";
    return looked.mirrored + (looked.side.is_second ? " second" : " first") +
           (looked.side.pair > 0 ? " of pair " + std::to_string(looked.side.pair) : "");
}

std::string common(const std::string& name) { return mirrored({{"_l", "_r"}}, name); }

/// "what element[/index]" an entry.
std::string unpaired(std::string_view bones, const std::string& rest = sides) {
    const Rig rig = tiny_rig(bones, rest);
    std::string text;
    for (const Unpaired& one : find_unpaired(rig, find_sides(rig))) {
        if (!text.empty()) text += "; ";
        switch (one.what) {
            case Unpaired::What::bone:
                text += rig.bones[one.element].name;
                break;
            case Unpaired::What::property:
                text += "property " + rig.properties[one.element].name;
                break;
            case Unpaired::What::constraint:
                text += rig.bones[one.element].name + "/" + rig.bones[one.element].constraints[one.index].name;
                break;
            case Unpaired::What::driver:
                text += rig.bones[one.element].name + "/" +
                        std::string(channel_name(rig.bones[one.element].channels[one.index].channel));
        }
    }
    return text;
}

std::string words_of(const SideDifference& difference) {
    std::string text = std::to_string(static_cast<int>(difference.aspect));
    if (difference.left != none || difference.right != none)
        text +=
            " " + std::to_string(static_cast<int>(difference.left)) + ":" + std::to_string(static_cast<int>(difference.right));
    return text;
}

/// "left: aspect [left:right], ..." a pair.
std::string differing(const Rig& rig) {
    const SideDifferences found = find_side_differences(rig, find_sides(rig), 0.001);
    std::string text;
    const auto add = [&](const std::string& name, const DifferingPair& pair) {
        text += (text.empty() ? "" : "; ") + name + ":";
        for (const SideDifference& difference : pair.differences) text += " " + words_of(difference);
    };
    for (const DifferingPair& pair : found.bones) add(rig.bones[pair.left].name, pair);
    for (const DifferingPair& pair : found.properties) add(rig.properties[pair.left].name, pair);
    return text;
}
std::string differing(std::string_view bones, const std::string& rest = sides) { return differing(tiny_rig(bones, rest)); }

using Aspect = SideDifference::Aspect;
std::string aspect(Aspect aspect, const std::string& where = {}) {
    return std::to_string(static_cast<int>(aspect)) + (where.empty() ? "" : " " + where);
}

/// Bones "name_l" and "name_r" that say the same but for the given words.
std::string pair_of(const std::string& name, const std::string& left, const std::string& right) {
    const auto one = [&](const std::string& side, const std::string& more) {
        return "{'name': '" + name + side + "'" + (more.empty() ? "" : ", ") + more + "}";
    };
    return one("_l", left) + ", " + one("_r", right);
}

std::string stack(const std::string& constraints) { return "'constraints': [" + constraints + "]"; }

/// What differs in two bones that are driven by these words.
std::string driven(const std::string& channel, const std::string& left, const std::string& right,
                   const std::string& property = "{'name': 'curl'}") {
    const auto driver = [&](const std::string& words) { return "'channels': {'" + channel + "': {" + words + "}}"; };
    return differing(pair_of("toe", driver(left), driver(right)) + ", {'name': 'heel'}, " + pair_of("hock", "", ""),
                     sides + ", 'properties': [" + property + ", {'name': 'bend_l'}, {'name': 'bend_r'}]");
}

const std::string curl = ", 'inputs': {'c': {'property': 'curl'}}";

std::string at(double x, double y, double z) {
    return "'rest': {'translation': [" + std::to_string(x) + ", " + std::to_string(y) + ", " + std::to_string(z) + "]}";
}

}  // namespace

// The rule of the format: a side token counts where no letter or digit touches its own letter or digit end.
TEST(Sides, ATokenCountsWhereNoLetterOrDigitTouchesItsOwnEnd) {
    EXPECT_EQ(common("wing_l"), "wing_r first");
    EXPECT_EQ(common("wing_r"), "wing_l second");
    EXPECT_EQ(common("wing_l_01"), "wing_r_01 first");
    EXPECT_EQ(common("wing_l.001"), "wing_r.001 first");
    EXPECT_EQ(common("wing_lower"), "no side");
    EXPECT_EQ(common("wing_l2"), "no side");
    EXPECT_EQ(common("wing_l\xc3\xa4"), "no side");
    EXPECT_EQ(common("wing_L"), "no side");
    EXPECT_EQ(common("_l"), "_r first");
    EXPECT_EQ(common(""), "no side");
    EXPECT_EQ(mirrored({{"l_", "r_"}}, "l_wing"), "r_wing first");
    EXPECT_EQ(mirrored({{"l_", "r_"}}, "tail_wing"), "no side");
    EXPECT_EQ(mirrored({{"l_", "r_"}}, "2l_wing"), "no side");
    EXPECT_EQ(mirrored({{"left", "right"}}, "wing left tip"), "wing right tip first");
    EXPECT_EQ(mirrored({{"left", "right"}}, "leftover"), "no side");
}

TEST(Sides, AllTokensAreReplacedAndBothMakeNoSide) {
    EXPECT_EQ(common("wing_l_tip_l"), "wing_r_tip_r first");
    EXPECT_EQ(common("wire_l_to_r"), "no side");
    EXPECT_EQ(common("wire_l_r"), "no side");
    EXPECT_EQ(mirrored({{"_f", "_b"}, {"_l", "_r"}}, "leg_l_f"), "leg_l_b first");
    EXPECT_EQ(mirrored({{"_f", "_b"}, {"_l", "_r"}}, "leg_l_f_b"), "leg_r_f_b first of pair 1");
}

TEST(Sides, PartnersAreFoundByTheMirroredName) {
    const Rig rig = tiny_rig("{'name': 'eye_l'}, {'name': 'beak'}, {'name': 'eye_r'}, {'name': 'lid_l'}",
                             sides + ", 'properties': [{'name': 'blink_r'}, {'name': 'blink_l'}]");
    const Sides found = find_sides(rig);
    EXPECT_EQ(found.bones[0].partner, 2U);
    EXPECT_EQ(found.bones[2].partner, 0U);
    EXPECT_TRUE(found.bones[2].side.is_other_of(found.bones[0].side));
    EXPECT_FALSE(found.bones[1].side);
    EXPECT_EQ(found.bones[3].partner, none);
    EXPECT_EQ(found.properties[0].partner, 1U);
    EXPECT_TRUE(found.properties[0].side.is_second);
    EXPECT_FALSE(find_sides(tiny_rig("{'name': 'eye_l'}")).is_any());
}

TEST(Sides, TellsWhatHasNoMirror) {
    EXPECT_EQ(unpaired(pair_of("eye", "", "") + ", {'name': 'beak'}"), "");
    EXPECT_EQ(unpaired(pair_of("eye", "", "") + ", {'name': 'lid_r', 'constraints': [{'kind': 'rotation', 'from': 'eye_r'}]}"),
              "lid_r");
    EXPECT_EQ(unpaired("{'name': 'beak'}", sides + ", 'properties': [{'name': 'blink_l'}]"), "property blink_l");
    const std::string driver = "'channels': {'rotation.x': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}";
    EXPECT_EQ(unpaired(pair_of("eye", driver, ""), sides + ", 'properties': [{'name': 'p'}]"), "eye_l/rotation.x");
    EXPECT_EQ(unpaired(pair_of("eye", driver, driver), sides + ", 'properties': [{'name': 'p'}]"), "");
    EXPECT_EQ(unpaired(pair_of("eye", driver, "'channels': {'rotation.x': 1}"), sides + ", 'properties': [{'name': 'p'}]"), "");
}

TEST(Sides, ConstraintsArePairedByWhatTheyReadBeforeTheirNames) {
    const std::string both = pair_of("hand", "", "") + ", {'name': 'root'}, ";
    const std::string filled_in = stack("{'kind': 'transform', 'from': 'root'}, {'kind': 'transform', 'from': 'hand_l'}");
    EXPECT_EQ(unpaired(both + pair_of("arm", filled_in, stack("{'kind': 'transform', 'from': 'hand_r'}"))), "arm_l/transform1");
    EXPECT_EQ(unpaired(both + pair_of("arm", stack("{'name': 'a', 'kind': 'transform', 'from': 'root'}"),
                                      stack("{'name': 'b', 'kind': 'transform', 'from': 'hand_r'}"))),
              "");
    EXPECT_EQ(unpaired(both + pair_of("arm", stack("{'name': 'a', 'kind': 'transform', 'from': 'root'}"),
                                      stack("{'name': 'b', 'kind': 'rotation', 'from': 'root'}"))),
              "arm_l/a; arm_r/b");
}

TEST(Sides, MirroredBonesAndThoseInTheMiddleAreExpected) {
    const std::string mirrored_stack = pair_of(
        "arm",
        "'parent': 'hand_l', 'group': 'wing_l', " + stack("{'kind': 'aim', 'from': ['hand_l', 'root', {'object': 'perch'}], "
                                                          "'up': 'root'}"),
        "'parent': 'hand_r', 'group': 'wing_r', " + stack("{'kind': 'aim', 'from': ['hand_r', 'root', {'object': 'perch'}], "
                                                          "'up': 'root'}"));
    const std::string rest = sides + ", 'objects': [{'name': 'perch'}]";
    EXPECT_EQ(differing(pair_of("hand", "", "") + ", {'name': 'root'}, " + mirrored_stack, rest), "");
}

TEST(Sides, TellsEveryThingThatDiffersInABone) {
    const auto of = [](const std::string& left, const std::string& right, const std::string& more = {}) {
        return differing(pair_of("arm", left, right) + ", " + pair_of("hand", "", "") + ", {'name': 'root'}, {'name': 'post_l'}" +
                         more);
    };
    EXPECT_EQ(of("'roles': ['control']", "'roles': ['deform']"), "arm_l: " + aspect(Aspect::roles));
    EXPECT_EQ(of("'parent': 'hand_l'", "'parent': 'hand_l'"), "arm_l: " + aspect(Aspect::parent));
    EXPECT_EQ(of("'parent': 'root'", ""), "arm_l: " + aspect(Aspect::parent));
    EXPECT_EQ(of("'parent': 'post_l'", "'parent': 'root'"), "") << "post_l itself is told as unpaired";
    EXPECT_EQ(of("'group': 'wing_l'", "'group': 'wing_l'"), "arm_l: " + aspect(Aspect::group));
    EXPECT_EQ(of("'from_parent': ['position']", ""), "arm_l: " + aspect(Aspect::from_parent));
    EXPECT_EQ(of("'curve': {'segments': 4}", ""), "arm_l: " + aspect(Aspect::curve));
    EXPECT_EQ(of("'curve': {'segments': 4, 'start': 'hand_l', 'end': 'root'}", "'curve': {'segments': 5, 'start': 'hand_l'}"),
              "arm_l: " + aspect(Aspect::curve_segments) + " " + aspect(Aspect::curve_start) + " " + aspect(Aspect::curve_end));
    EXPECT_EQ(of("'channels': {'scale.x': 2}", "'channels': {'scale.x': 3}"), "arm_l: " + aspect(Aspect::channel, "0:0"));
    EXPECT_EQ(of("'channels': {'position.x': 2}", "'channels': {'position.x': -2}"), "");
    EXPECT_EQ(of("'channels': {'scale.x': 2}", ""), "arm_l: " + aspect(Aspect::channel, "0:-1"));
}

TEST(Sides, TellsEveryThingThatDiffersInAConstraint) {
    const auto of = [](const std::string& left, const std::string& right) {
        const auto one = [](const std::string& words) { return stack("{'name': 'c', " + words + "}"); };
        return differing(pair_of("arm", one(left), one(right)) + ", " + pair_of("hand", "'curve': {}", "'curve': {}") +
                         ", {'name': 'root', 'curve': {}}");
    };
    const std::string base = "'kind': 'transform', 'from': 'root'";
    const auto only = [&](Aspect what) { return "arm_l: " + aspect(what, "0:0"); };
    EXPECT_EQ(of(base, "'kind': 'rotation', 'from': 'root'"), only(Aspect::kind));
    EXPECT_EQ(of(base, base + ", 'enabled': false"), only(Aspect::enabled));
    EXPECT_EQ(of(base, base + ", 'space': 'local'"), only(Aspect::space));
    EXPECT_EQ(of(base, base + ", 'axes': 'xy'"), only(Aspect::axes));
    EXPECT_EQ(of(base, base + ", 'additive': true"), only(Aspect::additive));
    EXPECT_EQ(of(base, base + ", 'channels': ['position']"), only(Aspect::channels));
    EXPECT_EQ(of(base, base + ", 'weight': 0.5"), only(Aspect::weight));
    EXPECT_EQ(of(base, "'kind': 'transform', 'from': 'hand_l'"), only(Aspect::source));
    EXPECT_EQ(of(base, "'kind': 'transform', 'from': ['root', 'hand_r']"), only(Aspect::source));
    EXPECT_EQ(of(base, "'kind': 'transform', 'from': {'bone': 'root', 'at': 0.5}"), only(Aspect::source_at));
    EXPECT_EQ(of(base, "'kind': 'transform', 'from': {'bone': 'root', 'curved': true}"), only(Aspect::source_curved));
    EXPECT_EQ(of(base, "'kind': 'transform', 'from': {'bone': 'root', 'weight': 0.5}"), only(Aspect::source_weight));
    const std::string ik = "'kind': 'ik', 'target': 'hand_l', 'pole': 'root', 'chain': 2";
    EXPECT_EQ(of(ik, "'kind': 'ik', 'target': 'hand_r', 'pole': 'root', 'chain': 2"), "");
    EXPECT_EQ(
        of(ik, "'kind': 'ik', 'target': 'hand_r', 'pole': 'hand_r', 'chain': 3, 'orient': true"),
        "arm_l: " + aspect(Aspect::orient, "0:0") + " " + aspect(Aspect::chain, "0:0") + " " + aspect(Aspect::source, "0:0"));
    EXPECT_EQ(of("'kind': 'distance', 'from': 'root', 'range': [0, 1]", "'kind': 'distance', 'from': 'root', 'range': [0, 2]"),
              only(Aspect::range));
    EXPECT_EQ(of("'kind': 'custom', 'from': 'root', 'reads': ['position'], 'writes': ['position'], 'label': 'lag_l'",
                 "'kind': 'custom', 'from': 'root', 'reads': ['position'], 'writes': ['rotation'], 'label': 'lag_r'"),
              only(Aspect::writes));
}

// Common practice, no source: mirroring turns limits of position and rotation about 0, not those of scale.
TEST(Sides, LimitsMayBeTurnedAboutZero) {
    const auto of = [](const std::string& channel, const std::string& left, const std::string& right) {
        const auto one = [&](const std::string& range) {
            return stack("{'kind': 'limit', 'channels': ['" + channel + "'], 'range': " + range + "}");
        };
        return differing(pair_of("arm", one(left), one(right)));
    };
    EXPECT_EQ(of("rotation.z", "[-1, 2]", "[-2, 1]"), "");
    EXPECT_EQ(of("rotation.z", "[-1, 2]", "[-1, 2]"), "");
    EXPECT_EQ(of("rotation.z", "[-1, 2]", "[-2, 2]"), "arm_l: " + aspect(Aspect::range, "0:0"));
    EXPECT_EQ(of("scale.z", "[-1, 2]", "[-2, 1]"), "arm_l: " + aspect(Aspect::range, "0:0"));
}

TEST(Sides, OrderCountsAndThatOfSourcesOnlyOnAPath) {
    const std::string a = "{'kind': 'rotation', 'from': 'root'}", b = "{'kind': 'position', 'from': 'root'}";
    EXPECT_EQ(differing("{'name': 'root'}, " + pair_of("arm", stack(a + ", " + b), stack(b + ", " + a))),
              "arm_l: " + aspect(Aspect::order));
    const auto read = [](const std::string& kind, const std::string& from) {
        return stack("{" + kind + ", 'from': " + from + "}");
    };
    const std::string two = "{'name': 'root'}, {'name': 'tail'}, ";
    EXPECT_EQ(differing(two + pair_of("arm", read("'kind': 'transform'", "['root', 'tail']"),
                                      read("'kind': 'transform'", "['tail', 'root']"))),
              "");
    EXPECT_EQ(differing(two + pair_of("arm", read("'kind': 'path', 'chain': 1", "['root', 'tail']"),
                                      read("'kind': 'path', 'chain': 1", "['tail', 'root']"))),
              "arm_l: " + aspect(Aspect::source, "0:0") + " " + aspect(Aspect::source, "0:0"));
}

TEST(Sides, DrivenValuesAreComparedByWhatTheyComeTo) {
    const std::string differs = "toe_l: " + aspect(Aspect::channel, "0:0");
    EXPECT_EQ(driven("scale.x", "'expression': '0.7 * c'" + curl, "'expression': 'c * 0.7'" + curl), "");
    EXPECT_EQ(driven("scale.x", "'expression': '0.7 * c'" + curl, "'expression': 'c * 0.8'" + curl), differs);
    EXPECT_EQ(driven("scale.x", "'expression': 'c > 0.5'" + curl, "'expression': 'c > 0.501'" + curl), differs);
    EXPECT_EQ(
        driven("scale.x", "'expression': 'c'" + curl, "'curve': [[-1000, -1000], [1000, 1000]], 'input': {'property': 'curl'}"),
        "");
    EXPECT_EQ(driven("scale.x", "'expression': 'c'" + curl, "'expression': 'd', 'inputs': {'d': {'property': 'curl'}}"), "");
    EXPECT_EQ(driven("scale.x", "'expression': 'c', 'inputs': {'c': {'property': 'bend_l'}}",
                     "'expression': 'c', 'inputs': {'c': {'property': 'bend_r'}}"),
              "");
    EXPECT_EQ(driven("scale.x", "'expression': 'c', 'inputs': {'c': {'property': 'bend_l'}}",
                     "'expression': 'c', 'inputs': {'c': {'property': 'bend_l'}}"),
              differs);
    EXPECT_EQ(driven("scale.x", "'expression': 'c'" + curl,
                     "'expression': 'c', 'inputs': {'c': {'property': 'curl'}, 'd': {'property': 'bend_r'}}"),
              differs);
    EXPECT_EQ(driven("scale.x", "'curve': [[0, 0], [1, 1]], 'input': {'property': 'curl'}",
                     "'curve': [[0, 0], [1, 0.9]], 'input': {'property': 'curl'}"),
              differs);
    const std::string less = "'expression': 'a - b', 'inputs': {'a': {'property': 'bend_l'}, 'b': {'property': 'curl'}}";
    EXPECT_EQ(
        driven("scale.x", less, "'expression': 'b - a', 'inputs': {'a': {'property': 'curl'}, 'b': {'property': 'bend_r'}}"), "");
    EXPECT_EQ(
        driven("scale.x", less, "'expression': 'a - b', 'inputs': {'a': {'property': 'curl'}, 'b': {'property': 'bend_r'}}"),
        differs);
    EXPECT_EQ(driven("scale.x", "'expression': 'd', 'inputs': {'d': {'distance': ['hock_l', 'heel']}}",
                     "'expression': 'd', 'inputs': {'d': {'distance': ['heel', 'hock_r']}}"),
              "");
}

// Mirroring in a plane turns the sign of one coordinate of a place, and of two of the three components of a rotation vector (a
// pseudovector: Goldstein, Classical Mechanics, from memory); which ones depends on how the bones' axes were mirrored.
TEST(Sides, SignsOfMirroredChannelsMayTurn) {
    const std::string differs = "toe_l: " + aspect(Aspect::channel, "0:0");
    const auto turn = [](const std::string& text, const std::string& side) {
        return "'expression': '" + text + "', 'inputs': {'c': {'bone': 'hock" + side + "', 'channel': 'rotation.z'}}";
    };
    EXPECT_EQ(driven("rotation.x", "'expression': '0.7 * c'" + curl, "'expression': '-0.7 * c'" + curl), "");
    EXPECT_EQ(
        driven("scale.x", "'expression': '0.7 * c'" + curl, "'expression': '-0.7 * c'" + curl, "{'name': 'curl', 'min': 0}"),
        differs);
    EXPECT_EQ(driven("scale.x", "'expression': '1 + c'" + curl, "'expression': '1 - c'" + curl,
                     "{'name': 'curl', 'min': -1, 'max': 1}"),
              "")
        << "a slider in the middle that leans to one side";
    EXPECT_EQ(
        driven("scale.x", "'expression': '1 + c'" + curl, "'expression': '1 - c'" + curl, "{'name': 'curl', 'min': 0, 'max': 1}"),
        differs);
    EXPECT_EQ(driven("scale.x", turn("clamp(c, 0, 1)", "_l"), turn("clamp(-c, 0, 1)", "_r")), "");
    EXPECT_EQ(driven("scale.x", turn("clamp(c, 0, 1)", "_l"), turn("clamp(c, 0, 0.5)", "_r")), differs);
    EXPECT_EQ(driven("rotation.x", "'expression': '0.7 * c + 1'" + curl, "'expression': '-0.7 * c + 1'" + curl,
                     "{'name': 'curl', 'min': 0}"),
              differs);
}

TEST(Sides, TellsEveryThingThatDiffersInAProperty) {
    const auto of = [](const std::string& left, const std::string& right) {
        return differing("{'name': 'root'}, " + pair_of("hand", "", ""),
                         sides + ", 'properties': [{'name': 'mode_l'" + left + "}, {'name': 'mode_r'" + right + "}]");
    };
    EXPECT_EQ(of(", 'min': 0, 'max': 1, 'on': 'hand_l', 'stops': {'ik': 0, 'fk': 1}",
                 ", 'min': 0, 'max': 1, 'on': 'hand_r', 'stops': {'fk': 1, 'ik': 0}"),
              "");
    EXPECT_EQ(of(", 'default': 1, 'min': 0, 'max': 1", ", 'max': 2"),
              "mode_l: " + aspect(Aspect::initial) + " " + aspect(Aspect::min) + " " + aspect(Aspect::max));
    EXPECT_EQ(of(", 'on': 'root'", ", 'on': 'hand_r'"), "mode_l: " + aspect(Aspect::carrier));
    EXPECT_EQ(of(", 'stops': {'ik': 0, 'fk': 1}", ", 'stops': {'ik': 1, 'fk': 0}"), "mode_l: " + aspect(Aspect::stops));
    EXPECT_EQ(of(", 'value': {'expression': '1'}", ""), "mode_l: " + aspect(Aspect::driver));
}

// Worked by hand: the mirror image of (x, y, z) in the plane x = c is (2c - x, y, z).
TEST(Sides, PlacesAtRestAreMirroredInThePlaneThatFitsMost) {
    const auto rig = [](const std::vector<std::array<std::array<double, 3>, 2>>& pairs) {
        std::string text;
        for (std::size_t i = 0; i < pairs.size(); ++i) {
            const auto& [l, r] = pairs[i];
            text += (i > 0 ? ", " : "") + pair_of("b" + std::to_string(i), at(l[0], l[1], l[2]), at(r[0], r[1], r[2]));
        }
        return tiny_rig(text, sides);
    };
    const auto axis_of = [](const Rig& of) {
        const auto plane = find_side_differences(of, find_sides(of), 0.001).plane;
        return plane ? std::string(1, static_cast<char>('x' + plane->axis)) + " " + std::to_string(plane->offset).substr(0, 4)
                     : "none";
    };
    EXPECT_EQ(axis_of(rig({{{{1, 2, 3}, {-1, 2, 3}}}})), "x 0.00");
    EXPECT_EQ(axis_of(rig({{{{1, 2, 3}, {1, 2, -3}}}})), "z 0.00");
    EXPECT_EQ(axis_of(rig({{{{1, 2, 3}, {1, -2, 3}}}})), "y 0.00");
    EXPECT_EQ(axis_of(rig({{{{1, 2, 3}, {7, 7, 7}}}})), "x 0.00") << "nothing fits: the first axis";
    EXPECT_EQ(axis_of(rig({{{{1, 0, 0}, {4, 0, 0}}}, {{{2, 0, 0}, {3, 0, 0}}}, {{{0, 1, 0}, {5, 1, 0}}}})), "x 2.50");
    EXPECT_EQ(axis_of(tiny_rig(pair_of("b", "", ""), sides)), "none");
    EXPECT_EQ(differing(rig({{{{1, 2, 3}, {-1, 2, 3}}}, {{{1, 2, 0}, {-1, 2.0005, 0}}}, {{{2, 2, 0}, {-2, 2.01, 0}}}})),
              "b2_l: " + aspect(Aspect::rest_position));
    EXPECT_EQ(differing(pair_of("b", at(1, 2, 3), "")), "") << "one of them has no place";
}

TEST(Sides, WhatIsMovedAlongIsToldOfItsParentAlone) {
    const std::string root = "{'name': 'root', " + at(0, 1, 0) + "}, ";
    const auto limb = [&](double y, double z) {
        return pair_of("arm", "'parent': 'root', 'tip': [0, 1, 0], " + at(1, 0, 0),
                       "'parent': 'root', 'tip': [0, 1, 0], " + at(-1, y, 0)) +
               ", " + pair_of("hand", "'parent': 'arm_l', " + at(0, 1, 0), "'parent': 'arm_r', " + at(0, 1, z));
    };
    EXPECT_EQ(differing(root + limb(0, 0)), "");
    EXPECT_EQ(differing(root + limb(0.1, 0)), "arm_l: " + aspect(Aspect::rest_position));
    EXPECT_EQ(differing(root + limb(0, 0.1)), "hand_l: " + aspect(Aspect::rest_position));
    EXPECT_EQ(differing(root + pair_of("arm", "'tip': [0, 1, 0], " + at(1, 0, 0), "'tip': [0, 2, 0], " + at(-1, 0, 0))),
              "arm_l: " + aspect(Aspect::tip));
    EXPECT_EQ(differing(root + pair_of("arm", "'tip': [0, 1, 0], " + at(1, 0, 0), at(-1, 0, 0))),
              "arm_l: " + aspect(Aspect::tip));
}

TEST(Sides, AnAxisMayHaveTheOtherSignUnlessTheRestPoseSaysWhich) {
    const auto of = [](const std::string& kind, const std::string& left, const std::string& right, const std::string& rest_l,
                       const std::string& rest_r) {
        const auto one = [&](const std::string& axis, const std::string& rest) {
            return rest + stack("{'kind': '" + kind + "', 'from': 'root', 'axis': '" + axis + "'}");
        };
        return differing("{'name': 'root'}, " + pair_of("arm", one(left, rest_l), one(right, rest_r)));
    };
    const std::string differs = "arm_l: " + aspect(Aspect::axis, "0:0"), l = at(1, 0, 0) + ", ", r = at(-1, 0, 0) + ", ";
    EXPECT_EQ(of("aim", "y", "-y", "", ""), "");
    EXPECT_EQ(of("aim", "y", "z", "", ""), differs);
    EXPECT_EQ(of("aim", "x", "-x", l, r), "") << "the mirror image of +x is -x";
    EXPECT_EQ(of("aim", "y", "-y", l, r), differs);
    EXPECT_EQ(of("roll", "y", "-y", l, r), "") << "one line, whatever its sign";
}

}  // namespace ligament::testing
