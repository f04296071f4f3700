// How do single values of a report become JSON? Rows that all JSON formats share.
#pragma once

#include <concepts>
#include <cstring>
#include <memory>
#include <nlohmann/json.hpp>
#include <ostream>
#include <span>

#include "ligament/report.hpp"

namespace ligament::json_rows {

using Row = nlohmann::ordered_json;

/// One row on one line. What is not UTF-8 (no reader lets it in) becomes U+FFFD instead of an exception.
std::string text_of(const Row& row);

/// Text on its way to a stream, handed on in large pieces: a report holds millions of short ones, and a stream takes a hundred
/// instructions for each. What was written has arrived after finish(). A stream that is to throw does so there, not before.
class JsonOut {
  public:
    explicit JsonOut(std::ostream& out);
    ~JsonOut();
    JsonOut(const JsonOut&) = delete;
    JsonOut& operator=(const JsonOut&) = delete;

    JsonOut& operator<<(std::string_view text) {
        if (text.size() > size - used_ && !make_room(text)) return *this;
        std::memcpy(piece_.get() + used_, text.data(), text.size());
        used_ += text.size();
        return *this;
    }
    JsonOut& operator<<(char c) { return *this << std::string_view(&c, 1); }
    template <std::unsigned_integral Number>
    requires(!std::same_as<Number, bool>) JsonOut& operator<<(Number number) { return write_number(number); }

    /// A string as JSON, quotes included, as text_of writes it.
    void write_string(std::string_view text);
    /// A time as time_text() has it.
    void write_time(double time);
    void finish();

  private:
    static constexpr std::size_t size = std::size_t{1} << 16;

    void flush();
    /// False where the text is longer than a piece: it has gone out as it is.
    bool make_room(std::string_view text);
    JsonOut& write_number(std::uint64_t number);

    std::ostream& out_;
    std::ios_base::iostate throws_at_;
    std::unique_ptr<char[]> piece_;
    std::size_t used_ = 0;
};

/// An object on one line, written key by key as text_of writes it whole: lists that grow with the rig go out without a document
/// of values being made of each row.
class Fields {
  public:
    explicit Fields(JsonOut& out) : out_(out) {}
    ~Fields() { out_ << (is_first_ ? std::string_view("{}") : std::string_view("}")); }
    Fields(const Fields&) = delete;
    Fields& operator=(const Fields&) = delete;

    /// The caller writes the value.
    JsonOut& key(std::string_view key) {
        out_ << (is_first_ ? '{' : ',') << '"' << key << "\":";
        is_first_ = false;
        return out_;
    }
    void text(std::string_view name, std::string_view value) { key(name).write_string(value); }
    void number(std::string_view name, std::unsigned_integral auto value) { key(name) << value; }
    void truth(std::string_view name, bool value) { key(name) << std::string_view(value ? "true" : "false"); }
    void names(std::string_view name, const Rig& rig, std::span<const BoneId> bones);
    /// An array; `write_one` writes an element of the list.
    template <class List, class WriteOne>
    void list(std::string_view name, const List& list, WriteOne write_one);

  private:
    JsonOut& out_;
    bool is_first_ = true;
};

/// What every JSON format opens with, up to the state that it speaks of; a comma has to follow.
void write_head(JsonOut& out, std::string_view format, const Rig& rig, std::string_view source, std::string_view state_key,
                std::string_view state);

/// How a format that does not judge in the default state calls the state: "any" where none was asked for, since every weight that
/// is not fixed at 0 counts.
std::string_view state_or_any(const Facts& facts);

/// An array on one line; `write_one` writes an element of the list.
template <class List, class WriteOne>
void write_list(JsonOut& out, const List& list, WriteOne write_one) {
    out << '[';
    bool is_first = true;
    for (const auto& one : list) {
        if (!is_first) out << ',';
        write_one(one);
        is_first = false;
    }
    out << ']';
}

/// The names of bones as an array on one line.
void write_names(JsonOut& out, const Rig& rig, std::span<const BoneId> bones);

/// The names of bones as an array.
Row names_of(const Rig& rig, std::span<const BoneId> bones);

/// An edge of a witness or chain; its ends are properties when `between_properties`, else bones.
Row edge_row(const Report& report, const FoldedEdge& edge, bool between_properties = false);

/// The same edge between bones, written.
void write_edge(JsonOut& out, const Report& report, const FoldedEdge& edge);

/// An array of `count` elements, one a line, at an indentation of `indent`; "[]" when empty.
template <class WriteRow>
void write_rows(JsonOut& out, std::size_t count, std::size_t indent, WriteRow write_row) {
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

template <class List, class WriteOne>
void Fields::list(std::string_view name, const List& list, WriteOne write_one) {
    write_list(key(name), list, write_one);
}

}  // namespace ligament::json_rows
