#include "gltf_names.hpp"

#include <unordered_map>
#include <unordered_set>

#include "draft.hpp"

namespace ligament {

std::string node_text(const Gltf& gltf, std::uint32_t node) {
    constexpr std::size_t longest = 1'000;  // a longer name is a fault of its own, and not said again with every other one
    const std::string_view name = gltf.nodes[node].name;
    return "node " + std::to_string(node) + (name.empty() || name.size() > longest ? "" : " " + in_quotes(name));
}

std::vector<std::string> unique_names(const std::vector<std::string_view>& names, std::string_view noun) {
    std::unordered_map<std::string_view, std::uint32_t> counts;
    for (const std::string_view name : names) ++counts[name];
    const auto is_alone = [&](std::string_view name) { return !name.empty() && counts.find(name)->second == 1; };
    std::unordered_set<std::string> taken;
    for (const std::string_view name : names)
        if (is_alone(name)) taken.emplace(name);
    std::vector<std::string> unique;
    unique.reserve(names.size());
    for (std::size_t i = 0; i < names.size(); ++i) {
        std::string& name = unique.emplace_back(names[i]);
        if (is_alone(names[i])) continue;
        if (name.empty()) name = noun;
        const std::string suffix = "#" + std::to_string(i);
        do name += suffix;
        while (!taken.insert(name).second);
    }
    return unique;
}

}  // namespace ligament
