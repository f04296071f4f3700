#include "control_search.hpp"

namespace ligament {

ControlSearch::ControlSearch(const Rig& rig, const Dependencies& dependencies)
    : rig_(rig),
      dependencies_(dependencies),
      start_of_(dependencies.motion.vertices.size(), none),
      seen_(dependencies.motion.vertices.size()) {
    const Graph& graph = dependencies.motion;
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        if (rig.bones[b].control)
            for (VertexId i = 0; i < pose_count(graph, b); ++i) start_of_[graph.first_of_bone[b] + i] = b;
    for (PropertyId p = 0; p < rig.properties.size(); ++p) {
        const Property& property = rig.properties[p];
        if (property.on != none && !property.is_driven() && rig.bones[property.on].control)
            start_of_[graph.first_property + p] = property.on;
    }
}

void ControlSearch::begin(BoneId bone) {
    seen_.begin();
    going_.clear();
    found_.clear();
    const Arrivals arrivals = arrivals_of(rig_, dependencies_.motion, bone);
    for (VertexId v = arrivals.first; v < arrivals.end; ++v) visit(v);
}

}  // namespace ligament
