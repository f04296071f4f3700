#include "runs.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace ligament {

namespace {

bool have_equal_stacks(const Rig& rig, const Dependencies& dependencies, const Runs& runs, BoneId a, BoneId b) {
    const auto kind = [&](ConstraintId id) { return constraint_of(rig, dependencies, id).kind; };
    const auto first = runs.stacks.of(a), second = runs.stacks.of(b);
    return std::equal(first.begin(), first.end(), second.begin(), second.end(),
                      [&](ConstraintId x, ConstraintId y) { return kind(x) == kind(y); });
}

std::uint32_t root_of(std::vector<std::uint32_t>& parents, std::uint32_t b) {
    while (parents[b] != b) b = parents[b] = parents[parents[b]];
    return b;
}

void list_stacks(const Rig& rig, const Dependencies& dependencies, Runs& runs) {
    runs.place_of.resize(dependencies.constraints.size(), none);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        std::uint32_t place = 0;
        for (ConstraintId id = dependencies.first_constraint_of_bone[b]; id < dependencies.first_constraint_of_bone[b + 1];
             ++id) {
            if (constraint_of(rig, dependencies, id).is_inert()) continue;
            runs.place_of[id] = place++;
            runs.stacks.needs.push_back(id);
        }
        runs.stacks.first.push_back(static_cast<std::uint32_t>(runs.stacks.needs.size()));
    }
}

}  // namespace

Runs find_runs(const Rig& rig, const Dependencies& dependencies) {
    const auto bones = static_cast<std::uint32_t>(rig.bones.size());
    Runs runs;
    list_stacks(rig, dependencies, runs);
    std::vector<std::uint32_t> linked(bones);
    std::iota(linked.begin(), linked.end(), 0u);
    for (BoneId b = 0; b < bones; ++b) {
        const BoneId parent = rig.bones[b].parent;
        if (parent != none && have_equal_stacks(rig, dependencies, runs, b, parent))
            linked[root_of(linked, b)] = root_of(linked, parent);
    }
    runs.run_of.resize(bones, none);
    std::vector<std::uint32_t> number(bones, none);
    std::vector<std::vector<BoneId>> members;
    for (BoneId b = 0; b < bones; ++b) {
        if (runs.stacks.of(b).empty()) continue;
        std::uint32_t& run = number[root_of(linked, b)];
        if (run == none) {
            run = static_cast<std::uint32_t>(members.size());
            members.emplace_back();
        }
        runs.run_of[b] = run;
        members[run].push_back(b);
    }
    for (const std::vector<BoneId>& run : members) {
        runs.members.needs.insert(runs.members.needs.end(), run.begin(), run.end());
        runs.members.first.push_back(static_cast<std::uint32_t>(runs.members.needs.size()));
    }
    return runs;
}

std::vector<SwitchGap> find_switch_gaps(const Dependencies& dependencies, const Runs& runs, const std::vector<Switch>& switches) {
    std::vector<SwitchGap> gaps;
    for (const Switch& gating : switches) {
        std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<BoneId>> gated;  // by run and place
        for (ConstraintId id : gating.constraints) {
            const BoneId bone = dependencies.constraints[id].bone;
            gated[{runs.run_of[bone], runs.place_of[id]}].push_back(bone);
        }
        const std::size_t first = gaps.size();
        for (const auto& [where, bones] : gated) {
            if (bones.size() < 2) continue;
            const auto shown = static_cast<std::ptrdiff_t>(std::min(SwitchGap::most_gated, bones.size()));
            for (BoneId bone : runs.members.of(where.first))
                if (!std::binary_search(bones.begin(), bones.end(), bone))
                    gaps.push_back({gating.property,
                                    bone,
                                    runs.at(bone, where.second),
                                    {bones.begin(), bones.begin() + shown},
                                    bones.size()});
        }
        std::sort(gaps.begin() + static_cast<std::ptrdiff_t>(first), gaps.end(),
                  [](const SwitchGap& a, const SwitchGap& b) { return a.constraint < b.constraint; });
    }
    return gaps;
}

}  // namespace ligament
