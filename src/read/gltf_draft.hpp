// How do the nodes of a glTF file become bones?
#pragma once

#include "draft.hpp"
#include "gltf_roles.hpp"

namespace ligament {

struct GltfFindings {
    const Gltf& gltf;
    const JsonDocument& json;
    const GltfTree& tree;
    const Vrm& vrm;
    const GltfRoles& roles;
    const std::vector<std::string>& names;   ///< of nodes, all different
    const std::vector<std::string>& groups;  ///< of nodes
};

/// Fills an empty draft: a bone for each node, in their order, with what VRM says of it and what it carries in `extras.rig`; an
/// object for each skin; and what the outermost object carries. On a bone stand first the constraint of VRM, then what it
/// carries, then its spring, as they are evaluated.
void fill_draft(const GltfFindings& found, Draft& draft);

}  // namespace ligament
