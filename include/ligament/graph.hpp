// What needs what? The typed dependency graph of a rig at three grains, as compressed rows.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "ligament/rig.hpp"

namespace ligament {

using VertexId = std::uint32_t;      ///< index into Graph::vertices
using MakerId = std::uint32_t;       ///< index into Dependencies::makers
using ConstraintId = std::uint32_t;  ///< index into Dependencies::constraints

enum class Grain : std::uint8_t { bone, step, channel };

/// "bone", "step" or "channel".
std::string_view name_of(Grain grain);

enum class EdgeKind : std::uint8_t { parent, constraint, driver, solver, curve, order };

/// "parent" to "order".
std::string_view name_of(EdgeKind kind);

enum class VertexKind : std::uint8_t {
    bone,  // bone grain only
    pose,
    solved,
    constraint,
    local,
    base,
    final,
    curve,  // a bone's steps
    property,
    driver,
    object,
    solver
};

/// "bone" to "solver".
std::string_view name_of(VertexKind kind);

/// One vertex. `element` is a bone, property, driver or object id, or the constraint id of a constraint step or solver.
struct Vertex {
    static constexpr std::uint8_t whole = 0xff;
    std::uint32_t element = none;
    VertexKind kind = VertexKind::bone;
    std::uint8_t channel = whole;  ///< channel grain: 0..8 for a pose scalar, 0..2 (a Part) for the other split steps
};

/// The edge `from` -> v, stored with v: v needs `from`.
struct Edge {
    VertexId from = none;
    std::uint32_t gate = 0;    ///< index into Dependencies::gates; 0 = nothing gates it
    std::uint32_t maker : 29;  ///< index into Dependencies::makers
    std::uint32_t kind_bits : 3;

    EdgeKind kind() const { return static_cast<EdgeKind>(kind_bits); }
};

/// What made edges, and what one cut would remove.
struct Maker {
    enum class Kind : std::uint8_t { stack, parent_link, follows, solver, constraint, curve_handles, driver };
    Kind kind = Kind::stack;
    std::uint32_t element = none;  ///< bone (stack, parent_link, curve_handles), object, constraint or driver id
};

/// The weights that gate an edge: the constraint's and, where `source` is set, that source's.
struct Gate {
    ConstraintId constraint = none;
    std::uint32_t source = none;  ///< index into Constraint::sources
    bool inert = false;           ///< disabled, or one of the weights is the number 0
    bool off = false;             ///< does not count in the state, or after the cut, that these dependencies were told for
};

/// Where a constraint sits.
struct ConstraintRef {
    BoneId bone = none;
    std::uint32_t index = 0;  ///< index into Bone::constraints
};

/// What a driver drives.
struct DriverUse {
    enum class Target : std::uint8_t { weight, source_weight, channel, property, nothing };
    Target target = Target::nothing;  ///< nothing: its Value was taken out of the rig; no file has such a driver
    std::uint32_t element = none;     ///< constraint id, bone id or property id
    std::uint32_t index = 0;          ///< source_weight: index into Constraint::sources; channel: 0..8
};

/// One grain: vertices, and per vertex the edges that it needs, in the order in which the rig description names them.
/// Bones' vertices come first, in file order and contiguous per bone, then properties, drivers, objects and solvers, each in file
/// order.
struct Graph {
    Grain grain = Grain::bone;
    std::vector<Vertex> vertices;
    std::vector<std::uint32_t> rows;  ///< size vertices + 1
    std::vector<Edge> edges;
    std::vector<VertexId> first_of_bone;  ///< size bones + 1: the vertices of bone b are [first_of_bone[b], first_of_bone[b + 1])
    VertexId first_property = 0, first_driver = 0, first_object = 0, first_solver = 0;

    std::span<const Edge> needs(VertexId v) const { return {edges.data() + rows[v], edges.data() + rows[v + 1]}; }
};

struct Dependencies;

/// A grain that is wired from the rig when it is first asked for, since few callers want one and it is up to ten times as large
/// as all else. Copies share what is wired; several threads may ask at once. The rig is always the one that the dependencies were
/// built for.
class LateGraph {
  public:
    /// Wires the graph, of the bones marked (by bone; none given: of all), with all properties, drivers, objects and solvers.
    using Wire = std::function<Graph(const Rig& rig, const Dependencies& dependencies, std::span<const std::uint8_t> marked)>;

    LateGraph() = default;
    explicit LateGraph(Wire wire);
    /// Of a graph that is there already, which stands for all of its parts.
    explicit LateGraph(Graph graph);

    /// The whole graph. Linear the first time.
    const Graph& whole(const Rig& rig, const Dependencies& dependencies) const;
    /// What stands between the marked bones alone: other bones have no vertices, and the edges from them are left out. Not kept.
    Graph part(const Rig& rig, const Dependencies& dependencies, std::span<const std::uint8_t> marked) const;

