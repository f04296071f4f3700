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

/// Graham's list scheduling (Bell System Technical Journal 45, 1966; SIAM J. Applied Mathematics 17, 1969), made ready for
/// several numbers of workers: what all of them begin with is found once. O(E + T log T) for T tasks, once for each number.
class ListSchedule {
  public:
    /// `needs` are free of cycles, `needed_by` the same reversed; both have to stay. `list` holds every task that takes time, the
    /// one to prefer first. What takes no time needs no worker.
    ListSchedule(const Rows& needs, const Rows& needed_by, std::span<const double> duration, std::vector<std::uint32_t> list);

    ListTime on(std::uint32_t workers) const;

  private:
    const Rows& needed_by_;
    std::vector<std::uint32_t> list_;
    std::vector<double> duration_;            ///< by place in the list
    std::vector<std::uint32_t> place_;        ///< by task: where it stands in the list; none where it takes no time
    std::vector<std::uint32_t> waiting_for_;  ///< by task: needs that are not met at the start
    std::vector<std::uint32_t> ready_;        ///< places of the tasks that wait for nothing at the start
    bool is_even_ = true;                     ///< all tasks in the list take as long
};

}  // namespace ligament
