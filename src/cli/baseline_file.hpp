// Which findings were accepted as they are, and what day is it?
#pragma once

#include <string>

#include "ligament/review.hpp"

namespace ligament::cli {

/// Today, in coordinated universal time. That of SOURCE_DATE_EPOCH where this is set, so that a call can be repeated to the byte
/// (reproducible-builds.org).
Day today();

/// The baseline in a file. Prints what is wrong with it and throws Unusable where it is missing or broken.
Baseline load_baseline(const std::string& file);

/// How a baseline in `file` calls a rig: its path from the folder of that file.
std::string source_in(const std::string& file, const std::string& rig_path);

}  // namespace ligament::cli
