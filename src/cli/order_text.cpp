#include "order_text.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

namespace {

std::string names_text(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId bone : bones) text += (text.empty() ? "" : ", ") + printable(rig.bones[bone].name);
    return text;
}

void write_cycles(std::ostream& out, const Report& report, const TextStyle& style) {
    for (const Cycle& cycle : report.facts.cycles)
        if (cycle.bones.size() > 1)
            out << wrapped("cycle: " + names_text(report.rig, cycle.bones) + " need each other; they share a level", 0,
                           style.width);
}

void write_blocked(std::ostream& out, const Report& report, const TextStyle& style) {
    const std::vector<BoneId>& blocked = report.facts.order.blocked;
    if (blocked.empty()) return;
    out << '\n'
        << heading("blocked (" + counted_text(blocked.size(), "bone") + "): in no cycle, but waiting for one", style) << '\n'
        << wrapped(names_text(report.rig, blocked), 2, style.width);
}

/// Items with commas between them, none broken over two lines.
void write_items(std::ostream& out, const std::vector<std::string>& items, std::size_t width) {
    std::size_t used = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const std::string item = items[i] + (i + 1 < items.size() ? "," : "");
        const std::size_t columns = columns_of(item);
        const bool is_new_line = i == 0 || used + 1 + columns > width;
        if (is_new_line) out << (i == 0 ? "  " : "\n  ");
        out << (is_new_line ? "" : " ") << item;
        used = is_new_line ? 2 + columns : used + 1 + columns;
    }
    if (!items.empty()) out << '\n';
}

/// Behind a name that may start later stands by how much.
void write_levels(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = report.facts.order;
    for (std::size_t i = 0; i < order.levels.size(); ++i) {
        out << '\n'
            << heading("level " + std::to_string(i + 1) + " (" + counted_text(order.levels[i].size(), "bone") + ")", style)
            << '\n';
        std::vector<std::string> items;
        for (BoneId bone : order.levels[i]) {
            const double slack = report.facts.schedule.slack[bone];
            items.push_back(printable(report.rig.bones[bone].name) + (slack > 0 ? " +" + time_text(slack) : ""));
        }
        write_items(out, items, style.width);
    }
}

void write_chain(std::ostream& out, const Report& report, const std::vector<BoneId>& chain,
                 const std::vector<FoldedEdge>& edges) {
    std::vector<std::vector<std::string>> rows;
    for (BoneId bone : chain) rows.push_back({printable(report.rig.bones[bone].name)});
    for (std::size_t i = 0; i < edges.size() && i + 1 < rows.size(); ++i) {
        rows[i + 1].push_back(edge_text(report.rig, report.dependencies, edges[i]));
        rows[i + 1].push_back(place_text(report.source, place_of(report.rig, report.dependencies, edges[i].maker)));
    }
    write_table(out, rows, 2);
}

/// The chain with most levels and, where the costs or a cycle make another one take longest, that as well.
void write_chains(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = report.facts.order;
    const Schedule& schedule = report.facts.schedule;
    const auto levels = static_cast<double>(order.levels.size());
    const bool is_the_same = schedule.critical_chain == order.longest_chain;
    const bool is_as_long = schedule.costs == StepCosts{} && schedule.longest == levels;
    const std::string time = is_the_same && !is_as_long ? ", time " + time_text(schedule.longest) : "";
    out << '\n' << heading("longest chain (" + counted_text(order.longest_chain.size(), "bone") + time + ")", style) << '\n';
    write_chain(out, report, order.longest_chain, order.longest_chain_edges);
    if (is_the_same || is_as_long || schedule.longest == 0) return;
    out << '\n' << heading("chain that takes longest (time " + time_text(schedule.longest) + ")", style) << '\n';
    write_chain(out, report, schedule.critical_chain, schedule.critical_edges);
}

