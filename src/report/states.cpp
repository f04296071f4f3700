// How is the table of a hand-over written? Limb by limb and stop by stop, who moves what, as text, Markdown and JSON.
#include <ostream>

#include "json_rows.hpp"
#include "ligament/report.hpp"
#include "markdown_text.hpp"

namespace ligament {

namespace {

bool is_default(const StatesReport& report, Setting setting) {
    const Switch& of = report.switches[setting.switch_index];
    return setting.stop == none || of.stops[setting.stop].value == report.rig.properties[of.property].initial;
}

std::string default_text(const StatesReport& report) { return report.others.empty() ? " (default)" : " (as told)"; }

std::string state_text(const StatesReport& report, const StateRow& row) {
    if (row.settings.empty()) return "at every stop";
    std::string text = name_of(report.rig, report.switches, row.settings);
    return text + (is_default(report, row.settings.front()) ? default_text(report) : "");
}

template <class Write>
std::string names_text(const Rig& rig, const std::vector<BoneId>& bones, Write write) {
    std::string text;
    for (BoneId bone : bones) text += (text.empty() ? "" : ", ") + write(rig.bones[bone].name);
    return text;
}

std::string plain(const std::string& name) { return printable(name); }

std::string state_markdown(const StatesReport& report, const StateRow& row) {
    if (row.settings.empty()) return state_text(report, row);
    const std::string text = markdown_code(name_of(report.rig, report.switches, row.settings));
    return text + (is_default(report, row.settings.front()) ? default_text(report) : "");
}

std::string group_title(const StateTable& table) { return table.group.empty() ? "no group" : "group " + table.group; }

std::string by_text(const StatesReport& report, const StateTable& table, const StateRow& row) {
    std::string text = row.verdict == Verdict::attached ? "" : std::string(name_of(row.verdict)) + ": ";
    if (!row.controls.empty()) return text + "by " + names_text(report.rig, row.controls, plain);
    return text + (table.shared.empty() ? "by no control" : "by these alone");
}

template <class Write>
std::string without_effect_text(const StatesReport& report, const StateTable& table, Write write) {
    std::string text;
    for (std::uint32_t index : table.without_effect)
        text += (text.empty() ? "" : ", ") + write(report.rig.properties[report.switches[index].property].name);
    return text + (table.without_effect.size() == 1 ? " touches" : " touch") + " these bones, but who moves them stays the same";
}

std::string shared_text(const StatesReport& report, const StateTable& table) {
    return "all by " + names_text(report.rig, table.shared, plain);
}

}  // namespace

void write_states_text(std::ostream& out, const StatesReport& report, const TextStyle& style) {
    const auto bold = [&](const std::string& text) { return style.colour ? "\x1b[1m" + text + "\x1b[0m" : text; };
    out << printable(report.rig.name) << " (" << printable(report.source)
        << "): " << (report.switches.size() == 1 ? "1 switch" : counted_text(report.switches.size(), "switche"))
        << ", deform bones in " << counted_text(report.tables.size(), "group")
        << (report.others.empty() ? "" : ", other properties in state " + printable(report.others)) << '\n';
    for (const StateTable& table : report.tables) {
        out << '\n' << bold(printable(group_title(table))) << '\n';
        if (!table.shared.empty()) out << wrapped(shared_text(report, table), 2, style.width);
        const Settings* last = nullptr;
        for (const StateRow& row : table.rows) {
            if (!last || *last != row.settings) out << "  " << bold(printable(state_text(report, row))) << '\n';
            last = &row.settings;
            out << wrapped(names_text(report.rig, row.bones, plain), 4, style.width);
            out << wrapped(by_text(report, table, row), 6, style.width);
        }
        if (!table.without_effect.empty()) out << wrapped(without_effect_text(report, table, plain), 2, style.width);
    }
}

void write_states_markdown(std::ostream& out, const StatesReport& report) {
    out << "# States of " << markdown_code(report.rig.name) << '\n';
    for (const StateTable& table : report.tables) {
        out << "\n## " << (table.group.empty() ? "No group" : markdown_code(table.group)) << "\n\n";
        if (!table.shared.empty())
            out << "All of it is moved by " << names_text(report.rig, table.shared, markdown_code)
                << "; the table lists who else does.\n\n";
        out << "| state | deform bones | moved by | verdict |\n| --- | --- | --- | --- |\n";
        for (const StateRow& row : table.rows)
            out << "| " << state_markdown(report, row) << " | " << names_text(report.rig, row.bones, markdown_code) << " | "
                << names_text(report.rig, row.controls, markdown_code) << " | " << name_of(row.verdict) << " |\n";
        if (!table.without_effect.empty()) out << '\n' << without_effect_text(report, table, markdown_code) << ".\n";
    }
}

void write_states_json(std::ostream& stream, const StatesReport& report) {
    using namespace json_rows;
    JsonOut out(stream);
    write_head(out, "rig-states", report.rig, report.source, "others_in", report.others.empty() ? "default" : report.others);
    out << ",\n  \"groups\": ";
    write_rows(out, report.tables.size(), 2, [&](std::size_t i) {
        const StateTable& table = report.tables[i];
        out << "{\"group\": ";
        out.write_string(table.group);
        out << ", \"shared\": ";
        write_names(out, report.rig, table.shared);
        out << ", \"without_effect\": ";
        write_list(out, table.without_effect,
                   [&](std::uint32_t index) { out.write_string(report.rig.properties[report.switches[index].property].name); });
        out << ", \"rows\": ";
        write_rows(out, table.rows.size(), 4, [&](std::size_t r) {
            const StateRow& row = table.rows[r];
            Fields fields(out);
            if (row.settings.empty()) {
                fields.key("state") << "null";
            } else {
                fields.text("state", name_of(report.rig, report.switches, row.settings));
                fields.truth("is_default", is_default(report, row.settings.front()));
            }
            fields.text("verdict", name_of(row.verdict));
            fields.names("bones", report.rig, row.bones);
            fields.names("controls", report.rig, row.controls);
        });
        out << '}';
    });
    out << "\n}\n";
    out.finish();
}

}  // namespace ligament
