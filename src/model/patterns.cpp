#include "patterns.hpp"

#include <fnmatch.h>
#include <locale.h>

#include <algorithm>

namespace ligament {

bool is_named_by(const std::string& pattern, const std::string& name) {
    static const locale_t utf8 = newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr);  // null where a system has none: bytes then
    const locale_t before = utf8 == nullptr ? nullptr : uselocale(utf8);
    const bool is_match = fnmatch(pattern.c_str(), name.c_str(), 0) == 0;
    if (before != nullptr) uselocale(before);
    return is_match;
}

bool is_named_by(const std::vector<std::string>& patterns, const std::string& name) {
    return std::any_of(patterns.begin(), patterns.end(), [&](const std::string& pattern) { return is_named_by(pattern, name); });
}

}  // namespace ligament
