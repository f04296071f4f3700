#include "vital.hpp"

#include <algorithm>
#include <queue>
#include <tuple>
#include <utility>

#include "wiring.hpp"

namespace ligament {

namespace {

/// By place in the path: the longest chain that avoids the task there.
std::vector<double> find_detours(const Dependencies& dependencies, const Tasks& tasks, const CriticalPath& path) {
    const auto places = static_cast<std::uint32_t>(path.tasks.size());
    std::vector<double> longest(places, 0.0);
    std::vector<std::uint32_t> passed(tasks.size());  // by task: how many of the path are not behind it
    double before = 0;
    for (std::uint32_t task = 0, place = 0; task < tasks.size(); ++task) {
        if (place < places && path.tasks[place] == task) longest[place++] = before;
        passed[task] = place;
        // A chain that ends with the driver of a weight goes on to what takes the weight, or goes with it.
        if (!is_weight_driver(dependencies, tasks, task)) before = std::max(before, tasks.head[task]);
    }
    struct Over {
        double length = 0;
        std::uint32_t first = 0;  // the first place of the path that the edge leads over
        bool operator<(const Over& other) const { return length < other.length; }
    };
    std::priority_queue<Over> over;
    double behind = 0;
    std::uint32_t place = places;
    for (std::uint32_t task = tasks.size(); task-- > 0;) {
        if (place > 0 && path.tasks[place - 1] == task) {
            --place;
            while (!over.empty() && over.top().first > place) over.pop();
            longest[place] = std::max({longest[place], behind, over.empty() ? 0.0 : over.top().length});
        }
        for (std::uint32_t needed : tasks.needs.of(task))
            if (passed[needed] < place) over.push({tasks.head[needed] + tasks.tail(task), passed[needed]});
        behind = std::max(behind, tasks.tail(task));
    }
    return longest;
}

/// Who takes an edge into a bone, solver or object away along with all others that it makes there.
MakerId owner_of(const Rig& rig, const Dependencies& dependencies, const Edge& edge) {
    const Gate& gate = dependencies.gates[edge.gate];
    return gate.constraint == none ? edge.maker : constraint_maker(rig, gate.constraint);
}

/// What leads into one task: the latest start by owner, as far as it takes to leave one owner out.
struct WaysIn {
    double latest = 0, latest_of_others = 0;
    MakerId owner = none;             ///< of the latest
    std::vector<MakerId> not_to_cut;  ///< those of edges inside the task, ascending

    double without(MakerId maker) const { return maker == owner ? latest_of_others : latest; }
};

struct VitalSearch {
    const Rig& rig;
    const Dependencies& dependencies;
    const StepCosts& costs;
    const Tasks& tasks;
    const CriticalPath& path;
    std::vector<double> detours;
    std::vector<WaysIn> ways_in;       ///< by place in the path
    std::vector<std::uint32_t> place;  ///< by task, none where it is not on the path

    const Graph& graph() const { return dependencies.bone; }
    std::uint32_t task_of(VertexId v) const { return tasks.live.component_of[v]; }

    WaysIn find_ways_in(std::uint32_t task) const {
        WaysIn ways;
        for (VertexId v : tasks.live.of(task))
            for (const Edge& edge : graph().needs(v)) {
                if (dependencies.is_inert(edge)) continue;
                const MakerId owner = owner_of(rig, dependencies, edge);
                const std::uint32_t from = task_of(edge.from);
                if (from == task) {
                    ways.not_to_cut.push_back(owner);
                } else if (owner == ways.owner) {
                    ways.latest = std::max(ways.latest, tasks.head[from]);
                } else if (tasks.head[from] > ways.latest || ways.owner == none) {
                    ways.latest_of_others = std::exchange(ways.latest, tasks.head[from]);
                    ways.owner = owner;
                } else {
                    ways.latest_of_others = std::max(ways.latest_of_others, tasks.head[from]);
                }
            }
        std::sort(ways.not_to_cut.begin(), ways.not_to_cut.end());
        return ways;
    }

