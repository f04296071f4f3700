// Is a cycle cut at the cheapest makers, and is what that costs the rig told right?
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <string>
#include <tuple>

#include "ligament/facts.hpp"
#include "mixed_rig.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::tiny_rig;

// ---- Dumps

std::string dump_cut(const Rig& rig, const Dependencies& dependencies, const Cut& cut) {
    std::string text = std::string(name_of(cut.grain)) + " " + std::to_string(cut.cost) + ":";
    for (const CutMaker& maker : cut.makers) {
        const auto end = [&](std::uint32_t id) { return cut.between_properties ? rig.properties[id].name : rig.bones[id].name; };
        text += " " + end(maker.edge.from) + " -" + std::string(name_of(maker.edge.kind)) + " " +
                name_of(rig, dependencies, maker.edge.maker) + "-> " + end(maker.edge.to) + " (" + std::to_string(maker.cost) +
                ")";
    }
    for (const CutLoss& loss : cut.loses) {
        text += "; " + rig.bones[loss.bone].name + " loses";
        for (BoneId control : loss.controls) text += " " + rig.bones[control].name;
    }
    if (!cut.is_exact) text += "; at least " + std::to_string(cut.at_least);
    return cut.is_checked ? text : text + "; a cycle is left";
}

/// One line a cut, the finer one after the one at bone grain.
std::string dump_cuts(const Rig& rig, const CutCosts& costs = {}) {
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    std::string text;
    for (const CycleCuts& found : find_cuts(rig, dependencies, cycles, costs, default_state(rig))) {
        text += dump_cut(rig, dependencies, found.cut) + "\n";
        if (found.finer) text += "  finer " + dump_cut(rig, dependencies, *found.finer) + "\n";
    }
    return text;
}

// ---- Every set of makers

/// By cost, then by place in the file and number.
struct Choice {
    std::uint64_t cost = ~std::uint64_t{0};
    std::vector<std::tuple<std::uint32_t, std::uint32_t, MakerId>> places;

    friend auto operator<=>(const Choice&, const Choice&) = default;
};

/// Whether the bones or properties of a cycle are on no cycle at a grain, of the dependencies without the makers.
bool is_cut(const Rig& rig, const Dependencies& dependencies, const Cycle& cycle, Grain grain, std::span<const MakerId> makers) {
    const Dependencies left = dependencies_without(dependencies, makers);
    for (const Cycle& other : find_cycles(rig, left)) {
        const bool inside =
            cycle.bones.empty()
                ? std::binary_search(cycle.properties.begin(), cycle.properties.end(),
                                     other.properties.empty() ? none : other.properties.front())
                : (!other.bones.empty()
                       ? std::binary_search(cycle.bones.begin(), cycle.bones.end(), other.bones.front())
                       : std::binary_search(cycle.properties.begin(), cycle.properties.end(), other.properties.front()));
        if (inside && other.grain >= grain) return false;
    }
    return true;
}

Choice naive_cut(const Rig& rig, const Dependencies& dependencies, const Cycle& cycle, Grain grain, const CutCosts& costs,
                 const std::vector<MakerId>& makers) {
    Choice best;
    for (std::uint32_t subset = 0; subset < 1U << makers.size(); ++subset) {
        Choice choice{0, {}};
        std::vector<MakerId> chosen;
        for (std::size_t i = 0; i < makers.size(); ++i) {
            if (!(subset >> i & 1U)) continue;
            const Place place = place_of(rig, dependencies, makers[i]);
            chosen.push_back(makers[i]);
            choice.places.emplace_back(place.line, place.column, makers[i]);
            choice.cost += costs.of(dependencies.makers[makers[i]].kind);
        }
        std::sort(choice.places.begin(), choice.places.end());
        if (choice < best && is_cut(rig, dependencies, cycle, grain, chosen)) best = choice;
    }
    return best;
}

