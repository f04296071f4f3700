// How is a JSON document written so that a difference shows what changed? Each entry of an outermost list has its line.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

/// The same document as text. Outermost members keep their order; ends with a newline.
inline std::string json_lines(const nlohmann::ordered_json& document) {
    std::string text = "{";
    const char* between = "\n";
    for (const auto& [key, value] : document.items()) {
        text += between + nlohmann::ordered_json(key).dump() + ": ";
        between = ",\n";
        if (!value.is_array() || value.empty()) {
            text += value.dump();
            continue;
        }
        for (std::size_t i = 0; i < value.size(); ++i) text += (i == 0 ? "[\n" : ",\n") + value[i].dump();
        text += "\n]";
    }
    return text + "\n}\n";
}
