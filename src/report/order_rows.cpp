#include "order_rows.hpp"

#include "json_rows.hpp"

namespace ligament::json_rows {

namespace {

void write_costs(JsonOut& out, const StepCosts& costs) {
    const char* before = "{";
    for (const StepKind& kind : step_kinds) {
        out << before << '"' << kind.name << "\": ";
        out.write_time(costs.*kind.cost);
        before = ", ";
    }
    out << '}';
}

void write_vital(JsonOut& out, const Report& report, const VitalMaker& vital) {
    const Place place = place_of(report.rig, report.dependencies, vital.maker);
    out << "{\"by\": ";
    out.write_string(name_of(report.rig, report.dependencies, vital.maker));
    out << ", \"kind\": \"" << name_of(edge_kind_of(report.dependencies.makers[vital.maker].kind))
        << "\", \"line\": " << place.line << ", \"column\": " << place.column
        << ", \"shortens_by\": " << time_text(vital.shortens_by) << '}';
}

void write_schedule(JsonOut& out, const Report& report, const std::string& margin) {
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

void write_after_cut(JsonOut& out, const Report& report, const std::string& margin) {
    const Order& order = *report.facts.after_cut;
    out << "{\n" << margin << "  \"bones\": ";
    write_names(out, report.rig, order.bones);
    out << ",\n" << margin << "  \"levels\": ";
    write_rows(out, order.levels.size(), margin.size() + 2,
               [&](std::size_t i) { write_names(out, report.rig, order.levels[i]); });
    out << '\n' << margin << '}';
}

}  // namespace

void write_order_keys(JsonOut& out, const Report& report, std::size_t indent) {
    const Order& order = report.facts.order;
    const std::string margin(indent, ' ');
    out << ",\n" << margin << "\"slack\": ";
    write_list(out, order.bones, [&](BoneId bone) { out.write_time(report.facts.schedule.slack[bone]); });
    out << ",\n" << margin << "\"widths\": ";
    write_list(out, order.levels, [&](const std::vector<BoneId>& level) { out << level.size(); });
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
