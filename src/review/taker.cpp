#include "taker.hpp"

#include <algorithm>
#include <cmath>

#include "draft.hpp"
#include "json_scanner.hpp"
#include "nearest_name.hpp"
#include "number.hpp"

namespace ligament {

namespace {

std::string found_at(const JsonItem& item) {
    return found_text({.type = item.type, .text = item.text, .number = item.number, .flag = item.flag});
}

// A value that is a fault already.
bool is_spoiled(const JsonItem& item) { return item.type == Token::Type::null && item.flag; }

}  // namespace

JsonDocument read_desk_file(std::string_view text, std::string_view noun, std::size_t value_limit, FaultList& faults) {
    if (text.starts_with(byte_order_mark)) {
        faults.add({{1, 1}, "byte order mark, " + std::string(noun) + " have none"});
        text.remove_prefix(byte_order_mark.size());
    }
    return read_json_document(text, value_limit, faults);
}

void Taker::fault(std::uint32_t item, std::string message) const {
    if (!is_spoiled(json[item])) faults.add({json[item].place, std::move(message)});
}

bool Taker::is_object(std::uint32_t item, std::string_view noun, std::initializer_list<std::string_view> keys) const {
    if (json[item].type != Token::Type::object) {
        fault(item, std::string(noun) + " is an object, found " + found_at(json[item]));
        return false;
    }
    for (const std::uint32_t at : json.inside(item)) {
        const std::string_view key = json[at].key;
        if (key == "extras" || std::find(keys.begin(), keys.end(), key) != keys.end()) continue;
        const std::string nearest = find_nearest_name(key, {keys.begin(), keys.size()});
        faults.add({json[at].key_place, "unknown key " + in_quotes(key) + " in " + std::string(noun) +
                                            (nearest.empty() ? "" : ", nearest is " + in_quotes(nearest))});
    }
    return true;
}

bool Taker::is_format(std::string_view format, std::string_view noun) const {
    if (json.items.empty()) {
        if (faults.empty()) faults.add({{1, 1}, std::string(noun) + " is an object, found nothing"});
        return false;
    }
    if (json[0].type != Token::Type::object) {
        fault(0, std::string(noun) + " is an object, found " + found_at(json[0]));
        return false;
    }
    const std::uint32_t name = member(0, "format", Token::Type::text, "a string", true);
    if (name != none && json[name].text != format)
        fault(name, "\"format\" of " + std::string(noun) + " is " + in_quotes(format) + ", found " + in_quotes(json[name].text));
    const std::uint32_t version = member(0, "version", Token::Type::number, "the number 1", true);
    if (version != none && json[version].number != 1)
        fault(version, "\"version\" is 1, found " + number_text(json[version].number));
    return name != none && version != none && json[name].text == format && json[version].number == 1;
}

std::uint32_t Taker::member(std::uint32_t object, std::string_view key, Token::Type type, std::string_view wanted,
                            bool is_required) const {
    const std::uint32_t item = json.find(object, key);
    if (item == none) {
        if (is_required) fault(object, in_quotes(key) + " is missing");
        return none;
    }
    if (json[item].type == type) return item;
    fault(item, in_quotes(key) + " wants " + std::string(wanted) + ", found " + found_at(json[item]));
    return none;
}

std::string Taker::text(std::uint32_t object, std::string_view key, bool is_required) const {
    const std::uint32_t item = member(object, key, Token::Type::text, "a string", is_required);
    return item == none ? std::string() : std::string(json[item].text);
}

std::vector<std::string> Taker::texts(std::uint32_t object, std::string_view key, bool is_required) const {
    const std::uint32_t item = json.find(object, key);
    if (item != none && json[item].type == Token::Type::text) return {std::string(json[item].text)};
    const std::uint32_t list = member(object, key, Token::Type::list, "a string or a list of them", is_required);
    std::vector<std::string> found;
    for (const std::uint32_t at : json.inside(list)) {
        if (json[at].type == Token::Type::text)
            found.emplace_back(json[at].text);
        else
            fault(at, in_quotes(key) + " holds strings, found " + found_at(json[at]));
    }
    return found;
}

std::optional<bool> Taker::flag(std::uint32_t object, std::string_view key) const {
    const std::uint32_t item = member(object, key, Token::Type::flag, "true or false");
    return item == none ? std::nullopt : std::optional(json[item].flag);
}

double Taker::number(std::uint32_t item, double low, double high, double otherwise) const {
    const JsonItem& value = json[item];
    if (value.type == Token::Type::number && value.number >= low && value.number <= high) return value.number;
    fault(item, in_quotes(value.key) + " wants a number from " + number_text(low) + " to " + number_text(high) + ", found " +
                    found_at(value));
    return otherwise;
}

void Taker::unknown(std::uint32_t item, std::string_view noun, std::string_view name,
                    std::span<const std::string_view> known) const {
    const std::string nearest = find_nearest_name(name, known);
    faults.add(
        {json[item].key_place.line > 0 ? json[item].key_place : json[item].place,
         "unknown " + std::string(noun) + " " + in_quotes(name) + (nearest.empty() ? "" : ", nearest is " + in_quotes(nearest))});
}

}  // namespace ligament
