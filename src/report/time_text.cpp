// How is a time written that came out of adding costs up?
#include <array>
#include <charconv>

#include "ligament/report.hpp"

namespace ligament {

std::string time_text(double time) {
    std::array<char, 32> text;
    // Beyond twelve digits stands what adding up has rounded: 0.1 + 0.2 is 0.3.
    const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), time, std::chars_format::general, 12);
    return {text.data(), error == std::errc{} ? end : text.data()};
}

}  // namespace ligament
