// Of what parts is the marsh heron? Each adds its bones to the sketch; they are called in this order.
#pragma once

#include "sketch.hpp"

namespace heron {

/// The world control, the trunk, the crop and the tail.
void add_body(Sketch& sketch);

/// The neck along two bent bones.
void add_neck(Sketch& sketch);

/// Head, beak, eyes, lids and crest, with the sliders that drive them.
void add_head(Sketch& sketch);

void add_wing(Sketch& sketch, const Side& side);

void add_leg(Sketch& sketch, const Side& side);

/// The meshes that follow the deform bones.
void add_skin(Sketch& sketch);

/// The whole bird: about 0.9 m tall, facing +Z, one metre and a half from wing to wing.
ligament::Rig build_heron();

/// The same bird with the classic faults that heron-faulty.md lists.
ligament::Rig build_faulty_heron();

/// The clean bird as it was a week ago: other names, three bones less and one more, and what has been mended since.
ligament::Rig build_heron_before();

/// Takes back what was done in that week.
void go_back_a_week(Sketch& sketch);

/// Plants those faults.
void plant_faults(Sketch& sketch);

/// Both sides, the left one first.
const std::vector<Side>& both_sides();

}  // namespace heron
