// What of a part's surroundings stands at the border of its page?
#pragma once

#include <cstdint>
#include <vector>

#include "plan.hpp"
#include "views.hpp"

namespace ligament {

/// A part of the rig for one page: vertices of the folded rig.
struct PagePart {
    std::vector<std::uint32_t> vertices;
    std::vector<bool> whole;        ///< by folded vertex: in what all pages of the item show together
    std::string name;               ///< of that, as in "rest of wing_l"
    std::size_t ports_a_side = 12;  ///< past it the smallest share a port
};

/// A box at the border, for a group or a vertex outside the part.
struct Port {
    bool into_part = false;  ///< the part needs it; else it needs the part
    std::uint32_t box = none;
    std::uint32_t group = none;
};

/// The plan of a part: its own boxes as plan_bones gives them, then the ports, with an arrow for each of its own boxes, kind and
/// direction. Nothing that touches the part is left out; hover titles name all that a port stands for.
struct PartPlan {
    Plan plan;
    FoldedRig folded;  ///< the part; its vertices are the first boxes, in order
    std::vector<Port> ports;
};
PartPlan plan_part(const Subject& subject, const PagePart& part);

}  // namespace ligament
