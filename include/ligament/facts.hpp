// What is so? Cycles, evaluation order, attachment, fan-out and paths, as facts without wording.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// One edge of a witness or path, with what lies between its ends (drivers, properties, solvers, objects) folded into it.
struct FoldedEdge {
    std::uint32_t from = none;  ///< bone id; property id where Cycle::is_between_properties()
    std::uint32_t to = none;
    EdgeKind kind = EdgeKind::parent;  ///< of the first maker
    MakerId maker = 0;                 ///< the first maker
    std::vector<MakerId> through;      ///< the makers after the first one, in order
};

/// One strongly connected component of the live bone grain that has a cycle.
struct Cycle {
    std::vector<BoneId> bones;           ///< in file order; empty for a loop of properties alone
    std::vector<PropertyId> properties;  ///< in file order: the properties in the component
    Grain grain = Grain::bone;           ///< the finest grain at which a cycle is left in it
    std::vector<FoldedEdge> witness;     ///< a shortest cycle at that grain, edge by edge, from its first bone in file order
    bool witness_is_shortest = true;     ///< false where the search stopped at its bound
    std::vector<std::vector<BoneId>>
        cores;  ///< the bones of its components at that grain: each list once, none empty, in file order

    /// Whether the ends of the witness are properties: of the component nothing but loops of properties is left at that grain.
    bool is_between_properties() const { return cores.empty(); }
};

/// Cycles in the order of their first bone, those without bones first. Inert edges do not count.
/// The witness counts edges between bones; ties go to the earliest vertex in file order.
std::vector<Cycle> find_cycles(const Rig& rig, const Dependencies& dependencies);

/// An order in which bones can be evaluated (bone grain).
struct Order {
    std::vector<BoneId> bones;                ///< every bone once
    std::vector<std::uint32_t> level;         ///< by bone id, from 1; bones of one cycle share a level
    std::vector<std::vector<BoneId>> levels;  ///< bones of each level, in file order
    std::vector<BoneId> longest_chain;  ///< one bone a level, each needing the one before; of a cycle the bone that is left by
    std::vector<FoldedEdge> longest_chain_edges;  ///< between neighbours of longest_chain, live
};

/// Kahn's method (CACM 5, 1962) on the condensation, the first bone in the file next among those whose needs are met.
Order find_order(const Rig& rig, const Dependencies& dependencies);

/// One setting of all undriven properties.
struct State {
    std::vector<double> properties;  ///< by property id; what stands for a driven property is not read
};

/// Every undriven property at its default.
State default_state(const Rig& rig);

/// What driven values come to in a state. NaN = unknown (read from bones, a loop of properties, not finite).
struct Evaluation {
    std::vector<double> drivers;     ///< by driver id, not clamped
    std::vector<double> properties;  ///< by property id, driven ones clamped to their min and max
};

Evaluation evaluate(const Rig& rig, const Dependencies& dependencies, const State& state);

/// A weight in a state, clamped to 0..1 and snapped to 0 and 1 within 1e-9; NaN when unknown.
double weight_in(const Evaluation& evaluation, const Value& value);

/// How a deform bone is attached, best first.
enum class Verdict : std::uint8_t { attached, carried, root_only, orphaned };

/// "attached", "carried", "root-only", "orphaned".
std::string_view name_of(Verdict verdict);

struct Attachment {
    BoneId bone = none;
    Verdict verdict = Verdict::orphaned;
    std::vector<BoneId> controls;  ///< who reaches it, in file order; empty when AttachmentFacts::controls_listed is false
};

struct AttachmentFacts {
    std::vector<Attachment> deform;     ///< every deform bone, in file order
    std::vector<BoneId> root_controls;  ///< as listed in the rig, or found
    bool controls_listed = true;        ///< false above `controls_limit` bones
};

/// Rigs of more bones than this get no list of controls per deform bone, which grows with bones times controls.
inline constexpr std::size_t controls_limit = 20'000;

/// Attachment of every deform bone in a state, over live edges at channel grain.
AttachmentFacts find_attachment(const Rig& rig, const Dependencies& dependencies, const State& state);

/// What a property reaches through drivers and driven properties.
struct FanOut {
    PropertyId property = none;
    std::vector<DriverId> weights;          ///< drivers of constraints' and sources' weights
    std::vector<DriverId> channels;         ///< drivers of bones' channels
    std::vector<PropertyId> properties;     ///< other properties that depend on it
    std::vector<ConstraintId> constraints;  ///< constraints whose weight or source's weight it reaches, in file order
    std::uint32_t bones_moved = 0;          ///< bones whose final or curve a live path from it reaches (channel grain)

    std::size_t targets() const { return weights.size() + channels.size() + properties.size(); }
};

/// One entry a property, in file order. Targets inside inert constraints are left out.
std::vector<FanOut> find_fan_out(const Rig& rig, const Dependencies& dependencies);

/// The bones counted by FanOut::bones_moved, in file order.
std::vector<BoneId> find_bones_moved(const Rig& rig, const Dependencies& dependencies, PropertyId property);

/// A bone, property or object, as the start or end of a path. Exactly one is not none.
struct Endpoint {
    BoneId bone = none;
    PropertyId property = none;
    ObjectId object = none;
};

/// One edge of a path at some grain: vertices of that grain's graph.
struct PathEdge {
    VertexId from = none;
    VertexId to = none;
    std::uint32_t edge = 0;  ///< index into Graph::edges
};

/// A path with fewest edges that leave a bone, over edges that are not inert; empty when there is none.
/// Starts at any vertex of `from` and ends at any vertex of `to`.
std::vector<PathEdge> find_path(const Rig& rig, const Dependencies& dependencies, Grain grain, Endpoint from, Endpoint to);

/// Where a path starts and ends.
struct PathEnds {
    Endpoint from, to;
};

/// As find_path, one path for each pair of ends. What a search has to prepare, which is linear in the graph, is done once.
std::vector<std::vector<PathEdge>> find_paths(const Rig& rig, const Dependencies& dependencies, Grain grain,
                                              std::span<const PathEnds> ends);

/// Whom an endpoint moves (forward) or what it needs (not forward): per bone reached the number of bones on the way, 0 for the
/// endpoint itself, `none` for bones that are not reached. Edges that are not inert, at the given grain.
std::vector<std::uint32_t> find_reach(const Rig& rig, const Dependencies& dependencies, Grain grain, Endpoint endpoint,
                                      bool forward);

/// Everything that checks and reports read.
struct Facts {
    std::vector<Cycle> cycles;
    Order order;
    AttachmentFacts attachment;  ///< in the default state
    std::vector<FanOut> fan_out;
};

Facts find_facts(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
