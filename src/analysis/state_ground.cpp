#include "state_ground.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "control_search.hpp"

namespace ligament {

namespace {

/// Of bones, each with its controls: the union of the smallest sets, as far as marks go.
std::vector<BoneId> join_smallest(std::vector<std::vector<BoneId>> found) {
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.size() < b.size(); });
    std::vector<BoneId> candidates;
    for (const std::vector<BoneId>& controls : found) {
        std::vector<BoneId> both;
        std::set_union(candidates.begin(), candidates.end(), controls.begin(), controls.end(), std::back_inserter(both));
        if (both.size() > most_candidates) break;
        candidates = std::move(both);
    }
    return candidates;
}

/// `enough` is the work of looking back over all edges twice.
template <class Carries>
std::vector<BoneId> choose_from(const std::vector<BoneId>& deform, std::uint64_t enough, ControlSearch& search, Carries carries) {
    constexpr std::size_t samples = 16;
    std::vector<std::vector<BoneId>> found;
    const std::size_t tries = std::min(samples, deform.size());
    const std::uint64_t end = search.work() + enough;
    for (std::size_t i = 0; i < tries && search.work() <= end; ++i)
        found.push_back(search.find(deform[tries == 1 ? 0 : i * (deform.size() - 1) / (tries - 1)], carries));
    return join_smallest(std::move(found));
}

std::vector<BoneId> choose_candidates(const Rig& rig, const Dependencies& dependencies, const Rows& needed_by,
                                      const std::vector<BoneId>& deform, const Liveness& in_default_state) {
    ControlSearch search(rig, dependencies);
    const std::uint64_t enough = 2 * needed_by.needs.size();
    std::vector<BoneId> candidates = choose_from(deform, enough, search, [&](VertexId, const Edge& edge) {
        return !dependencies.is_inert(edge) && !dependencies.is_weight_edge(edge);
    });
    if (!candidates.empty()) return candidates;
    return choose_from(deform, enough, search,
                       [&](VertexId v, const Edge& edge) { return carries_motion(dependencies, in_default_state, v, edge); });
}

void mark_starts(const Rig& rig, const Graph& graph, StateGround& ground) {
    constexpr std::uint8_t other = 1, root = 2;
    ground.starts = {0, any_control | other_control, any_control};
    std::vector<std::uint8_t> of_control(rig.bones.size(), 0);
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        if (rig.bones[b].control) of_control[b] = other;
    for (std::size_t i = 0; i < ground.candidates.size(); ++i) {
        of_control[ground.candidates[i]] = static_cast<std::uint8_t>(ground.starts.size());
        ground.starts.push_back(any_control | candidate_bit(i));
    }
    if (rig.roots)
        for (BoneId b : *rig.roots) of_control[b] = of_control[b] != 0 ? root : std::uint8_t{0};
    ground.start_of.resize(graph.vertices.size(), 0);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        if (of_control[b] == 0) continue;
        ground.has_others = ground.has_others || of_control[b] == other;
        for (VertexId i = 0; i < pose_count(graph, b); ++i) ground.start_of[graph.first_of_bone[b] + i] = of_control[b];
    }
    for (PropertyId p = 0; p < rig.properties.size(); ++p) {
        const Property& property = rig.properties[p];
        if (property.on != none && !property.is_driven()) ground.start_of[graph.first_property + p] = of_control[property.on];
    }
}

}  // namespace

StateGround find_state_ground(const Rig& rig, const Dependencies& dependencies, const LiveMotion& live,
                              const Liveness& in_default_state) {
    StateGround ground;
    ground.place_of.resize(rig.bones.size(), none);
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        if (!rig.bones[b].deform) continue;
        ground.place_of[b] = static_cast<std::uint32_t>(ground.deform.size());
        ground.deform.push_back(b);
    }
    ground.group_of.resize(live.needed_by.size());
    for (std::uint32_t g = 0; g < live.order.size(); ++g)
        for (VertexId v : live.order.of(g)) ground.group_of[v] = g;
    ground.gates = find_state_gates(rig, dependencies);
    if (!rig.roots) ground.candidates = choose_candidates(rig, dependencies, live.needed_by, ground.deform, in_default_state);
    mark_starts(rig, dependencies.motion, ground);
    return ground;
}

}  // namespace ligament
