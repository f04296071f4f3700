// What stands in a JSON text, token by token, and at which place?
//
// Every value needs its line and column, for faults and for findings, and no library at hand gives places at speed. The SAX
// events of nlohmann/json carry none: its parser, led through a counting iterator, took 84 instructions a byte of a rig of 20,000
// bones, this scanner takes 17. What is JSON, and which values it holds, is held against that library by tests/read and
// tests/fuzz.
#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "json_runs.hpp"
#include "json_text.hpp"
#include "token.hpp"

namespace ligament {

/// Deepest nesting of lists and objects that is read.
inline constexpr std::size_t json_depth_limit = 1'000;

inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Leads the tokens of a text to a handler, with their places. The handler has `scalar(token)`, `key(token)`, `open(token)` of a
/// list or object, `close()` of the innermost one, `spoiled(place)` for a value that is a fault already, and `fault(place,
/// message)`. What is nested too deep is one spoiled value, and so is a number that is too large for a double. A text of a token
/// that does not last holds until the next token. Linear, not recursive.
template <class Handler>
class JsonScanner {
  public:
    JsonScanner(std::string_view text, std::size_t value_limit, Handler& handler)
        : text_(text), value_limit_(value_limit), handler_(handler) {}

    /// True where the outermost value was read to its end, even if more follows.
    bool run() {
        skip_space();
        if (at_ == text_.size()) return fail({at_, "the input is empty, wanted a rig description"});
        bool is_good = take_value("a value");
        while (is_good && depth_ > 0) is_good = in_object_ ? take_member() : take_entry();
        if (!is_good) return false;
        skip_space();
        // A NUL byte behind the text ends it.
        if (at_ < text_.size() && !is_at('\0'))
            fail({at_, "text after the end of the rig description, found " + found_at(text_, at_)});
        return true;
    }

  private:
    bool is_at(char c) const { return at_ < text_.size() && text_[at_] == c; }
    bool is_too_deep() const { return depth_ > json_depth_limit; }
    Place place() const { return {line_, static_cast<std::uint32_t>(at_ - line_start_ + 1)}; }

    bool fail(JsonFault fault) {
        handler_.fault(place_behind(place(), text_.substr(at_, fault.offset - at_)), std::move(fault.message));
        return false;
    }

    // Two fifths of a file are space, most of it indentation.
    void skip_space() {
        std::size_t at = at_;
        for (; at < text_.size(); ++at) {
            const auto byte = static_cast<unsigned char>(text_[at]);
            if (byte > ' ') break;
            if (byte == '\n') {
                ++line_;
                line_start_ = at + 1;
                at = end_of_spaces(text_, at + 1) - 1;
            } else if (byte != ' ' && byte != '\t' && byte != '\r') {
                break;
            }
        }
        at_ = at;
    }

    // What comes next in the innermost list: its end, or an entry.
    bool take_entry() {
        skip_space();
        if (is_at(']')) return close();
        if (is_first_) return take_value("a value or \"]\"");
        if (!is_at(',')) return fail(wanted(text_, at_, "\",\" or \"]\""));
        ++at_;
        skip_space();
        return take_value("a value after \",\"");
    }

    // What comes next in the innermost object: its end, or a key and its value.
    bool take_member() {
        skip_space();
        if (is_at('}')) return close();
        if (!is_first_) {
            if (!is_at(',')) return fail(wanted(text_, at_, "\",\" or \"}\""));
            ++at_;
            skip_space();
        }
        if (!is_at('"')) return fail(wanted(text_, at_, is_first_ ? "a key or \"}\"" : "a key after \",\""));
        Token key{.type = Token::Type::text, .place = place(), .offset = at_};
        if (!take_text(key)) return false;
        if (!is_too_deep()) handler_.key(key);
        skip_space();
        if (!is_at(':')) return fail(wanted(text_, at_, "\":\" after a key"));
        ++at_;
        skip_space();
        return take_value("a value after \":\"");
    }

