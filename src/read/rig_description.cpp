// What does a rig description say? JSON events, given their places, led through the tables of keys.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "draft.hpp"
#include "json_text.hpp"
#include "ligament/read.hpp"

namespace ligament {

namespace {

constexpr std::size_t depth_limit = 1'000;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// "the number 5": what was found where something else was wanted.
std::string found_text(const Token& token) {
    switch (token.type) {
        case Token::Type::text:
            return "the string " + in_quotes(token.text);
        case Token::Type::number:
            return "the number " + number_text(token.number);
        case Token::Type::flag:
            return token.flag ? "true" : "false";
        case Token::Type::null:
            return "null";
        case Token::Type::list:
            return "a list";
        case Token::Type::object:
            return "an object";
    }
    return {};
}

void ignore(Draft&, const Token&) {}
// `extras` may hold anything but null, and nothing in it is read.
constexpr Slot extras_slot{.key = "extras", .wanted = "any value", .text = ignore, .number = ignore, .flag = ignore};

// A table looked up from `start` on: files mostly name keys in one order, so that the next key stands soon after the last one.
std::uint32_t index_of_key_from(std::span<const Slot> slots, std::uint32_t start, std::string_view key) {
    for (std::uint32_t i = start; i < slots.size(); ++i)
        if (slots[i].key == key) return i;
    return index_of_key(slots.first(start), key);
}

// Leads one text through the tables. The names of the functions below are those that nlohmann's SAX interface asks for.
class Reader {
  public:
    using number_integer_t = nlohmann::json::number_integer_t;
    using number_unsigned_t = nlohmann::json::number_unsigned_t;
    using number_float_t = nlohmann::json::number_float_t;
    using string_t = nlohmann::json::string_t;
    using binary_t = nlohmann::json::binary_t;
    using Overflows = std::vector<std::pair<std::size_t, std::size_t>>;

    Reader(std::string_view text, const Overflows& overflows) : text_(text), overflows_(overflows), reached_(text.data()) {
        cursor_.at = text.data();
    }

    bool run() {
        const char* end = text_.data() + text_.size();
        return nlohmann::json::sax_parse(CountingIterator(text_.data(), &reached_), CountingIterator(end, &reached_), this);
    }
    bool overflowed() const { return overflowed_; }
    bool is_complete() const { return complete_; }
    Draft& draft() { return draft_; }

    bool null() { return scalar({.type = Token::Type::null}); }
    bool boolean(bool flag) { return scalar({.type = Token::Type::flag, .flag = flag}); }
    bool number_integer(number_integer_t number) { return this->number(static_cast<double>(number)); }
    bool number_unsigned(number_unsigned_t number) { return this->number(static_cast<double>(number)); }
    bool number_float(number_float_t number, const string_t&) { return this->number(number); }
    bool string(string_t& text) {
        const Token token = begin_text(text);
        take_scalar(token);
        return true;
    }
    bool binary(binary_t&) { return false; }
    bool start_object(std::size_t) { return start({.type = Token::Type::object}); }
    bool start_array(std::size_t) { return start({.type = Token::Type::list}); }
    bool end_object() { return end(); }
    bool end_array() { return end(); }
    bool key(string_t& text);
    bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception& error);

  private:
    void begin(Token& token);
    Token begin_text(const string_t& text);
    bool scalar(Token token);
    bool number(double number);
    bool start(Token token);
    bool end();

    bool skips() const { return skip_depth_ > 0; }
    const Slot* slot_to_come();
    void take_scalar(const Token& token);
    std::string subject(const Slot& slot, std::size_t up);
    void refuse(const Slot& slot, const Token& token);
    void open(const Shape& shape, const Slot& slot, Place place);
    void open_skipped(Token::Type type);
    void close();
    void find_slot(const Token& key);
    void check_entries(const Frame& frame);

    std::string_view text_;
    const Overflows& overflows_;
    const char* reached_;
    TextCursor cursor_;
    Draft draft_;
    std::vector<bool> is_object_;  // of each open container
    JsonState state_ = JsonState::at_start;
    bool overflowed_ = false;
    bool complete_ = false;  // the outermost value was closed

