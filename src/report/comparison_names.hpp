// What are the elements of two revisions called, and where do they stand?
#pragma once

#include <string>

#include "ligament/comparison_report.hpp"

namespace ligament {

/// The name of an element in a revision, as the file has it; empty where it is not there.
std::string element_name(const ComparisonReport& report, const Change& change, bool before);

/// Its place in the file of that revision; 0:0 for a group and the rig.
Place element_place(const ComparisonReport& report, const Change& change, bool before);

/// The group that a change is told in: of a bone or constraint its own, of a property that of the bone that it is on; else empty.
/// As the rig after calls it, of what is gone as the rig before did.
std::string group_of(const ComparisonReport& report, const Change& change);

}  // namespace ligament
