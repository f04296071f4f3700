// Has this search been here already? Marks of one search after the other over the same vertices.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

namespace ligament {

/// Two bytes a vertex, where the number of the search would take four: several stand side by side at the peak of memory. Every
/// 65,535 searches all marks are wiped.
class Visits {
  public:
    explicit Visits(std::size_t size = 0) : seen_(size, 0) {}

    /// Begins a new search, that has been nowhere yet.
    void begin() {
        if (++search_ != 0) return;
        std::fill(seen_.begin(), seen_.end(), std::uint16_t{0});
        search_ = 1;
    }
    bool has(std::uint32_t v) const { return seen_[v] == search_; }
    /// Marks it; whether this search comes by for the first time.
    bool enter(std::uint32_t v) {
        if (has(v)) return false;
        seen_[v] = search_;
        return true;
    }

  private:
    std::vector<std::uint16_t> seen_;
    std::uint16_t search_ = 0;
};

}  // namespace ligament
