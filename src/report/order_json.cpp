// In which order can bones be evaluated, for a program to read? Format "rig-order", version 1.
#include "json_rows.hpp"
#include "order_rows.hpp"

namespace ligament {

void write_order_json(std::ostream& stream, const Report& report) {
    using namespace json_rows;
    JsonOut out(stream);
    const Order& order = report.facts.order;
    write_head(out, "rig-order", report.rig, report.source, "state", state_or_any(report.facts));
    out << ", \"grain\": \"bone\",\n  \"bones\": ";
    write_names(out, report.rig, order.bones);
    out << ",\n  \"levels\": ";
    write_rows(out, order.levels.size(), 2, [&](std::size_t i) { write_names(out, report.rig, order.levels[i]); });
    out << ",\n  \"longest_chain\": ";
    write_names(out, report.rig, order.longest_chain);
    out << ",\n  \"longest_chain_edges\": ";
    write_rows(out, order.longest_chain_edges.size(), 2,
               [&](std::size_t i) { write_edge(out, report, order.longest_chain_edges[i]); });
    write_order_keys(out, report, 2);
    out << "\n}\n";
    out.finish();
}

}  // namespace ligament
