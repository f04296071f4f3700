// What is so? Everything that checks and reports read: cycles, order, attachment, fan-out and paths, as facts without wording.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ligament/attachment.hpp"
#include "ligament/cycles.hpp"
#include "ligament/order.hpp"
#include "ligament/switches.hpp"

namespace ligament {

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

/// One entry a property, in file order. Targets inside inert constraints are left out. Where the dependencies are those of a
/// state, a driven weight still counts as a way in, whatever it comes to there: setting the property is what changes it.
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

/// What facts are wanted of.
struct FactOptions {
    std::optional<State> state;          ///< the state that verdicts, cycles and order are of, where it is not the default one
    std::string state_name = "default";  ///< how reports call it
    CutCosts costs;
    std::size_t circuits = 0;  ///< how many of the shortest circuits of each cycle
    unsigned workers = 1;      ///< threads at most, 0: one a processor; the facts are the same
};

/// Everything that checks and reports read.
struct Facts {
    std::vector<Cycle> cycles;
    std::vector<CycleCuts> cuts;     ///< one a cycle
    std::vector<Circuits> circuits;  ///< one a cycle where they were asked for, else empty
    Order order;
    std::optional<Order> after_cut;  ///< the order without the makers of all cuts, where there are any
    Schedule schedule;               ///< at unit costs, on the usual numbers of workers
    AttachmentFacts attachment;
    std::vector<FanOut> fan_out;
    SwitchFacts switches;             ///< `live_in` is empty where the facts are of a state that was asked for
    std::vector<Settings> losses_in;  ///< by cycle: the state that the losses of its cuts are told for; none: that of the facts
    bool is_default_state = true;
    std::string state_name = "default";
};

/// What a cut loses is told for a state in which the cycle is closed: of cycles that are open in the default state for the first
/// one in `live_in`. For up to 100 cycles, each linear in the rig. Fills in `losses_in`.
void tell_losses_where_closed(const Rig& rig, const Dependencies& dependencies, Facts& facts);

/// All facts of a rig, `dependencies` as build_dependencies gives them.
Facts find_facts(const Rig& rig, const Dependencies& dependencies, const FactOptions& options = {});

}  // namespace ligament
