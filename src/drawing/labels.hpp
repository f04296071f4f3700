// Where do the words on the arrows go?
#pragma once

#include <optional>
#include <vector>

#include "layout.hpp"
#include "plan.hpp"

namespace ligament {

inline constexpr double label_size = 9.5;  ///< font size of arrow labels

/// The point of a curve at 0..1 of its pieces.
Point point_at(const Curve& curve, double t);

/// A place for each arrow's word, on its line; none for arrows without a word and where there is no room. No place overlaps a
/// box or another place, and of the free ones along a line the one that covers least of other lines is taken. Arrows in
/// cycles choose first, then in plan order.
std::vector<std::optional<Rect>> place_labels(const Plan& plan, const Layout& layout);

}  // namespace ligament