  private:
    struct Kept;
    std::shared_ptr<Kept> kept_;
};

struct GraphSize {
    std::size_t vertices = 0, edges = 0;
};

/// An edge that leads to `to`.
struct EdgeInto {
    VertexId to = none;
    Edge edge;
};

/// The dependency graph of a rig at all three grains, with what they share.
struct Dependencies {
    Graph bone;
    /// The channel grain as far as reach needs it, in a third of its size: a pose that nothing drives is one vertex, not nine,
    /// and steps of which one only hands on what the one before has are the same vertices: solved with pose where no solver
    /// writes it, local with solved where no constraint stands between, final with base, or with the last constraint. Vertices
    /// have the kind of the last step, but that of a constraint if there is one; those of a whole transform have the channel
    /// Vertex::whole. The last three of a bone, or the three before its curve, are its final. The grain is Grain::channel.
    Graph motion;
    std::vector<EdgeInto> step_only;  ///< vertices of `motion`: edges of the step grain that hand on no part, by `to`
    LateGraph step, channel;          ///< see at()
    GraphSize step_size, channel_size;
    std::vector<Maker> makers;
    std::vector<Gate> gates;  ///< gates[0] is never inert; then one a constraint, then those of sources with weights
    std::vector<ConstraintRef> constraints;              ///< all constraints, solvers included, in file order
    std::vector<ConstraintId> first_constraint_of_bone;  ///< size bones + 1
    std::vector<ConstraintId> solvers;                   ///< in file order; solver vertex = first_solver + position here
    std::vector<DriverUse> driver_uses;                  ///< by driver id

    /// The whole graph at a grain. The step and the channel grain are wired when they are first asked for, and kept: linear then.
    const Graph& at(const Rig& rig, Grain grain) const;
    /// How large it is, without wiring it.
    GraphSize size_at(Grain grain) const;
    /// Kept, but left out of verdicts.
    bool is_inert(const Edge& edge) const { return gates[edge.gate].inert || gates[edge.gate].off; }
    /// Made by a driven weight. Attachment never enters by such an edge: a switch chooses who moves a bone, it does not move it.
    bool is_weight_edge(const Edge& edge) const;
    /// The bone whose step `v` is, or none for properties, drivers, objects and solvers.
    BoneId bone_of(const Graph& graph, VertexId v) const;
};

/// Builds the bone grain and the motion graph, and counts the others. Ids in the rig must be in range and parents free of loops,
/// as reading ensures. Linear time and space. No shear is modelled: position, rotation and scale are all that a transform has.
/// `workers`: threads at most, 0: one a processor; what is built is the same.
Dependencies build_dependencies(const Rig& rig, unsigned workers = 1);

/// The maker that a constraint or solver is.
MakerId maker_of(const Dependencies& dependencies, ConstraintId constraint);

/// The makers whose removal takes the edge away: what made it, and the constraint or solver whose weight gates it.
struct Removers {
    MakerId maker = none;
    MakerId constraint = none;  ///< none where nothing gates the edge, or where that is `maker`
};
Removers removers_of(const Dependencies& dependencies, const Edge& edge);

/// The kind of the edges that makers of a kind make: `parent` for what objects follow, too.
EdgeKind edge_kind_of(Maker::Kind kind);

/// How many vertices at the beginning of a bone's are its pose: nine at channel grain and one at step grain, in the motion graph
/// either.
inline VertexId pose_count(const Graph& graph, BoneId bone) {
    return graph.vertices[graph.first_of_bone[bone]].channel == Vertex::whole ? 1 : 9;
}

/// The same dependencies with all edges of these makers, no stacks, switched off (Gate::off), none of anyone else's. Linear.
Dependencies dependencies_without(const Dependencies& dependencies, std::span<const MakerId> makers);

/// The constraint behind an id.
const Constraint& constraint_of(const Rig& rig, const Dependencies& dependencies, ConstraintId id);

/// "bone/constraint".
std::string constraint_name(const Rig& rig, const Dependencies& dependencies, ConstraintId id);

/// The bones of a solver's chain, the owner first, then its ancestors, as many as there are.
std::vector<BoneId> chain_of(const Rig& rig, const Dependencies& dependencies, ConstraintId solver);

/// How reports name a maker: "bone/constraint", "bone/position.x", a property or object, or the child bone of a parent link.
std::string name_of(const Rig& rig, const Dependencies& dependencies, MakerId maker);

/// Where a maker stands in the file.
Place place_of(const Rig& rig, const Dependencies& dependencies, MakerId maker);

/// How people read a vertex: "wing_l final", "wing_l/fk", "wing_l pose rotation.x", "property wing_mode_l".
std::string name_of(const Rig& rig, const Dependencies& dependencies, const Graph& graph, VertexId v);

}  // namespace ligament