/// Makers of live edges at bone grain inside the component, the constraints that gate them, and those of its bones: they may read
/// their own bone, which no edge tells at bone grain.
std::vector<MakerId> makers_inside(const Dependencies& dependencies, const Cycle& cycle) {
    const Graph& graph = dependencies.bone;
    std::vector<MakerId> makers;
    const auto may_be_inside = [&](VertexId v) {
        return v >= graph.first_property || std::binary_search(cycle.bones.begin(), cycle.bones.end(), v);
    };
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v)) {
            if (!may_be_inside(v) || !may_be_inside(edge.from) || dependencies.is_inert(edge)) continue;
            makers.push_back(edge.maker);
            if (dependencies.gates[edge.gate].constraint != none)
                makers.push_back(maker_of(dependencies, dependencies.gates[edge.gate].constraint));
        }
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id)
        if (may_be_inside(dependencies.constraints[id].bone)) makers.push_back(maker_of(dependencies, id));
    std::sort(makers.begin(), makers.end());
    makers.erase(std::unique(makers.begin(), makers.end()), makers.end());
    std::erase_if(makers, [&](MakerId maker) { return dependencies.makers[maker].kind == Maker::Kind::stack; });
    return makers;
}

Choice choice_of(const Rig& rig, const Dependencies& dependencies, const Cut& cut) {
    Choice choice{cut.cost, {}};
    for (const CutMaker& maker : cut.makers) {
        const Place place = place_of(rig, dependencies, maker.edge.maker);
        choice.places.emplace_back(place.line, place.column, maker.edge.maker);
    }
    return choice;
}

TEST(Cuts, AreTheBestOfAllSetsOfMakersOnRandomRigs) {
    testing::Random random(11);
    unsigned looked_at = 0, finer = 0;
    for (unsigned i = 0; i < 400 && looked_at < 150; ++i) {
        const Rig rig = testing::mixed_rig(random, {.bones = 4 + random.below(3), .backwards = 30});
        const Dependencies dependencies = build_dependencies(rig);
        CutCosts costs;
        if (i % 2 == 1) costs = {1 + random.below(5), 1 + random.below(5), 1 + random.below(5), 1 + random.below(5), 3, 4};
        const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
        const std::vector<CycleCuts> cuts = find_cuts(rig, dependencies, cycles, costs, default_state(rig));
        ASSERT_EQ(cuts.size(), cycles.size());
        for (std::size_t c = 0; c < cycles.size(); ++c) {
            const std::vector<MakerId> makers = makers_inside(dependencies, cycles[c]);
            if (makers.size() > 11) continue;
            ++looked_at;
            ASSERT_TRUE(cuts[c].cut.is_exact && cuts[c].cut.is_first && cuts[c].cut.is_checked);
            const Choice best = naive_cut(rig, dependencies, cycles[c], Grain::bone, costs, makers);
            ASSERT_EQ(choice_of(rig, dependencies, cuts[c].cut), best) << "rig " << i;
            if (cycles[c].grain == Grain::bone) continue;
            const Choice at_grain = naive_cut(rig, dependencies, cycles[c], cycles[c].grain, costs, makers);
            ASSERT_EQ(cuts[c].finer.has_value(), at_grain.cost < best.cost)
                << "rig " << i << ": " << dump_cut(rig, dependencies, cuts[c].finer.value_or(cuts[c].cut));
            if (!cuts[c].finer) continue;
            ++finer;
            ASSERT_EQ(choice_of(rig, dependencies, *cuts[c].finer), at_grain) << "rig " << i;
        }
    }
    EXPECT_GE(looked_at, 100U);
    EXPECT_GE(finer, 3U);
}

// ---- What is lost

/// The controls of each deform bone, as attachment tells them.
std::vector<std::vector<BoneId>> controls_of(const Rig& rig, const Dependencies& dependencies) {
    std::vector<std::vector<BoneId>> controls(rig.bones.size());
    for (const Attachment& attachment : find_attachment(rig, dependencies, default_state(rig)).deform)
        controls[attachment.bone] = attachment.controls;
    return controls;
}

TEST(Cuts, LoseWhatAttachmentLosesWithoutTheMakers) {
    testing::Random random(12);
    unsigned losing = 0;
    for (unsigned i = 0; i < 400; ++i) {
        const Rig rig = testing::mixed_rig(random, {.bones = 10, .backwards = 25});
        const Dependencies dependencies = build_dependencies(rig);
        const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
        for (const CycleCuts& found : find_cuts(rig, dependencies, cycles, {}, default_state(rig))) {
            std::vector<MakerId> makers;
            for (const CutMaker& maker : found.cut.makers) makers.push_back(maker.edge.maker);
            const auto before = controls_of(rig, dependencies);
            const auto after = controls_of(rig, dependencies_without(dependencies, makers));
            std::vector<std::pair<BoneId, std::vector<BoneId>>> expected, told;
            for (BoneId b = 0; b < rig.bones.size(); ++b) {
                std::vector<BoneId> lost;
                std::set_difference(before[b].begin(), before[b].end(), after[b].begin(), after[b].end(),
                                    std::back_inserter(lost));
                if (!lost.empty()) expected.emplace_back(b, lost);
            }
            for (const CutLoss& loss : found.cut.loses) told.emplace_back(loss.bone, loss.controls);
            ASSERT_EQ(told, expected) << "rig " << i;
            losing += expected.empty() ? 0U : 1U;
        }
    }
    EXPECT_GE(losing, 20U);
}

