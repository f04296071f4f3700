// Sources: the wanted dumps are worked out by hand from the rigs beside them. Of random edits the edit itself says what changed.
#include "ligament/comparison.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <set>

#include "random_rig.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::Random;
using testing::random_rig;
using testing::tiny_rig;

struct Judged {
    Rig rig;
    Dependencies dependencies;
    Facts facts;

    explicit Judged(Rig of) : rig(std::move(of)), dependencies(build_dependencies(rig)), facts(find_facts(rig, dependencies)) {}
    Revision revision() const { return {rig, dependencies, facts}; }
};

struct Compared {
    Judged before, after;
    Comparison comparison;

    Compared(Rig old_rig, Rig new_rig)
        : before(std::move(old_rig)), after(std::move(new_rig)), comparison(compare_rigs(before.revision(), after.revision())) {}
    Compared(std::string_view old_bones, std::string_view new_bones, std::string_view old_rest = {},
             std::string_view new_rest = {})
        : Compared(tiny_rig(old_bones, old_rest), tiny_rig(new_bones, new_rest)) {}

    static std::string name(const Judged& of, Element element, std::uint32_t id) {
        if (id == none) return {};
        switch (element) {
            case Element::rig:
                return "rig";
            case Element::group:
                return "?";
            case Element::property:
                return of.rig.properties[id].name;
            case Element::object:
                return of.rig.objects[id].name;
            case Element::bone:
                return of.rig.bones[id].name;
            case Element::constraint:
                break;
        }
        return constraint_name(of.rig, of.dependencies, id);
    }

    /// A line each: "+ ELEMENT NAME", "- ELEMENT NAME", "ELEMENT OLD -> NEW", "ELEMENT NAME: FIELD: OLD -> NEW".
    std::string changes() const {
        std::string text;
        for (const Change& change : comparison.changes) {
            std::string was = name(before, change.element, change.before), is = name(after, change.element, change.after);
            if (change.element == Element::group)
                was = comparison.matching.groups[change.before].first, is = comparison.matching.groups[change.after].second;
            const std::string element(name_of(change.element));
            if (change.is_added()) text += "+ " + element + " " + is + "\n";
            if (change.is_removed()) text += "- " + element + " " + was + "\n";
            if (change.renamed) text += element + " " + was + " -> " + is + "\n";
            for (const FieldChange& field : change.fields)
                text += element + " " + is + ": " + field.field + ": " + field.before + " -> " + field.after + "\n";
        }
        return text;
    }

    BoneId old_bone(std::string_view name) const { return find_bone(before.rig, name); }
    BoneId new_bone(std::string_view name) const { return find_bone(after.rig, name); }
    double certainty(std::string_view new_name) const { return comparison.matching.certainty[new_bone(new_name)]; }
    std::string names(const Judged& of, const std::vector<BoneId>& bones) const {
        std::string text;
        for (const BoneId bone : bones) text += (text.empty() ? "" : " ") + of.rig.bones[bone].name;
        return text;
    }
    /// "bone +gained -lost" a line.
    std::string reach() const {
        std::string text;
        for (const ReachChange& change : comparison.reach) {
            text += after.rig.bones[change.after].name;
            for (const BoneId bone : change.gained) text += " +" + after.rig.bones[bone].name;
            for (const BoneId bone : change.lost) text += " -" + before.rig.bones[bone].name;
            text += "\n";
        }
        return text;
    }
    std::string verdicts() const {
        std::string text;
        for (const VerdictChange& change : comparison.verdicts) {
            text += change.after != none ? after.rig.bones[change.after].name : before.rig.bones[change.before].name;
            text += ": " + std::string(change.was ? ligament::name_of(*change.was) : "-") + " -> " +
                    std::string(change.is ? ligament::name_of(*change.is) : "-");
            for (const Worse& state : change.lost_in)
                text += " lost in " + ligament::name_of(after.rig, after.facts.switches.switches, state.settings);
            for (const Worse& state : change.no_longer_in)
                text += " held in " + ligament::name_of(before.rig, before.facts.switches.switches, state.settings);
            text += std::string(change.is_worse ? " worse" : "") + (change.is_better ? " better" : "") + "\n";
        }
        return text;
    }
    std::string cycles() const {
        std::string text;
        for (const CycleChange& change : comparison.cycles)
            text += std::string(ligament::name_of(change.how)) + " +(" + names(after, change.gained) + ") -(" +
                    names(before, change.lost) + ")" + (change.is_worse ? " worse" : "") + "\n";
        return text;
    }
};

// What changed.

