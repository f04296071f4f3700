// How is a dependence of one bone on another said, and who is to blame for it?
#pragma once

#include <string>

#include "ligament/checks.hpp"

namespace ligament::checks {

/// The maker that such a finding is about: the first one on the way. Where that is what an object follows, the next one, which
/// reads the object: that a mesh follows its bones is as it should be.
MakerId deciding_maker(const Dependencies& dependencies, const FoldedEdge& link);

/// "by constraint "mech/seat"", "by driver "jaw/rotation.x" and constraint "lip/follow"".
std::string makers_words(const Checked& checked, const FoldedEdge& link);

/// A finding about the two bones of a link, at the place of its maker, which it names. Without a message.
Finding finding_about_link(const Checked& checked, const Check& check, const FoldedEdge& link);

/// Puts the findings from `first` on in file order: links come in the order of what is read.
void sort_by_place(std::vector<Finding>& findings, std::size_t first);

}  // namespace ligament::checks
