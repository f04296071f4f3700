// How do wires run between boxes that stand in rows, so that each can be followed by eye?
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "layout.hpp"
#include "ligament/rig.hpp"

namespace ligament {

/// A box in a table of rows and columns, at the upper left of its cell.
struct WiredBox {
    std::uint32_t row = 0;
    std::uint32_t column = none;  ///< none: behind the box before it in its row. No two boxes share a cell
    double width = 0, height = 0;
    std::vector<double> inlets;  ///< where wires enter at the left side: distances from the top, all different
};

/// Leaves its source at the bottom, enters its target at an inlet from the left.
struct Wire {
    std::uint32_t from = 0, to = 0;  ///< indices of boxes; may be the same
    std::uint32_t inlet = 0;         ///< index into the target's inlets
    std::uint32_t lane = 0;          ///< wires of one source share a trunk where their lanes are the same
};

/// Distances in px.
struct WireRules {
    double pitch = 6;              ///< between wires that run side by side
    double clearance = 9;          ///< from a box to a wire that passes it
    double entry = 15;             ///< from the last wire of a gap to the boxes right of it: room for a turn and a head
    double least_gap = 22;         ///< between the columns, also where no wire runs
    double least_channel = 22;     ///< between the rows
    double width = 0, height = 0;  ///< of the whole: what is left of it makes gaps and channels wider, `most_spread` each
    double most_spread = 40;
    bool few_crossings = true;  ///< false: tracks lie as they were found; sizes are the same
};

/// Where everything is. `nets` tells which wires share trunks.
struct Wiring {
    std::vector<Rect> boxes;
    std::vector<std::vector<Point>> wires;  ///< corner points, from the bottom of the source to the left side of the target
    std::vector<std::uint32_t> nets;        ///< by wire
    double width = 0, height = 0;
};

/// Lays boxes and wires out. A wire goes down into the channel below its source's row, along it, up or down the gap left of its
/// target's column, and into its inlet: never through a box. Wires of one source and lane are one net with a common trunk; so are
/// all wires into an inlet that several nets would enter. No two nets lie on each other: nets that would meet in a channel or gap
/// get tracks of their own (left-edge algorithm, Hashimoto and Stevens, "Wire routing by optimizing channel assignment within
/// large apertures", Design Automation Workshop 1971; from memory), and channels and gaps are as wide as their tracks want.
/// Which track lies next to which is then chosen for few crossings. There are no cycles of vertical constraints: pins stand
/// below boxes, upright tracks between columns.
/// Costs O(W log W) for W wires, plus the square of the tracks of a channel for their order; deterministic.
Wiring lay_wires(std::span<const WiredBox> boxes, std::span<const Wire> wires, const WireRules& rules = {});

/// How many times wires of different nets cross; where several wires of a net run together they count as one.
std::size_t count_crossings(const Wiring& wiring);

}  // namespace ligament
