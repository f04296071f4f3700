// Is a value of a rules file or baseline what is wanted in its place?
#pragma once

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "json_document.hpp"

namespace ligament {

/// Reads the text of such a file; what is wrong with it as JSON goes to `faults`. `noun`: "rules files".
JsonDocument read_desk_file(std::string_view text, std::string_view noun, std::size_t value_limit, FaultList& faults);

/// Takes values of the JSON, and adds a fault where one is not what is wanted. All functions give something harmless then.
struct Taker {
    const JsonDocument& json;
    FaultList& faults;

    void fault(std::uint32_t item, std::string message) const;
    /// Whether an item is an object that holds these keys alone; `extras` may always stand there. `noun`: "a layer rule".
    bool is_object(std::uint32_t item, std::string_view noun, std::initializer_list<std::string_view> keys) const;
    /// What is wrong with a file that is not of this format.
    bool is_format(std::string_view format, std::string_view noun) const;

    /// The member at a key, none where there is none; a fault where it is missing but `is_required`, or of another type.
    std::uint32_t member(std::uint32_t object, std::string_view key, Token::Type type, std::string_view wanted,
                         bool is_required = false) const;
    std::uint32_t list(std::uint32_t object, std::string_view key, bool is_required = false) const {
        return member(object, key, Token::Type::list, "a list", is_required);
    }
    std::string text(std::uint32_t object, std::string_view key, bool is_required = false) const;
    /// A string, or a list of strings.
    std::vector<std::string> texts(std::uint32_t object, std::string_view key, bool is_required = false) const;
    std::optional<bool> flag(std::uint32_t object, std::string_view key) const;
    /// A number from `low` to `high`.
    double number(std::uint32_t item, double low, double high, double otherwise) const;

    /// "unknown check "cycel", nearest is "cycle"".
    void unknown(std::uint32_t item, std::string_view noun, std::string_view name, std::span<const std::string_view> known) const;
};

}  // namespace ligament
