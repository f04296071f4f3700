// Which known name did the writer of an unknown one mean?
#include "nearest_name.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace ligament {

namespace {

// Code points of UTF-8; bytes that are none stand for themselves.
void decode(std::string_view text, std::u32string& out) {
    out.clear();
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t length = lead < 0x80U ? 1 : (lead >> 5U) == 6 ? 2 : (lead >> 4U) == 14 ? 3 : (lead >> 3U) == 30 ? 4 : 1;
        char32_t point = length == 1 ? lead : lead & (0x7FU >> length);
        for (std::size_t k = 1; k < length && i + k < text.size(); ++k)
            point = (point << 6U) | (static_cast<unsigned char>(text[i + k]) & 0x3FU);
        out += point;
        i += length;
    }
}

// Distance tables of three rows, kept from one pair of names to the next.
struct Rows {
    std::vector<std::uint32_t> before_last, last, current;
};

// The optimal string alignment distance, or limit + 1 where it is larger. Only cells within `limit` of the diagonal are looked at
// (Ukkonen, Information and Control 64, 1985).
std::uint32_t distance(const std::u32string& a, const std::u32string& b, std::uint32_t limit, Rows& rows) {
    const std::uint32_t beyond = limit + 1;
    rows.before_last.assign(b.size() + 1, beyond);
    rows.last.assign(b.size() + 1, beyond);
    rows.current.assign(b.size() + 1, beyond);
    for (std::uint32_t j = 0; j <= std::min<std::size_t>(b.size(), limit); ++j) rows.last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        const std::size_t low = i > limit ? i - limit : 0;
        const std::size_t high = std::min(b.size(), i + limit);
        std::fill(rows.current.begin(), rows.current.end(), beyond);
        if (low == 0) rows.current[0] = static_cast<std::uint32_t>(i);
        std::uint32_t least = rows.current[0];
        for (std::size_t j = std::max<std::size_t>(low, 1); j <= high; ++j) {
            std::uint32_t cell = rows.last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
            cell = std::min({cell, rows.last[j] + 1, rows.current[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                cell = std::min(cell, rows.before_last[j - 2] + 1);
            rows.current[j] = std::min(cell, beyond);
            least = std::min(least, rows.current[j]);
        }
        if (least > limit && i > 1) return beyond;
        std::swap(rows.before_last, rows.last);
        std::swap(rows.last, rows.current);
    }
    return rows.last[b.size()];
}

using Histogram = std::array<std::int32_t, 64>;

Histogram histogram_of(const std::u32string& text) {
    Histogram counts{};
    for (const char32_t c : text) ++counts[c % 64];
    return counts;
}

// A lower bound: every change of one name mends at most one missing and one left-over character.
std::uint32_t bag_distance(const Histogram& wanted, const std::u32string& text) {
    Histogram counts = wanted;
    for (const char32_t c : text) --counts[c % 64];
    std::int32_t missing = 0, left_over = 0;
    for (const std::int32_t count : counts) (count > 0 ? missing : left_over) += count;
    return static_cast<std::uint32_t>(std::max(missing, -left_over));
}

}  // namespace

std::string find_nearest_name(std::string_view name, std::span<const std::string_view> known, NearestNameBudget& budget) {
    std::u32string wanted, candidate;
    decode(name, wanted);
    const Histogram counts = histogram_of(wanted);
    std::string_view nearest;
    auto limit = static_cast<std::uint32_t>(wanted.size() / 3);
    Rows rows;
    for (const std::string_view other : known) {
        if (limit == 0 || budget.cells == 0) break;
        budget.cells -= std::min<std::uint64_t>(budget.cells, 16);
        if (other.size() + std::size_t{4} * limit < wanted.size() || other.size() > 4 * (wanted.size() + limit)) continue;
        decode(other, candidate);
        const std::size_t longer = std::max(wanted.size(), candidate.size()), shorter = std::min(wanted.size(), candidate.size());
        if (longer - shorter > limit || bag_distance(counts, candidate) > limit) continue;
        budget.cells -= std::min<std::uint64_t>(budget.cells, wanted.size() * (candidate.size() + 1));
        const std::uint32_t found = distance(wanted, candidate, limit, rows);
        if (found > limit) continue;
        nearest = other;
        limit = found == 0 ? 0 : found - 1;
    }
    return std::string(nearest);
}

std::string find_nearest_name(std::string_view name, std::span<const std::string_view> known) {
    NearestNameBudget budget;
    return find_nearest_name(name, known, budget);
}

}  // namespace ligament
