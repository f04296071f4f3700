// What is circular, and where is it cut best? Cycles of the live bone grain, their cheapest cuts and their elementary circuits.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "ligament/states.hpp"

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

/// What giving up a maker costs: whole numbers from 1 to `highest`.
struct CutCosts {
    static constexpr std::uint32_t highest = 1'000'000;
    std::uint32_t driver = 1;
    std::uint32_t constraint = 2;
    std::uint32_t curve_handles = 2;
    std::uint32_t solver = 3;
    std::uint32_t parent_link = 8;
    std::uint32_t follows = 8;

    /// 0 for a stack, which nobody can give up.
    std::uint32_t of(Maker::Kind kind) const;
};

/// A maker to give up. `edge` is the first one, in the order of the graph, that goes with it, told between bones: from the
/// nearest bone that leads there to the nearest one that it leads to.
struct CutMaker {
    FoldedEdge edge;  ///< `edge.maker` is the maker
    std::uint32_t cost = 0;
};

/// A deform bone with the controls that do not reach it any more, in file order, none empty.
struct CutLoss {
    BoneId bone = none;
    std::vector<BoneId> controls;
};

/// The cheapest set of makers without which a cycle's component has no cycle left at a grain.
struct Cut {
    Grain grain = Grain::bone;
    std::vector<CutMaker> makers;  ///< in file order
    std::uint64_t cost = 0;
    std::uint64_t at_least = 0;        ///< no set costs less: proven. Equal to `cost` where `is_exact`
    bool is_exact = true;              ///< false where the search stopped at its bound
    bool is_first = true;              ///< of all sets of that cost the first in file order; false where that stayed open
    bool is_checked = false;           ///< without the makers no cycle is left: looked at afterwards, not assumed
    bool between_properties = false;   ///< the ends of the makers' edges are properties
    std::vector<CutLoss> loses;        ///< in the state, in file order of the bones
    std::size_t deform_behind = 0;     ///< deform bones that motion reaches by way of the cut makers
    std::size_t deform_looked_at = 0;  ///< of these, in file order: less where the search for losses stopped at its bound
};

/// The cheapest cut of one cycle at a grain: at bone grain it leaves no cycle at any grain. Exact as far as about a second's work
/// allows, counted in steps and not by a clock; then the best found, with the highest bound proven. Of sets of equal cost the one
/// whose makers, by place in the file and number, come first. Losses are those in `state`.
Cut find_cut(const Rig& rig, const Dependencies& dependencies, const Cycle& cycle, Grain grain, const CutCosts& costs,
             const State& state);

/// The cut at bone grain and, where a cycle is left at a finer grain and less is enough there, that as well.
struct CycleCuts {
    Cut cut;
    std::optional<Cut> finer;
};

/// One entry a cycle of find_cycles, in their order. The second's work is that of all of them together.
std::vector<CycleCuts> find_cuts(const Rig& rig, const Dependencies& dependencies, std::span<const Cycle> cycles,
                                 const CutCosts& costs, const State& state);

/// Tells anew what cuts lose, for another state than the one that they were found for. Linear in the rig.
void tell_losses(const Rig& rig, const Dependencies& dependencies, const State& state, CycleCuts& cuts);

/// An elementary circuit: no bone, property, driver, object or solver comes twice.
struct Circuit {
    std::vector<FoldedEdge> edges;    ///< from its first bone in file order
    bool between_properties = false;  ///< it passes no bone: the ends are properties
};

/// Elementary circuits of a cycle's component at bone grain. Circuits differ where a bone or a maker does.
struct Circuits {
    std::vector<Circuit> shortest;  ///< by number of edges, then in file order
    std::uint64_t at_least = 0;     ///< how many there are
    bool is_all_counted = true;     ///< false where counting stopped at its bound: then there may be more
};

/// Of a cycle no more circuits than this are listed, however many are wanted.
inline constexpr std::size_t most_circuits_listed = 10'000;

/// The `wanted` shortest circuits of each cycle. Finding and counting stop after about a second's work each for all cycles
/// together, counted in steps; what is listed is then still the beginning of the whole list.
std::vector<Circuits> find_circuits(const Rig& rig, const Dependencies& dependencies, std::span<const Cycle> cycles,
                                    std::size_t wanted);

}  // namespace ligament