TEST(Comparison, NothingChangedBetweenEqualRigs) {
    const Compared same("{'name': 'a', 'roles': ['control']}, {'name': 'b', 'parent': 'a'}",
                        "{'name': 'a', 'roles': ['control']},\n\n {'name': 'b', 'parent': 'a'}");  // places do not count
    EXPECT_EQ(same.changes(), "");
    EXPECT_TRUE(same.comparison.is_same());
    EXPECT_TRUE(same.comparison.links.added.empty());
}

TEST(Comparison, EachKindOfFieldIsTold) {
    const Compared compared(
        "{'name': 'root', 'roles': ['control']}, {'name': 'top'}, {'name': 'a', 'parent': 'root', 'group': 'g', 'rest': "
        "{'translation': [0, 1, 0]},"
        "'channels': {'rotation.x': 1, 'scale.y': 2}, 'curve': {'segments': 4, 'start': 'root'}, 'constraints': ["
        "{'name': 'hold', 'kind': 'transform', 'from': ['root', {'bone': 'top', 'at': 0.5}]}, {'name': 'lim', 'kind': 'limit',"
        "'channels': ['rotation'], 'range': [0, 1]}, {'name': 'fast', 'kind': 'custom', 'reads': ['position'], 'writes': "
        "['scale'],"
        "'label': 'x', 'from': 'top'}]}",
        "{'name': 'root', 'roles': ['deform']}, {'name': 'top'}, {'name': 'a', 'parent': 'top', 'group': 'h', 'from_parent': "
        "['scale'],"
        "'rest': {'translation': [0, 2, 0]}, 'tip': [0, 1, 0],"
        "'channels': {'rotation.x': 3}, 'curve': {'segments': 5, 'end': 'root'}, 'constraints': ["
        "{'name': 'hold', 'kind': 'rotation', 'from': ['root', {'bone': 'top', 'at': 0.25, 'weight': 0.5}], 'space': 'local',"
        "'axes': 'xz', 'additive': true, 'enabled': false, 'weight': 0.5}, {'name': 'lim', 'kind': 'limit', 'channels': "
        "['rotation.x'],"
        "'range': [0, 2]}, {'name': 'fast', 'kind': 'custom', 'reads': ['rotation'], 'writes': ['scale.x'], 'label': 'y', "
        "'from': 'top'}]}",
        "'roots': ['root'], 'sides': [['_l', '_r']]", "'roots': ['top']");
    EXPECT_EQ(compared.changes(),
              "rig rig: sides: _l _r -> \n"
              "rig rig: roots: root -> top\n"
              "bone root: roles: control -> deform\n"
              "bone a: parent: root -> top\n"
              "bone a: group: g -> h\n"
              "bone a: from_parent: position, rotation, scale -> scale\n"
              "bone a: rest.translation: 0, 1, 0 -> 0, 2, 0\n"
              "bone a: curve.segments: 4 -> 5\n"
              "bone a: curve.start: root -> \n"
              "bone a: channels.rotation.x: 1 -> 3\n"
              "bone a: channels.scale.y: 2 -> \n"
              "bone a: tip:  -> 0, 1, 0\n"
              "bone a: curve.end:  -> root\n"
              "constraint a/hold: kind: transform -> rotation\n"
              "constraint a/hold: from: root, top at 0.5 -> root, top at 0.25\n"
              "constraint a/hold: weight: 1 -> 0.5\n"
              "constraint a/hold: enabled: true -> false\n"
              "constraint a/hold: space: final -> local\n"
              "constraint a/hold: axes: xyz -> xz\n"
              "constraint a/hold: additive: false -> true\n"
              "constraint a/hold: from.2.weight:  -> 0.5\n"
              "constraint a/lim: channels: rotation -> rotation.x\n"
              "constraint a/lim: range: 0, 1 -> 0, 2\n"
              "constraint a/fast: reads: position -> rotation\n"
              "constraint a/fast: writes: scale -> scale.x\n"
              "constraint a/fast: label: x -> y\n");
}

TEST(Comparison, PropertiesObjectsAndDriversAreTold) {
    const std::string bones = "{'name': 'a', 'roles': ['control']}, {'name': 'b'}, {'name': 'c'}";
    const Compared compared(bones, bones,
                            "'properties': [{'name': 'mode', 'on': 'a', 'max': 1, 'stops': {'ik': 0, 'fk': 1}}, {'name': 'half', "
                            "'value': {'expression': 's / 2',"
                            "'inputs': {'s': {'property': 'mode'}}}}, {'name': 'old'}], 'objects': [{'name': 'skin', 'follows': "
                            "['a', 'b']}, {'name': 'hat', 'follows': ['c']}]",
                            "'properties': [{'name': 'mode', 'on': 'b', 'default': 1, 'min': 0, 'max': 2, 'stops': {'ik': 0, "
                            "'fk': 2}}, {'name': 'half', 'value': {'curve':"
                            "[[0, 0], [1, 2]], 'input': {'bone': 'b', 'channel': 'rotation.x', 'space': 'final'}}}], 'objects': "
                            "[{'name': 'skin', 'follows': ['c', 'b']}]");
    EXPECT_EQ(compared.changes(),
              "property mode: on: a -> b\nproperty mode: default: 0 -> 1\nproperty mode: max: 1 -> 2\n"
              "property mode: stops: ik = 0, fk = 1 -> ik = 0, fk = 2\nproperty mode: min:  -> 0\n"
              "property half: value: s / 2 with s = mode -> curve 0:0 1:2 of b rotation.x in final space\n"
              "- property old\nobject skin: follows: a -> c\n- object hat\n");
}

