// How is a cycle said? As a path from a fixed start, with the kind and maker of each edge, and where it can be broken.
#pragma once

#include "ligament/checks.hpp"

namespace ligament::checks {

/// A finding about one cycle: "a -> b -> a at channel grain (constraint b/track, parent a)", at the place of the first witness
/// edge's maker. It lists the bones of the component; of a loop of properties alone it names the first property as subject.
Finding finding_about_cycle(const Checked& checked, const Check& check, const Cycle& cycle);

/// The witness edge whose maker is the cheapest to give up, the earliest among equals: drivers before constraints and curve
/// handles, these before solvers, parent links and what objects follow last.
const FoldedEdge& cheapest_edge(const Dependencies& dependencies, const Cycle& cycle);

}  // namespace ligament::checks
