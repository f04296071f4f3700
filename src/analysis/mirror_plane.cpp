#include "mirror_plane.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace ligament {

std::optional<MirrorPlane> find_mirror_plane(std::span<const std::pair<Vector3, Vector3>> pairs, double distance) {
    if (pairs.empty()) return {};
    constexpr std::array<unsigned, 3> axes{0, 2, 1};
    const auto fits = [&](const MirrorPlane& plane) {
        return std::count_if(pairs.begin(), pairs.end(), [&](const auto& pair) {
            return distance_between(mirrored_in(plane, pair.first), pair.second) <= distance;
        });
    };
    MirrorPlane best;
    auto most = fits(best);
    const auto try_plane = [&](const MirrorPlane& plane, std::ptrdiff_t at_least) {
        const auto found = fits(plane);
        if (found <= most || found < at_least) return;
        most = found;
        best = plane;
    };
    for (unsigned axis : axes) try_plane({axis, 0}, 1);
    for (unsigned axis : axes) {
        std::vector<double> middles;
        for (const auto& [left, right] : pairs) middles.push_back((left[axis] + right[axis]) / 2);
        const auto middle = middles.begin() + static_cast<std::ptrdiff_t>(middles.size() / 2);
        std::nth_element(middles.begin(), middle, middles.end());
        try_plane({axis, *middle}, 3);
    }
    return best;
}

}  // namespace ligament
