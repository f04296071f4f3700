// In which order do numbered bones stand along the bone that they take their place from?
#pragma once

#include <vector>

#include "ligament/graph.hpp"

namespace ligament {

/// Two bones of one series, neighbours by their numbers, of which the second does not stand beyond the first.
struct OutOfOrder {
    BoneId segment = none;                     ///< the bone that both read
    ConstraintId before = none, after = none;  ///< by which the one of the lower and of the higher number take their places
    double before_at = 0, after_at = 0;        ///< places along the segment
};

/// A series: bones whose names are equal but for one number, and that read the same bone by the first transform or position
/// constraint of theirs that takes a place from it. At least one stands beyond its base; two that both stand at the base are not
/// told. In file order of the constraints with the higher number.
std::vector<OutOfOrder> find_out_of_order(const Rig& rig, const Dependencies& dependencies);

}  // namespace ligament
