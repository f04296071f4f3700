// Which day of the calendar does a text mean?
#include <charconv>
#include <chrono>

#include "ligament/review.hpp"

namespace ligament {

std::optional<Day> read_day(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
    const auto number = [&](std::size_t from, std::size_t count) {
        int value = -1;
        const char* end = text.data() + from + count;
        const auto [stop, error] = std::from_chars(text.data() + from, end, value);
        return error == std::errc{} && stop == end ? value : -1;
    };
    const Day day{number(0, 4), number(5, 2), number(8, 2)};
    if (day.year < 0 || day.month < 0 || day.day < 0) return {};
    const std::chrono::year_month_day date{std::chrono::year(day.year), std::chrono::month(static_cast<unsigned>(day.month)),
                                           std::chrono::day(static_cast<unsigned>(day.day))};
    return date.ok() ? std::optional(day) : std::nullopt;
}

}  // namespace ligament
