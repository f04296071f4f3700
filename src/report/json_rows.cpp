#include "json_rows.hpp"

#include <algorithm>

namespace ligament::json_rows {

std::string text_of(const Row& row) { return row.dump(-1, ' ', false, Row::error_handler_t::replace); }

void write_string(std::ostream& out, std::string_view text) {
    const bool plain =
        std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c < 0x7f && c != '"' && c != '\\'; });
    if (plain)
        out << '"' << text << '"';
    else
        out << text_of(Row(std::string(text)));
}

void write_head(std::ostream& out, std::string_view format, const Rig& rig, std::string_view source, std::string_view state_key,
                std::string_view state) {
    out << "{\n  \"format\": \"" << format << "\", \"version\": 1, \"rig\": ";
    write_string(out, rig.name);
    out << ", \"source\": ";
    write_string(out, source);
    out << ", \"" << state_key << "\": ";
    write_string(out, state);
}

std::string_view state_or_any(const Facts& facts) { return facts.is_default_state ? std::string_view("any") : facts.state_name; }

void write_names(std::ostream& out, const Rig& rig, std::span<const BoneId> bones) {
    out << '[';
    for (std::size_t i = 0; i < bones.size(); ++i) {
        if (i > 0) out << ',';
        write_string(out, rig.bones[bones[i]].name);
    }
    out << ']';
}

Row names_of(const Rig& rig, std::span<const BoneId> bones) {
    Row names = Row::array();
    for (BoneId bone : bones) names.push_back(rig.bones[bone].name);
    return names;
}

Row edge_row(const Report& report, const FoldedEdge& edge, bool between_properties) {
    auto end = [&](std::uint32_t id) { return between_properties ? report.rig.properties[id].name : report.rig.bones[id].name; };
    const Place place = place_of(report.rig, report.dependencies, edge.maker);
    return {{"from", end(edge.from)},     {"to", end(edge.to)},
            {"kind", name_of(edge.kind)}, {"by", name_of(report.rig, report.dependencies, edge.maker)},
            {"line", place.line},         {"column", place.column}};
}

void write_rows(std::ostream& out, std::size_t count, std::size_t indent, const std::function<void(std::size_t)>& write_row) {
    if (count == 0) {
        out << "[]";
        return;
    }
    const std::string margin(indent, ' ');
    out << "[\n";
    for (std::size_t i = 0; i < count; ++i) {
        out << margin << "  ";
        write_row(i);
        out << (i + 1 < count ? ",\n" : "\n");
    }
    out << margin << ']';
}

}  // namespace ligament::json_rows
