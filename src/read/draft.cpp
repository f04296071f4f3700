// How are the scalars of a rig description taken, whichever key they stand under?
#include "draft.hpp"

#include <algorithm>
#include <cmath>

namespace ligament {

namespace {

constexpr std::size_t name_length_limit = 1'000;
constexpr double largest_count = 4'294'967'294.0;

constexpr std::array<std::string_view, 12> channel_words{"position",   "rotation",   "scale",      "position.x",
                                                         "position.y", "position.z", "rotation.x", "rotation.y",
                                                         "rotation.z", "scale.x",    "scale.y",    "scale.z"};

std::size_t count_points(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

const Place* find_key(const Frame& frame, std::string_view key) {
    const std::uint32_t index = index_of_key(frame.shape->slots, key);
    return index != none && (frame.seen >> index & 1U) != 0 ? &frame.key_places[index] : nullptr;
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t shown_limit = 400;
    std::size_t shown = std::min(text.size(), shown_limit);
    while (shown < text.size() && shown > 0 && (static_cast<unsigned char>(text[shown]) & 0xC0U) == 0x80U) --shown;
    std::string quoted = "\"";
    for (const char c : text.substr(0, shown)) {
        static constexpr char digits[] = "0123456789abcdef";
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x20 && byte != 0x7F)
            quoted += c;
        else
            (quoted.append("\\u00") += digits[byte >> 4U]) += digits[byte & 15U];
    }
    if (shown == text.size()) return quoted + "\"";
    return quoted + "...\" (" + std::to_string(count_points(text)) + " characters)";
}

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

std::string counted(std::uint64_t count, std::string_view one, std::string_view many) {
    return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string place_text(Place place) { return std::to_string(place.line) + ":" + std::to_string(place.column); }

std::string nearest_text(Draft& draft, std::string_view name, std::span<const std::string_view> known) {
    const std::string nearest = find_nearest_name(name, known, draft.hints);
    return nearest.empty() ? nearest : ", nearest is " + in_quotes(nearest);
}

void take_name(Draft& draft, const Token& token, std::string& name) {
    if (token.text.empty()) draft.fault(token.place, "name is empty");
    if (token.text.size() > name_length_limit) {
        if (const std::size_t points = count_points(token.text); points > name_length_limit)
            draft.fault(token.place, "name of " + std::to_string(points) + " characters, at most " +
                                         std::to_string(name_length_limit) + " are taken");
    }
    name = token.text;
}

std::uint32_t take_word(Draft& draft, const Token& token, std::string_view noun, std::span<const std::string_view> words) {
    const auto found = std::find(words.begin(), words.end(), token.text);
    if (found != words.end()) return static_cast<std::uint32_t>(found - words.begin());
    std::string message = "unknown " + std::string(noun) + " " + in_quotes(token.text);
    const std::string nearest = nearest_text(draft, token.text, words);
    if (nearest.empty()) {
        message += ", known are";
        for (const std::string_view word : words) message.append(" ").append(in_quotes(word));
    }
    draft.fault(token.place, message + nearest);
    return none;
}

void take_in_range(Draft& draft, const Token& token, double low, double high, double& number) {
    number = token.number;
    if (number >= low && number <= high) return;
    draft.fault(token.place, in_quotes(draft.frame().slot->key) + " lies in " + number_text(low) + " to " + number_text(high) +
                                 ", found " + number_text(number));
}

void take_count(Draft& draft, const Token& token, std::uint32_t& count) {
    if (token.number >= 1 && token.number <= largest_count && token.number == std::floor(token.number)) {
        count = static_cast<std::uint32_t>(token.number);
        return;
    }
    draft.fault(token.place, in_quotes(draft.frame().slot->key) + " wants a whole number from 1 to " +
                                 number_text(largest_count) + ", found " + number_text(token.number));
}

NameId refer(Draft& draft, Reference::Kind kind, const Token& token) {
    const NameId name = draft.names.intern(token.text, token.lasts);
    make_room(draft, token, draft.references);
    draft.references.push_back({kind, name, token.place});
    return name;
}

void find_repeated(Draft& draft, std::span<const NameId> names) {
    if (names.size() < 2) return;
    const std::span<const Reference> references = std::span(draft.references).last(names.size());
    std::vector<std::uint32_t> order(names.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return names[a] < names[b]; });
    for (std::size_t i = 1; i < order.size(); ++i)
        if (names[order[i]] == names[order[i - 1]])
            draft.fault(references[order[i]].place, in_quotes(draft.names.text(names[order[i]])) + " stands twice in a list");
}

void take_channels(Draft& draft, const Token& token, Channels& channels) {
    const std::uint32_t word = take_word(draft, token, "channel", channel_words);
    if (word == none) return;
    const Channels bits = static_cast<Channels>(word < 3 ? std::uint32_t{position_channels} << (3 * word) : 1U << (word - 3));
    channels = static_cast<Channels>(channels | bits);
    std::uint32_t& seen = draft.frame().seen;
    if ((seen >> word & 1U) != 0) draft.fault(token.place, in_quotes(token.text) + " stands twice in a list");
    seen |= 1U << word;
}

std::uint32_t take_channel(Draft& draft, const Token& token) {
    return take_word(draft, token, "channel", std::span(channel_words).subspan(3));
}

void take_number_entry(Draft& draft, const Token& token) {
    if (const std::uint32_t at = draft.frame().count - 1; at < draft.numbers.size()) draft.numbers[at] = token.number;
}

void open_driver(Draft& draft, const Token& token, Value& value) {
    value.driver = static_cast<DriverId>(draft.rig.drivers.size());
    make_room(draft, token, draft.rig.drivers);
    draft.rig.drivers.emplace_back().place = token.place;
    draft.skipped_inputs = false;
}

namespace {

constexpr Slot number_entry[] = {{.wanted = "a number", .number = take_number_entry}};

}  // namespace

constinit const Shape two_numbers{Shape::Kind::list, "number", number_entry, 2, 2};
constinit const Shape three_numbers{Shape::Kind::list, "number", number_entry, 3, 3};
constinit const Shape four_numbers{Shape::Kind::list, "number", number_entry, 4, 4};

}  // namespace ligament
