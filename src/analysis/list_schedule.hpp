// How long do tasks take on so many workers, when each free worker takes the first ready task of a list?
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "rows.hpp"

namespace ligament {

struct ListTime {
    double time = 0;
    bool any_waited = false;  ///< some ready task had to wait for a worker; if none had, more workers take as long
};

/// Graham's list scheduling (Bell System Technical Journal 45, 1966; SIAM J. Applied Mathematics 17, 1969). `needs` are free of
/// cycles, `needed_by` the same reversed. `list` holds every task that takes time, the one to prefer first. What takes no time
/// needs no worker. O(E + T log T) for T tasks.
ListTime find_list_time(const Rows& needs, const Rows& needed_by, std::span<const double> duration,
                        std::span<const std::uint32_t> list, std::uint32_t workers);

}  // namespace ligament
