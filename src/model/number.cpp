#include "number.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>

namespace ligament {

namespace {

// std::from_chars says "out of range" for the too large and the too small alike; the place of the first digit that is not 0,
// moved by the exponent, tells them apart.
bool is_large(std::string_view digits) {
    const std::size_t e = digits.find_first_of("eE");
    const std::string_view mantissa = digits.substr(0, e);
    const std::size_t point = std::min(mantissa.find('.'), mantissa.size());
    const std::size_t first = mantissa.find_first_of("123456789");
    if (first == std::string_view::npos) return false;
    const auto place = static_cast<long long>(point) - static_cast<long long>(first);
    long long exponent = 0;
    if (e != std::string_view::npos) {
        std::string_view power = digits.substr(e + 1);
        const bool negative = power.starts_with('-');
        if (negative || power.starts_with('+')) power.remove_prefix(1);
        const auto [end, error] = std::from_chars(power.data(), power.data() + power.size(), exponent);
        if (error != std::errc{}) return !negative;
        if (negative) exponent = -exponent;
    }
    return place > -exponent;
}

}  // namespace

double number_of(std::string_view digits) {
    double number = 0;
    const char* last = digits.data() + digits.size();
    // std::from_chars would take a minus sign, "inf" and "nan" as well.
    if (digits.find_first_of("0123456789.") != 0) return std::numeric_limits<double>::quiet_NaN();
    const auto [end, error] = std::from_chars(digits.data(), last, number);
    if (error == std::errc::result_out_of_range) return is_large(digits) ? std::numeric_limits<double>::infinity() : 0.0;
    if (error != std::errc{} || end != last) return std::numeric_limits<double>::quiet_NaN();
    return number;
}

std::string number_text(double number) {
    std::array<char, 32> text;
    const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), number == 0 ? 0.0 : number);
    return {text.data(), error == std::errc{} ? end : text.data()};
}

}  // namespace ligament
