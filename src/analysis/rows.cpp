#include "rows.hpp"

namespace ligament {

Rows live_rows(const Dependencies& dependencies, const Graph& graph) {
    return pick_rows(graph, [&](VertexId, const Edge& edge) { return !dependencies.is_inert(edge); });
}

Rows reversed(const Rows& rows, std::uint32_t size) {
    Rows result;
    result.first.assign(size + 1, 0);
    for (std::uint32_t from : rows.needs) ++result.first[from + 1];
    for (std::uint32_t v = 0; v < size; ++v) result.first[v + 1] += result.first[v];
    result.needs.resize(rows.needs.size());
    std::vector<std::uint32_t> next(result.first.begin(), result.first.end() - 1);
    for (std::uint32_t v = 0; v < rows.size(); ++v)
        for (std::uint32_t from : rows.of(v)) result.needs[next[from]++] = v;
    return result;
}

}  // namespace ligament
