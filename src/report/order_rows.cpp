#include "order_rows.hpp"

#include "json_rows.hpp"

namespace ligament::json_rows {

namespace {

template <class Elements, class TextOf>
void write_numbers(std::ostream& out, const Elements& elements, TextOf text_of_one) {
    out << '[';
    bool is_first = true;
    for (const auto& element : elements) {
        if (!is_first) out << ',';
        out << text_of_one(element);
        is_first = false;
    }
    out << ']';
}

void write_costs(std::ostream& out, const StepCosts& costs) {
    const char* before = "{";
    for (const StepKind& kind : step_kinds) {
        out << before << '"' << kind.name << "\": " << time_text(costs.*kind.cost);
        before = ", ";
    }
    out << '}';
}

void write_vital(std::ostream& out, const Report& report, const VitalMaker& vital) {
    const Place place = place_of(report.rig, report.dependencies, vital.maker);
    out << "{\"by\": ";
    write_string(out, name_of(report.rig, report.dependencies, vital.maker));
    out << ", \"kind\": \"" << name_of(edge_kind_of(report.dependencies.makers[vital.maker].kind))
        << "\", \"line\": " << place.line << ", \"column\": " << place.column
        << ", \"shortens_by\": " << time_text(vital.shortens_by) << '}';
}

void write_schedule(std::ostream& out, const Report& report, const std::string& margin) {
    const Schedule& schedule = report.facts.schedule;
    out << "{\n" << margin << "  \"costs\": ";
    write_costs(out, schedule.costs);
    out << ",\n"
        << margin << "  \"work\": " << time_text(schedule.work) << ", \"longest\": " << time_text(schedule.longest) << ",\n"
        << margin << "  \"critical_chain\": ";
    write_names(out, report.rig, schedule.critical_chain);
    if (schedule.vital.maker != none) {
        out << ",\n" << margin << "  \"vital\": ";
        write_vital(out, report, schedule.vital);
    }
    out << ",\n" << margin << "  \"workers\": ";
    write_rows(out, schedule.on_workers.size(), margin.size() + 2, [&](std::size_t i) {
        const WorkersTime& entry = schedule.on_workers[i];
        out << "{\"workers\": " << entry.workers << ", \"time\": " << time_text(entry.time)
            << ", \"at_least\": " << time_text(entry.at_least) << '}';
    });
    out << '\n' << margin << '}';
}

void write_after_cut(std::ostream& out, const Report& report, const std::string& margin) {
    const Order& order = *report.facts.after_cut;
    out << "{\n" << margin << "  \"bones\": ";
    write_names(out, report.rig, order.bones);
    out << ",\n" << margin << "  \"levels\": ";
    write_rows(out, order.levels.size(), margin.size() + 2,
               [&](std::size_t i) { write_names(out, report.rig, order.levels[i]); });
    out << '\n' << margin << '}';
}

}  // namespace

void write_order_keys(std::ostream& out, const Report& report, std::size_t indent) {
    const Order& order = report.facts.order;
    const std::string margin(indent, ' ');
    out << ",\n" << margin << "\"slack\": ";
    write_numbers(out, order.bones, [&](BoneId bone) { return time_text(report.facts.schedule.slack[bone]); });
    out << ",\n" << margin << "\"widths\": ";
    write_numbers(out, order.levels, [](const std::vector<BoneId>& level) { return level.size(); });
    out << ",\n" << margin << "\"blocked\": ";
    write_names(out, report.rig, order.blocked);
    if (report.facts.after_cut) {
        out << ",\n" << margin << "\"after_cut\": ";
        write_after_cut(out, report, margin);
    }
    out << ",\n" << margin << "\"schedule\": ";
    write_schedule(out, report, margin);
}

}  // namespace ligament::json_rows
