// How is a wing or a leg built? The machinery of a three-bone limb that switches between inverse and forward kinematics.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sketch.hpp"

namespace heron {

/// A limb of three bones below the bone `above` it. All names are given without their side.
struct LimbPlan {
    std::array<std::string, 3> names;
    std::array<Stick, 3> places;  ///< of the left limb
    BoneId above = ligament::none;
    BoneId target = ligament::none;  ///< the control that its end reaches for
    BoneId pole = ligament::none;    ///< the control that its middle joint points to
    PropertyId mode = ligament::none;
};

/// The blended mechanism chain, and the twist bones of the upper and the lower segment.
struct Limb {
    std::array<BoneId, 3> chain{};
    std::array<BoneId, 2> upper_twist{}, lower_twist{};
};

/// Three parallel chains: FK controls, IK bones, and the mechanism chain that takes the IK bone first and the FK control above it
/// in the stack, with a weight that the switch drives (0 = ik, 1 = fk); and two twist bones a segment.
Limb build_limb(Sketch& sketch, const Side& side, const LimbPlan& plan);

/// The deform bones of the limb, the twist bones beside them. Returns those of the three segments.
std::array<BoneId, 3> add_limb_skin(Sketch& sketch, const Side& side, const LimbPlan& plan, const Limb& limb, BoneId parent);

/// Lets a control choose by a switch what it moves along with, as if it were parented there: one space per stop 0, 1, 2...
void add_spaces(Sketch& sketch, BoneId control, PropertyId chooser, const std::vector<ligament::Source>& spaces);

}  // namespace heron
