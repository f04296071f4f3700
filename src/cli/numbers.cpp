#include "numbers.hpp"

#include <charconv>
#include <cstdint>

namespace ligament::cli {

namespace {

template <class Number>
bool is_number(const std::string& text, Number& number) {
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    return error == std::errc{} && stop == end;
}

}  // namespace

CLI::Validator whole_number(std::uint32_t most) {
    const auto fault = [most](std::string& text) -> std::string {
        std::uint32_t number = 0;
        return is_number(text, number) && number <= most
                   ? ""
                   : "wanted a whole number from 0 to " + std::to_string(most) + ", found \"" + text + '"';
    };
    return {fault, ""};
}

CLI::Validator workers() {
    const auto fault = [](std::string& text) -> std::string {
        std::uint32_t number = 0;
        return is_number(text, number) && number > 0 ? "" : "wanted a whole number from 1 to 4294967295, found \"" + text + '"';
    };
    return {fault, ""};
}

CLI::Validator seconds() {
    const auto fault = [](std::string& text) -> std::string {
        double number = 0;
        return is_number(text, number) && number > 0 && number <= 1e6
                   ? ""
                   : "wanted seconds above 0, up to 1e6, found \"" + text + '"';
    };
    return {fault, ""};
}

}  // namespace ligament::cli
