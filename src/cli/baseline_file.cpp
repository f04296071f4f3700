#include "baseline_file.hpp"

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "input.hpp"
#include "ligament/whole_file.hpp"
#include "status.hpp"

namespace ligament::cli {

Day today() {
    using namespace std::chrono;
    auto now = floor<days>(system_clock::now());
    if (const char* fixed = std::getenv("SOURCE_DATE_EPOCH")) {
        std::int64_t epoch = 0;
        const char* end = fixed + std::strlen(fixed);
        if (const auto [stop, error] = std::from_chars(fixed, end, epoch); error != std::errc{} || stop != end)
            throw Unusable("SOURCE_DATE_EPOCH: wanted whole seconds since 1970, found \"" + std::string(fixed) + '"');
        now = floor<days>(sys_seconds(seconds(epoch)));
    }
    const year_month_day date(now);
    return {int(date.year()), static_cast<int>(unsigned(date.month())), static_cast<int>(unsigned(date.day()))};
}

Baseline load_baseline(const std::string& file) {
    std::string text;
    if (const std::string reason = read_whole_file(file, std::size_t{1} << 30U, text); !reason.empty())
        throw Unusable(file + ": " + reason);
    BaselineResult result = read_baseline(text);
    print_faults(file, result.faults);
    if (!result.baseline) throw Unusable("");
    return *std::move(result.baseline);
}

std::string source_in(const std::string& file, const std::string& rig_path) {
    if (rig_path == "-") return rig_path;
    std::error_code error;
    const std::filesystem::path folder = std::filesystem::absolute(file, error).lexically_normal().parent_path();
    return std::filesystem::absolute(rig_path, error).lexically_normal().lexically_relative(folder).generic_string();
}

}  // namespace ligament::cli