// ---- One rule each

TEST(Cuts, TakeTheConstraintBeforeTheParentLink) {
    const Rig rig = tiny_rig(
        "{'name': 'neck_ctl', 'roles': ['control']},"
        "{'name': 'neck', 'roles': ['deform'], 'parent': 'neck_ctl', 'constraints': [{'name': 'track', 'kind': 'transform', "
        "'from': 'beak', 'weight': 0.5}]},"
        "{'name': 'beak', 'parent': 'neck'}");
    EXPECT_EQ(dump_cuts(rig), "bone 2: beak -constraint neck/track-> neck (2)\n");
    EXPECT_EQ(dump_cuts(rig, {.constraint = 9}), "bone 8: neck -parent beak-> beak (8)\n");
}

TEST(Cuts, TellWhichDeformBonesLoseWhichControls) {
    // The tail follows the feather, whose control moves it no more once the tail lets go.
    const Rig rig = tiny_rig(
        "{'name': 'chest_ctl', 'roles': ['control']},"
        "{'name': 'tail', 'roles': ['deform'], 'constraints': [{'name': 'toward', 'kind': 'rotation', 'from': 'feather'}]},"
        "{'name': 'feather', 'parent': 'tail', 'constraints': [{'name': 'lift', 'kind': 'rotation', 'from': 'chest_ctl', "
        "'weight': 0.5}]}");
    EXPECT_EQ(dump_cuts(rig), "bone 2: feather -constraint tail/toward-> tail (2); tail loses chest_ctl\n");
}

TEST(Cuts, OfADrivenWeightTakeTheDriverOrTheConstraintWhicheverIsCheaper) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': 'x', 'weight': {'expression': 'r', 'inputs': "
        "{'r': {'bone': 'b', 'channel': 'rotation.x', 'space': 'final'}}}}]},"
        "{'name': 'b', 'parent': 'a'}, {'name': 'x'}");
    EXPECT_EQ(dump_cuts(rig), "bone 1: b -driver a/c-> a (1)\n");
    EXPECT_EQ(dump_cuts(rig, {.driver = 3}), "bone 2: b -constraint a/c-> a (2)\n");
}

TEST(Cuts, OfALoopOfPropertiesNameTheProperties) {
    EXPECT_EQ(dump_cuts(tiny_rig("{'name': 'a'}",
                                 "'properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'q'}}}},"
                                 "{'name': 'q', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'p'}}}}]")),
              "bone 1: q -driver p-> p (1)\n");
}

TEST(Cuts, OfEqualSetsTakeTheFirstInTheFile) {
    EXPECT_EQ(dump_cuts(tiny_rig("{'name': 'a', 'constraints': [{'name': 'x', 'kind': 'transform', 'from': 'c'}]},"
                                 "{'name': 'b', 'constraints': [{'name': 'y', 'kind': 'transform', 'from': 'a'}]},"
                                 "{'name': 'c', 'constraints': [{'name': 'z', 'kind': 'transform', 'from': 'b'}]}")),
              "bone 2: c -constraint a/x-> a (2)\n");
}

TEST(Cuts, SayWhereLessIsEnoughAtTheGrainOfTheCycle) {
    // a and b turn with each other: true. That b's pose also feeds a only whole bones mind, and there it takes a second maker.
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'name': 'turn', 'kind': 'rotation', 'from': 'b'}], 'channels': {'position.x': "
        "{'expression': 's', 'inputs': {'s': {'bone': 'b', 'channel': 'position.x'}}}}},"
        "{'name': 'b', 'constraints': [{'name': 'turn', 'kind': 'rotation', 'from': 'a'}, {'name': 'scale', 'kind': 'scale', "
        "'from': 'a'}]}");
    EXPECT_EQ(dump_cuts(rig),
              "bone 3: b -constraint a/turn-> a (2) b -driver a/position.x-> a (1)\n"
              "  finer channel 2: b -constraint a/turn-> a (2)\n");
}

