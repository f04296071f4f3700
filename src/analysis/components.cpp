#include "components.hpp"

#include <algorithm>
#include <boost/graph/strong_components.hpp>
#include <boost/property_map/property_map.hpp>

#include "bgl_view.hpp"

namespace ligament {

namespace {

/// For each vertex how many others need it, counting repeated edges, self-loops not.
std::vector<std::uint32_t> count_needing(const Rows& rows) {
    std::vector<std::uint32_t> count(rows.size(), 0);
    for (std::uint32_t v = 0; v < rows.size(); ++v)
        for (std::uint32_t from : rows.of(v))
            if (from != v) ++count[from];
    return count;
}

/// Takes away, again and again, a vertex that nobody left needs. Gives them in that order and sets their count to none.
std::vector<std::uint32_t> peel(const Rows& rows, std::vector<std::uint32_t>& needing) {
    std::vector<std::uint32_t> peeled, ready;
    peeled.reserve(rows.size());
    for (std::uint32_t start = 0; start < rows.size(); ++start) {
        if (needing[start] != 0) continue;
        needing[start] = none;
        ready.push_back(start);
        while (!ready.empty()) {
            const std::uint32_t v = ready.back();
            ready.pop_back();
            peeled.push_back(v);
            for (std::uint32_t from : rows.of(v))
                if (from != v && --needing[from] == 0) {
                    needing[from] = none;
                    ready.push_back(from);
                }
        }
    }
    return peeled;
}

/// The rows of the vertices that are left, numbered anew in the same order. All that they need is left, too.
Rows rows_of_rest(const Rows& rows, const std::vector<std::uint32_t>& needing, std::vector<std::uint32_t>& rest) {
    std::vector<std::uint32_t> number(rows.size());
    for (std::uint32_t v = 0; v < rows.size(); ++v)
        if (needing[v] != none) {
            number[v] = static_cast<std::uint32_t>(rest.size());
            rest.push_back(v);
        }
    Rows result;
    result.first.reserve(rest.size() + 1);
    for (std::uint32_t v : rest) {
        for (std::uint32_t from : rows.of(v)) result.needs.push_back(number[from]);
        result.first.push_back(static_cast<std::uint32_t>(result.needs.size()));
    }
    return result;
}

/// Tarjan's numbers: a component is numbered after all that its vertices point to, which here is what they need.
std::uint32_t number_components(const Rows& rows, std::vector<std::uint32_t>& component) {
    const BglView view{rows.first, rows.needs};
    std::vector<std::uint32_t> root(rows.size()), discovered(rows.size());
    std::vector<boost::default_color_type> colour(rows.size());
    component.resize(rows.size());
    const boost::typed_identity_property_map<std::uint32_t> index;
    const auto map = [&](auto& values) { return boost::make_iterator_property_map(values.begin(), index); };
    return boost::strong_components(
        view, map(component),
        boost::vertex_index_map(index).root_map(map(root)).discover_time_map(map(discovered)).color_map(map(colour)));
}

}  // namespace

Condensation find_components(const Rows& rows) {
    std::vector<std::uint32_t> needing = count_needing(rows);
    const std::vector<std::uint32_t> peeled = peel(rows, needing);
    Condensation result;
    result.component_of.resize(rows.size());
    result.members.reserve(rows.size());
    if (peeled.size() < rows.size()) {
        std::vector<std::uint32_t> rest, component;
        const Rows left = rows_of_rest(rows, needing, rest);
        const std::uint32_t count = number_components(left, component);
        result.first.resize(count + 1, 0);
        for (std::uint32_t c : component) ++result.first[c + 1];
        for (std::uint32_t c = 0; c < count; ++c) result.first[c + 1] += result.first[c];
        std::vector<std::uint32_t> next(result.first.begin(), result.first.end() - 1);
        result.members.resize(rest.size());
        for (std::uint32_t i = 0; i < rest.size(); ++i) {
            result.members[next[component[i]]++] = rest[i];
            result.component_of[rest[i]] = component[i];
        }
    }
    for (std::size_t i = peeled.size(); i-- > 0;) {
        result.component_of[peeled[i]] = result.size();
        result.members.push_back(peeled[i]);
        result.first.push_back(static_cast<std::uint32_t>(result.members.size()));
    }
    return result;
}

bool has_cycle(const Rows& rows, const Condensation& condensation, std::uint32_t component) {
    const std::span<const std::uint32_t> members = condensation.of(component);
    if (members.size() > 1) return true;
    const std::span<const std::uint32_t> needs = rows.of(members.front());
    return std::find(needs.begin(), needs.end(), members.front()) != needs.end();
}

}  // namespace ligament
