#include "loss_groups.hpp"

#include <map>

namespace ligament {

std::vector<LossGroup> group_losses(const Cut& cut) {
    std::vector<LossGroup> groups;
    std::map<std::vector<BoneId>, std::size_t> places;
    for (const CutLoss& loss : cut.loses) {
        const auto [place, is_new] = places.emplace(loss.controls, groups.size());
        if (is_new) groups.push_back({loss.controls, {}});
        groups[place->second].bones.push_back(loss.bone);
    }
    return groups;
}

}  // namespace ligament
