#include "common.hpp"

#include <array>
#include <functional>

#include "side_by_side.hpp"

namespace ligament::checks {

void Common::find_all(unsigned workers) const {
    const std::array<std::function<void()>, 2> works{[this] { sides(); }, [this] { rest_chains(); }};
    do_side_by_side(works, workers);
}

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
