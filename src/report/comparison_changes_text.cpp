// What does a person get to read of what changed between two revisions, element by element?
#include <algorithm>
#include <cstdio>
#include <map>

#include "comparison_text.hpp"

namespace ligament {

namespace {

std::string certainty_text(double certainty) {
    char text[16];
    std::snprintf(text, sizeof text, "%.2f", certainty);
    return text;
}

struct ChangesWriter : ComparisonText {
    std::string place(const Change& change, bool before) const {
        return place_text((before ? report.before : report.after).source, element_place(report, change, before));
    }

    void write_renames() {
        std::vector<const Change*> renamed;
        for (const Change& change : comparison.changes)
            if (change.renamed) renamed.push_back(&change);
        if (renamed.empty()) return;
        title("renamed (" + std::to_string(renamed.size()) + "), with how sure it is that they are the same, from 0 to 1");
        for (std::size_t i = 0; i < renamed.size() && i < most_shown; ++i) {
            const Change& change = *renamed[i];
            std::string text = std::string(name_of(change.element)) + " " + printable(element_name(report, change, true)) +
                               " -> " + printable(element_name(report, change, false));
            if (change.element != Element::group && change.element != Element::constraint)
                text += ", " + certainty_text(change.certainty);
            if (change.element != Element::group) text += ", " + place(change, false);
            line(text, 2);
        }
        showing(renamed.size(), 2);
    }

    static std::string field_text(const FieldChange& field) {
        const bool is_list = field.field == "follows" || field.field == "roots";
        if (field.before.empty()) return printable(field.field + (is_list ? ": also " : ": now ") + field.after);
        if (field.after.empty())
            return printable(field.field + (is_list ? ": no longer " : ": not given any more, was ") + field.before);
        if (is_list) return printable(field.field + ": no longer " + field.before + ", now " + field.after);
        return printable(field.field + ": " + field.before + " -> " + field.after);
    }

    std::string added_text(const Change& change) const {
        if (change.element != Element::bone) return {};
        const Report& side = change.is_removed() ? report.before : report.after;
        const Bone& of = side.rig.bones[change.is_removed() ? change.before : change.after];
        std::string text = " (" + std::string(role_of(of));
        if (of.parent != none) text += ", parent " + printable(side.rig.bones[of.parent].name);
        if (!of.constraints.empty()) text += ", " + counted_text(of.constraints.size(), "constraint");
        return text + ")";
    }

    /// What is changed alike is told once.
    void write_change(const std::vector<const Change*>& alike) {
        const Change& change = *alike.front();
        const bool gone = change.is_removed(), fresh = change.is_added();
        std::string text = fresh ? "+ new: " : gone ? "- gone: " : "~ ";
        text +=
            alike.size() == 1 ? std::string(name_of(change.element)) : counted_text(alike.size(), name_of(change.element)) + ":";
        if (change.element != Element::rig)
            text += " " + listed(alike, [&](const Change* one) {
                        return printable(element_name(report, *one, gone)) + (one->renamed ? " (renamed)" : "");
                    });
        if (fresh || gone) text += added_text(change);
        if (change.element != Element::rig) text += ", " + place(change, gone);
        if (change.element != Element::rig && !fresh && !gone)
            text += " (was " + place_text(report.before.source, element_place(report, change, true)) + ")";
        line(text, 2);
        for (const FieldChange& field : change.fields) line(field_text(field), 6);
    }

    static bool are_alike(const Change& one, const Change& other) {
        const auto is_same = [](const FieldChange& a, const FieldChange& b) {
            return a.field == b.field && a.before == b.before && a.after == b.after;
        };
        return !one.fields.empty() && one.element == other.element &&
               std::equal(one.fields.begin(), one.fields.end(), other.fields.begin(), other.fields.end(), is_same);
    }

    /// Changes that are alike in one list each, where the first one is. Looks back a few only, so that time stays linear.
    static std::vector<std::vector<const Change*>> told_together(const std::vector<const Change*>& changes) {
        std::vector<std::vector<const Change*>> told;
        constexpr std::size_t looked_back = 8;
        for (const Change* change : changes) {
            const std::size_t first = told.size() > looked_back ? told.size() - looked_back : 0;
            const auto like = std::find_if(told.begin() + static_cast<std::ptrdiff_t>(first), told.end(),
                                           [&](const auto& others) { return are_alike(*others.front(), *change); });
            if (like == told.end())
                told.push_back({change});
            else
                like->push_back(change);
        }
        return told;
    }

    void write_changes() {
        std::vector<std::vector<const Change*>> groups;
        std::map<std::string, std::size_t> places;
        for (const Change& change : comparison.changes) {
            if (change.renamed && change.fields.empty()) continue;
            const auto [found, fresh] = places.emplace(group_of(report, change), groups.size());
            if (fresh) groups.emplace_back();
            groups[found->second].push_back(&change);
        }
        for (const auto& group : groups) {
            const std::string name = group_of(report, *group.front());
            title("changed in " + (name.empty() ? std::string("no group") : "group " + printable(name)) + " (" +
                  std::to_string(group.size()) + ")");
            const auto told = told_together(group);
            std::size_t shown = 0;
            for (std::size_t i = 0; i < told.size() && i < most_shown; ++i) {
                write_change(told[i]);
                shown += told[i].size();
            }
            if (shown < group.size()) line("showing " + std::to_string(shown) + " of " + std::to_string(group.size()), 2);
        }
        if (comparison.moved_in_file > 0) {
            out << '\n';
            line(counted_text(comparison.moved_in_file, "bone") +
                     " moved within the file: where nothing else decides, the order of evaluation follows the file",
                 0);
        }
    }
};

}  // namespace

void write_changes_text(const ComparisonText& text) {
    ChangesWriter writer{text};
    writer.write_renames();
    writer.write_changes();
}

}  // namespace ligament
