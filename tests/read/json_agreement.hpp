// Does our scanner find in a text what the parser of nlohmann/json finds in it, and does it know where?
#pragma once

#include <algorithm>
#include <bit>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "json_scanner.hpp"

namespace ligament::testing {

/// What a reader found, one entry an event; doubles bit for bit.
struct JsonEventList {
    std::vector<std::string> events;
    bool is_accepted = false;
    bool stopped_at_overflow = false;  ///< a number too large, behind which nlohmann's parser does not read
    std::size_t deepest = 0;

    void add_number(double number) { events.push_back("number " + std::to_string(std::bit_cast<std::uint64_t>(number))); }
};

/// A handler of nlohmann's SAX interface, whose names it has.
class NlohmannEvents : public nlohmann::json_sax<nlohmann::json> {
  public:
    explicit NlohmannEvents(JsonEventList& list) : list_(list) {}

    bool null() override { return add("null"); }
    bool boolean(bool flag) override { return add(flag ? "true" : "false"); }
    bool number_integer(number_integer_t number) override { return add_number(static_cast<double>(number)); }
    bool number_unsigned(number_unsigned_t number) override { return add_number(static_cast<double>(number)); }
    bool number_float(number_float_t number, const string_t&) override { return add_number(number); }
    bool string(string_t& text) override { return add("text " + text); }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open("{"); }
    bool key(string_t& text) override { return add("key " + text); }
    bool end_object() override { return close("}"); }
    bool start_array(std::size_t) override { return open("["); }
    bool end_array() override { return close("]"); }
    bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception& error) override {
        constexpr int number_overflow = 406;
        list_.stopped_at_overflow = error.id == number_overflow;
        return false;
    }

  private:
    bool add(std::string event) {
        list_.events.push_back(std::move(event));
        return true;
    }
    bool add_number(double number) {
        list_.add_number(number);
        return true;
    }
    bool open(std::string event) {
        list_.deepest = std::max(list_.deepest, ++depth_);
        return add(std::move(event));
    }
    bool close(std::string event) {
        --depth_;
        return add(std::move(event));
    }

    JsonEventList& list_;
    std::size_t depth_ = 0;
};

/// A handler of JsonScanner. Holds the place of each token against a count from the start of the text.
class ScannerEvents {
  public:
    ScannerEvents(std::string_view text, JsonEventList& list) : text_(text), list_(list) {}

    void scalar(const Token& token) {
        check_place(token);
        if (token.type == Token::Type::text) list_.events.push_back("text " + std::string(token.text));
        if (token.type == Token::Type::number) list_.add_number(token.number);
        if (token.type == Token::Type::flag) list_.events.emplace_back(token.flag ? "true" : "false");
        if (token.type == Token::Type::null) list_.events.emplace_back("null");
    }
    void key(const Token& token) {
        check_place(token);
        list_.events.push_back("key " + std::string(token.text));
    }
    void open(const Token& token) {
        check_place(token);
        closing_.push_back(token.type == Token::Type::object ? "}" : "]");
        list_.events.emplace_back(token.type == Token::Type::object ? "{" : "[");
    }
    void close() {
        list_.events.push_back(closing_.back());
        closing_.pop_back();
    }
    void spoiled(Place) { list_.events.emplace_back("spoiled"); }
    void fault(Place, const std::string& message) { has_fault_ |= !message.starts_with("number is too large"); }

    bool has_fault() const { return has_fault_; }
    bool has_wrong_place() const { return has_wrong_place_; }

  private:
    void check_place(const Token& token) {
        Place place{1, 1};
        for (const char c : text_.substr(0, token.offset)) {
            if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++place.column;
            if (c == '\n') place = {place.line + 1, 1};
        }
        has_wrong_place_ |= place != token.place;
        has_wrong_place_ |= token.lasts && text_.substr(token.offset + 1, token.text.size()) != token.text;
    }

    std::string_view text_;
    JsonEventList& list_;
    std::vector<std::string> closing_;  // of what is open
    bool has_fault_ = false, has_wrong_place_ = false;
};

/// What the two do not agree about; nothing where they do. nlohmann's parser takes no heed of a byte order mark, so none is shown
/// to either; what is nested deeper than we read is not compared.
inline std::string json_disagreement(std::string_view text) {
    while (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    JsonEventList theirs, ours;
    NlohmannEvents their_handler(theirs);
    theirs.is_accepted = nlohmann::json::sax_parse(text.begin(), text.end(), &their_handler);
    if (theirs.deepest > json_depth_limit) return {};
    ScannerEvents our_handler(text, ours);
    ours.is_accepted = JsonScanner(text, text.size() + 1, our_handler).run() && !our_handler.has_fault();
    if (our_handler.has_wrong_place()) return "a place is wrong";
    if (theirs.stopped_at_overflow) {
        const std::size_t count = theirs.events.size();
        if (ours.events.size() <= count || ours.events[count] != "spoiled") return "no number is too large";
        ours.events.resize(count);
    } else if (ours.is_accepted != theirs.is_accepted) {
        return theirs.is_accepted ? "refused" : "accepted";
    }
    if (ours.events == theirs.events) return {};
    const auto [our, their] = std::mismatch(ours.events.begin(), ours.events.end(), theirs.events.begin(), theirs.events.end());
    return "found " + (our == ours.events.end() ? "nothing" : *our) + ", not " +
           (their == theirs.events.end() ? "nothing" : *their);
}

}  // namespace ligament::testing
