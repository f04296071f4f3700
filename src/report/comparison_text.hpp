// How do lines and names of the text about two revisions look?
#pragma once

#include <ostream>

#include "comparison_names.hpp"

namespace ligament {

// So many entries of a list are shown; the JSON report has all of them.
inline constexpr std::size_t most_shown = 20;
inline constexpr std::size_t names_shown = 12;

struct ComparisonText {
    std::ostream& out;
    const ComparisonReport& report;
    const TextStyle& style;
    const Comparison& comparison = report.comparison;

    std::string painted(const std::string& text, std::string_view colour) const {
        return style.colour ? std::string(colour) + text + "\x1b[0m" : text;
    }
    std::string bold(const std::string& text) const { return painted(text, "\x1b[1m"); }
    std::string worse_mark(bool is_worse) const { return is_worse ? painted("worse: ", "\x1b[1;31m") : ""; }

    void title(const std::string& text) const { out << '\n' << bold(text) << '\n'; }
    void line(const std::string& text, std::size_t indent) const { out << wrapped(text, indent, style.width); }
    void showing(std::size_t all, std::size_t indent, std::size_t most = most_shown) const {
        if (all > most) line("showing " + std::to_string(most) + " of " + std::to_string(all), indent);
    }

    std::string bone(BoneId id, bool before) const {
        return printable((before ? report.before.rig : report.after.rig).bones[id].name);
    }

    template <class Ids, class Name>
    static std::string listed(const Ids& ids, Name name) {
        std::string text;
        for (std::size_t i = 0; i < ids.size() && i < names_shown; ++i) text += (i > 0 ? ", " : "") + name(ids[i]);
        if (ids.size() > names_shown)
            text += " (showing " + std::to_string(names_shown) + " of " + std::to_string(ids.size()) + ")";
        return text;
    }

    std::string bones(const std::vector<BoneId>& ids, bool before) const {
        return listed(ids, [&](BoneId id) { return bone(id, before); });
    }

    std::string constraints(const std::vector<ConstraintId>& ids, const Report& side) const {
        return listed(ids, [&](ConstraintId id) { return printable(constraint_name(side.rig, side.dependencies, id)); });
    }
};

/// What changed, renames first, then by bone group.
void write_changes_text(const ComparisonText& text);

}  // namespace ligament
