// Where is a cycle cut best? The cheapest makers to give up, checked afterwards, and what that costs the rig.
#include <algorithm>
#include <tuple>
#include <utility>

#include "cut_losses.hpp"
#include "cut_search.hpp"
#include "cycle_part.hpp"

namespace ligament {

namespace {

/// About a second's work for the cuts of a rig, and as much at the worst for what they take from it.
constexpr std::uint64_t cut_budget = 1'500'000'000;
constexpr std::uint64_t loss_budget = 20'000'000;
/// Cycles of more bones than this get no cut of their own at a finer grain, which is up to 30 times as large.
constexpr std::size_t most_bones_finer = 5'000;

/// A part of a graph as a problem whose items are makers in file order.
struct MakerProblem {
    CutProblem problem;
    std::vector<MakerId> makers;  ///< by item
};

struct Cutter {
    const Rig& rig;
    const Dependencies& dependencies;
    const CutCosts& costs;
    PartCutter parts;
    GivenUp given_up;
    LossSearch losses;
    std::vector<std::uint32_t> item_of;  ///< by maker: its item in the problem at hand, else none

    Cutter(const Rig& of, const Dependencies& with, const CutCosts& at, const State& state)
        : rig(of),
          dependencies(with),
          costs(at),
          parts(of, with),
          given_up(with),
          losses(of, with, state),
          item_of(with.makers.size(), none) {}

    /// Up to two makers with any of which the edge goes.
    template <class Use>
    void for_each_remover(const Edge& edge, Use use) const {
        const Removers removers = removers_of(dependencies, edge);
        if (dependencies.makers[removers.maker].kind != Maker::Kind::stack) use(removers.maker);
        if (removers.constraint != none) use(removers.constraint);
    }

    MakerProblem problem_of(const CyclePart& part) {
        MakerProblem result;
        const Graph& graph = *part.graph;
        for (std::uint32_t e : part.edges)
            for_each_remover(graph.edges[e], [&](MakerId maker) { result.makers.push_back(maker); });
        std::sort(result.makers.begin(), result.makers.end());
        result.makers.erase(std::unique(result.makers.begin(), result.makers.end()), result.makers.end());
        std::vector<std::tuple<std::uint32_t, std::uint32_t, MakerId>> by_place;
        for (MakerId maker : result.makers) {
            const Place place = place_of(rig, dependencies, maker);
            by_place.emplace_back(place.line, place.column, maker);
        }
        std::sort(by_place.begin(), by_place.end());
        for (std::uint32_t item = 0; item < by_place.size(); ++item) {
            result.makers[item] = std::get<2>(by_place[item]);
            item_of[result.makers[item]] = item;
            result.problem.weights.push_back(costs.of(dependencies.makers[result.makers[item]].kind));
        }
        result.problem.vertices = part.rows.size();
        for (std::uint32_t v = 0; v < part.rows.size(); ++v)
            for (std::uint32_t position = part.rows.first[v]; position < part.rows.first[v + 1]; ++position) {
                CutArc arc{part.rows.needs[position], v, {}};
                for_each_remover(graph.edges[part.edges[position]], [&](MakerId maker) { arc.items.push_back(item_of[maker]); });
                std::sort(arc.items.begin(), arc.items.end());
                result.problem.arcs.push_back(std::move(arc));
            }
        for (MakerId maker : result.makers) item_of[maker] = none;
        return result;
    }

    bool leaves_no_cycle(const CyclePart& part, const std::vector<MakerId>& makers) {
        given_up.mark(makers, true);
        Rows left;
        for (std::uint32_t v = 0; v < part.rows.size(); ++v) {
            for (std::uint32_t position = part.rows.first[v]; position < part.rows.first[v + 1]; ++position)
                if (!given_up.takes(part.graph->edges[part.edges[position]])) left.needs.push_back(part.rows.needs[position]);
            left.first.push_back(static_cast<std::uint32_t>(left.needs.size()));
        }
        given_up.mark(makers, false);
        const Condensation components = find_components(left);
        for (std::uint32_t c = 0; c < components.size(); ++c)
            if (has_cycle(left, components, c)) return false;
        return true;
    }

