// How is a cycle said? As a path from a fixed start, with the kind and maker of each edge, and where it can be broken.
#pragma once

#include "ligament/checks.hpp"

namespace ligament::checks {

/// A finding about one cycle: "a -> b -> a at channel grain (constraint b/track, parent a)", at the place of the first witness
/// edge's maker. It lists the bones of the component; of a loop of properties alone it names the first property as subject.
Finding finding_about_cycle(const Checked& checked, const Check& check, const Cycle& cycle);

/// The cut of a cycle at bone grain, by its place in the facts; null where the facts have none.
const Cut* cut_of(const Checked& checked, std::size_t cycle);

/// "constraint "a/track" and driver "p", together at a cost of 3".
std::string cut_words(const Checked& checked, const Cut& cut);

}  // namespace ligament::checks
