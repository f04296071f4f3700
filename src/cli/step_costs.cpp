#include "step_costs.hpp"

#include <algorithm>
#include <charconv>
#include <optional>

#include "input.hpp"
#include "ligament/report.hpp"
#include "status.hpp"

namespace ligament::cli {

namespace {

const StepKind& kind_named(std::string_view name) {
    const auto found =
        std::find_if(step_kinds.begin(), step_kinds.end(), [&](const StepKind& kind) { return kind.name == name; });
    if (found != step_kinds.end()) return *found;
    std::vector<std::string_view> known;
    for (const StepKind& kind : step_kinds) known.push_back(kind.name);
    std::string all;
    for (std::string_view kind : known) all.append(all.empty() ? "" : ", ").append(kind);
    const std::string nearest = nearest_words(name, known);
    throw Unusable("--step-cost: unknown kind of step \"" + std::string(name) + '"' +
                   (nearest.empty() ? "; there are " + all : nearest));
}

std::optional<double> cost_of(std::string_view text) {
    double cost = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, cost);
    const bool is_number = error == std::errc{} && stop == end;
    if (!is_number || !(cost >= 0 && cost <= StepCosts::highest)) return {};
    return cost + 0.0;  // -0 is 0
}

}  // namespace

StepCosts read_step_costs(const std::vector<std::string>& texts) {
    StepCosts costs;
    std::vector<std::string_view> named;
    for (const std::string& text : texts) {
        const std::size_t sign = text.find('=');
        if (sign == std::string::npos) throw Unusable("--step-cost: wanted KIND=COST, found \"" + text + '"');
        const StepKind& kind = kind_named(std::string_view(text).substr(0, sign));
        const std::optional<double> cost = cost_of(std::string_view(text).substr(sign + 1));
        if (!cost)
            throw Unusable("--step-cost: wanted a number from 0 to " + time_text(StepCosts::highest) + " after \"" +
                           std::string(kind.name) + "=\", found \"" + text.substr(sign + 1) + '"');
        if (std::find(named.begin(), named.end(), kind.name) != named.end())
            throw Unusable("--step-cost: the cost of \"" + std::string(kind.name) + "\" is given twice");
        named.push_back(kind.name);
        costs.*kind.cost = *cost;
    }
    return costs;
}

}  // namespace ligament::cli
