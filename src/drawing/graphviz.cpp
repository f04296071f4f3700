// Where does Graphviz put everything? The one file that names it: cgraph and gvc in, plain places out.
#include <dlfcn.h>
#include <graphviz/cgraph.h>
#include <graphviz/gvc.h>

#include <algorithm>
#include <charconv>
#include <initializer_list>
#include <memory>
#include <stdexcept>
#include <utility>

#include "layout.hpp"

namespace ligament {

namespace {

constexpr double points_per_inch = 72;

/// What of Graphviz is called. Its libraries are loaded by the first layout: linking to them, and to the six that they want,
/// would cost every call of the program half a million instructions and 0.7 ms, a check of 200 bones a fifth of its time.
struct Graphviz {
    decltype(&::gvContext) gvContext;
    decltype(&::gvLayout) gvLayout;
    decltype(&::gvFreeLayout) gvFreeLayout;
    decltype(&::agopen) agopen;
    decltype(&::agclose) agclose;
    decltype(&::agattr) agattr;
    decltype(&::agsafeset) agsafeset;
    decltype(&::agsubg) agsubg;
    decltype(&::agnode) agnode;
    decltype(&::agsubnode) agsubnode;
    decltype(&::agedge) agedge;
    Agdesc_t* directed;

    Graphviz() {
        void* gvc = load(LIGAMENT_GVC);
        void* cgraph = load(LIGAMENT_CGRAPH);
        find(gvc, "gvContext", gvContext);
        find(gvc, "gvLayout", gvLayout);
        find(gvc, "gvFreeLayout", gvFreeLayout);
        find(cgraph, "agopen", agopen);
        find(cgraph, "agclose", agclose);
        find(cgraph, "agattr", agattr);
        find(cgraph, "agsafeset", agsafeset);
        find(cgraph, "agsubg", agsubg);
        find(cgraph, "agnode", agnode);
        find(cgraph, "agsubnode", agsubnode);
        find(cgraph, "agedge", agedge);
        find(cgraph, "Agdirected", directed);
    }

    static void* load(const char* library) {
        if (void* loaded = dlopen(library, RTLD_LAZY | RTLD_LOCAL)) return loaded;
        throw std::runtime_error(std::string("Graphviz, which lays drawings out, cannot be loaded: ") + dlerror());
    }
    template <class Symbol>
    static void find(void* library, const char* name, Symbol*& symbol) {
        symbol = reinterpret_cast<Symbol*>(dlsym(library, name));
        if (symbol != nullptr) return;
        throw std::runtime_error(std::string("Graphviz, which lays drawings out, is not the one that this was built with: ") +
                                 dlerror());
    }
};

const Graphviz& graphviz() {
    static const Graphviz loaded;
    return loaded;
}

std::string number(double value) {
    char buffer[32];
    return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, 4).ptr);
}

std::string name(char prefix, std::size_t index) { return prefix + std::to_string(index); }

// cgraph takes names and values as char*, and does not write to them.
char* text(const std::string& value) { return const_cast<char*>(value.c_str()); }

void set(void* object, const std::string& key, const std::string& value) {
    graphviz().agsafeset(object, text(key), text(value), text(""));
}

// cgraph's own ids are the addresses of names, and dot meets the groups in the order of their ids: the same graph would come out
// in one way or the other. These are counted instead; names are left to cgraph's internal map.
struct Counting {
    static void* open(Agraph_t*, Agdisc_t*) { return new IDTYPE(1); }
    static long map(void* next, int, char* name, IDTYPE* id, int create) {
        if (name || !create) return 0;
        *id = static_cast<IDTYPE*>(next)[0]++;
        return 1;
    }
    static long reserve(void*, int, IDTYPE) { return 0; }
    static void forget(void*, int, IDTYPE) {}
    static char* print(void*, int, IDTYPE) { return nullptr; }
    static void close(void* next) { delete static_cast<IDTYPE*>(next); }
    static void note(void*, int, void*) {}
};

Agiddisc_t counting{Counting::open,  Counting::map,   Counting::reserve, Counting::forget,
                    Counting::print, Counting::close, Counting::note};
Agdisc_t discipline{nullptr, &counting, nullptr};

using Graph = std::unique_ptr<Agraph_t, int (*)(Agraph_t*)>;

/// A graph under layout, with what the layout has to give back.
struct Drawn {
    Graph graph{nullptr, graphviz().agclose};
    std::vector<Agnode_t*> nodes;
    std::vector<Agedge_t*> edges;
};

void set_up(Agraph_t* graph, const LayoutVariant& variant, double gap) {
    using Setting = std::pair<const char*, std::string>;
    for (const auto& [key, value] : std::initializer_list<Setting>{{"rankdir", "TB"},
                                                                   {"nodesep", "0.15"},
                                                                   {"ranksep", number(gap / points_per_inch)},
                                                                   {"splines", "true"},
                                                                   {"mclimit", number(variant.effort)},
                                                                   {"outputorder", "nodesfirst"}})
        graphviz().agattr(graph, AGRAPH, text(key), text(value));
    for (const auto& [key, value] :
         std::initializer_list<Setting>{{"shape", "box"}, {"fixedsize", "true"}, {"label", ""}, {"width", "1"}, {"height", "1"}})
        graphviz().agattr(graph, AGNODE, text(key), text(value));
    for (const auto& [key, value] : std::initializer_list<Setting>{{"weight", "1"}, {"arrowsize", "0.9"}})
        graphviz().agattr(graph, AGEDGE, text(key), text(value));
}