TEST(Comparison, BonesAndConstraintsComeAndGo) {
    const Compared compared(
        "{'name': 'a', 'constraints': [{'name': 'one', 'kind': 'position', 'from': 'b'}, {'name': 'two', 'kind': 'scale', "
        "'from': 'b'}]}, {'name': 'b'},"
        "{'name': 'old', 'parent': 'b', 'rest': {'translation': [0, 3, 0]}, 'roles': ['deform']}",
        "{'name': 'a', 'constraints': [{'name': 'two', 'kind': 'scale', 'from': 'b'}, {'name': 'three', 'kind': 'aim', 'from': "
        "'b'}]}, {'name': 'b'},"
        "{'name': 'new', 'parent': 'a', 'rest': {'translation': [1, 1, 1]}, 'roles': ['control']}");
    EXPECT_EQ(compared.changes(), "+ constraint a/three\n- constraint a/one\n+ bone new\n- bone old\n");
}

TEST(Comparison, AStackInAnotherOrderIsAChange) {
    const Compared compared(
        "{'name': 'b'}, {'name': 'a', 'constraints': [{'name': 'x', 'kind': 'position', 'from': 'b'}, {'name': 'y', 'kind': "
        "'scale', 'from': 'b'}]}",
        "{'name': 'b'}, {'name': 'a', 'constraints': [{'name': 'y', 'kind': 'scale', 'from': 'b'}, {'name': 'x', 'kind': "
        "'position', 'from': 'b'}]}");
    EXPECT_EQ(compared.changes(), "bone a: constraints: x, y -> y, x\n");
}

TEST(Comparison, AFilledInConstraintNameIsNoName) {
    const Compared compared("{'name': 'b'}, {'name': 'c'}, {'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b'}]}",
                            "{'name': 'b'}, {'name': 'c'}, {'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'c'}, "
                            "{'kind': 'transform', 'from': 'b'}]}");
    EXPECT_EQ(compared.changes(), "+ constraint a/transform1\n");
}

TEST(Comparison, ARenamedConstraintIsKnownByKindAndSources) {
    const Compared compared(
        "{'name': 'b'}, {'name': 'a', 'constraints': [{'name': 'hold', 'kind': 'transform', 'from': 'b'}]}",
        "{'name': 'b'}, {'name': 'a', 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'b', 'weight': 0.5}]}");
    EXPECT_EQ(compared.changes(), "constraint a/hold -> a/seat\nconstraint a/seat: weight: 1 -> 0.5\n");
}

TEST(Comparison, BonesThatMovedInTheFileAreCounted) {
    const Compared compared("{'name': 'a'}, {'name': 'b'}, {'name': 'c'}, {'name': 'd'}",
                            "{'name': 'd'}, {'name': 'a'}, {'name': 'b'}, {'name': 'c'}");
    EXPECT_EQ(compared.changes(), "");
    EXPECT_EQ(compared.comparison.moved_in_file, 1u);
    EXPECT_FALSE(compared.comparison.is_same());
}

TEST(Comparison, ARotationIsOneWithItsNegative) {
    const Compared compared("{'name': 'a', 'rest': {'rotation': [0.6, 0, 0, 0.8]}}",
                            "{'name': 'a', 'rest': {'rotation': [-0.6, 0, 0, -0.8]}}");
    EXPECT_EQ(compared.changes(), "");
}

// Renames.

