// How are what a property drives and what moves by it put into columns and onto pages?
#pragma once

#include <string>
#include <vector>

#include "view_switch_rows.hpp"

namespace ligament {

inline constexpr double property_width = 160, trunk_gap = 28;   ///< the capsule; between columns, where combs stand
inline constexpr double target_height = 20, target_pitch = 24;  ///< of a box, and from one to the next
inline constexpr double head_height = 26, line_height = 12, block_gap = 10, card_padding = 8;

/// Where columns stand, left to right, and how wide they are.
struct SwitchPlaces {
    double property = 4;
    double formula = 0, formula_width = 0;
    double target = 0, target_width = 0;
    double words = 0, words_width = 0;
    double bracket = 0, moved = 0, moved_width = 0;
};

inline const std::string target_head = "bone or property";
std::string words_head(const SwitchPlan& plan);

/// As wide as their words want it, as far as the room goes.
SwitchPlaces places_for(const Subject& subject, const SwitchPlan& plan, Room room);

/// Targets [from, to) of one card, on one page.
struct DriveBlock {
    std::size_t card = 0, from = 0, to = 0;
    double y = 0;
};

double card_height(const DriveCard& card, const SwitchPlaces& places);
double height_of(const DriveCard& card, const DriveBlock& block, const SwitchPlaces& places);

/// Blocks page by page, from `head_height` down; at least one page.
std::vector<std::vector<DriveBlock>> flow_blocks(const SwitchPlan& plan, const SwitchPlaces& places, double height);

/// What moves of one group, with the deform bones that are named.
struct MovedCard {
    std::size_t group = 0;  ///< place in SwitchPlan::moved
    std::vector<Row> rows;
    RowGrid grid;
    std::size_t left_out = 0;
    double y = 0;

    double height() const { return line_height + 10 + grid.height() + (left_out ? row_height : 0); }
};

/// Page by page, with as many names as go onto `pages`; where even the groups alone do not, onto more.
std::vector<std::vector<MovedCard>> best_moved(const Subject& subject, const SwitchPlan& plan, double width, double height,
                                               std::size_t pages);

}  // namespace ligament
