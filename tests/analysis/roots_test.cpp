// Do root controls, lists of controls and verdicts agree with one search a control, however many there are?
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "ligament/facts.hpp"
#include "motion.hpp"
#include "naive_graph.hpp"

namespace ligament {
namespace {

/// Controls, mechanism and deform bones under random parents, with constraints that read random bones; cycles happen.
Rig random_rig(testing::Random& random, unsigned size, unsigned controls_of_ten) {
    Rig rig;
    rig.bones.resize(size);
    for (BoneId b = 0; b < size; ++b) {
        Bone& bone = rig.bones[b];
        bone.name = "b" + std::to_string(b);
        bone.control = random.below(10) < controls_of_ten;
        bone.deform = random.below(3) == 0;
        if (b > 0 && random.below(4) != 0) bone.parent = random.below(3) == 0 ? random.below(b) : b - 1;
        for (unsigned count = random.below(3); count > 0; --count) {
            Constraint& constraint = bone.constraints.emplace_back();
            constraint.name = "c" + std::to_string(count);
            constraint.kind = random.below(2) == 0 ? ConstraintKind::transform : ConstraintKind::rotation;
            constraint.enabled = random.below(5) != 0;
            constraint.weight.number = random.below(2) == 0 ? 1 : 0.5;
            constraint.sources.emplace_back().bone =
                random.below(8) == 0 ? random.below(size) : b - random.below(std::min(b + 1, 5u));
        }
    }
    for (unsigned p = 0; p < size / 4; ++p) {
        Property& property = rig.properties.emplace_back();
        property.name = "p" + std::to_string(p);
        property.on = random.below(size);
    }
    return rig;
}

struct NaiveReach {
    std::vector<std::vector<BoneId>> controls;  ///< by bone
    std::vector<BoneId> roots;
};

NaiveReach naive_reach_of(const Rig& rig, const Motion& motion, const Graph& channel) {
    NaiveReach result;
    result.controls.resize(rig.bones.size());
    const Rows forward = reversed(motion.rows, motion.rows.size());
    for (std::size_t i = 0; i < motion.controls.size(); ++i) {
        std::vector<bool> seen(motion.rows.size(), false);
        std::vector<VertexId> going(motion.starts_of(i).begin(), motion.starts_of(i).end());
        for (VertexId v : going) seen[v] = true;
        while (!going.empty()) {
            const VertexId v = going.back();
            going.pop_back();
            for (VertexId next : forward.of(v)) {
                if (seen[next]) continue;
                seen[next] = true;
                going.push_back(next);
            }
        }
        for (BoneId b = 0; b < rig.bones.size(); ++b)
            for (VertexId v = channel.first_of_bone[b + 1] - 3; v < channel.first_of_bone[b + 1]; ++v)  // no bone has a curve
                if (rig.bones[b].deform && seen[v] &&
                    (result.controls[b].empty() || result.controls[b].back() != motion.controls[i]))
                    result.controls[b].push_back(motion.controls[i]);
    }
    for (BoneId control : motion.controls) {
        bool all = true, any = false;
        for (const std::vector<BoneId>& controls : result.controls) {
            if (controls.empty()) continue;
            any = true;
            all = all && std::find(controls.begin(), controls.end(), control) != controls.end();
        }
        if (any && all) result.roots.push_back(control);
    }
    return result;
}

void expect_naive_attachment(const Rig& rig) {
    const Dependencies dependencies = build_dependencies(rig);
    const AttachmentFacts facts = find_attachment(rig, dependencies, default_state(rig));
    const Motion motion =
        find_motion(rig, dependencies, find_liveness(rig, dependencies, evaluate(rig, dependencies, default_state(rig))));
    const NaiveReach naive = naive_reach_of(rig, motion, dependencies.motion);
    ASSERT_EQ(facts.root_controls, naive.roots);
    const auto is_root = [&](BoneId b) { return std::find(naive.roots.begin(), naive.roots.end(), b) != naive.roots.end(); };
    bool others = false;
    for (const std::vector<BoneId>& controls : naive.controls)
        others = others || !std::all_of(controls.begin(), controls.end(), is_root);
    for (const Attachment& attachment : facts.deform) {
        const std::vector<BoneId>& controls = naive.controls[attachment.bone];
        ASSERT_EQ(attachment.controls, controls);
        ASSERT_EQ(attachment.verdict == Verdict::orphaned, controls.empty());
        const bool root_only = !controls.empty() && others && std::all_of(controls.begin(), controls.end(), is_root);
        ASSERT_EQ(attachment.verdict == Verdict::root_only, root_only);
    }
}

TEST(Roots, IsWhatASearchFromEachControlFinds) {
    testing::Random random(3);
    for (unsigned round = 0; round < 400; ++round) {
        expect_naive_attachment(random_rig(random, 2 + random.below(30), 1 + random.below(8)));
        if (HasFatalFailure()) FAIL() << "round " << round;
    }
}

// More controls than fit one pass, of the search for roots (62) and of the list (256).
TEST(Roots, IsWhatASearchFromEachControlFindsWithManyControls) {
    testing::Random random(4);
    for (unsigned round = 0; round < 8; ++round) {
        expect_naive_attachment(random_rig(random, 400 + random.below(200), 9));
        if (HasFatalFailure()) FAIL() << "round " << round;
    }
}

/// `above` controls in a chain or side by side over a bone that all deform bones hang under, and controls of their own.
Rig rig_with_many_roots(unsigned above, bool in_a_chain, bool through_a_hub) {
    Rig rig;
    rig.bones.resize(above + 1 + 80);
    for (BoneId b = 0; b < above; ++b) {
        rig.bones[b].control = true;
        if (in_a_chain && b > 0) rig.bones[b].parent = b - 1;
    }
    const BoneId hub = above;
    const auto read = [&](BoneId reader, BoneId source, ConstraintKind kind) {
        Constraint& constraint = rig.bones[reader].constraints.emplace_back();
        constraint.kind = kind;
        constraint.weight.number = 0.5;
        constraint.sources.emplace_back().bone = source;
    };
    for (BoneId b = 0; b < above; ++b) {
        if (through_a_hub) read(hub, b, ConstraintKind::transform);
        // Without a hub, each control moves half of the deform bones by its position and the others by its scale.
        for (unsigned i = 0; !through_a_hub && i < 40; ++i)
            read(hub + 1 + 2 * i, b, i % 2 == 0 ? ConstraintKind::position : ConstraintKind::scale);
    }
    for (unsigned i = 0; i < 40; ++i) {
        Bone& deform = rig.bones[hub + 1 + 2 * i];
        Bone& own = rig.bones[hub + 2 + 2 * i];
        deform.deform = own.control = true;
        if (through_a_hub) own.parent = hub;
        deform.parent = hub + 2 + 2 * i;
    }
    return rig;
}

TEST(Roots, FindsHundredsOfRootControls) {
    for (bool in_a_chain : {false, true})
        for (bool through_a_hub : {false, true}) expect_naive_attachment(rig_with_many_roots(150, in_a_chain, through_a_hub));
}

/// 100 controls move a hub that 200 deform bones hang under, but one: that is the second in the file, which no sample of 64 looks
/// at, and the first control alone moves it.
TEST(Roots, AHubThatMissesOneBoneMakesNoRoots) {
    const unsigned controls = 100, deform = 200;
    Rig rig;
    rig.bones.resize(controls + 1 + deform);
    const BoneId hub = controls;
    for (BoneId b = 0; b < controls; ++b) {
        rig.bones[b].control = true;
        Constraint& constraint = rig.bones[hub].constraints.emplace_back();
        constraint.weight.number = 0.5;
        constraint.sources.emplace_back().bone = b;
    }
    for (unsigned i = 0; i < deform; ++i) {
        rig.bones[hub + 1 + i].deform = true;
        rig.bones[hub + 1 + i].parent = i == 1 ? 0 : hub;
    }
    EXPECT_EQ(find_attachment(rig, build_dependencies(rig), default_state(rig)).root_controls, (std::vector<BoneId>{0}));
    expect_naive_attachment(rig);
}

}  // namespace
}  // namespace ligament
