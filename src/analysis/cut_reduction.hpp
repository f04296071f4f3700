// Which part of a cut is plain, and what is left to search? Reductions that change no answer.
#pragma once

#include "cut_problem.hpp"

namespace ligament {

/// A part of a problem that shares no item with the other parts, numbered anew.
struct CutPart {
    CutProblem problem;
    Items items;  ///< by item of the part: its number in the whole problem, ascending
};

struct ReducedCut {
    Items chosen;  ///< that every wanted answer holds
    std::vector<CutPart> parts;
};

/// The wanted answer of the problem is `chosen` together with those of all parts.
///
/// Arcs that lie in no cycle go; a vertex with one arc in or one arc out is taken over by arcs that carry the items of both (a
/// chain of bones becomes one arc); an arc beside one with fewer items goes; an item goes where another one is in all its places
/// and is no dearer, or as dear and earlier; an item that is alone in a set is chosen. These are the contractions of Levy and Low
/// (J. Algorithms 9, 1988), told for arcs with shared items, and the dominance rules of set covering. Near linear: rules that
/// compare all with all are left out where a problem is large.
ReducedCut reduce_cut(CutProblem problem);

}  // namespace ligament
