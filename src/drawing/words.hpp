// What do a drawing's labels and hover titles say?
#pragma once

#include <string>
#include <vector>

#include "fold.hpp"

namespace ligament {

/// "1 bone", "2 bones".
std::string number_of(std::size_t count, const std::string& noun);

/// ", line 12:5", or nothing for what did not come from a file.
std::string at_place(Place place);

/// The drawable name of a folded vertex, whole.
std::string name_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex);

/// The group that a folded vertex stands in, empty for none: a bone's own, of a property that of the bone it is on, of a solver
/// that of its owner, of an object the one that all the bones it follows share.
std::string group_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex);

/// The label of an arrow: what kind of constraint, which channel, "weight"; empty for a parent link.
std::string label_of(const Rig& rig, const Dependencies& dependencies, const FoldedRig& folded, const FoldedArrow& arrow);

/// From, to, kind and every maker with its place, a line each.
std::string hover_of(const Rig& rig, const Dependencies& dependencies, const FoldedRig& folded, const FoldedArrow& arrow);

/// Name, role, group, verdict, stack and place, a line each. `attachment` may be null.
std::string hover_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex, const Attachment* attachment);

/// The lines under the title: counts, and what is wrong.
std::vector<std::string> subtitle_of(const Rig& rig, const Dependencies& dependencies, const Facts& facts,
                                     const FoldedRig& folded);

}  // namespace ligament
