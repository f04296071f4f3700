#include "sarif_graph.hpp"

#include <algorithm>
#include <set>
#include <unordered_map>

namespace ligament::sarif {

namespace {

std::string node_id(VertexId v) { return "n" + std::to_string(v); }
std::string edge_id(std::size_t index) { return "e" + std::to_string(index); }

/// By vertex: the vertices that need it.
std::vector<std::vector<VertexId>> readers_of(const Graph& graph) {
    std::vector<std::vector<VertexId>> readers(graph.vertices.size());
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v)) readers[edge.from].push_back(v);
    return readers;
}

/// Shows vertices as long as there is room for them and all their edges.
struct Choice {
    const Graph& graph;
    std::vector<std::vector<VertexId>> readers = readers_of(graph);
    std::unordered_map<std::string_view, PropertyId> properties;
    std::size_t room;
    std::vector<bool> is_shown = std::vector<bool>(graph.vertices.size(), false);

    bool show(VertexId v) {
        if (is_shown[v]) return true;
        const std::size_t parts = 1 + graph.needs(v).size() + readers[v].size();
        if (parts > room) return false;
        room -= parts;
        is_shown[v] = true;
        return true;
    }

    bool show_around(VertexId v) {
        if (!show(v)) return false;
        for (const Edge& edge : graph.needs(v))
            if (!show(edge.from)) return false;
        return std::all_of(readers[v].begin(), readers[v].end(), [&](VertexId reader) { return show(reader); });
    }
};

bool show_finding(Choice& choice, const Finding& finding) {
    for (const BoneId bone : finding.bones)
        if (!choice.show_around(choice.graph.first_of_bone[bone])) return false;
    const auto property = choice.properties.find(finding.subject);
    return property == choice.properties.end() || choice.show_around(choice.graph.first_property + property->second);
}

Place place_of_vertex(const Report& report, const Vertex& vertex) {
    const Rig& rig = report.rig;
    switch (vertex.kind) {
        case VertexKind::property:
            return rig.properties[vertex.element].place;
        case VertexKind::object:
            return rig.objects[vertex.element].place;
        case VertexKind::driver:
            return rig.drivers[vertex.element].place;
        case VertexKind::solver:
            return constraint_of(rig, report.dependencies, vertex.element).place;
        default:
            return rig.bones[vertex.element].place;
    }
}

Row node_row(const Report& report, VertexId v) {
    const Graph& graph = report.dependencies.bone;
    const Vertex& vertex = graph.vertices[v];
    return {{"id", node_id(v)},
            {"label", message(escaped(name_of(report.rig, report.dependencies, graph, v)))},
            {"location", {{"physicalLocation", physical_location(report.source, place_of_vertex(report, vertex))}}},
            {"properties", {{"kind", name_of(vertex.kind)}}}};
}

Row edge_row(const Report& report, VertexId v, std::size_t index) {
    const Edge& edge = report.dependencies.bone.edges[index];
    const bool is_off = report.dependencies.is_inert(edge);
    return {{"id", edge_id(index)},
            {"label", message(std::string(name_of(edge.kind())) + " " +
                              escaped(name_of(report.rig, report.dependencies, edge.maker)) + (is_off ? " (off)" : ""))},
            {"sourceNodeId", node_id(edge.from)},
            {"targetNodeId", node_id(v)}};
}

/// A place on a way back over the vertices between two ends: the makers from `maker` on were met already.
struct Step {
    VertexId vertex;
    std::size_t maker;
    std::size_t edge, next;  ///< by which edge, and which step comes after it; of the end itself neither
};

