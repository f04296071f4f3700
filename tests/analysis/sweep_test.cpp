// Does the order taken over from the bone grain hold at channel grain?
#include "sweep.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "naive_graph.hpp"

namespace ligament {
namespace {

void drive(Rig& rig, Value& value, testing::Random& random) {
    value.driver = static_cast<DriverId>(rig.drivers.size());
    Driver& driver = rig.drivers.emplace_back();
    driver.expression = "x";
    Input& input = driver.inputs.emplace_back();
    input.name = "x";
    const auto bones = static_cast<unsigned>(rig.bones.size());
    if (random.below(3) == 0) {
        input.property = random.below(static_cast<unsigned>(rig.properties.size()));
        return;
    }
    input.kind = Input::Kind::channel;
    input.bone = random.below(bones);
    input.channel = static_cast<std::uint8_t>(random.below(9));
    input.space = random.below(2) == 0 ? Space::final : Space::local;
}

void add_constraint(Rig& rig, Bone& bone, testing::Random& random) {
    const auto bones = static_cast<unsigned>(rig.bones.size());
    Constraint& constraint = bone.constraints.emplace_back();
    const ConstraintKind kinds[] = {ConstraintKind::transform, ConstraintKind::aim, ConstraintKind::space, ConstraintKind::ik};
    constraint.kind = kinds[random.below(4)];
    constraint.space = random.below(3) == 0 ? Space::local : Space::final;
    constraint.enabled = random.below(6) != 0;
    Source& source = constraint.sources.emplace_back();
    source.bone = random.below(bones);
    if (constraint.kind == ConstraintKind::ik) {
        constraint.chain = 1 + random.below(4);
        source.use = Source::Use::target;
    }
    if (random.below(4) == 0) drive(rig, constraint.weight, random);
}

/// Parents, constraints of several kinds in both spaces, solvers, and drivers of weights, channels and properties.
Rig random_rig(testing::Random& random) {
    Rig rig;
    rig.properties.resize(3);
    rig.bones.resize(2 + random.below(10));
    for (BoneId b = 1; b < rig.bones.size(); ++b)
        if (random.below(4) != 0) rig.bones[b].parent = random.below(b);
    for (Bone& bone : rig.bones) {
        if (random.below(3) == 0) add_constraint(rig, bone, random);
        if (random.below(3) != 0) continue;
        ChannelValue channel;
        channel.channel = static_cast<std::uint8_t>(random.below(9));
        drive(rig, channel.value, random);
        bone.channels.push_back(channel);
    }
    if (random.below(2) == 0) drive(rig, rig.properties[0].value.emplace(), random);
    return rig;
}

void expect_sound(const Dependencies& dependencies, const Rows& rows) {
    const Sweep sweep = find_sweep(dependencies, rows);
    std::vector<std::uint32_t> group_of(rows.size(), none);
    for (std::uint32_t g = 0; g < sweep.size(); ++g)
        for (std::uint32_t v : sweep.of(g)) {
            ASSERT_EQ(group_of[v], none) << "twice";
            group_of[v] = g;
        }
    ASSERT_EQ(sweep.members.size(), rows.size());
    for (std::uint32_t v = 0; v < rows.size(); ++v)
        for (std::uint32_t from : rows.of(v)) ASSERT_LE(group_of[from], group_of[v]);
    ASSERT_EQ(sweep.size(), find_components(rows).size()) << "so the groups are the components";
}

TEST(Sweep, IsATopologicalOrderOfTheComponentsOfRandomRigs) {
    testing::Random random(5);
    unsigned with_cycles = 0;
    for (unsigned round = 0; round < 3000; ++round) {
        const Dependencies dependencies = build_dependencies(random_rig(random));
        const Rows rows = live_rows(dependencies, dependencies.motion);
        expect_sound(dependencies, rows);
        if (find_components(rows).size() < rows.size()) ++with_cycles;
        // And with some more edges gone, as a state makes them.
        unsigned count = 0;
        expect_sound(dependencies, pick_rows(dependencies.motion, [&](VertexId, const Edge& edge) {
                         return !dependencies.is_inert(edge) && (edge.kind() != EdgeKind::constraint || ++count % 3 != 0);
                     }));
        if (HasFatalFailure()) FAIL() << "round " << round;
    }
    EXPECT_GT(with_cycles, 100u);
    EXPECT_LT(with_cycles, 2900u);
}

}  // namespace
}  // namespace ligament