    bool take_value(std::string_view what) {
        is_first_ = false;
        Token token{.place = place(), .offset = at_};
        switch (at_ < text_.size() ? text_[at_] : '\0') {
            case '"':
                token.type = Token::Type::text;
                return take_text(token) && give(token);
            case '{':
                return open(token, true);
            case '[':
                return open(token, false);
            case 't':
            case 'f':
            case 'n':
                return take_word(token, what);
            case '-':
            case '0':
            case '1':
            case '2':
            case '3':
            case '4':
            case '5':
            case '6':
            case '7':
            case '8':
            case '9':
                return take_number(token, what);
            default:
                return fail(fault_of_value(text_, at_, what));
        }
    }

    bool take_text(Token& token) {
        const std::size_t first = at_ + 1;
        const std::size_t end = end_of_plain(text_, first);
        if (end < text_.size() && text_[end] == '"') {
            token.text = text_.substr(first, end - first);
            token.lasts = true;
            at_ = end + 1;
            return true;
        }
        JsonString string = scan_string(text_, at_);
        if (!string.fault.message.empty()) return fail(std::move(string.fault));
        token.text = text_.substr(first, string.end - 1 - first);
        token.lasts = !string.has_escapes;
        if (string.has_escapes) {
            decode_string(token.text, decoded_);
            token.text = decoded_;
        }
        at_ = string.end;
        line_start_ += string.continuations;
        return true;
    }

    bool take_word(Token& token, std::string_view what) {
        const auto begins_with = [&](std::string_view word) { return text_.substr(at_, word.size()) == word; };
        std::size_t length = 4;
        if (begins_with("true")) {
            token.type = Token::Type::flag;
            token.flag = true;
        } else if (begins_with("false")) {
            token.type = Token::Type::flag;
            length = 5;
        } else if (!begins_with("null")) {
            return fail(fault_of_value(text_, at_, what));
        }
        at_ += length;
        return give(token);
    }

    bool take_number(Token& token, std::string_view what) {
        const JsonNumber number = scan_number(text_, at_);
        if (number.end == at_) return fail(fault_of_value(text_, at_, what));
        token.type = Token::Type::number;
        token.number = number.value;
        at_ = number.end;
        if (!std::isinf(token.number)) return give(token);
        if (!count_value(token.place)) return false;
        handler_.fault(token.place, "number is too large, numbers are at most 1.7976931348623157e+308");
        if (!is_too_deep()) handler_.spoiled(token.place);
        return true;
    }

    bool give(const Token& token) {
        if (!count_value(token.place)) return false;
        if (!is_too_deep()) handler_.scalar(token);
        return true;
    }

    // False where there are more values than may be.
    bool count_value(Place place) { return ++values_ <= value_limit_ || refuse_more(place); }
    bool refuse_more(Place place) {
        handler_.fault(place, "more than " + std::to_string(value_limit_) + " values, the text behind is not read");
        return false;
    }

    bool open(Token& token, bool is_object) {
        if (!count_value(token.place)) return false;
        token.type = is_object ? Token::Type::object : Token::Type::list;
        ++at_;
        ++depth_;
        outside_.push_back(in_object_);
        in_object_ = is_object;
        is_first_ = true;
        if (depth_ == json_depth_limit + 1) {
            handler_.fault(token.place, "nested deeper than " + std::to_string(json_depth_limit));
            handler_.spoiled(token.place);
        }
        if (!is_too_deep()) handler_.open(token);
        return true;
    }

    bool close() {
        if (!is_too_deep()) handler_.close();
        ++at_;
        --depth_;
        in_object_ = outside_.back();
        outside_.pop_back();
        is_first_ = false;
        return true;
    }

    std::string_view text_;
    std::size_t value_limit_;
    Handler& handler_;
    std::size_t at_ = 0;
    std::uint32_t line_ = 1;
    std::size_t line_start_ = 0;  // moved on by bytes that only continue a character: at_ - line_start_ counts characters
    std::size_t depth_ = 0;       // of lists and objects that are open
    bool in_object_ = false;      // the innermost of them is an object
    bool is_first_ = false;       // nothing stood in it yet
    std::vector<bool> outside_;   // in_object_ of those around it
    std::size_t values_ = 0;
    std::string decoded_;
};

}  // namespace ligament
