// Which known name did the writer of an unknown one mean?
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>

namespace ligament {

/// How much looking for nearest names may cost, in cells of distance tables, so that an input full of unknown names cannot stall
/// its reader. A count and no clock: the same input gives the same hints.
struct NearestNameBudget {
    std::uint64_t cells = std::numeric_limits<std::uint64_t>::max();
};

/// The known name nearest to `name`: fewest insertions, deletions, changes and swaps of neighbouring characters (optimal string
/// alignment, over code points), at most a third of the characters of `name`. Ties go to the earlier one. Empty when there is
/// none, or when the budget is used up.
std::string find_nearest_name(std::string_view name, std::span<const std::string_view> known, NearestNameBudget& budget);
std::string find_nearest_name(std::string_view name, std::span<const std::string_view> known);

}  // namespace ligament
