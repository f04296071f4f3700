#include "doubles.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "marks.hpp"
#include "motion.hpp"
#include "together.hpp"
#include "wiring.hpp"

namespace ligament {

namespace {

/// A part of a source that an additive constraint adds to the same part of its owner.
struct Candidate {
    ConstraintId constraint = none;
    std::uint32_t source = 0;
    std::uint8_t part = 0;
    BoneId bone = none;       ///< that is read
    VertexId arrives = none;  ///< what the owner takes of that part from its parent (motion graph)
};

/// Kinds that hand on what they read. What a custom constraint makes of it nobody knows, and the others make something else of
/// it.
bool hands_on(ConstraintKind kind) {
    switch (kind) {
        case ConstraintKind::transform:
        case ConstraintKind::position:
        case ConstraintKind::rotation:
        case ConstraintKind::scale:
        case ConstraintKind::roll:
        case ConstraintKind::space:
            return true;
        default:
            return false;
    }
}

/// Steps that looking for the weights on ways may take for one rig; past that only the constraint's own weights count.
constexpr std::uint64_t most_work = 50'000'000;

/// A way with fewest steps by which a part of a bone is taken over.
struct Way {
    bool is_known = true;  ///< false where the search was broken off
    bool is_there = false;
    std::vector<Gate> gates = {};  ///< on it
};

/// One part of a bone's step, which is no pose.
bool is_split(const Vertex& vertex) { return vertex.kind != VertexKind::pose && vertex.channel != Vertex::whole; }

/// A local that stands for all parts: what reads one of them takes it over.
bool is_whole_local(const Vertex& vertex) { return vertex.kind == VertexKind::local && vertex.channel == Vertex::whole; }

struct Doubles {
    const Rig& rig;
    const Dependencies& dependencies;
    const Graph& graph;
    Liveness liveness;                // of driven weights nothing is known: live and never 1
    std::vector<std::uint32_t> seen;  // by vertex, of the search that came by last
    std::uint32_t search = 0;
    std::uint64_t work = 0;  // steps of all searches

    /// Takes a part of a bone on to the same part of another, or of a later step.
    bool takes_over(VertexId v, const Edge& edge) const {
        const Vertex &to = graph.vertices[v], &from = graph.vertices[edge.from];
        if (!is_split(to) || !((is_split(from) && to.channel == from.channel) || is_whole_local(from))) return false;
        if (edge.kind() == EdgeKind::constraint && !hands_on(constraint_of(rig, dependencies, to.element).kind)) return false;
        return carries_motion(dependencies, liveness, v, edge);
    }

    /// The final of the parent in one part, as far as the child takes it over.
    VertexId arrives_from_parent(BoneId bone, std::uint8_t part) const {
        const BoneId parent = rig.bones[bone].parent;
        if (parent == none || !(rig.bones[bone].from_parent >> part & 1)) return none;
        return arrivals_of(rig, graph, parent).first + part;
    }

    /// Whether v is where the motion of a bone in a part leaves it: its final, or the local that local-space readers take.
    bool is_start(VertexId v) const { return graph.vertices[v].kind == VertexKind::local || is_arrival(rig, dependencies, v); }

    /// Whether v is a final and the step before it as well. Ways are counted in steps all the same.
    bool stands_for_two(VertexId v) const {
        if (!is_arrival(rig, dependencies, v)) return false;
        const VertexId first = arrivals_of(rig, graph, dependencies.bone_of(graph, v)).first;
        return graph.vertices[v].kind == VertexKind::constraint || graph.vertices[first - 1].kind != VertexKind::constraint;
    }

    void add_candidates(ConstraintId id, std::vector<Candidate>& candidates) const {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        if (!constraint.additive || constraint.is_inert() || !hands_on(constraint.kind) || constraint.space == Space::local)
            return;
        const BoneId owner = dependencies.constraints[id].bone;
        for (std::uint32_t i = 0; i < constraint.sources.size(); ++i) {
            const Source& source = constraint.sources[i];
            const bool is_off = !source.weight.is_driven() && source.weight.number <= 1e-9;
            if (source.use != Source::Use::from || source.bone == none || source.bone == owner || is_off) continue;
            const Parts parts = parts_written(constraint) & parts_read(constraint, source);
            for (std::uint8_t part = 0; part < 3; ++part)
                if (const VertexId v = arrives_from_parent(owner, part); (parts >> part & 1) && v != none)
                    candidates.push_back({id, i, part, source.bone, v});
        }
    }

    /// Leaves the candidates whose bone is taken over, 64 bones a pass.
    void keep_marked(std::vector<Candidate>& candidates) const {
        std::vector<BoneId> bones;
        for (const Candidate& candidate : candidates) bones.push_back(candidate.bone);
        std::sort(bones.begin(), bones.end());
        bones.erase(std::unique(bones.begin(), bones.end()), bones.end());
        const auto place = [&](const Candidate& candidate) {
            return static_cast<std::size_t>(std::lower_bound(bones.begin(), bones.end(), candidate.bone) - bones.begin());
        };
        const Rows rows = pick_rows(graph, [&](VertexId v, const Edge& edge) { return takes_over(v, edge); });
        const Sweep order = find_sweep(dependencies, rows);
        std::vector<Candidate> kept;
        for (std::size_t first = 0; first < bones.size(); first += 64) {
            std::vector<std::uint64_t> marks(rows.size(), 0);
            for (std::size_t i = first; i < std::min(first + 64, bones.size()); ++i)
                for (VertexId v = graph.first_of_bone[bones[i]]; v < graph.first_of_bone[bones[i] + 1]; ++v)
                    if (is_start(v)) marks[v] |= std::uint64_t{1} << (i - first);
            spread_marks(rows, order, marks);
            for (const Candidate& candidate : candidates)
                if (place(candidate) / 64 == first / 64 && (marks[candidate.arrives] >> (place(candidate) - first) & 1))
                    kept.push_back(candidate);
        }
        candidates = std::move(kept);
    }

