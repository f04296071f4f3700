// What do the parts of the view of a cycle share? The loop as a track, the rest of its component, and what is said of them.
#pragma once

#include <vector>

#include "shapes.hpp"
#include "views.hpp"
#include "word_columns.hpp"

namespace ligament {

/// One maker of a cut, where it is met.
struct CutSign {
    std::size_t number = 0;  ///< from 1, in the cut
    std::uint64_t cost = 0;
    bool finer = false;  ///< of the cut that is enough at the cycle's own grain

    std::string words() const;        ///< "cut 1, costs 2"
    std::string short_words() const;  ///< "cut 1"
};

/// A cycle with its cuts put to the edges of its witness.
struct CycleStory {
    const Subject& subject;
    const Cycle& cycle;
    std::uint32_t index = 0;                       ///< place in Facts::cycles
    const Cut* cut = nullptr;                      ///< null where there is none
    const Cut* finer = nullptr;                    ///< likewise
    std::vector<std::vector<CutSign>> signs;       ///< by edge of the witness
    std::vector<bool> cut_on_loop, finer_on_loop;  ///< by maker of the cut: whether it takes an edge of the witness away

    CycleStory(const Subject& subject, std::uint32_t index);

    std::string name_of_end(std::uint32_t id) const;  ///< drawable; of a bone, or of a property in a loop of properties
};

/// Whether an edge made by `makers` goes when `maker` goes: made by it, or a weight of what it is.
bool is_taken_by(const Dependencies& dependencies, MakerId made_by, MakerId maker);

/// The bones (properties) of the witness that one sheet shows: `count` from `first` on. Where that is not all of them, the one
/// before and the one after stand there as well, faint, and say where they are.
struct TrackPart {
    std::size_t first = 0, count = 0;
    bool is_whole = true;
    std::string before = {}, after = {};  ///< "on sheet 2", "not drawn"
};

/// How many bones of the witness go onto one sheet of that size.
std::size_t track_capacity(const CycleStory& story, Room room);

/// Draws the loop, or a part of it, as a track that is run in the order of its numbers, into the upper left of the scene, and
/// returns what it takes.
Size add_track(Scene& scene, const CycleStory& story, const TrackPart& part, double width);

/// The rest of the component, below each other with its wires, or nothing where it is too large to be followed.
struct RestOfCycle {
    std::vector<std::uint32_t> vertices;  ///< of the folded rig, without the witness's own and what is folded into its edges
    std::vector<std::uint32_t> arrows;    ///< of the folded rig: in the cycle, and not of the witness
};
RestOfCycle find_rest(const CycleStory& story);

/// Draws it below `y`, at most so wide; returns what it takes, {0, 0} where it does not go into `room`.
Size add_rest(Scene& scene, const CycleStory& story, const RestOfCycle& rest, double y, Room room);

/// Everything that is said beside the picture.
std::vector<Said> words_of_cycle(const CycleStory& story, const RestOfCycle& rest, bool rest_drawn);

/// A disc that a number stands in, with a beak in the direction of `along`, and the bars of a cut across a line that runs in the
/// direction of `along`.
void add_number(Scene& scene, Point at, Point along, std::size_t number, const std::string& hover);
void add_cut_bars(Scene& scene, Point at, Point along, bool finer, const std::string& hover, double reach = 11);

/// On the longest piece of a wire, with its words beside it where nothing stands there.
void add_sign_on_wire(Scene& scene, const std::vector<Point>& wire, const CutSign& sign);

}  // namespace ligament
