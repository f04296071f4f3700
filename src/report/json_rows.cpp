#include "json_rows.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace ligament::json_rows {

std::string text_of(const Row& row) { return row.dump(-1, ' ', false, Row::error_handler_t::replace); }

JsonOut::JsonOut(std::ostream& out) : out_(out), throws_at_(out.exceptions()), piece_(std::make_unique<char[]>(size)) {
    out_.exceptions(std::ios_base::goodbit);
}

JsonOut::~JsonOut() {
    try {
        out_.exceptions(throws_at_);
    } catch (const std::ios_base::failure&) {
        // Set all the same; whoever did not come to finish() is on the way out with something else.
    }
}

void JsonOut::finish() {
    flush();
    out_.exceptions(throws_at_);
}

void JsonOut::flush() {
    out_.write(piece_.get(), static_cast<std::streamsize>(used_));
    used_ = 0;
}

bool JsonOut::make_room(std::string_view text) {
    flush();
    if (text.size() <= size) return true;
    out_.write(text.data(), static_cast<std::streamsize>(text.size()));
    return false;
}

JsonOut& JsonOut::write_number(std::uint64_t number) {
    std::array<char, 20> text;
    const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), number);
    return *this << std::string_view(text.data(), end);
}

namespace {

enum class Spelling : std::uint8_t { plain, escaped, other };

/// How a byte stands in a JSON string: as it is, behind a backslash, or in a way that is left to nlohmann. That is control
/// characters, and all that is no ASCII: whether it is UTF-8 takes a look at several bytes.
constexpr std::array<Spelling, 256> find_spellings() {
    std::array<Spelling, 256> spelling;
    spelling.fill(Spelling::other);
    for (std::size_t c = ' '; c < 0x7f; ++c) spelling[c] = c == '"' || c == '\\' ? Spelling::escaped : Spelling::plain;
    return spelling;
}

}  // namespace

// Copied while it is looked at; what turns out to hold something else is written over.
void JsonOut::write_string(std::string_view text) {
    static constexpr std::array<Spelling, 256> spellings = find_spellings();
    const std::size_t most = 2 * text.size() + 2;
    bool is_known = most <= size;
    if (is_known) {
        if (most > size - used_) flush();
        char* to = piece_.get() + used_;
        *to++ = '"';
        for (const char c : text) {
            const Spelling spelling = spellings[static_cast<unsigned char>(c)];
            if (spelling != Spelling::plain) {
                is_known = is_known && spelling == Spelling::escaped;
                *to++ = '\\';
            }
            *to++ = c;
        }
        *to++ = '"';
        if (is_known) used_ = static_cast<std::size_t>(to - piece_.get());
    }
    if (!is_known) *this << text_of(Row(std::string(text)));
}

// Nearly all times are whole numbers, which the general way of writing them takes some three hundred instructions for.
void JsonOut::write_time(double time) {
    const bool is_whole = time >= 0 && time < 1e12 && time == std::floor(time) && !std::signbit(time);
    if (is_whole)
        *this << static_cast<std::uint64_t>(time);
    else
        *this << time_text(time);
}

void Fields::names(std::string_view name, const Rig& rig, std::span<const BoneId> bones) { write_names(key(name), rig, bones); }

void write_head(JsonOut& out, std::string_view format, const Rig& rig, std::string_view source, std::string_view state_key,
                std::string_view state) {
    out << "{\n  \"format\": \"" << format << "\", \"version\": 1, \"rig\": ";
    out.write_string(rig.name);
    out << ", \"source\": ";
    out.write_string(source);
    out << ", \"" << state_key << "\": ";
    out.write_string(state);
}

std::string_view state_or_any(const Facts& facts) { return facts.is_default_state ? std::string_view("any") : facts.state_name; }

void write_names(JsonOut& out, const Rig& rig, std::span<const BoneId> bones) {
    write_list(out, bones, [&](BoneId bone) { out.write_string(rig.bones[bone].name); });
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

void write_edge(JsonOut& out, const Report& report, const FoldedEdge& edge) {
    const Place place = place_of(report.rig, report.dependencies, edge.maker);
    Fields row(out);
    row.text("from", report.rig.bones[edge.from].name);
    row.text("to", report.rig.bones[edge.to].name);
    row.text("kind", name_of(edge.kind));
    row.text("by", name_of(report.rig, report.dependencies, edge.maker));
    row.number("line", place.line);
    row.number("column", place.column);
}

}  // namespace ligament::json_rows
