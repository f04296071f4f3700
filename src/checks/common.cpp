#include "common.hpp"

namespace ligament::checks {

const Sides& Common::sides() const {
    std::call_once(sides_once_, [this] { sides_ = find_sides(rig_); });
    return sides_;
}

const std::vector<RestChain>& Common::rest_chains() const {
    std::call_once(chains_once_, [this] {
        const Thresholds& thresholds = rules_.thresholds;
        chains_ = find_rest_chains(rig_, dependencies_, frames_, thresholds.rest_distance, thresholds.pole_angle);
    });
    return chains_;
}

}  // namespace ligament::checks