constexpr const char* limb =
    "{'name': 'world', 'roles': ['control']}, {'name': 'ARM_ctl', 'roles': ['control'], 'parent': 'world', 'group': 'GRP'},"
    "{'name': 'ARM_1_mech', 'parent': 'ARM_ctl', 'group': 'GRP'}, {'name': 'ARM_2_mech', 'parent': 'ARM_1_mech', 'group': 'GRP'},"
    "{'name': 'ARM_3_mech', 'parent': 'ARM_2_mech', 'group': 'GRP', 'constraints': [{'name': 'reach', 'kind': 'ik', 'target': "
    "'ARM_ctl', 'chain': 2,"
    "'weight': {'expression': '1 - s', 'inputs': {'s': {'property': 'ARM_mode'}}}}]},"
    "{'name': 'ARM_1', 'roles': ['deform'], 'group': 'GRP', 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': "
    "'ARM_1_mech'}]},"
    "{'name': 'ARM_2', 'roles': ['deform'], 'parent': 'ARM_1', 'group': 'GRP', 'constraints': [{'name': 'seat', 'kind': "
    "'transform', 'from': 'ARM_2_mech'}]},"
    "{'name': 'ARM_3', 'roles': ['deform'], 'parent': 'ARM_2', 'group': 'GRP', 'constraints': [{'name': 'seat', 'kind': "
    "'transform', 'from': 'ARM_3_mech'}]},"
    "{'name': 'reader', 'parent': 'world', 'constraints': [{'name': 'follow', 'kind': 'position', 'from': 'ARM_3_mech'}]}";
constexpr const char* limb_rest =
    "'properties': [{'name': 'ARM_mode', 'on': 'world', 'min': 0, 'max': 1}], 'objects': [{'name': 'skin', 'follows': ['ARM_1', "
    "'ARM_2', 'ARM_3']}]";

std::string with(std::string text, const std::string& what, const std::string& by) {
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
    return text;
}

TEST(Renames, AWholeLimbIsKnownAgainAndItsReadersStayAsTheyWere) {
    const Compared compared(with(with(limb, "ARM", "arm"), "GRP", "arm"), with(with(limb, "ARM", "wing"), "GRP", "wing_l"),
                            with(limb_rest, "ARM", "arm"), with(limb_rest, "ARM", "wing"));
    EXPECT_EQ(compared.changes(),
              "group arm -> wing_l\nproperty arm_mode -> wing_mode\nbone arm_ctl -> wing_ctl\nbone arm_1_mech -> wing_1_mech\n"
              "bone arm_2_mech -> wing_2_mech\nbone arm_3_mech -> wing_3_mech\nbone arm_1 -> wing_1\nbone arm_2 -> wing_2\n"
              "bone arm_3 -> wing_3\n");
    for (const Bone& bone : compared.after.rig.bones) {
        const double certainty = compared.certainty(bone.name);
        EXPECT_LE(certainty, 1);
        const bool is_renamed = bone.name.starts_with("wing");
        EXPECT_EQ(certainty < 1, is_renamed) << bone.name;
        EXPECT_GE(certainty, rename_threshold) << bone.name;
    }
    EXPECT_TRUE(compared.comparison.links.added.empty());
    EXPECT_TRUE(compared.comparison.verdicts.empty());
    EXPECT_EQ(compared.reach(), "");
}

TEST(Renames, TwoLimbsRenamedAtOnceAreNotMixedUp) {
    // In the new file the sides stand the other way round, so that file order alone would mix them up.
    const std::string left =
        "{'name': 'ARM_l_1', 'parent': 'hip'}, {'name': 'ARM_l_2', 'parent': 'ARM_l_1'}, {'name': 'ARM_l_3', 'parent': "
        "'ARM_l_2'}";
    const std::string right = with(left, "_l_", "_r_"), hip = "{'name': 'hip'}, ";
    const Compared compared(hip + with(left + ", " + right, "ARM", "arm"), hip + with(right + ", " + left, "ARM", "fin"));
    EXPECT_EQ(compared.changes(),
              "bone arm_r_1 -> fin_r_1\nbone arm_r_2 -> fin_r_2\nbone arm_r_3 -> fin_r_3\n"
              "bone arm_l_1 -> fin_l_1\nbone arm_l_2 -> fin_l_2\nbone arm_l_3 -> fin_l_3\n");
}

TEST(Renames, OneBone) {
    const Compared compared(
        "{'name': 'a', 'roles': ['control']}, {'name': 'old', 'parent': 'a', 'rest': {'translation': [0, 1, 0]}}, {'name': 'c', "
        "'parent': 'old'}",
        "{'name': 'a', 'roles': ['control']}, {'name': 'new', 'parent': 'a', 'rest': {'translation': [0, 1, 0]}}, {'name': 'c', "
        "'parent': 'new'}");
    EXPECT_EQ(compared.changes(), "bone old -> new\n");
    // By hand: parent 2, roles 1, translation 2, rotation and scale 1, child 2, shape 2: 10 of 10, over 10 + 3.
    EXPECT_NEAR(compared.certainty("new"), 10.0 / 13, 1e-6);
}

