// What is wrong with an input, all of it?
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "ligament/finding.hpp"

namespace ligament {

/// Faults in any order. Past a limit they are only counted, so that a file of nothing but faults does not fill the memory.
class FaultList {
  public:
    static constexpr std::size_t limit = 100'000;

    void add(Fault fault) {
        if (faults_.size() < limit)
            faults_.push_back(std::move(fault));
        else
            ++more_;
    }
    bool empty() const { return faults_.empty(); }
    /// All of them in the order of their places, and at the end how many more there are.
    std::vector<Fault> take();

  private:
    std::vector<Fault> faults_;
    std::size_t more_ = 0;
};

}  // namespace ligament
