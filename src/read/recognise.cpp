#include "recognise.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace ligament {

namespace {

constexpr std::string_view spaces = " \t\r\n";

bool has_ending(std::string_view path, std::string_view ending) {
    return path.size() >= ending.size() &&
           std::equal(ending.begin(), ending.end(), path.end() - static_cast<std::ptrdiff_t>(ending.size()),
                      [](char a, char b) { return a == std::tolower(static_cast<unsigned char>(b)); });
}

// The end of the string that begins at `at`, behind its closing quotation mark or at the end of the text.
std::size_t end_of_string(std::string_view text, std::size_t at) {
    for (++at; at < text.size() && text[at] != '"'; ++at)
        if (text[at] == '\\') ++at;
    return std::min(at + 1, text.size());
}

bool begins_with_key(std::string_view text, std::string_view key) {
    std::size_t at = text.find_first_not_of(spaces);
    if (at == std::string_view::npos || text[at] != '{') return false;
    at = text.find_first_not_of(spaces, at + 1);
    return at != std::string_view::npos && text.substr(at).starts_with(key);
}

// Whether the outermost object has a key, written without escapes and in quotation marks here. One pass; the text may be broken.
bool has_outer_key(std::string_view text, std::string_view key) {
    std::size_t depth = 0;
    for (std::size_t at = text.find_first_of("{}[]\""); at < text.size(); at = text.find_first_of("{}[]\"", at)) {
        const std::size_t start = at;
        at = text[at] == '"' ? end_of_string(text, at) : at + 1;
        if (text[start] == '{' || text[start] == '[') ++depth;
        if ((text[start] == '}' || text[start] == ']') && depth > 0) --depth;
        if (text[start] != '"' || depth != 1 || text.substr(start, at - start) != key) continue;
        const std::size_t next = text.find_first_not_of(spaces, at);
        if (next != std::string_view::npos && text[next] == ':') return true;
    }
    return false;
}

}  // namespace

bool is_gltf(const InputText& input) {
    static constexpr std::array<std::string_view, 3> endings{".gltf", ".glb", ".vrm"};
    if (std::any_of(endings.begin(), endings.end(), [&](std::string_view ending) { return has_ending(input.path, ending); }))
        return true;
    if (input.content.starts_with("glTF")) return true;
    if (has_ending(input.path, ".rig.json") || begins_with_key(input.content, "\"format\"")) return false;
    return has_outer_key(input.content, "\"asset\"");
}

}  // namespace ligament