TEST(Cuts, LeaveInertMakersAlone) {
    EXPECT_EQ(dump_cuts(tiny_rig("{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b', 'enabled': false}]},"
                                 "{'name': 'b', 'parent': 'a'}")),
              "");
}

TEST(Cuts, OfOneCycleAreThoseOfAll) {
    const Rig rig = tiny_rig(
        "{'name': 'a', 'constraints': [{'name': 'x', 'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'},"
        "{'name': 'c', 'constraints': [{'name': 'y', 'kind': 'transform', 'from': 'd'}]}, {'name': 'd', 'parent': 'c'}");
    const Dependencies dependencies = build_dependencies(rig);
    std::string text;
    for (const Cycle& cycle : find_cycles(rig, dependencies))
        text += dump_cut(rig, dependencies, find_cut(rig, dependencies, cycle, Grain::bone, {}, default_state(rig))) + "\n";
    EXPECT_EQ(text, dump_cuts(rig));
    EXPECT_EQ(text, "bone 2: b -constraint a/x-> a (2)\nbone 2: d -constraint c/y-> c (2)\n");
}

// ---- Size

/// Bones b0, b1, ..., each constrained to the ones that `sources` names.
template <class Sources>
Rig big_rig(unsigned bones, Sources sources) {
    Rig rig;
    for (unsigned b = 0; b < bones; ++b) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "b" + std::to_string(b);
        bone.deform = true;
        bone.control = b == 0;
        for (unsigned from : sources(b)) {
            Constraint& constraint = bone.constraints.emplace_back();
            constraint.name = "c" + std::to_string(bone.constraints.size());
            constraint.sources.emplace_back().bone = from;
        }
    }
    return rig;
}

TEST(Cuts, OfACycleOfAHundredThousandBonesAreExact) {
    const unsigned size = 100'000;
    const Rig rig = big_rig(size, [&](unsigned b) { return std::vector<unsigned>{(b + size - 1) % size}; });
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    const std::vector<CycleCuts> cuts = find_cuts(rig, dependencies, cycles, {}, default_state(rig));
    ASSERT_EQ(cuts.size(), 1U);
    EXPECT_TRUE(cuts[0].cut.is_exact && cuts[0].cut.is_checked);
    EXPECT_EQ(cuts[0].cut.cost, 2U);
    // What bones lose grows with bones times bones here: the search for it stops, and says so.
    EXPECT_EQ(cuts[0].cut.deform_behind, size);
    EXPECT_LT(cuts[0].cut.deform_looked_at, size);
}

// Cycles that all pass one bone, 100,000 of them: what goes is taken off that bone's arcs one by one, and a look at all of them
// each time would be 10^10 looks.
TEST(Cuts, OfManyCyclesThroughOneBoneAreExact) {
    const unsigned size = 100'000;
    const Rig rig = big_rig(size, [&](unsigned b) {
        std::vector<unsigned> all(b == 0 ? size - 1 : 1);
        if (b == 0) std::iota(all.begin(), all.end(), 1U);
        return all;
    });
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    const std::vector<CycleCuts> cuts = find_cuts(rig, dependencies, cycles, {}, default_state(rig));
    ASSERT_EQ(cuts.size(), 1U);
    EXPECT_TRUE(cuts[0].cut.is_exact && cuts[0].cut.is_checked);
    EXPECT_EQ(cuts[0].cut.cost, 2U * (size - 1));  // each has two constraints of its own
}

TEST(Cuts, OfManyCyclesShareOneSecondsWork) {
    testing::Random random(13);
    // A thousand components of ten bones, a few of them hard to tell apart from the best.
    const Rig rig = big_rig(10'000, [&](unsigned b) {
        const unsigned first = b / 10 * 10;
        return std::vector<unsigned>{first + (b + 9) % 10, first + random.below(10), first + random.below(10)};
    });
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
    ASSERT_EQ(cycles.size(), 1'000U);
    for (const CycleCuts& found : find_cuts(rig, dependencies, cycles, {}, default_state(rig)))
        EXPECT_TRUE(found.cut.is_exact && found.cut.is_checked);
}

}  // namespace
}  // namespace ligament
