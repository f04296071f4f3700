#include "limits.hpp"

#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>
#include <sstream>
#include <string_view>

#include "status.hpp"
#include "stop.hpp"

#if defined(__SANITIZE_ADDRESS__)
#define LIGAMENT_LIMITS_MEMORY 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LIGAMENT_LIMITS_MEMORY 0
#endif
#endif
#ifndef LIGAMENT_LIMITS_MEMORY
#define LIGAMENT_LIMITS_MEMORY 1
#endif

namespace ligament::cli {

namespace {

constexpr std::string_view unlimited = "none";

struct Unit {
    char letter;
    rlim_t size;
};

constexpr std::array<Unit, 4> sizes{
    {{'K', rlim_t{1} << 10}, {'M', rlim_t{1} << 20}, {'G', rlim_t{1} << 30}, {'T', rlim_t{1} << 40}}};
constexpr std::array<Unit, 3> times{{{'s', 1}, {'m', 60}, {'h', 3600}}};
constexpr double longest = 1e9;  // seconds: 31 years

/// A number and what its unit stands for; 1 where none follows.
template <class Number, class Units>
std::optional<std::pair<Number, rlim_t>> number_and_unit(std::string_view text, const Units& units) {
    Number number{};
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc{} || !(number > 0)) return std::nullopt;
    if (stop == end) return std::pair{number, rlim_t{1}};
    if (stop + 1 != end) return std::nullopt;
    const char letter = *stop;
    const auto unit = std::find_if(units.begin(), units.end(), [&](const Unit& one) { return one.letter == letter; });
    if (unit == units.end()) return std::nullopt;
    return std::pair{number, unit->size};
}

std::optional<rlim_t> bytes_in(std::string_view text) {
    if (text == unlimited) return RLIM_INFINITY;
    const auto found = number_and_unit<rlim_t>(text, sizes);
    if (!found || found->first > (RLIM_INFINITY - 1) / found->second) return std::nullopt;
    return found->first * found->second;
}

/// 0 for no limit.
std::optional<double> seconds_in(std::string_view text) {
    if (text == unlimited) return 0.0;
    const auto found = number_and_unit<double>(text, times);
    if (!found) return std::nullopt;
    const double seconds = found->first * static_cast<double>(found->second);
    return seconds <= longest ? std::optional(seconds) : std::nullopt;
}

std::string fault_in_size(std::string& text) {
    return bytes_in(text) ? "" : "wanted a size such as 512M, 8G or 1000000 (bytes), or none, found \"" + text + '"';
}

std::string fault_in_time(std::string& text) {
    return seconds_in(text) ? ""
                            : "wanted a time up to 1e9 s such as 90 (seconds), 90s, 10m or 1h, or none, found \"" + text + '"';
}

void limit_memory(const std::string& given) {
    const rlim_t wanted = *bytes_in(given);
    const std::string text = std::isdigit(static_cast<unsigned char>(given.back())) ? given + " bytes" : given;
    rlimit now{};
    if (!LIGAMENT_LIMITS_MEMORY || getrlimit(RLIMIT_AS, &now) != 0)
        return set_memory_bound("the system has no more, and this build sets no limit");
    if (now.rlim_cur < wanted)
        return set_memory_bound("the limit is " + std::to_string(now.rlim_cur) + " bytes, set outside and below --max-memory " +
                                text);
    if (wanted == RLIM_INFINITY) return set_memory_bound("the system has no more (--max-memory none)");
    now.rlim_cur = wanted;
    set_memory_bound("the limit is " + text + " (--max-memory)");  // first: after it there may be no memory for words
    if (setrlimit(RLIMIT_AS, &now) != 0) throw Unusable("--max-memory: the system refused the limit " + text);
}

void limit_time(const std::string& text) {
    const double seconds = *seconds_in(text);
    if (seconds <= 0) return;
    std::ostringstream words;
    words.precision(10);
    words << "stopped after " << seconds << " s (--timeout)";
    stop_after(seconds, words.str());
}

}  // namespace

void add_limits(CLI::App& app, Limits& limits) {
    app.add_option("--max-memory", limits.memory,
                   "end where this process, or one that makes a drawing, needs more; none: no limit")
        ->check(CLI::Validator(fault_in_size, ""))
        ->capture_default_str()
        ->type_name("SIZE");
    app.add_option("--timeout", limits.time, "end after so much time, such as 90s, 10m or 1h; none: no limit")
        ->check(CLI::Validator(fault_in_time, ""))
        ->capture_default_str()
        ->type_name("TIME");
}

void keep_limits(const Limits& limits) {
    limit_time(limits.time);
    limit_memory(limits.memory);
}

}  // namespace ligament::cli