void keep_at_borders(const LayoutTask& task, const Drawn& drawn) {
    for (const auto& [layer, rank] :
         {std::pair{LayoutTask::Layer::first, "source"}, std::pair{LayoutTask::Layer::last, "sink"}}) {
        Agraph_t* border = graphviz().agsubg(drawn.graph.get(), text(rank), 1);
        set(border, "rank", rank);
        for (std::size_t i = 0; i < task.nodes.size(); ++i)
            if (task.nodes[i].layer == layer) graphviz().agsubnode(border, drawn.nodes[i], 1);
    }
}

Drawn build_graph(const LayoutTask& task, const LayoutVariant& variant) {
    Drawn drawn;
    drawn.graph.reset(graphviz().agopen(text("rig"), *graphviz().directed, &discipline));
    Agraph_t* graph = drawn.graph.get();
    set_up(graph, variant, task.layer_gap * variant.gap);
    for (std::size_t i = 0; i < task.nodes.size(); ++i) {
        const LayoutTask::Node& node = task.nodes[i];
        Agnode_t* made = graphviz().agnode(graph, text(name('n', i)), 1);
        set(made, "width", number(node.width / points_per_inch));
        set(made, "height", number(node.height / points_per_inch));
        drawn.nodes.push_back(made);
    }
    if (variant.borders) keep_at_borders(task, drawn);
    for (std::size_t i = 0; i < task.links.size(); ++i) {
        const LayoutTask::Link& link = task.links[i];
        Agedge_t* made = graphviz().agedge(graph, drawn.nodes[link.from], drawn.nodes[link.to], text(name('e', i)), 1);
        set(made, "weight", std::to_string(variant.plain ? 1u : link.weight));
        drawn.edges.push_back(made);
    }
    for (std::size_t i = 0; i < task.ties.size() && !variant.plain; ++i) {
        Agedge_t* made =
            graphviz().agedge(graph, drawn.nodes[task.ties[i].from], drawn.nodes[task.ties[i].to], text(name('t', i)), 1);
        set(made, "weight", std::to_string(task.ties[i].weight));
        set(made, "style", "invis");
    }
    return drawn;
}

/// Turns Graphviz's coordinates, y up, into the picture's.
struct Page {
    double left, top;

    Point point(pointf p) const { return {p.x - left, top - p.y}; }
};

Curve straight(const Rect& from, const Rect& to) {
    const Point a{from.centre().x, from.bottom()}, b{to.centre().x, to.y};
    return {{a, a, b, b}, b};
}

Curve curve_of(Agedge_t* edge, const Page& page, const Rect& from, const Rect& to) {
    const splines* route = ED_spl(edge);
    if (!route || route->size == 0 || route->list[0].size < 4) return straight(from, to);
    const bezier& line = route->list[0];
    Curve curve;
    for (int i = 0; i < line.size; ++i) curve.points.push_back(page.point(line.list[i]));
    if (line.eflag) {
        curve.tip = page.point(line.ep);
    } else if (line.sflag) {
        std::reverse(curve.points.begin(), curve.points.end());
        curve.tip = page.point(line.sp);
    } else {
        curve.tip = curve.points.back();
    }
    return curve;
}

/// Lines may bulge beyond what Graphviz takes for the bounds.
void hold_all(Layout& layout) {
    Point low{0, 0}, high{layout.width, layout.height};
    for (const Curve& curve : layout.curves)
        for (Point p : curve.points) {
            low = {std::min(low.x, p.x), std::min(low.y, p.y)};
            high = {std::max(high.x, p.x), std::max(high.y, p.y)};
        }
    for (Rect& box : layout.boxes) box.x -= low.x, box.y -= low.y;
    for (Curve& curve : layout.curves) {
        for (Point& p : curve.points) p.x -= low.x, p.y -= low.y;
        curve.tip.x -= low.x, curve.tip.y -= low.y;
    }
    layout.width = high.x - low.x, layout.height = high.y - low.y;
}

Layout read_back(const Drawn& drawn, const LayoutTask& task) {
    const boxf bounds = GD_bb(drawn.graph.get());
    const Page page{bounds.LL.x, bounds.UR.y};
    Layout layout;
    layout.width = bounds.UR.x - bounds.LL.x;
    layout.height = bounds.UR.y - bounds.LL.y;
    for (std::size_t i = 0; i < task.nodes.size(); ++i) {
        const Point centre = page.point(ND_coord(drawn.nodes[i]));
        const LayoutTask::Node& node = task.nodes[i];
        layout.boxes.push_back({centre.x - node.width / 2, centre.y - node.height / 2, node.width, node.height});
    }
    for (std::size_t i = 0; i < task.links.size(); ++i)
        layout.curves.push_back(curve_of(drawn.edges[i], page, layout.boxes[task.links[i].from], layout.boxes[task.links[i].to]));
    hold_all(layout);
    return layout;
}

}  // namespace

std::string prepare_layouts() {
    try {
        graphviz();
        return {};
    } catch (const std::runtime_error& error) {
        return error.what();
    }
}

Layout lay_out_layered(const LayoutTask& task, const LayoutVariant& variant) {
    // For all layouts, to the end of the process: making one takes longer than most layouts.
    static GVC_t* const context = graphviz().gvContext();
    const Drawn drawn = build_graph(task, variant);
    if (graphviz().gvLayout(context, drawn.graph.get(), "dot") != 0) throw std::runtime_error("the layout failed");
    Layout layout = read_back(drawn, task);
    graphviz().gvFreeLayout(context, drawn.graph.get());
    return layout;
}

}  // namespace ligament
