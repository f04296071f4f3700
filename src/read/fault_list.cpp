#include "fault_list.hpp"

#include <algorithm>

namespace ligament {

std::vector<Fault> FaultList::take() {
    std::stable_sort(faults_.begin(), faults_.end(), [](const Fault& a, const Fault& b) { return a.place < b.place; });
    if (more_ > 0)
        faults_.push_back(
            {faults_.back().place, "and " + std::to_string(more_) + " more faults, listed are " + std::to_string(limit), {}});
    more_ = 0;
    return std::exchange(faults_, {});
}

}  // namespace ligament
