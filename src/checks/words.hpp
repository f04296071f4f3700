// How do findings call things? Names, lists and edges as words, so that all checks speak alike.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "ligament/checks.hpp"

namespace ligament::checks {

/// Lists in a message name at most this many elements and then say how many there are.
inline constexpr std::size_t listed_at_most = 12;

/// "name", as the faults of the reader quote.
std::string quoted(std::string_view name);

/// "a", "b" and "c"; a long list ends in "(showing 12 of 40)".
std::string listed(const Rig& rig, std::span<const BoneId> bones);

/// "1 bone", "2 bones".
std::string counted(std::size_t number, std::string_view noun);

/// "driver crest_lift/rotation.x + slider": the kind of an edge, and its makers in order.
std::string edge_words(const Checked& checked, const FoldedEdge& edge);

/// An empty finding of a check.
Finding finding_of(const Check& check, Place place);

/// A finding about one bone, at the bone's place.
Finding finding_about(const Check& check, const Rig& rig, BoneId bone);

/// A finding about a property: its subject, and the bone that the property is on, if any.
Finding finding_about_property(const Check& check, const Rig& rig, PropertyId property);

/// A finding for each of the rig's remarks of a kind.
void add_remarks(const Rig& rig, Remark::Kind kind, const Check& check, std::string_view hint, std::vector<Finding>& findings);

}  // namespace ligament::checks
