#include "table_reader.hpp"

namespace ligament {

namespace {

void ignore(Draft&, const Token&) {}
// `extras` may hold anything but null, and nothing in it is read unless its object's shape says so.
constexpr Slot extras_slot{.key = "extras", .wanted = "any value", .text = ignore, .number = ignore, .flag = ignore};

std::uint32_t index_of_next_key(Frame& frame, std::string_view key) {
    const std::span<const Slot> slots = frame.shape->slots;
    std::uint8_t& guess = frame.next_guess[frame.next_key];
    if (guess < slots.size() && slots[guess].key == key) return guess;
    const std::uint32_t index = index_of_key(slots, key);
    if (index != none) guess = static_cast<std::uint8_t>(index);
    return index;
}

}  // namespace

void TableReader::scalar(const Token& token) {
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

void TableReader::key(const Token& token) {
    if (!skips())
        find_slot(token);
    else if (!skipped_keys_[skip_depth_ - 1].insert(std::string(token.text)).second)
        draft_.fault(token.place, "key " + in_quotes(token.text) + " stands twice in an object");
}

void TableReader::open(const Token& token) {
    if (skips()) return open_skipped(token.type);
    const Slot* slot = slot_to_come();
    const Shape* shape = slot == nullptr ? nullptr : token.type == Token::Type::object ? slot->object : slot->list;
    if (shape == nullptr) {
        // A list or an object in somebody's extras is no fault, whatever else their shape knows.
        if (slot != nullptr && slot->key != extras_slot.key) refuse(*slot, token);
        return open_skipped(token.type);
    }
    if (slot->open != nullptr) slot->open(draft_, token);
    open_frame(*shape, *slot, token.place);
}

void TableReader::close() {
    if (skips()) {
        --skip_depth_;
        return;
    }
    const Frame& frame = draft_.frame();
    check_entries(frame);
    if (frame.shape->close != nullptr) frame.shape->close(draft_);
    if (frame.owner->close != nullptr) frame.owner->close(draft_);
    --draft_.depth;
}

// The slot of the value that comes now; nullptr where it is to be skipped.
const Slot* TableReader::slot_to_come() {
    if (draft_.depth == 0) return &root_;
    Frame& frame = draft_.frame();
    if (frame.shape->kind != Shape::Kind::list) return frame.slot;
    ++frame.count;
    return frame.slot = frame.shape->slots.data();
}

// What messages call the place of a slot, the table of which belongs to the frame `up` steps outside the innermost one.
std::string TableReader::subject(const Slot& slot, std::size_t up) {
    if (draft_.depth <= up) return root_.key.empty() ? "the text" : in_quotes(root_.key);
    const Shape& shape = *draft_.outer(up).shape;
    return shape.kind == Shape::Kind::object ? in_quotes(slot.key) : "each " + std::string(shape.noun);
}

void TableReader::refuse(const Slot& slot, const Token& token) {
    if (draft_.depth > 0 && draft_.frame().shape->kind == Shape::Kind::extras) return;
    if (slot.key == "inputs") draft_.skipped_inputs = true;
    draft_.fault(token.place, subject(slot, 0) + " wants " + std::string(slot.wanted) + ", found " + found_text(token));
}

void TableReader::open_frame(const Shape& shape, const Slot& slot, Place place) {
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

void TableReader::open_skipped(Token::Type type) {
    ++skip_depth_;
    if (skipped_keys_.size() < skip_depth_) skipped_keys_.resize(skip_depth_);
    if (type == Token::Type::object) skipped_keys_[skip_depth_ - 1].clear();
}

void TableReader::find_slot(const Token& key) {
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
    if (shape.kind == Shape::Kind::extras) {
        if (!frame.keys_of_map.insert(std::string(key.text)).second)
            draft_.fault(key.place, "key " + in_quotes(key.text) + " stands twice in an object");
        const std::uint32_t known = index_of_key(shape.slots, key.text);
        if (known != none) frame.slot = &shape.slots[known];
        return;
    }
    const std::uint32_t index = index_of_next_key(frame, key.text);
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
        frame.slot = shape.extras != nullptr ? shape.extras : &extras_slot;
        return;
    }
    frame.key_places[index] = key.place;
    frame.slot = &shape.slots[index];
    frame.next_key = index + 1;
}

void TableReader::check_entries(const Frame& frame) {
    const Shape& shape = *frame.shape;
    if (shape.kind == Shape::Kind::object) {
        const std::uint32_t missing = shape.required & ~frame.seen;
        for (std::uint32_t i = 0; missing >> i != 0; ++i)
            if ((missing >> i & 1U) != 0)
                draft_.fault(frame.place, std::string(shape.noun) + " needs " + in_quotes(shape.slots[i].key));
        return;
    }
    if (frame.count >= shape.least && frame.count <= shape.most) return;
    const std::string wanted = shape.least == shape.most
                                   ? std::string(frame.owner->wanted)
                                   : "at least " + std::to_string(shape.least) + " " + std::string(shape.noun);
    draft_.fault(frame.place, subject(*frame.owner, 1) + " wants " + wanted + ", found " + std::to_string(frame.count));
}

}  // namespace ligament