TEST(Renames, AChainWithoutAnythingElse) {
    const Compared compared(
        "{'name': 'a'}, {'name': 'tail_1', 'parent': 'a'}, {'name': 'tail_2', 'parent': 'tail_1'}, {'name': 'tail_3', 'parent': "
        "'tail_2'}",
        "{'name': 'a'}, {'name': 'whip_1', 'parent': 'a'}, {'name': 'whip_2', 'parent': 'whip_1'}, {'name': 'whip_3', 'parent': "
        "'whip_2'}");
    EXPECT_EQ(compared.changes(), "bone tail_1 -> whip_1\nbone tail_2 -> whip_2\nbone tail_3 -> whip_3\n");
}

TEST(Renames, ARenameWithAChange) {
    const Compared compared(
        "{'name': 'a'}, {'name': 'x'}, {'name': 'old', 'parent': 'a', 'rest': {'translation': [0, 1, 0]}, 'tip': [0, 1, 0], "
        "'constraints': [{'name': 'hold', 'kind': 'position',"
        "'from': 'x'}]}, {'name': 'c', 'parent': 'old'}",
        "{'name': 'a'}, {'name': 'x'}, {'name': 'new', 'parent': 'x', 'rest': {'translation': [0, 1, 0]}, 'tip': [0, 1, 0], "
        "'constraints': [{'name': 'hold', 'kind': 'position',"
        "'from': 'x', 'weight': 0.5}]}, {'name': 'c', 'parent': 'new'}");
    EXPECT_EQ(compared.changes(), "bone old -> new\nbone new: parent: a -> x\nconstraint new/hold: weight: 1 -> 0.5\n");
}

TEST(Renames, TwoNamesThatChangedPlacesAreTwoChangedBones) {
    const Compared compared("{'name': 'p'}, {'name': 'q'}, {'name': 'a', 'parent': 'p'}, {'name': 'b', 'parent': 'q'}",
                            "{'name': 'p'}, {'name': 'q'}, {'name': 'b', 'parent': 'p'}, {'name': 'a', 'parent': 'q'}");
    EXPECT_EQ(compared.changes(), "bone b: parent: q -> p\nbone a: parent: p -> q\n");
}

TEST(Renames, TwinsAreHalfAsSure) {
    const std::string twins =
        "{'name': 'a'}, {'name': 'T1', 'parent': 'a', 'tip': [0, 1, 0], 'group': 'g'}, {'name': 'T2', 'parent': 'a', 'tip': [0, "
        "1, 0], 'group': 'g'}";
    const Compared compared(with(with(twins, "T1", "left"), "T2", "twin"), with(with(twins, "T1", "back"), "T2", "ours"));
    EXPECT_EQ(compared.changes(), "bone left -> back\nbone twin -> ours\n");
    // By hand: parent 2, roles 1, tip 1, group 1: 5 over 5 + 3, and which is which nobody can tell.
    EXPECT_NEAR(compared.certainty("back"), 5.0 / 8 / 2, 1e-6);
    EXPECT_NEAR(compared.certainty("ours"), 5.0 / 8 / 2, 1e-6);
}

TEST(Renames, ANewBoneBesideARemovedOneIsNone) {
    const std::string frame = "{'name': 'a'}, {'name': 'b'}, ";
    for (const auto& [gone, fresh] : std::vector<std::pair<std::string, std::string>>{
             {"{'name': 'x', 'parent': 'a'}", "{'name': 'y', 'parent': 'a'}"},  // nothing speaks for it
             {"{'name': 'x', 'parent': 'a', 'rest': {'translation': [0, 1, 0]}}",
              "{'name': 'y', 'parent': 'a', 'rest': {'translation': [0, 2, 0]}}"},
             {"{'name': 'x', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'a'}]}",  // nor
                                                                                                                          // this
              "{'name': 'y', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'b'}]}"},
             {"{'name': 'x', 'parent': 'a', 'roles': ['deform']}", "{'name': 'y', 'parent': 'a', 'roles': ['control']}"},
             {"{'name': 'x', 'parent': 'a', 'constraints': [{'kind': 'transform', 'from': 'a'}]}",
              "{'name': 'y', 'parent': 'b', 'constraints': [{'kind': 'transform', 'from': 'b'}]}"}}) {
        const Compared compared(frame + gone, frame + fresh);
        EXPECT_EQ(compared.changes(), "+ bone y\n- bone x\n") << gone << fresh;
    }
}

// What it does.

const char* const wing =
    "{'name': 'root', 'roles': ['control']}, {'name': 'fk', 'roles': ['control'], 'parent': 'root'}, {'name': 'ik', 'parent': "
    "'root'},"
    "{'name': 'mech', 'constraints': [{'name': 'ik', 'kind': 'transform', 'from': 'ik'}, {'name': 'fk', 'kind': 'transform', "
    "'from': 'fk', 'weight': WEIGHT}]},"
    "{'name': 'hand', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'SEAT'}]},"
    "{'name': 'body', 'roles': ['deform'], 'parent': 'root', 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': "
    "'fk'}]}";
