#include "gltf_taker.hpp"

#include <cmath>

#include "draft.hpp"

namespace ligament {

namespace {

std::string found_at(const JsonItem& item) {
    return found_text({.type = item.type, .text = item.text, .number = item.number, .flag = item.flag});
}

bool is_spoiled(const JsonItem& item) { return item.type == Token::Type::null && item.flag; }

bool is_whole(const JsonItem& item) {
    constexpr double largest = 9007199254740992.0;  // 2^53: beyond it doubles skip whole numbers
    return item.type == Token::Type::number && item.number >= 0 && item.number <= largest &&
           item.number == std::floor(item.number);
}

}  // namespace

void GltfTaker::fault(std::uint32_t item, std::string message) const {
    faults.add({json[item].place, std::move(message), json.pointer_to(item)});
}

void GltfTaker::remark(std::uint32_t item, std::string message, std::vector<BoneId> bones) const {
    if (remarks.size() > 10 * remark_limit) return;  // enough to tell in the end that there are more than the limit
    remarks.push_back({Remark::Kind::standard_broken, std::move(message), std::move(bones), json[item].place, {}});
}

void GltfTaker::complain(std::uint32_t item, std::string message) const {
    if (is_spoiled(json[item])) return;
    is_strict ? fault(item, std::move(message)) : remark(item, std::move(message));
}

std::uint32_t GltfTaker::member(std::uint32_t object, std::string_view key, Token::Type type, std::string_view wanted) const {
    const std::uint32_t item = json.find(object, key);
    if (item == none || json[item].type == type) return item;
    complain(item, in_quotes(key) + " wants " + std::string(wanted) + ", found " + found_at(json[item]));
    return none;
}

std::string_view GltfTaker::text(std::uint32_t object, std::string_view key) const {
    const std::uint32_t item = member(object, key, Token::Type::text, "a string");
    return item == none ? std::string_view() : json[item].text;
}

bool GltfTaker::is_object(std::uint32_t item, std::string_view noun) const {
    if (json[item].type == Token::Type::object) return true;
    complain(item, std::string(noun) + " is an object, found " + found_at(json[item]));
    return false;
}

std::uint64_t GltfTaker::whole(std::uint32_t object, std::string_view key, std::uint64_t otherwise) const {
    const std::uint32_t item = json.find(object, key);
    if (item == none) return otherwise;
    if (is_whole(json[item])) return static_cast<std::uint64_t>(json[item].number);
    complain(item, in_quotes(key) + " wants a whole number, found " + found_at(json[item]));
    return otherwise;
}

GltfIndex GltfTaker::index(std::uint32_t item, std::size_t size, std::string_view noun) const {
    if (!is_whole(json[item])) {
        complain(item, "the index of a " + std::string(noun) + " is wanted, found " + found_at(json[item]));
        return {none, item};
    }
    if (json[item].number < static_cast<double>(size)) return {static_cast<std::uint32_t>(json[item].number), item};
    complain(item, "there is no " + std::string(noun) + " " + number_text(json[item].number) + ", the file has " +
                       std::to_string(size));
    return {none, item};
}

GltfIndex GltfTaker::index(std::uint32_t object, std::string_view key, std::size_t size, std::string_view noun) const {
    const std::uint32_t item = json.find(object, key);
    return item == none ? GltfIndex{} : index(item, size, noun);
}

std::vector<GltfIndex> GltfTaker::indices(std::uint32_t list, std::size_t size, std::string_view noun) const {
    std::vector<GltfIndex> found;
    for (const std::uint32_t i : json.inside(list))
        if (const GltfIndex to = index(i, size, noun); to.is_given()) found.push_back(to);
    return found;
}

bool GltfTaker::numbers(std::uint32_t object, std::string_view key, std::span<double> to) const {
    const std::uint32_t list = this->list(object, key);
    if (list == none) return false;
    std::size_t count = 0;
    bool is_good = true;
    for (const std::uint32_t i : json.inside(list)) {
        is_good = is_good && json[i].type == Token::Type::number;
        if (count < to.size()) to[count] = json[i].number;
        ++count;
    }
    if (is_good && count == to.size()) return true;
    complain(list, in_quotes(key) + " wants " + std::to_string(to.size()) + " numbers, found " +
                       (is_good ? std::to_string(count) : "something else among them"));
    return false;
}

}  // namespace ligament
