#include "ligament/controls.hpp"

#include <algorithm>
#include <bit>

#include "blocked_reach.hpp"
#include "motion.hpp"

namespace ligament {

namespace {

/// By control: all its steps, and the undriven properties on it.
Rows vertices_of_controls(const Graph& graph, const Motion& motion) {
    Rows vertices;
    for (std::size_t i = 0; i < motion.controls.size(); ++i) {
        const BoneId control = motion.controls[i];
        for (VertexId v = graph.first_of_bone[control]; v < graph.first_of_bone[control + 1]; ++v) vertices.needs.push_back(v);
        for (VertexId v : motion.starts_of(i))
            if (v >= graph.first_property) vertices.needs.push_back(v);
        vertices.first.push_back(static_cast<std::uint32_t>(vertices.needs.size()));
    }
    return vertices;
}

/// Motion in one state with the controls to take out.
struct ControlPaths {
    const Rig& rig;
    const Graph& graph;
    Motion motion;
    BlockedReach reach;

    ControlPaths(const Rig& r, const Dependencies& dependencies, const State& state)
        : rig(r),
          graph(dependencies.motion),
          motion(find_motion(r, dependencies, find_liveness(r, dependencies, evaluate(r, dependencies, state)))),
          reach(motion.rows, motion.order, motion.starts, vertices_of_controls(graph, motion)) {}
    ControlPaths(const ControlPaths&) = delete;
    ControlPaths& operator=(const ControlPaths&) = delete;

    template <class Test>
    bool any_arrival(BoneId bone, Test test) const {
        const Arrivals arrivals = arrivals_of(rig, graph, bone);
        for (VertexId v = arrivals.first; v < arrivals.end; ++v)
            if (test(v)) return true;
        return false;
    }
    bool is_moved(BoneId bone) const {
        return any_arrival(bone, [&](VertexId v) { return reach.is_reached(v); });
    }
    bool is_touched(BoneId bone) const {
        return any_arrival(bone, [&](VertexId v) { return reach.is_touched(v); });
    }
    MarkSet movers(BoneId bone) const {
        MarkSet all;
        any_arrival(bone, [&](VertexId v) { return all |= reach.reaching(v), false; });
        return all;
    }
    MarkSet avoidable(BoneId bone) const {
        MarkSet all;
        any_arrival(bone, [&](VertexId v) { return all |= reach.avoidable(v), false; });
        return all;
    }
};

struct Collector {
    const ControlPaths& paths;
    ControlFacts facts;
    std::size_t listed = 0;
    std::vector<std::uint32_t> movers;  ///< by place in facts.deform: how many controls reach it

    void begin() {
        for (BoneId b = 0; b < paths.rig.bones.size(); ++b)
            if (paths.rig.bones[b].deform) facts.deform.push_back({b, paths.is_moved(b), none, {}});
        for (BoneId control : paths.motion.controls) facts.controls.push_back({control, 0, 0, 0});
        movers.assign(facts.deform.size(), 0);
    }

    void collect(std::size_t first, std::size_t count) {
        for (std::size_t d = 0; d < facts.deform.size(); ++d) {
            ControlPoints& points = facts.deform[d];
            if (!points.is_moved || !paths.is_touched(points.bone)) continue;
            const MarkSet avoidable = paths.avoidable(points.bone);
            for (std::size_t i = 0; i < count; ++i)
                if (!avoidable.contains(i)) add_point(points, facts.controls[first + i]);
            paths.movers(points.bone).for_each([&](std::size_t i) {
                ++facts.controls[first + i].moves;
                points.only_mover = movers[d]++ == 0 ? facts.controls[first + i].control : none;
            });
        }
    }

    void add_point(ControlPoints& points, ControlReach& control) {
        ++control.only_through;
        if (++listed <= control_points_limit) points.single_points.push_back(control.control);
    }

    ControlFacts end() {
        std::vector<std::uint32_t> alone(paths.rig.bones.size(), 0);
        for (const ControlPoints& points : facts.deform)
            if (points.only_mover != none) ++alone[points.only_mover];
        for (ControlReach& control : facts.controls) control.alone = alone[control.control];
        facts.are_listed = listed <= control_points_limit;
        if (!facts.are_listed)
            for (ControlPoints& points : facts.deform) points.single_points = {};
        return std::move(facts);
    }
};

}  // namespace

ControlFacts find_control_facts(const Rig& rig, const Dependencies& dependencies, const State& state) {
    ControlPaths paths(rig, dependencies, state);
    Collector collector{paths, {}, 0, {}};
    collector.begin();
    for (std::size_t first = 0; first < paths.reach.candidates(); first += MarkSet::capacity) {
        const std::size_t count = std::min(MarkSet::capacity, paths.reach.candidates() - first);
        paths.reach.look_at(first, count);
        collector.collect(first, count);
    }
    return collector.end();
}

MovedBones find_moved_bones(const Rig& rig, const Dependencies& dependencies, const State& state, BoneId control) {
    ControlPaths paths(rig, dependencies, state);
    const std::vector<BoneId>& controls = paths.motion.controls;
    const auto found = std::lower_bound(controls.begin(), controls.end(), control);
    if (found == controls.end() || *found != control) return {};
    const auto index = static_cast<std::size_t>(found - controls.begin());
    // Who else reaches a bone is told by motion from all starts but those of the control.
    std::vector<std::uint8_t> by_others(paths.motion.rows.size(), 0);
    for (std::size_t i = 0; i < controls.size(); ++i)
        for (VertexId v : paths.motion.starts_of(i)) by_others[v] = i == index ? 0 : 1;
    spread_marks(paths.motion.rows, paths.motion.order, by_others);
    paths.reach.look_at(index, 1);
    MovedBones moved;
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        if (!rig.bones[b].deform || !paths.is_moved(b)) continue;
        if (paths.movers(b).contains(0)) moved.moves.push_back(b);
        if (!paths.avoidable(b).contains(0)) moved.only_through.push_back(b);
        if (paths.movers(b).contains(0) && !paths.any_arrival(b, [&](VertexId v) { return by_others[v] != 0; }))
            moved.alone.push_back(b);
    }
    return moved;
}

}  // namespace ligament