const char* const switched = "{'expression': 's', 'inputs': {'s': {'property': 'mode'}}}";
const char* const mode = "'properties': [{'name': 'mode', 'on': 'root', 'min': 0, 'max': 1}], 'roots': ['root']";

TEST(Effects, AVerdictGetsWorseAndBetter) {
    const std::string held = with(with(wing, "WEIGHT", "1"), "SEAT", "mech");
    std::string loose = held;
    loose = with(loose, "{'name': 'seat', 'kind': 'transform', 'from': 'mech'}",
                 "{'name': 'seat', 'kind': 'transform', 'from': 'mech', 'enabled': false}");
    EXPECT_EQ(Compared(held, loose, mode, mode).verdicts(), "hand: attached -> orphaned worse\n");
    EXPECT_EQ(Compared(loose, held, mode, mode).verdicts(), "hand: orphaned -> attached better\n");
}

TEST(Effects, AStateInWhichABoneIsLost) {
    // With fk at full weight the hand hangs on fk; driven, it has ik alone at 0, which the root control moves.
    const std::string fixed = with(with(wing, "WEIGHT", "1"), "SEAT", "mech"),
                      driven = with(with(wing, "WEIGHT", switched), "SEAT", "mech");
    const std::string on = with(mode, "'max': 1", "'max': 1, 'default': 1");
    // The switch is a new one, so that its stops are in no state that both have: the default state is as it was.
    EXPECT_EQ(Compared(fixed, driven, on, on).verdicts(), "");
    // Both have the switch; in one the seat reads the forearm that the switch gates.
    const std::string around = with(driven, "'from': 'ik'}", "'from': 'fk'}");
    EXPECT_EQ(Compared(around, driven, on, on).verdicts(), "hand: attached -> attached lost in mode=0 worse\n");
    EXPECT_EQ(Compared(driven, around, on, on).verdicts(), "hand: attached -> attached held in mode=0 better\n");
}

TEST(Effects, WhoMovesABone) {
    const std::string before = with(with(wing, "WEIGHT", "1"), "SEAT", "mech");
    const std::string after = with(with(wing, "WEIGHT", "0.5"), "SEAT", "ik");
    const Compared compared(before, after, mode, mode);
    EXPECT_EQ(compared.reach(), "hand -fk\n");
    EXPECT_EQ(Compared(after, before, mode, mode).reach(), "hand +fk\n");
    EXPECT_TRUE(compared.comparison.other_reach_listed);
    const Compared mechanism("{'name': 'a', 'roles': ['control']}, {'name': 'm'}",
                             "{'name': 'a', 'roles': ['control']}, {'name': 'm', 'parent': 'a'}");
    EXPECT_EQ(mechanism.reach(), "m +a\n");  // also of bones that do not deform
}

TEST(Effects, SwitchesGainAndLoseConstraints) {
    const std::string fixed = with(with(wing, "WEIGHT", "1"), "SEAT", "mech"),
                      driven = with(with(wing, "WEIGHT", switched), "SEAT", "mech");
    const Compared compared(fixed, driven, mode, mode);
    ASSERT_EQ(compared.comparison.switches.size(), 1u);
    const SwitchChange& change = compared.comparison.switches[0];
    EXPECT_EQ(change.before, none);  // no switch before, though a property
    EXPECT_EQ(change.after, 0u);
    ASSERT_EQ(change.gained.size(), 1u);
    EXPECT_EQ(constraint_name(compared.after.rig, compared.after.dependencies, change.gained[0]), "mech/fk");
    const std::string more = with(driven, "'from': 'fk'}", std::string("'from': 'fk', 'weight': ") + switched + "}");
    const Compared grown(driven, more, mode, mode);
    ASSERT_EQ(grown.comparison.switches.size(), 1u);
    EXPECT_EQ(grown.comparison.switches[0].before, 0u);
    EXPECT_EQ(grown.comparison.switches[0].gained.size(), 1u);
    EXPECT_TRUE(grown.comparison.switches[0].lost.empty());
}

/// Bones named by letters; "ab" is an arc a -> b.
Rig ring(const std::string& bones, const std::vector<std::string>& arcs) {
    std::string text;
    for (const char b : bones) {
        std::string stack;
        for (const std::string& arc : arcs)
            if (arc[1] == b)
                stack += std::string(stack.empty() ? "" : ", ") + "{'name': 'from_" + arc[0] +
                         "', 'kind': 'transform', 'from': '" + arc[0] + "'}";
        text += std::string(text.empty() ? "" : ", ") + "{'name': '" + b + "', 'constraints': [" + stack + "]}";
    }
    return tiny_rig(text);
}

