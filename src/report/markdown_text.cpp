#include "markdown_text.hpp"

#include "ligament/report.hpp"

namespace ligament {

namespace {

bool is_word(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

// Renderers do not agree on a backslash before a bar inside a table, on nothing about these.
std::string_view entity_of(char c) {
    switch (c) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '|':
            return "&#124;";
        case '\\':
            return "&#92;";
        case '`':
            return "&#96;";
        case '*':
            return "&#42;";
        case '[':
            return "&#91;";
        case ']':
            return "&#93;";
        case '~':
            return "&#126;";
        case '$':
            return "&#36;";
        case '#':
            return "&#35;";
        default:
            return {};
    }
}

}  // namespace

std::string markdown_text(std::string_view text) {
    const std::string shown = printable(text);
    std::string out;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const char c = shown[i];
        const bool is_inside = i > 0 && i + 1 < shown.size() && is_word(shown[i - 1]) && is_word(shown[i + 1]);
        if (const std::string_view entity = entity_of(c); !entity.empty())
            out += entity;
        else if (c == '_' && !is_inside)
            out += "&#95;";
        else if (c == '@')  // in an element of its own it calls nobody
            out += "<span>@</span>";
        else if (c == ':' && shown.compare(i, 3, "://") == 0)
            out += "&#58;";
        else if (c == '.' && i >= 3 && shown.compare(i - 3, 3, "www") == 0)
            out += "&#46;";
        else
            out += c;
    }
    return out;
}

std::string markdown_code(std::string_view text) {
    const std::string shown = printable(text);
    const bool is_plain =
        !shown.empty() && shown.find_first_of("`|\\") == std::string::npos && shown.front() != ' ' && shown.back() != ' ';
    return is_plain ? "`" + shown + "`" : "<code>" + markdown_text(text) + "</code>";
}

}  // namespace ligament
