// Which controls are root controls because the rules say so?
#include "ligament/review.hpp"
#include "patterns.hpp"

namespace ligament {

void apply_roots(Rig& rig, const Rules& rules) {
    if (!rules.roots) return;
    rig.roots.emplace();
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        if (is_named_by(*rules.roots, rig.bones[bone].name)) rig.roots->push_back(bone);
}

}  // namespace ligament