/// The edges of the bone grain that a folded edge stands for, in order; none where it has no such way there.
std::vector<std::size_t> unfold(const Dependencies& dependencies, const FoldedEdge& folded, bool between_properties) {
    const Graph& graph = dependencies.bone;
    const auto vertex_of = [&](std::uint32_t end) {
        return between_properties ? graph.first_property + end : graph.first_of_bone[end];
    };
    const auto is_end = [&](VertexId v) {
        return between_properties ? graph.vertices[v].kind == VertexKind::property : v < graph.first_property;
    };
    std::vector<MakerId> makers{folded.maker};
    makers.insert(makers.end(), folded.through.begin(), folded.through.end());
    std::vector<Step> steps{{vertex_of(folded.to), makers.size(), none, none}};
    std::set<std::pair<VertexId, std::size_t>> seen;
    for (std::size_t s = 0; s < steps.size(); ++s) {
        const Step step = steps[s];
        for (std::uint32_t e = graph.rows[step.vertex]; e < graph.rows[step.vertex + 1]; ++e) {
            const Edge& edge = graph.edges[e];
            std::size_t maker = step.maker;
            if (maker == makers.size() || edge.maker != makers[maker]) {
                if (maker == 0 || edge.maker != makers[maker - 1]) continue;
                --maker;
            }
            if (maker == 0 && edge.from == vertex_of(folded.from)) {
                std::vector<std::size_t> edges{e};
                for (std::size_t on = s; steps[on].edge != none; on = steps[on].next) edges.push_back(steps[on].edge);
                return edges;
            }
            if (!is_end(edge.from) && seen.emplace(edge.from, maker).second) steps.push_back({edge.from, maker, e, s});
        }
    }
    return {};
}

}  // namespace

ShownGraph graph_to_show(const Report& report, std::span<const Finding* const> findings, std::size_t most) {
    const Graph& graph = report.dependencies.bone;
    ShownGraph shown;
    shown.all_findings = findings.size();
    shown.is_whole = graph.vertices.size() + graph.edges.size() <= most;
    if (shown.is_whole) {
        shown.is_shown.assign(graph.vertices.size(), true);
        return shown;
    }
    Choice choice{.graph = graph, .properties = {}, .room = most};
    for (PropertyId i = 0; i < report.rig.properties.size(); ++i) choice.properties.emplace(report.rig.properties[i].name, i);
    for (const Finding* finding : findings) {
        if (!show_finding(choice, *finding)) break;
        ++shown.findings;
    }
    shown.is_shown = std::move(choice.is_shown);
    return shown;
}

void write_graph(std::ostream& out, const Report& report, const ShownGraph& shown) {
    using json_rows::text_of;
    const Graph& graph = report.dependencies.bone;
    std::size_t nodes = 0, edges = 0;
    const char* margin = "\n        ";
    out << "{\n      \"description\": "
        << text_of(message("What needs what, at bone grain: an edge leads from what is needed to what needs it."))
        << ",\n      \"nodes\": [";
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        if (!shown.is_shown[v]) continue;
        out << (nodes++ > 0 ? "," : "") << margin << text_of(node_row(report, v));
    }
    out << "],\n      \"edges\": [";
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        if (!shown.is_shown[v]) continue;
        for (std::size_t e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
            if (!shown.is_shown[graph.edges[e].from]) continue;
            out << (edges++ > 0 ? "," : "") << margin << text_of(edge_row(report, v, e));
        }
    }
    Row properties{{"isWhole", shown.is_whole},
                   {"nodesShown", nodes},
                   {"nodes", graph.vertices.size()},
                   {"edgesShown", edges},
                   {"edges", graph.edges.size()}};
    if (!shown.is_whole) {
        properties["shown"] = "what findings are about, with what that needs and what needs it";
        properties["aroundFindings"] = shown.findings;
        properties["findings"] = shown.all_findings;
        properties["mostNodesAndEdges"] = most_graph_parts;
    }
    out << "],\n      \"properties\": " << text_of(properties) << "\n    }";
}

std::optional<Row> traversal_of(const Report& report, const ShownGraph& shown, const Cycle& cycle) {
    const Graph& graph = report.dependencies.bone;
    Row traversals = Row::array();
    VertexId at = none;
    for (const FoldedEdge& folded : cycle.witness) {
        const std::vector<std::size_t> edges = unfold(report.dependencies, folded, cycle.is_between_properties());
        if (edges.empty()) return {};
        for (const std::size_t e : edges) {
            if (!shown.is_shown[graph.edges[e].from]) return {};
            traversals.push_back({{"edgeId", edge_id(e)}});
        }
        at = cycle.is_between_properties() ? graph.first_property + folded.to : graph.first_of_bone[folded.to];
    }
    if (at == none || !shown.is_shown[at]) return {};
    return Row{{"runGraphIndex", 0}, {"edgeTraversals", std::move(traversals)}};
}

}  // namespace ligament::sarif
