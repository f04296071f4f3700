#include "control_search.hpp"

namespace ligament {

ControlSearch::ControlSearch(const Rig& rig, const Dependencies& dependencies)
    : rig_(rig),
      dependencies_(dependencies),
      start_of_(dependencies.channel.vertices.size(), none),
      seen_(dependencies.channel.vertices.size(), 0) {
    const Graph& channel = dependencies.channel;
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        if (rig.bones[b].control)
            for (VertexId v = channel.first_of_bone[b]; channel.vertices[v].kind == VertexKind::pose; ++v) start_of_[v] = b;
    for (PropertyId p = 0; p < rig.properties.size(); ++p) {
        const Property& property = rig.properties[p];
        if (property.on != none && !property.is_driven() && rig.bones[property.on].control)
            start_of_[channel.first_property + p] = property.on;
    }
}

void ControlSearch::begin(BoneId bone) {
    ++search_;
    going_.clear();
    found_.clear();
    const Arrivals arrivals = arrivals_of(rig_, dependencies_.channel, bone);
    for (VertexId v = arrivals.first; v < arrivals.end; ++v) visit(v);
}

}  // namespace ligament