std::string_view word_of(Maker::Kind kind) {
    switch (kind) {
        case Maker::Kind::stack:
            break;
        case Maker::Kind::parent_link:
            return "parent link of ";
        case Maker::Kind::follows:
            return "what is followed by object ";
        case Maker::Kind::solver:
            return "solver ";
        case Maker::Kind::constraint:
            return "constraint ";
        case Maker::Kind::curve_handles:
            return "curve handles of ";
        case Maker::Kind::driver:
            return "driver of ";
    }
    return "";
}

std::string vital_text(const Report& report) {
    const VitalMaker& vital = report.facts.schedule.vital;
    if (vital.maker == none) return "no single link would make it shorter: without any one of them another chain is as long";
    return "shorter by " + time_text(vital.shortens_by) + " without the " +
           std::string(word_of(report.dependencies.makers[vital.maker].kind)) +
           printable(name_of(report.rig, report.dependencies, vital.maker)) + ", " +
           place_text(report.source, place_of(report.rig, report.dependencies, vital.maker)) +
           "; no other single link gains more";
}

std::string costs_text(const StepCosts& costs) {
    std::string some;
    for (const StepKind& kind : step_kinds) {
        const double cost = costs.*kind.cost;
        if (cost > 0) some += (some.empty() ? "" : ", ") + std::string(kind.name) + " " + time_text(cost);
    }
    return "time for each step: " + some + (some.find(',') == std::string::npos ? ", all else nothing" : "");
}

void write_workers(std::ostream& out, const Report& report, const TextStyle& style) {
    const Schedule& schedule = report.facts.schedule;
    out << '\n'
        << heading("time (work " + time_text(schedule.work) + ", longest chain " + time_text(schedule.longest) + ")", style)
        << '\n';
    out << wrapped(costs_text(schedule.costs), 2, style.width);
    std::vector<std::vector<std::string>> rows{{"workers", "time", "at least"}};
    for (const WorkersTime& entry : schedule.on_workers)
        rows.push_back({std::to_string(entry.workers), time_text(entry.time), time_text(entry.at_least)});
    write_table(out, rows, 2, "rrr");
    out << wrapped(
        "The time is that of one schedule, the longest chain to come first; it need not be the best, and more workers may even "
        "take "
        "longer. No schedule is below \"at least\".",
        2, style.width);
}

void write_after_cut(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = *report.facts.after_cut;
    std::string makers;
    for (const CycleCuts& cycle : report.facts.cuts)
        for (const CutMaker& maker : cycle.cut.makers)
            makers += (makers.empty() ? "" : ", ") + edge_text(report.rig, report.dependencies, maker.edge);
    out << '\n' << heading("order after the suggested cut (" + counted_text(order.levels.size(), "level") + ")", style) << '\n';
    out << wrapped("without " + makers, 2, style.width) << wrapped(names_text(report.rig, order.bones), 2, style.width);
}

}  // namespace

void write_order_text(std::ostream& out, const Report& report, const TextStyle& style) {
    const Order& order = report.facts.order;
    out << printable(report.rig.name) << " (" << printable(report.source)
        << "): " << counted_text(report.rig.bones.size(), "bone") << " in " << counted_text(order.levels.size(), "level")
        << ", at bone grain" << (report.facts.is_default_state ? "" : ", in state " + printable(report.facts.state_name)) << '\n';
    const std::vector<double>& slack = report.facts.schedule.slack;
    if (std::any_of(slack.begin(), slack.end(), [](double later) { return later > 0; }))
        out << wrapped("+N: this bone can start N later without making the whole take longer", 0, style.width);
    write_cycles(out, report, style);
    write_levels(out, report, style);
    write_blocked(out, report, style);
    write_chains(out, report, style);
    if (report.facts.schedule.longest > 0) {
        out << wrapped(vital_text(report), 2, style.width);
        write_workers(out, report, style);
    }
    out << '\n' << heading("order", style) << '\n' << wrapped(names_text(report.rig, order.bones), 2, style.width);
    if (report.facts.after_cut) write_after_cut(out, report, style);
}

}  // namespace ligament::cli
