// What stands in a JSON text, token by token, and at which place?
#pragma once

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>

#include "json_text.hpp"
#include "token.hpp"

namespace ligament {

/// Deepest nesting of lists and objects that is read.
inline constexpr std::size_t json_depth_limit = 1'000;

/// The places (offset, length) of numbers that are too large for a double.
using Overflows = std::vector<std::pair<std::size_t, std::size_t>>;

/// Leads the events of nlohmann's parser to a handler, with their places. The handler has `scalar(token)`, `key(token)`,
/// `open(token)` of a list or object, `close()` of the innermost one, `spoiled(place)` for a value that is a fault already, and
/// `fault(place, message)`. What is nested too deep is one spoiled value. The functions that nlohmann's SAX interface asks for
/// have its names.
template <class Handler>
class JsonEvents {
  public:
    using number_integer_t = nlohmann::json::number_integer_t;
    using number_unsigned_t = nlohmann::json::number_unsigned_t;
    using number_float_t = nlohmann::json::number_float_t;
    using string_t = nlohmann::json::string_t;
    using binary_t = nlohmann::json::binary_t;

    JsonEvents(std::string_view text, const Overflows& overflows, std::size_t value_limit, Handler& handler)
        : text_(text), overflows_(overflows), value_limit_(value_limit), handler_(handler), reached_(text.data()) {
        cursor_.at = text.data();
    }

    void run() {
        const char* end = text_.data() + text_.size();
        nlohmann::json::sax_parse(CountingIterator(text_.data(), &reached_), CountingIterator(end, &reached_), this);
    }
    /// Reading broke off at a number that is too large, and the overflows were not told.
    bool overflowed() const { return overflowed_; }
    /// The outermost value was closed.
    bool is_complete() const { return complete_; }

    bool null() { return scalar({.type = Token::Type::null}); }
    bool boolean(bool flag) { return scalar({.type = Token::Type::flag, .flag = flag}); }
    bool number_integer(number_integer_t number) { return this->number(static_cast<double>(number)); }
    bool number_unsigned(number_unsigned_t number) { return this->number(static_cast<double>(number)); }
    bool number_float(number_float_t number, const string_t&) { return this->number(number); }
    bool string(string_t& text) {
        if (!count_value()) return false;
        const Token token = begin_text(text);
        complete_ = is_object_.empty();
        if (!is_too_deep()) handler_.scalar(token);
        return true;
    }
    bool binary(binary_t&) { return false; }
    bool start_object(std::size_t) { return start({.type = Token::Type::object}); }
    bool start_array(std::size_t) { return start({.type = Token::Type::list}); }
    bool end_object() { return end(); }
    bool end_array() { return end(); }
    bool key(string_t& text) {
        const Token token = begin_text(text);
        state_ = JsonState::after_key;
        if (!is_too_deep()) handler_.key(token);
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception& error) {
        constexpr int number_overflow = 406;
        if (error.id == number_overflow && overflows_.empty()) {
            overflowed_ = true;
            return false;
        }
        const bool in_object = !is_object_.empty() && is_object_.back(), in_array = !is_object_.empty() && !is_object_.back();
        const auto offset = static_cast<std::size_t>(cursor_.at - text_.data());
        JsonFault fault = describe_json_fault(text_, offset, state_, in_object, in_array);
        cursor_.skip_text(text_.data() + std::min(fault.offset, text_.size()));
        handler_.fault(cursor_.place, std::move(fault.message));
        return false;
    }

  private:
    bool is_too_deep() const { return is_object_.size() > json_depth_limit; }

    // False where there are more values than may be.
    bool count_value() {
        if (++values_ <= value_limit_) return true;
        cursor_.skip_between_tokens();
        handler_.fault(cursor_.place, "more than " + std::to_string(value_limit_) + " values, the text behind is not read");
        return false;
    }

    void begin(Token& token) {
        cursor_.skip_between_tokens();
        token.place = cursor_.place;
        state_ = JsonState::after_value;
    }