    /// Each maker with the first edge that it makes in the part, or, where it makes none there, the first that it takes away.
    std::vector<CutMaker> tell_makers(const CyclePart& part, const std::vector<MakerId>& makers, bool between_properties) {
        std::vector<CutMaker> told(makers.size());
        for (std::uint32_t i = 0; i < makers.size(); ++i) {
            item_of[makers[i]] = i;
            told[i].cost = costs.of(dependencies.makers[makers[i]].kind);
        }
        PartFolder folder(dependencies, part, between_properties);
        std::vector<std::uint8_t> is_told(makers.size(), 0);
        for (const bool own : {true, false})
            for (std::uint32_t v = 0; v < part.rows.size(); ++v)
                for (std::uint32_t position = part.rows.first[v]; position < part.rows.first[v + 1]; ++position)
                    for_each_remover(part.graph->edges[part.edges[position]], [&](MakerId maker) {
                        const std::uint32_t i = item_of[maker];
                        if (i == none || is_told[i] || own != (maker == part.graph->edges[part.edges[position]].maker)) return;
                        is_told[i] = 1;
                        told[i].edge = folder.fold(part.rows.needs[position], v, position);
                        told[i].edge.maker = maker;
                        told[i].edge.kind = edge_kind_of(dependencies.makers[maker].kind);
                    });
        for (MakerId maker : makers) item_of[maker] = none;
        return told;
    }

    Cut find(const Cycle& cycle, Grain grain, Budget& budget) {
        const CyclePart part = parts.cut_out(cycle, grain);
        const MakerProblem asked = problem_of(part);
        const CutAnswer answer = find_cheapest_cut(asked.problem, budget);
        std::vector<MakerId> makers;
        for (std::uint32_t item : answer.items) makers.push_back(asked.makers[item]);
        Cut cut;
        cut.grain = grain;
        cut.cost = answer.weight;
        cut.at_least = answer.at_least;
        cut.is_exact = answer.is_exact;
        cut.is_first = answer.is_first;
        cut.between_properties = grain == Grain::bone ? cycle.bones.empty() : cycle.is_between_properties();
        cut.makers = tell_makers(part, makers, cut.between_properties);
        cut.is_checked = leaves_no_cycle(part, makers);
        return cut;
    }
};

}  // namespace

std::uint32_t CutCosts::of(Maker::Kind kind) const {
    switch (kind) {
        case Maker::Kind::driver:
            return driver;
        case Maker::Kind::constraint:
            return constraint;
        case Maker::Kind::curve_handles:
            return curve_handles;
        case Maker::Kind::solver:
            return solver;
        case Maker::Kind::parent_link:
            return parent_link;
        case Maker::Kind::follows:
            return follows;
        case Maker::Kind::stack:
            break;
    }
    return 0;
}

Cut find_cut(const Rig& rig, const Dependencies& dependencies, const Cycle& cycle, Grain grain, const CutCosts& costs,
             const State& state) {
    Cutter cutter(rig, dependencies, costs, state);
    Budget budget{cut_budget};
    Cut cut = cutter.find(cycle, grain, budget);
    cutter.losses.find(cut, loss_budget);
    return cut;
}

void tell_losses(const Rig& rig, const Dependencies& dependencies, const State& state, CycleCuts& cuts) {
    LossSearch losses(rig, dependencies, state);
    losses.find(cuts.cut, loss_budget);
    if (cuts.finer) losses.find(*cuts.finer, loss_budget);
}

std::vector<CycleCuts> find_cuts(const Rig& rig, const Dependencies& dependencies, std::span<const Cycle> cycles,
                                 const CutCosts& costs, const State& state) {
    std::vector<CycleCuts> cuts;
    if (cycles.empty()) return cuts;
    Cutter cutter(rig, dependencies, costs, state);
    std::uint64_t left = cut_budget;
    for (std::size_t i = 0; i < cycles.size(); ++i) {
        const std::uint64_t had = left / (cycles.size() - i);
        Budget budget{had};
        CycleCuts& found = cuts.emplace_back(CycleCuts{cutter.find(cycles[i], Grain::bone, budget), {}});
        if (cycles[i].grain != Grain::bone && cycles[i].bones.size() <= most_bones_finer) {
            Cut finer = cutter.find(cycles[i], cycles[i].grain, budget);
            if (finer.cost < found.cut.cost) found.finer = std::move(finer);
        }
        left -= had - budget.left;
    }
    std::uint64_t losses_left = loss_budget;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        const std::uint64_t share = losses_left / (cuts.size() - i);
        std::uint64_t used = cutter.losses.find(cuts[i].cut, share);
        if (cuts[i].finer) used += cutter.losses.find(*cuts[i].finer, share - std::min(share, used));
        losses_left -= std::min(losses_left, used);
    }
    return cuts;
}

}  // namespace ligament
