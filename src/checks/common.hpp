// What do several checks look at alike? Found once a call, for the first that asks.
#pragma once

#include <mutex>
#include <vector>

#include "ligament/checks.hpp"
#include "ligament/sides.hpp"
#include "rest_chains.hpp"

namespace ligament::checks {

/// Each thing is found when it is first asked for; several threads may ask at once. Rig, dependencies and rules have to stay.
class Common {
  public:
    Common(const Rig& rig, const Dependencies& dependencies, const Rules& rules)
        : rig_(rig), dependencies_(dependencies), rules_(rules), frames_(rig) {}

    /// Finds all of it now, in up to so many threads, so that checks in several threads need not wait for each other.
    void find_all(unsigned workers) const;

    const Sides& sides() const;
    const RestFrames& frames() const { return frames_; }
    /// By the thresholds of the rules.
    const std::vector<RestChain>& rest_chains() const;

  private:
    const Rig& rig_;
    const Dependencies& dependencies_;
    const Rules& rules_;
    RestFrames frames_;
    mutable std::once_flag sides_once_, chains_once_;
    mutable Sides sides_;
    mutable std::vector<RestChain> chains_;
};

}  // namespace ligament::checks
