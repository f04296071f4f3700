#include "cut_options.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <stdexcept>

#include "input.hpp"
#include "numbers.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

struct CutKind {
    std::string_view name;
    std::uint32_t CutCosts::*cost;
};

constexpr std::array<CutKind, 6> cut_kinds{{{"driver", &CutCosts::driver},
                                            {"constraint", &CutCosts::constraint},
                                            {"curve", &CutCosts::curve_handles},
                                            {"solver", &CutCosts::solver},
                                            {"parent", &CutCosts::parent_link},
                                            {"follows", &CutCosts::follows}}};

const CutKind& kind_named(std::string_view name) {
    const auto found = std::find_if(cut_kinds.begin(), cut_kinds.end(), [&](const CutKind& kind) { return kind.name == name; });
    if (found != cut_kinds.end()) return *found;
    std::vector<std::string_view> known;
    std::string all;
    for (const CutKind& kind : cut_kinds) {
        known.push_back(kind.name);
        all.append(all.empty() ? "" : ", ").append(kind.name);
    }
    const std::string nearest = nearest_words(name, known);
    throw Unusable("--cut-cost: unknown kind of maker \"" + std::string(name) + '"' +
                   (nearest.empty() ? "; there are " + all : nearest));
}

std::optional<std::uint32_t> cost_of(std::string_view text) {
    std::uint32_t cost = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, cost);
    if (error != std::errc{} || stop != end || cost < 1 || cost > CutCosts::highest) return {};
    return cost;
}

}  // namespace

void add_cut_costs(CLI::App& app, std::vector<std::string>& costs) {
    app.add_option(
           "--cut-cost", costs,
           "what giving up a maker costs where a cycle is cut; KIND is driver (1), constraint (2), curve (2), solver (3), "
           "parent (8) or follows (8); may be repeated")
        ->type_name("KIND=COST")
        ->allow_extra_args(false);
}

void add_circuits(CLI::App& app, std::size_t& circuits) {
    app.add_option("--circuits", circuits, "list so many of the shortest circuits of each cycle")
        ->check(whole_number(most_circuits_listed))
        ->type_name("N");
}

CutCosts read_cut_costs(const std::vector<std::string>& texts, CutCosts costs) {
    std::vector<std::string_view> named;
    for (const std::string& text : texts) {
        const std::size_t sign = text.find('=');
        if (sign == std::string::npos) throw Unusable("--cut-cost: wanted KIND=COST, found \"" + text + '"');
        const CutKind& kind = kind_named(std::string_view(text).substr(0, sign));
        const std::optional<std::uint32_t> cost = cost_of(std::string_view(text).substr(sign + 1));
        if (!cost)
            throw Unusable("--cut-cost: wanted a whole number from 1 to " + std::to_string(CutCosts::highest) + " after \"" +
                           std::string(kind.name) + "=\", found \"" + text.substr(sign + 1) + '"');
        if (std::find(named.begin(), named.end(), kind.name) != named.end())
            throw Unusable("--cut-cost: the cost of \"" + std::string(kind.name) + "\" is given twice");
        named.push_back(kind.name);
        costs.*kind.cost = *cost;
    }
    return costs;
}

void expect_cuts_hold(std::span<const CycleCuts> cuts) {
    for (const CycleCuts& found : cuts)
        if (!found.cut.is_checked || (found.finer && !found.finer->is_checked))
            throw std::logic_error("a cut that was found leaves a cycle");
}

}  // namespace ligament::cli
