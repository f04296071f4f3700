#include "ligament/shard.hpp"

#include <charconv>
#include <nlohmann/json.hpp>
#include <ostream>

namespace ligament {

namespace {

using Row = nlohmann::ordered_json;

std::string text_of(const Row& row) { return row.dump(-1, ' ', false, Row::error_handler_t::replace); }

Row row_of(const ShardEntry& entry) {
    const Totals& totals = entry.totals;
    return {{"position", entry.position}, {"rigs", totals.rigs},     {"unreadable", totals.unreadable},
            {"bones", totals.bones},      {"errors", totals.errors}, {"warnings", totals.warnings},
            {"notes", totals.notes},      {"said", entry.errors},    {"report", entry.has_report}};
}

ShardEntry entry_of(const Row& row) {
    ShardEntry entry;
    entry.position = row.at("position");
    entry.totals = {.rigs = row.at("rigs"),
                    .unreadable = row.at("unreadable"),
                    .bones = row.at("bones"),
                    .errors = row.at("errors"),
                    .warnings = row.at("warnings"),
                    .notes = row.at("notes")};
    entry.errors = row.at("said").get<std::vector<std::string>>();
    entry.has_report = row.at("report");
    return entry;
}

ShardTrailer trailer_of(const Row& row) {
    if (row.at("format") != "rig-shard" || row.at("version") != 1) throw std::invalid_argument("no trailer of a shard");
    ShardTrailer trailer;
    trailer.shard = {row.at("shard"), row.at("of")};
    trailer.format = row.at("reports");
    trailer.fail_on = row.at("fail_on");
    trailer.rigs = row.at("rigs").get<std::vector<std::string>>();
    for (const Row& entry : row.at("entries")) trailer.entries.push_back(entry_of(entry));
    return trailer;
}

/// The elements of an array, each as it is written. The text is known to be JSON.
std::vector<std::string_view> elements_of(std::string_view text) {
    std::vector<std::string_view> elements;
    std::size_t depth = 0, start = 0;
    bool in_string = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_string) {
            if (c == '\\') ++i;
            in_string = c != '"';
            continue;
        }
        in_string = c == '"';
        if (c == '[' || c == '{') {
            if (++depth == 1) start = i + 1;
        } else if (c == ']' || c == '}' || (c == ',' && depth == 1)) {
            if (depth == 1) elements.push_back(text.substr(start, i - start));
            if (c != ',') --depth;
            if (depth == 1 && c == ',') start = i + 1;
        }
    }
    return elements;
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t\r\n"), last = text.find_last_not_of(" \t\r\n");
    return first == std::string_view::npos ? std::string_view() : text.substr(first, last - first + 1);
}

}  // namespace

std::optional<Shard> read_shard(std::string_view text) {
    Shard shard;
    const char* end = text.data() + text.size();
    const auto [slash, first] = std::from_chars(text.data(), end, shard.index);
    const bool has_slash = first == std::errc{} && slash != end && *slash == '/';
    const auto [stop, second] = has_slash ? std::from_chars(slash + 1, end, shard.of) : std::from_chars_result{end, first};
    if (!has_slash || second != std::errc{} || stop != end || shard.index < 1 || shard.index > shard.of) return {};
    return shard;
}

void write_shard_report(std::ostream& out, const std::string& format, const std::string& report) {
    out << (format == "json" ? report : text_of(report) + "\n");
}

void write_shard_trailer(std::ostream& out, const ShardTrailer& trailer) {
    Row row{{"format", "rig-shard"},        {"version", 1},
            {"shard", trailer.shard.index}, {"of", trailer.shard.of},
            {"reports", trailer.format},    {"fail_on", trailer.fail_on},
            {"rigs", trailer.rigs},         {"entries", Row::array()}};
    for (const ShardEntry& entry : trailer.entries) row["entries"].push_back(row_of(entry));
    out << text_of(row) << '\n';
}

std::optional<ShardFile> read_shard_file(std::string_view text) {
    try {
        if (!Row::accept(text) || !trimmed(text).starts_with('[')) throw std::invalid_argument("no array");
        const std::vector<std::string_view> elements = elements_of(text);
        ShardFile file;
        file.trailer = trailer_of(Row::parse(trimmed(elements.back())));
        for (std::size_t i = 0; i + 1 < elements.size(); ++i) {
            const std::string_view element = trimmed(elements[i]);
            file.reports.push_back(file.trailer.format == "json" ? std::string(element) + "\n"
                                                                 : Row::parse(element).get<std::string>());
        }
        std::size_t wanted = 0;
        for (const ShardEntry& entry : file.trailer.entries) wanted += entry.has_report ? 1 : 0;
        if (wanted != file.reports.size()) throw std::invalid_argument("reports are missing");
        return file;
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception&) {
        return {};
    }
}

}  // namespace ligament
