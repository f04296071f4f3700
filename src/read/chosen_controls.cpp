#include "chosen_controls.hpp"

#include "patterns.hpp"

namespace ligament {

void choose_controls(ReadResult& result, const std::vector<std::string>& patterns) {
    if (!result.rig || patterns.empty()) return;
    std::vector<bool> is_used(patterns.size(), false);
    for (Bone& bone : result.rig->bones) {
        bone.control = false;
        for (std::size_t i = 0; i < patterns.size(); ++i) {
            if (!is_named_by(patterns[i], bone.name)) continue;
            bone.control = true;
            is_used[i] = true;
        }
    }
    for (std::size_t i = 0; i < patterns.size(); ++i)
        if (!is_used[i])
            result.faults.push_back({{0, 0}, "no bone is called like the controls asked for, \"" + patterns[i] + "\"", {}});
    if (!result.faults.empty()) result.rig.reset();
}

}  // namespace ligament
