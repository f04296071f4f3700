// `ligament trace`: what does this need, what does it move, and by which path?
#include <algorithm>
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/facts.hpp"
#include "ligament/report.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_trace(CLI::App& app);

namespace {

struct Options {
    std::string rig, from, to, grain = "channel", colour = "auto";
    std::size_t limit = 100;
    std::vector<std::string> state;
    InputOptions input;
};

struct Traced {
    const Options& options;
    const Rig& rig;
    const Dependencies& dependencies;
    Grain grain;
    std::string in_state;  // " in state wing_mode_l=fk", or nothing

    const Graph& graph() const { return dependencies.at(rig, grain); }
};

Endpoint endpoint_named(const Traced& traced, const std::string& name) {
    const Named named = find_named(traced.rig, traced.options.rig, name);
    return {named.bone, named.property, named.object};
}

std::string words_for(const Rig& rig, Endpoint end) {
    if (end.property != none) return "property " + printable(rig.properties[end.property].name);
    if (end.object != none) return "object " + printable(rig.objects[end.object].name);
    return "bone " + printable(rig.bones[end.bone].name);
}

std::string at_grain(const Traced& traced) { return " at " + std::string(name_of(traced.grain)) + " grain" + traced.in_state; }

// Kind, maker and place of an edge.
void append_edge(std::vector<std::string>& row, const Traced& traced, const PathEdge& step) {
    const Edge& edge = traced.graph().edges[step.edge];
    row.emplace_back(name_of(edge.kind()));
    row.push_back(printable(name_of(traced.rig, traced.dependencies, edge.maker)));
    row.push_back(place_text(traced.options.rig, place_of(traced.rig, traced.dependencies, edge.maker)));
}

void write_path(std::ostream& out, const Traced& traced, const std::vector<PathEdge>& path) {
    std::vector<std::vector<std::string>> rows;
    for (const PathEdge& step : path) {
        std::vector<std::string>& row = rows.emplace_back();
        row.push_back(printable(name_of(traced.rig, traced.dependencies, traced.graph(), step.from)));
        row.push_back("-> " + printable(name_of(traced.rig, traced.dependencies, traced.graph(), step.to)));
        append_edge(row, traced, step);
    }
    write_table(out, rows, 2);
}

// The edge by which the path leaves the element where it starts, rather than the steps inside it.
const PathEdge& leaving_edge(const Traced& traced, const std::vector<PathEdge>& path) {
    auto bone = [&](VertexId v) { return traced.dependencies.bone_of(traced.graph(), v); };
    const BoneId start = bone(path.front().from);
    const auto leaving =
        std::find_if(path.begin(), path.end(), [&](const PathEdge& edge) { return start == none || bone(edge.to) != start; });
    return leaving == path.end() ? path.front() : *leaving;
}

int show_path(std::ostream& out, const Traced& traced, Endpoint from, Endpoint to) {
    const std::string from_words = words_for(traced.rig, from), to_words = words_for(traced.rig, to);
    if (from_words == to_words) throw Unusable("FROM and TO are both " + from_words + "; `ligament check` shows cycles");
    const std::vector<PathEdge> path = find_path(traced.rig, traced.dependencies, traced.grain, from, to);
    if (!path.empty()) {
        out << from_words << " reaches " << to_words << at_grain(traced) << ", by " << counted_text(path.size(), "edge") << '\n';
        write_path(out, traced, path);
        return fine;
    }
    const std::size_t back = find_path(traced.rig, traced.dependencies, traced.grain, to, from).size();
    out << "no path leads from " << from_words << " to " << to_words << at_grain(traced) << "; ";
    if (back > 0)
        out << "the other direction has one, of " << counted_text(back, "edge") << '\n';
    else
        out << "the other direction has none either\n";
    return found;
}

// The bones that the endpoint moves (forward) or needs, nearest first; of each the edge by which the path leaves its start.
void write_reach(std::ostream& out, const Traced& traced, Endpoint end, bool forward, const TextStyle& style) {
    const std::vector<std::uint32_t> distance = find_reach(traced.rig, traced.dependencies, traced.grain, end, forward);
    std::vector<BoneId> bones;
    for (BoneId bone = 0; bone < distance.size(); ++bone)
        if (distance[bone] != none && bone != end.bone) bones.push_back(bone);
    std::stable_sort(bones.begin(), bones.end(), [&](BoneId a, BoneId b) { return distance[a] < distance[b]; });
    const std::size_t shown = traced.options.limit == 0 ? bones.size() : std::min(bones.size(), traced.options.limit);
    out << heading((forward ? "moves " : "needs ") + counted_text(bones.size(), "bone"), style) << '\n';
    std::vector<PathEnds> ends;
    for (std::size_t i = 0; i < shown; ++i) {
        const Endpoint other{.bone = bones[i]};
        ends.push_back(forward ? PathEnds{end, other} : PathEnds{other, end});
    }
    const std::vector<std::vector<PathEdge>> paths = find_paths(traced.rig, traced.dependencies, traced.grain, ends);
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < shown; ++i) {
        std::vector<std::string>& row = rows.emplace_back();
        row.push_back(std::to_string(distance[bones[i]]));
        row.push_back(printable(traced.rig.bones[bones[i]].name));
        if (!paths[i].empty()) append_edge(row, traced, leaving_edge(traced, paths[i]));
    }
    write_table(out, rows, 2, "r");
    if (shown < bones.size()) out << "  showing " << shown << " of " << bones.size() << " bones (--limit 0 shows all)\n";
}

int trace(const Options& options) {
    const Rig rig = load_rig(options.rig, options.input).rig;
    const FactOptions fact_options = read_state(rig, options.rig, options.state);
    const Dependencies dependencies = dependencies_for(rig, fact_options, /*overrides=*/true);
    const Grain grain = options.grain == "bone" ? Grain::bone : options.grain == "step" ? Grain::step : Grain::channel;
    const Traced traced{options, rig, dependencies, grain, in_state_words(fact_options)};
    const Endpoint from = endpoint_named(traced, options.from);
    Output output;
    int status = fine;
    if (options.to.empty()) {
        const TextStyle style = style_for(output, options.colour);
        output.stream() << words_for(rig, from) << at_grain(traced) << '\n';
        write_reach(output.stream(), traced, from, false, style);
        write_reach(output.stream(), traced, from, true, style);
    } else {
        status = show_path(output.stream(), traced, from, endpoint_named(traced, options.to));
    }
    output.commit();
    return status;
}

}  // namespace

Run add_trace(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("FROM", options->from, "a bone, property or object")->required()->type_name("");
    app.add_option("TO", options->to, "show the path from FROM to this bone, property or object")->type_name("");
    app.add_option("--grain", options->grain, "how finely to look: channel, step or bone")
        ->check(CLI::IsMember({"channel", "step", "bone"}))
        ->capture_default_str()
        ->type_name("GRAIN");
    app.add_option("--limit", options->limit, "without TO: list at most this many bones each way, 0 for all")
        ->check(whole_number())
        ->capture_default_str()
        ->type_name("N");
    add_state_option(app, options->state);
    add_colour_option(app, options->colour);
    app.footer(
        "Without TO: the bones that FROM needs and those that it moves, each with its distance and the edge by which\n"
        "the shortest path leaves its start. With TO: the shortest path edge by edge; status 1 when there is none.\n\n"
        "Examples:\n  ligament trace heron.rig.json wing_arm_l\n  ligament trace heron.rig.json wing_hand_ctl_l wing_arm_l");
    return [options] { return trace(*options); };
}

}  // namespace ligament::cli