TEST(Effects, CyclesComeGoGrowAndShrink) {
    const Rig none_yet = ring("abcd", {"ab"}), two = ring("abcd", {"ab", "ba"}), three = ring("abcd", {"ab", "bc", "ca"});
    const Rig pairs = ring("abcd", {"ab", "ba", "cd", "dc"}), all = ring("abcd", {"ab", "ba", "cd", "dc", "bc", "da"});
    EXPECT_EQ(Compared(none_yet, two).cycles(), "new +(a b) -() worse\n");
    EXPECT_EQ(Compared(two, none_yet).cycles(), "gone +() -(a b)\n");
    EXPECT_EQ(Compared(two, two).cycles(), "");
    EXPECT_EQ(Compared(two, three).cycles(), "grown +(c) -() worse\n");
    EXPECT_EQ(Compared(three, two).cycles(), "shrunk +() -(c)\n");
    EXPECT_EQ(Compared(pairs, all).cycles(), "grown +(c d) -() worse\nmerged +() -(c d)\n");
    EXPECT_EQ(Compared(all, pairs).cycles(), "shrunk +() -(c d)\nsplit off +(c d) -()\n");
}

TEST(Effects, LevelsAndPairsThatTurnedRound) {
    const Compared compared(ring("abc", {"ab", "bc"}), ring("abc", {"ba", "ac"}));
    EXPECT_EQ(compared.comparison.order.chain_before, 3u);
    EXPECT_EQ(compared.comparison.order.chain_after, 3u);
    EXPECT_EQ(compared.comparison.order.levels.size(), 2u);  // a and b changed places, c is on level 3 in both
    ASSERT_EQ(compared.comparison.order.turned.size(), 1u);
    EXPECT_EQ(compared.comparison.order.turned[0].first, 0u);
    EXPECT_EQ(compared.comparison.order.turned[0].now_first, 1u);
}

TEST(Effects, DependencesThatCameAndWent) {
    const Compared compared(ring("abc", {"ab", "bc"}), ring("abc", {"ab", "ac"}));
    ASSERT_EQ(compared.comparison.links.added.size(), 1u);
    EXPECT_EQ(compared.comparison.links.added[0].from, 0u);
    ASSERT_EQ(compared.comparison.links.removed.size(), 1u);
    EXPECT_EQ(compared.comparison.links.removed[0].from, 1u);
}

// Random edits.

void rename_all(Rig& rig) {
    for (Bone& bone : rig.bones) bone.name = "new_" + bone.name;
}

TEST(RandomEdits, NoEditIsNoChange) {
    for (unsigned seed = 0; seed < 200; ++seed) {
        const Compared compared(random_rig(seed), random_rig(seed));
        EXPECT_EQ(compared.changes(), "") << seed;
        EXPECT_TRUE(compared.comparison.is_same()) << seed;
        EXPECT_EQ(compared.verdicts() + compared.cycles() + compared.reach(), "") << seed;
        EXPECT_TRUE(compared.comparison.order.levels.empty() && compared.comparison.order.turned.empty()) << seed;
        EXPECT_TRUE(compared.comparison.switches.empty()) << seed;
    }
}

/// One edit of some kind, told in the form of Compared::changes without values.
std::string edit(Rig& rig, Random& random) {
    const auto pick = static_cast<BoneId>(random.below(static_cast<unsigned>(rig.bones.size())));
    Bone& bone = rig.bones[pick];
    switch (random.below(5)) {
        case 0:
            bone.group += "x";
            return "bone " + bone.name + ": group";
        case 1:
            bone.control = !bone.control;
            return "bone " + bone.name + ": roles";
        case 2: {
            Bone& fresh = rig.bones.emplace_back();
            fresh.name = "fresh_bone";
            fresh.parent = pick;
            return "+ bone fresh_bone";
        }
        case 3: {
            Constraint& fresh = bone.constraints.emplace_back();
            fresh.name = "fresh_constraint", fresh.kind = ConstraintKind::aim;
            fresh.sources.emplace_back().bone = 0;
            return "+ constraint " + bone.name + "/fresh_constraint";
        }
        default:
            bone.tip = {{1, 2, 3}};
            return "bone " + bone.name + ": tip";
    }
}