    // Inside values that no table speaks of (`extras`, and what stands where it should not) only keys and depth are looked at.
    std::size_t skip_depth_ = 0;  // containers open in such a value, itself included
    std::vector<std::unordered_set<std::string>> skipped_keys_;
};

void Reader::begin(Token& token) {
    cursor_.skip_between_tokens();
    token.place = cursor_.place;
    state_ = JsonState::after_value;
}

Token Reader::begin_text(const string_t& text) {
    Token token{.type = Token::Type::text};
    begin(token);
    const char* first = cursor_.at + 1;
    cursor_.skip_line_part(reached_);
    // An escape is longer than what it stands for.
    token.lasts = static_cast<std::size_t>(reached_ - first) == text.size() + 1;
    token.text = token.lasts ? std::string_view(first, text.size()) : std::string_view(text);
    return token;
}

bool Reader::scalar(Token token) {
    begin(token);
    cursor_.skip_ascii(reached_);
    take_scalar(token);
    return true;
}

bool Reader::number(double number) {
    Token token{.type = Token::Type::number, .number = number};
    begin(token);
    const auto offset = static_cast<std::size_t>(cursor_.at - text_.data());
    // The lexer has read one character more to see that the number ends, except at the end of the text.
    const char last = *(reached_ - 1);
    const bool at_end = reached_ == text_.data() + text_.size() && last >= '0' && last <= '9';
    cursor_.skip_ascii(at_end ? reached_ : reached_ - 1);
    const auto overflow = std::lower_bound(overflows_.begin(), overflows_.end(), std::pair(offset, std::size_t{0}));
    if (overflow != overflows_.end() && overflow->first == offset) {
        draft_.fault(token.place, "number is too large, numbers are at most 1.7976931348623157e+308");
        if (!skips()) slot_to_come();
        return true;
    }
    take_scalar(token);
    return true;
}

bool Reader::start(Token token) {
    begin(token);
    cursor_.skip_ascii(reached_);
    is_object_.push_back(token.type == Token::Type::object);
    state_ = is_object_.back() ? JsonState::after_object_start : JsonState::after_array_start;
    if (is_object_.size() == depth_limit + 1) draft_.fault(token.place, "nested deeper than " + std::to_string(depth_limit));
    if (skips()) {
        open_skipped(token.type);
        return true;
    }
    const Slot* slot = slot_to_come();
    const Shape* shape = slot == nullptr ? nullptr : is_object_.back() ? slot->object : slot->list;
    if (shape == nullptr) {
        if (slot != nullptr && slot != &extras_slot) refuse(*slot, token);
        open_skipped(token.type);
        return true;
    }
    if (slot->open != nullptr) slot->open(draft_, token);
    open(*shape, *slot, token.place);
    return true;
}

bool Reader::end() {
    Token token;
    begin(token);
    cursor_.skip_ascii(reached_);
    is_object_.pop_back();
    if (skips())
        --skip_depth_;
    else
        close();
    complete_ = is_object_.empty();
    return true;
}

bool Reader::key(string_t& text) {
    const Token token = begin_text(text);
    state_ = JsonState::after_key;
    if (!skips()) {
        find_slot(token);
    } else if (is_object_.size() <= depth_limit && !skipped_keys_[skip_depth_ - 1].insert(text).second) {
        draft_.fault(token.place, "key " + in_quotes(text) + " stands twice in an object");
    }
    return true;
}

bool Reader::parse_error(std::size_t, const std::string&, const nlohmann::json::exception& error) {
    constexpr int number_overflow = 406;
    if (error.id == number_overflow && overflows_.empty()) {
        overflowed_ = true;
        return false;
    }
    const bool in_object = !is_object_.empty() && is_object_.back(), in_array = !is_object_.empty() && !is_object_.back();
    const auto offset = static_cast<std::size_t>(cursor_.at - text_.data());
    JsonFault fault = describe_json_fault(text_, offset, state_, in_object, in_array);
    cursor_.skip_text(text_.data() + std::min(fault.offset, text_.size()));
    draft_.fault(cursor_.place, std::move(fault.message));
    return false;
}

// The slot of the value that comes now; nullptr where it is to be skipped.
const Slot* Reader::slot_to_come() {
    static constexpr Slot rig_slot{.wanted = "a rig description (an object)", .object = &rig_shape};
    if (draft_.depth == 0) return &rig_slot;
    Frame& frame = draft_.frame();
    if (frame.shape->kind != Shape::Kind::list) return frame.slot;
    ++frame.count;
    return frame.slot = frame.shape->slots.data();
}

void Reader::take_scalar(const Token& token) {
    if (is_object_.empty()) complete_ = true;
    if (skips()) return;
    const Slot* slot = slot_to_come();
    if (slot == nullptr) return;
    void (*take)(Draft&, const Token&) = nullptr;
    if (token.type == Token::Type::text) take = slot->text;
    if (token.type == Token::Type::number) take = slot->number;
    if (token.type == Token::Type::flag) take = slot->flag;
    if (take != nullptr)
        take(draft_, token);
    else
        refuse(*slot, token);
}

// What messages call the place of a slot, the table of which belongs to the frame `up` steps outside the innermost one.
std::string Reader::subject(const Slot& slot, std::size_t up) {
    if (draft_.depth <= up) return "the text";
    const Shape& shape = *draft_.outer(up).shape;
    return shape.kind == Shape::Kind::object ? in_quotes(slot.key) : "each " + std::string(shape.noun);
}

void Reader::refuse(const Slot& slot, const Token& token) {
    if (slot.key == "inputs") draft_.skipped_inputs = true;
    draft_.fault(token.place, subject(slot, 0) + " wants " + std::string(slot.wanted) + ", found " + found_text(token));
}

void Reader::open(const Shape& shape, const Slot& slot, Place place) {
    Frame& frame = draft_.frames[draft_.depth++];
    frame.shape = &shape;
    frame.owner = &slot;
    frame.slot = nullptr;
    frame.place = place;
    frame.seen = 0;
    frame.count = 0;
    frame.next_key = 0;
    if (!frame.keys_of_map.empty()) frame.keys_of_map.clear();
}

void Reader::open_skipped(Token::Type type) {
    ++skip_depth_;
    if (is_object_.size() > depth_limit) return;
    if (skipped_keys_.size() < skip_depth_) skipped_keys_.resize(skip_depth_);
    if (type == Token::Type::object) skipped_keys_[skip_depth_ - 1].clear();
}

void Reader::find_slot(const Token& key) {
    Frame& frame = draft_.frame();
    const Shape& shape = *frame.shape;
    frame.slot = nullptr;
    if (shape.kind == Shape::Kind::map) {
        if (!frame.keys_of_map.insert(std::string(key.text)).second) {
            draft_.fault(key.place, std::string(shape.noun) + " " + in_quotes(key.text) + " stands twice");
            return;
        }
        frame.slot = shape.slots.data();
        if (shape.take_key != nullptr) shape.take_key(draft_, key);
        return;
    }
    const std::uint32_t index = index_of_key_from(shape.slots, frame.next_key, key.text);
    const std::uint32_t bit = index != none ? 1U << index : key.text == "extras" ? Frame::extras_bit : 0;
    if (bit == 0) {
        std::vector<std::string_view> known{"extras"};
        for (const Slot& slot : shape.slots) known.push_back(slot.key);
        draft_.fault(key.place, "unknown key " + in_quotes(key.text) + " in " + std::string(shape.noun) +
                                    nearest_text(draft_, key.text, known));
        return;
    }
    if ((frame.seen & bit) != 0) {
        draft_.fault(key.place, "key " + in_quotes(key.text) + " stands twice in " + std::string(shape.noun));
        return;
    }
    frame.seen |= bit;
    if (index == none) {
        frame.slot = &extras_slot;
        return;
    }
    frame.key_places[index] = key.place;
    frame.slot = &shape.slots[index];
    frame.next_key = index + 1;
}

void Reader::check_entries(const Frame& frame) {
    const Shape& shape = *frame.shape;
    if (shape.kind == Shape::Kind::object) {
        for (std::uint32_t i = 0; i < shape.slots.size(); ++i)
            if (shape.slots[i].required && (frame.seen >> i & 1U) == 0)
                draft_.fault(frame.place, std::string(shape.noun) + " needs " + in_quotes(shape.slots[i].key));
        return;
    }
    if (frame.count >= shape.least && frame.count <= shape.most) return;
    const std::string wanted = shape.least == shape.most
                                   ? std::string(frame.owner->wanted)
                                   : "at least " + std::to_string(shape.least) + " " + std::string(shape.noun);
    draft_.fault(frame.place, subject(*frame.owner, 1) + " wants " + wanted + ", found " + std::to_string(frame.count));
}

void Reader::close() {
    const Frame& frame = draft_.frame();
    check_entries(frame);
    if (frame.shape->close != nullptr) frame.shape->close(draft_);
    if (frame.owner->close != nullptr) frame.owner->close(draft_);
    --draft_.depth;
}

ReadResult finish(Reader& reader, bool has_mark) {
    Draft& draft = reader.draft();
    if (has_mark) draft.fault({1, 1}, "a byte order mark is not taken, save the file as UTF-8 without one");
    if (reader.is_complete()) resolve_names(draft);
    ReadResult result;
    if (draft.faults.empty()) {
        result.rig = std::move(draft.rig);
        return result;
    }
    std::stable_sort(draft.faults.begin(), draft.faults.end(), [](const Fault& a, const Fault& b) {
        return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
    });
    result.faults = std::move(draft.faults);
    return result;
}

}  // namespace

ReadResult read_rig(std::string_view text) {
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.remove_prefix(byte_order_mark.size());
    {
        const Reader::Overflows no_overflows;
        Reader reader(text, no_overflows);
        reader.run();
        if (!reader.overflowed()) return finish(reader, has_mark);
    }
    // nlohmann's parser stops at a number that is too large. Such numbers do not end the JSON: read again with zeros there.
    const Reader::Overflows overflows = find_overflows(text);
    std::string mended(text);
    for (const auto& [offset, length] : overflows) mended.replace(offset, length, std::string(length - 1, ' ').insert(0, "0"));
    Reader reader(mended, overflows);
    reader.run();
    return finish(reader, has_mark);
}

}  // namespace ligament