    /// Looks from where it arrives back to the bone, over at most `limit` steps.
    Way find_way(const Candidate& candidate, std::size_t limit) {
        struct Step {
            VertexId v;
            std::size_t after;
            std::uint32_t gate;
            bool is_second;  // of the two steps that a final stands for
        };
        std::vector<Step> steps{{candidate.arrives, 0, 0, false}};
        seen.resize(graph.vertices.size(), 0);
        seen[candidate.arrives] = ++search;
        for (std::size_t head = 0; head < steps.size(); ++head) {
            if (head == limit) return {.is_known = false};
            ++work;
            const VertexId v = steps[head].v;
            if (dependencies.bone_of(graph, v) == candidate.bone && is_start(v)) {
                Way way{.is_there = true};
                for (std::size_t at = head; at != 0; at = steps[at].after)
                    if (steps[at].gate != 0) way.gates.push_back(dependencies.gates[steps[at].gate]);
                return way;
            }
            if (stands_for_two(v) && !steps[head].is_second) {
                steps.push_back({v, head, 0, true});
                continue;
            }
            for (const Edge& edge : graph.needs(v)) {
                if (!takes_over(v, edge) || seen[edge.from] == search) continue;
                seen[edge.from] = search;
                steps.push_back({edge.from, head, edge.gate, false});
            }
        }
        return {};
    }

    /// Most bones that are taken over are near; the others are looked for side by side.
    void keep_taken_over(std::vector<Candidate>& candidates) {
        constexpr std::size_t near = 100;
        std::vector<Candidate> kept, far;
        for (const Candidate& candidate : candidates) {
            const Way way = find_way(candidate, near);
            if (!way.is_known)
                far.push_back(candidate);
            else if (way.is_there)
                kept.push_back(candidate);
        }
        if (!far.empty()) keep_marked(far);
        kept.insert(kept.end(), far.begin(), far.end());
        candidates = std::move(kept);
    }

    /// The gates that are on where the motion arrives twice; none where no weight of the constraint is driven, so that it is
    /// always on.
    std::vector<Gate> gates_of(const Candidate& candidate) {
        const Constraint& constraint = constraint_of(rig, dependencies, candidate.constraint);
        if (!constraint.weight.is_driven() && !constraint.sources[candidate.source].weight.is_driven()) return {};
        std::vector<Gate> gates = work < most_work ? find_way(candidate, none).gates : std::vector<Gate>{};
        gates.push_back({candidate.constraint, candidate.source});
        return gates;
    }
};

Liveness liveness_of_any_state(const Rig& rig, const Dependencies& dependencies) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    return find_liveness(rig, dependencies,
                         {std::vector<double>(rig.drivers.size(), unknown), std::vector<double>(rig.properties.size(), unknown)});
}

void add(const Candidate& candidate, std::vector<DoubleTransform>& doubles) {
    if (doubles.empty() || doubles.back().constraint != candidate.constraint) doubles.push_back({candidate.constraint, {}, 0});
    DoubleTransform& found = doubles.back();
    if (found.sources.empty() || found.sources.back() != candidate.source) found.sources.push_back(candidate.source);
    found.parts |= static_cast<Parts>(1u << candidate.part);
}

}  // namespace

std::vector<DoubleTransform> find_double_transforms(const Rig& rig, const Dependencies& dependencies,
                                                    const std::vector<Switch>& switches) {
    const bool has_additive = std::any_of(rig.bones.begin(), rig.bones.end(), [](const Bone& bone) {
        return std::any_of(bone.constraints.begin(), bone.constraints.end(), [](const Constraint& c) { return c.additive; });
    });
    if (!has_additive) return {};
    Doubles search{rig, dependencies, dependencies.motion, liveness_of_any_state(rig, dependencies), {}};
    std::vector<Candidate> candidates;
    for (ConstraintId id = 0; id < dependencies.constraints.size(); ++id) search.add_candidates(id, candidates);
    if (candidates.empty()) return {};
    search.keep_taken_over(candidates);
    std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        return std::tie(a.constraint, a.source, a.part) < std::tie(b.constraint, b.source, b.part);
    });
    std::vector<std::vector<Gate>> gates;
    for (const Candidate& candidate : candidates) gates.push_back(search.gates_of(candidate));
    const std::vector<bool> is_at_once = find_together(rig, dependencies, switches, gates);
    std::vector<DoubleTransform> doubles;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (is_at_once[i]) add(candidates[i], doubles);
    return doubles;
}

}  // namespace ligament