    /// The one task that all edges of the maker enter, or that is gone without it.
    VertexId target_of(MakerId maker) const {
        const Maker& made_by = dependencies.makers[maker];
        switch (made_by.kind) {
            case Maker::Kind::stack:
                return none;
            case Maker::Kind::parent_link:
            case Maker::Kind::curve_handles:
                return made_by.element;
            case Maker::Kind::constraint:
                return dependencies.constraints[made_by.element].bone;
            case Maker::Kind::follows:
                return graph().first_object + made_by.element;
            case Maker::Kind::driver:
                return graph().first_driver + made_by.element;
            case Maker::Kind::solver: {
                const auto solver = std::lower_bound(dependencies.solvers.begin(), dependencies.solvers.end(), made_by.element);
                return graph().first_solver + static_cast<VertexId>(solver - dependencies.solvers.begin());
            }
        }
        return none;
    }

    void add_makers_of_edge(const Edge& edge, std::vector<MakerId>& makers) const {
        const Removers removers = removers_of(dependencies, edge);
        makers.push_back(removers.maker);
        if (removers.constraint != none) makers.push_back(removers.constraint);
    }

    /// Steps that take time themselves.
    void add_makers_at(VertexId v, std::vector<MakerId>& makers) const {
        if (v >= graph().first_solver)
            makers.push_back(constraint_maker(rig, graph().vertices[v].element));
        else if (v >= graph().first_driver && v < graph().first_object)
            makers.push_back(driver_maker(rig, dependencies, v - graph().first_driver));
        else if (v < graph().first_property && costs.constraint > 0)
            for (ConstraintId id = dependencies.first_constraint_of_bone[v]; id < dependencies.first_constraint_of_bone[v + 1];
                 ++id)
                if (is_live(dependencies, id)) makers.push_back(constraint_maker(rig, id));
    }

    std::vector<MakerId> find_candidates() const {
        std::vector<MakerId> makers;
        for (const PathEdge& edge : path.edges) add_makers_of_edge(graph().edges[edge.edge], makers);
        for (std::uint32_t task : path.tasks)
            for (VertexId v : tasks.live.of(task)) add_makers_at(v, makers);
        std::sort(makers.begin(), makers.end());
        makers.erase(std::unique(makers.begin(), makers.end()), makers.end());
        return makers;
    }

    double shortened_by(MakerId maker) const {
        const VertexId target = target_of(maker);
        if (target == none || place[task_of(target)] == none) return 0;
        const std::uint32_t task = task_of(target), at = place[task];
        const Maker::Kind kind = dependencies.makers[maker].kind;
        const WaysIn& ways = ways_in[at];
        double left = detours[at];
        if (kind == Maker::Kind::solver || kind == Maker::Kind::driver) {
            if (!ways.not_to_cut.empty()) return 0;
        } else {
            if (std::binary_search(ways.not_to_cut.begin(), ways.not_to_cut.end(), maker)) return 0;
            const double saved = kind == Maker::Kind::constraint ? costs.constraint : 0;
            left = std::max(left, ways.without(maker) + (tasks.duration[task] - saved) + tasks.behind[task]);
        }
        return tasks.longest - left;
    }

    VitalMaker find() const {
        VitalMaker vital;
        const auto file_order = [&](MakerId maker) {
            const Place at = place_of(rig, dependencies, maker);
            return std::tuple(at.line, at.column, maker);
        };
        for (MakerId maker : find_candidates()) {
            const double by = shortened_by(maker), more = by - vital.shortens_by;
            if (by <= tasks.tolerance() || more < -tasks.tolerance()) continue;
            if (vital.maker == none || more > tasks.tolerance() || file_order(maker) < file_order(vital.maker))
                vital = {maker, by};
        }
        return vital;
    }
};

}  // namespace

VitalMaker find_vital_maker(const Rig& rig, const Dependencies& dependencies, const StepCosts& costs, const Tasks& tasks,
                            const CriticalPath& path) {
    VitalSearch search{
        rig, dependencies, costs, tasks, path, find_detours(dependencies, tasks, path), {}, std::vector(tasks.size(), none)};
    for (std::uint32_t i = 0; i < path.tasks.size(); ++i) {
        search.place[path.tasks[i]] = i;
        search.ways_in.push_back(search.find_ways_in(path.tasks[i]));
    }
    return search.find();
}

}  // namespace ligament
