// What has to hold of whatever was read?
#pragma once

#include <cstdlib>

#include "ligament/read.hpp"

namespace ligament::fuzz {

/// A rig or faults, never both; faults in the order of their places; and a rig can be written and read again as it is.
inline void expect_rig_or_faults(const ReadResult& result) {
    if (result.rig.has_value() != result.faults.empty()) std::abort();
    for (std::size_t i = 1; i < result.faults.size(); ++i)
        if (result.faults[i].place < result.faults[i - 1].place) std::abort();
    if (!result.rig) return;
    const std::string text = write_rig(*result.rig);
    const ReadResult again = read_rig(text);
    if (!again.rig || write_rig(*again.rig) != text) std::abort();
}

}  // namespace ligament::fuzz