    Token begin_text(const string_t& text) {
        Token token{.type = Token::Type::text};
        begin(token);
        const char* first = cursor_.at + 1;
        cursor_.skip_line_part(reached_);
        // An escape is longer than what it stands for.
        token.lasts = static_cast<std::size_t>(reached_ - first) == text.size() + 1;
        token.text = token.lasts ? std::string_view(first, text.size()) : std::string_view(text);
        return token;
    }

    bool scalar(Token token) {
        if (!count_value()) return false;
        begin(token);
        cursor_.skip_ascii(reached_);
        complete_ = is_object_.empty();
        if (!is_too_deep()) handler_.scalar(token);
        return true;
    }

    bool number(double number) {
        if (!count_value()) return false;
        Token token{.type = Token::Type::number, .number = number};
        begin(token);
        const auto offset = static_cast<std::size_t>(cursor_.at - text_.data());
        // The lexer has read one character more to see that the number ends, except at the end of the text.
        const char last = *(reached_ - 1);
        const bool at_end = reached_ == text_.data() + text_.size() && last >= '0' && last <= '9';
        cursor_.skip_ascii(at_end ? reached_ : reached_ - 1);
        complete_ = is_object_.empty();
        const auto overflow = std::lower_bound(overflows_.begin(), overflows_.end(), std::pair(offset, std::size_t{0}));
        const bool is_overflow = overflow != overflows_.end() && overflow->first == offset;
        if (is_overflow) handler_.fault(token.place, "number is too large, numbers are at most 1.7976931348623157e+308");
        if (is_too_deep()) return true;
        is_overflow ? handler_.spoiled(token.place) : handler_.scalar(token);
        return true;
    }

    bool start(Token token) {
        if (!count_value()) return false;
        begin(token);
        cursor_.skip_ascii(reached_);
        is_object_.push_back(token.type == Token::Type::object);
        state_ = is_object_.back() ? JsonState::after_object_start : JsonState::after_array_start;
        if (is_object_.size() == json_depth_limit + 1) {
            handler_.fault(token.place, "nested deeper than " + std::to_string(json_depth_limit));
            handler_.spoiled(token.place);
        }
        if (!is_too_deep()) handler_.open(token);
        return true;
    }

    bool end() {
        Token token;
        begin(token);
        cursor_.skip_ascii(reached_);
        if (!is_too_deep()) handler_.close();
        is_object_.pop_back();
        complete_ = is_object_.empty();
        return true;
    }

    std::string_view text_;
    const Overflows& overflows_;
    std::size_t value_limit_;
    Handler& handler_;
    const char* reached_;
    TextCursor cursor_;
    std::vector<bool> is_object_;  // of each open container
    JsonState state_ = JsonState::at_start;
    std::size_t values_ = 0;
    bool overflowed_ = false;
    bool complete_ = false;
};

/// Reads a text into a handler made by `make()`, and gives what `finish(handler, is_complete, mended)` does. nlohmann's parser
/// stops at a number that is too large. Such numbers do not end the JSON: the text is then read once more, by another handler,
/// with zeros in their place: that is `mended`, which what was read may point into (else null). A leading byte order mark must
/// have been taken off.
template <class Make, class Finish>
auto read_json(std::string_view text, std::size_t value_limit, Make make, Finish finish) {
    {
        const Overflows no_overflows;
        auto handler = make();
        JsonEvents events(text, no_overflows, value_limit, handler);
        events.run();
        if (!events.overflowed()) return finish(handler, events.is_complete(), std::unique_ptr<std::string>());
    }
    const Overflows overflows = find_overflows(text);
    auto mended = std::make_unique<std::string>(text);
    for (const auto& [offset, length] : overflows) mended->replace(offset, length, std::string(length - 1, ' ').insert(0, "0"));
    auto handler = make();
    JsonEvents events(std::string_view(*mended), overflows, value_limit, handler);
    events.run();
    return finish(handler, events.is_complete(), std::move(mended));
}

inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace ligament
