// What would plain dot be given of a rig? The boxes and arrows of our drawings as a graph in the DOT language, to lay out at
// once.
#include <iostream>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "ligament/graph.hpp"
#include "ligament/read.hpp"
#include "plan.hpp"
#include "shapes.hpp"

namespace {

using namespace ligament;

using Ends = std::pair<std::string, std::string>;

/// The box that a vertex of the bone grain is drawn as; drivers are told by the words on an arrow.
struct Boxes {
    const Rig& rig;
    const Dependencies& dependencies;
    const Graph& graph;

    bool has(VertexId v) const { return graph.vertices[v].kind != VertexKind::driver; }
    std::string id(VertexId v) const { return "n" + std::to_string(v); }
    Box of(VertexId v) const {
        Box box;
        const Vertex& vertex = graph.vertices[v];
        box.name = name_of(rig, dependencies, graph, v);
        box.word = std::string(name_of(vertex.kind));
        if (vertex.kind == VertexKind::property) box.shape = Shape::property;
        if (vertex.kind == VertexKind::solver) box.shape = Shape::solver;
        if (vertex.kind != VertexKind::bone) return box;
        const Bone& bone = rig.bones[vertex.element];
        box.name = bone.name;
        box.shape = bone.control ? Shape::control : bone.deform ? Shape::deform : Shape::mechanism;
        box.word = bone.control ? "control" : bone.deform ? "deform" : "mechanism";
        return box;
    }
};

/// Calls `use(from, to)` for what a box needs, straight or through drivers. A driver is driven by no driver.
template <class Use>
void for_each_arrow(const Boxes& boxes, Use use) {
    for (VertexId to = 0; to < boxes.graph.vertices.size(); ++to) {
        if (!boxes.has(to)) continue;
        for (const Edge& edge : boxes.graph.needs(to)) {
            if (boxes.has(edge.from)) use(edge.from, to);
            if (boxes.has(edge.from)) continue;
            for (const Edge& input : boxes.graph.needs(edge.from)) use(input.from, to);
        }
    }
}

void print_bones(const Boxes& boxes) {
    constexpr double points_per_inch = 72;
    for (VertexId v = 0; v < boxes.graph.vertices.size(); ++v) {
        if (!boxes.has(v)) continue;
        const Size size = size_of(boxes.of(v));
        std::cout << boxes.id(v) << " [width=" << size.width / points_per_inch << " height=" << size.height / points_per_inch
                  << "]\n";
    }
    std::set<std::pair<VertexId, VertexId>> arrows;
    for_each_arrow(boxes, [&](VertexId from, VertexId to) {
        if (from != to) arrows.emplace(from, to);
    });
    for (const auto& [from, to] : arrows) std::cout << boxes.id(from) << " -> " << boxes.id(to) << "\n";
}

/// One box a group, as large as a card of the plan that has some rows. What stands in no group of bones is left out.
void print_groups(const Boxes& boxes) {
    std::map<std::string, std::size_t> number;
    for (const Bone& bone : boxes.rig.bones) number.emplace(bone.group, number.size());
    std::set<std::pair<std::size_t, std::size_t>> arrows;
    for_each_arrow(boxes, [&](VertexId from, VertexId to) {
        const auto bones = static_cast<VertexId>(boxes.rig.bones.size());
        if (from >= bones || to >= bones) return;
        const std::size_t a = number[boxes.rig.bones[from].group], b = number[boxes.rig.bones[to].group];
        if (a != b) arrows.emplace(a, b);
    });
    for (std::size_t g = 0; g < number.size(); ++g) std::cout << "g" << g << " [width=2.4 height=1.2]\n";
    for (const auto& [from, to] : arrows) std::cout << "g" << from << " -> g" << to << "\n";
}

}  // namespace

// boxes bones|groups RIG
int main(int count, char** words) {
    if (count != 3) return 2;
    const ReadResult read = read_rig_file(words[2]);
    if (!read.rig) return 2;
    const Dependencies dependencies = build_dependencies(*read.rig);
    const Boxes boxes{*read.rig, dependencies, dependencies.bone};
    std::cout << "digraph {\nnode [shape=box fixedsize=true label=\"\"]\n";
    std::string(words[1]) == "groups" ? print_groups(boxes) : print_bones(boxes);
    std::cout << "}\n";
}