TEST(RandomEdits, WhatWasEditedIsTold) {
    std::set<std::string> kinds;
    for (unsigned seed = 0; seed < 200; ++seed) {
        Random random(seed);
        Rig edited = random_rig(seed);
        const std::string wanted = edit(edited, random);
        const Compared compared(random_rig(seed), edited);
        const std::string told = compared.changes();
        EXPECT_EQ(told.substr(0, wanted.size()), wanted) << seed;
        EXPECT_EQ(std::count(told.begin(), told.end(), '\n'), 1) << seed << " " << told;
        kinds.insert(wanted.substr(wanted.rfind(' ')));
    }
    EXPECT_GT(kinds.size(), 4u);
}

/// The lines of a dump with what is added and removed, old and new exchanged.
std::multiset<std::string> mirrored(const Compared& compared) {
    std::multiset<std::string> lines;
    for (const Change& change : compared.comparison.changes) {
        std::string was = Compared::name(compared.before, change.element, change.before),
                    is = Compared::name(compared.after, change.element, change.after);
        std::string line = std::string(name_of(change.element)) + "|" + is + "|" + was + "|";
        for (const FieldChange& field : change.fields) lines.insert(line + field.field + "|" + field.after + "|" + field.before);
        lines.insert(line + (change.renamed ? "renamed" : ""));
    }
    return lines;
}

std::multiset<std::string> straight(const Compared& compared) {
    std::multiset<std::string> lines;
    for (const Change& change : compared.comparison.changes) {
        std::string was = Compared::name(compared.before, change.element, change.before),
                    is = Compared::name(compared.after, change.element, change.after);
        std::string line = std::string(name_of(change.element)) + "|" + was + "|" + is + "|";
        for (const FieldChange& field : change.fields) lines.insert(line + field.field + "|" + field.before + "|" + field.after);
        lines.insert(line + (change.renamed ? "renamed" : ""));
    }
    return lines;
}

TEST(RandomEdits, TheOtherWayRoundIsTheMirrorImage) {
    for (unsigned seed = 0; seed < 200; ++seed) {
        Random random(seed + 1000);
        Rig one = random_rig(seed), other = random_rig(seed);
        for (unsigned i = 0; i < 1 + seed % 5; ++i) {
            edit(other, random);
            if (i == 0 && seed % 2 == 0) break;
        }
        if (seed % 3 == 0) rename_all(other);
        const Compared there(one, other), back(other, one);
        EXPECT_EQ(straight(there), mirrored(back)) << seed;
        EXPECT_EQ(there.comparison.links.added.size(), back.comparison.links.removed.size()) << seed;
        EXPECT_EQ(there.comparison.order.turned.size(), back.comparison.order.turned.size()) << seed;
        EXPECT_EQ(there.comparison.moved_in_file, back.comparison.moved_in_file) << seed;
        EXPECT_EQ(there.comparison.reach.size(), back.comparison.reach.size()) << seed;
        EXPECT_EQ(there.comparison.verdicts.size(), back.comparison.verdicts.size()) << seed;
        EXPECT_EQ(there.comparison.cycles.size(), back.comparison.cycles.size()) << seed;
    }
}

// Work.

Rig many_limbs(std::size_t limbs, std::size_t renamed) {
    Rig rig;
    rig.bones.emplace_back().name = "world";
    for (std::size_t i = 0; i < limbs; ++i) {
        const std::string name = (i < renamed ? "fin_" : "arm_") + std::to_string(i) + "_";
        BoneId parent = 0;
        for (int k = 0; k < 10; ++k) {
            Bone& bone = rig.bones.emplace_back();
            bone.name = name + std::to_string(k);
            bone.parent = parent;
            bone.group = (i < renamed ? "fins_" : "arms_") + std::to_string(i / 10);
            if (k > 0) {
                Constraint& constraint = bone.constraints.emplace_back();
                constraint.name = "hold", constraint.kind = ConstraintKind::rotation;
                constraint.sources.emplace_back().bone = 0;
            }
            parent = static_cast<BoneId>(rig.bones.size() - 1);
        }
    }
    return rig;
}

TEST(RenameWork, TenThousandRenamedAmongAHundredThousandTakeNoPairing) {
    const Rig before = many_limbs(10'000, 0), after = many_limbs(10'000, 1'000);
    const Dependencies old_needs = build_dependencies(before), new_needs = build_dependencies(after);
    const auto start = std::chrono::steady_clock::now();
    const Matching matching = match_rigs(before, old_needs, after, new_needs);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    std::size_t right = 0;
    for (BoneId bone = 0; bone < after.bones.size(); ++bone) right += matching.bones.before[bone] == bone;
    EXPECT_EQ(right, after.bones.size());
    // Pairs would be 10,000 times 10,000. The bound is wide: unoptimised and sanitized builds take several times as long.
    EXPECT_LT(took.count(), 120);
    RecordProperty("seconds", std::to_string(took.count()));
}

}  // namespace
}  // namespace ligament
