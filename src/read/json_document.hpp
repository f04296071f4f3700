// What does a JSON text hold, where does it stand, and how is it pointed at?
#pragma once

#include <cstdint>
#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "fault_list.hpp"
#include "ligament/rig.hpp"
#include "token.hpp"

namespace ligament {

/// One value. Values stand in the order of the text, those inside a list or object right behind it.
struct JsonItem {
    std::string_view key;   ///< where it stands in an object
    std::string_view text;  ///< a string, decoded
    double number = 0.0;
    Place place;            ///< of the value
    Place key_place;        ///< of its key
    std::uint32_t end = 0;  ///< index of the first item behind it and all that is inside it
    std::uint32_t parent = none;
    std::uint32_t position = 0;  ///< counts the values before it in its parent
    Token::Type type = Token::Type::null;
    bool flag = false;  ///< true, or of type null: a value that is a fault already
};

/// The values in a list or object; each ends where the next one begins.
struct Inside {
    struct Iterator {
        const JsonItem* items = nullptr;
        std::uint32_t at = 0;

        std::uint32_t operator*() const { return at; }
        Iterator& operator++() {
            at = items[at].end;
            return *this;
        }
        friend bool operator==(const Iterator& a, const Iterator& b) { return a.at == b.at; }
    };
    const JsonItem* items = nullptr;
    std::uint32_t first = 0, last = 0;

    Iterator begin() const { return {items, first}; }
    Iterator end() const { return {items, last}; }
};

/// A JSON text as values; the text must outlive it.
struct JsonDocument {
    std::vector<JsonItem> items;
    /// Strings with escapes, decoded. (A list of pieces that stay where they are.)
    std::vector<std::unique_ptr<std::string>> decoded;
    bool is_complete = false;  ///< read to the end of its outermost value

    const JsonItem& operator[](std::uint32_t item) const { return items[item]; }
    /// The values in a list or object, to go over one by one: indices of items. Nothing where it is none, or a scalar.
    Inside inside(std::uint32_t item) const { return item == none ? Inside{} : Inside{items.data(), item + 1, items[item].end}; }
    /// The value at a key of an object, none where there is none or `object` is none or no object. Linear in its keys.
    std::uint32_t find(std::uint32_t object, std::string_view key) const;
    /// find() along several keys.
    std::uint32_t find(std::uint32_t object, std::initializer_list<std::string_view> keys) const;
    /// How many values there are in it. Linear.
    std::uint32_t size_of(std::uint32_t list) const;
    /// Longest pointer that is given. A key may be as long as the text, and all that is wrong below it would say it again.
    static constexpr std::size_t pointer_limit = 2'000;
    /// RFC 6901: "/nodes/3/name"; "" for the whole text, and for what only a longer pointer would find.
    std::string pointer_to(std::uint32_t item) const;
};

/// Reads a whole text. What is wrong with it goes to `faults`, double keys included.
JsonDocument read_json_document(std::string_view text, std::size_t value_limit, FaultList& faults);

}  // namespace ligament
