// Where do the columns of the order of evaluation stand on a page?
#pragma once

#include <cstdint>
#include <vector>

#include "view_order_columns.hpp"

namespace ligament {

inline constexpr double margin = 12;          ///< at the sides, where the line of the longest chain turns
inline constexpr double profile_height = 78;  ///< of the bars on top of every sheet
inline constexpr double column_gap = 24;      ///< between levels, for the heads of arrows
inline constexpr double part_gap = 10;        ///< between columns of one level
inline constexpr double band_head = 32;       ///< number and count of a level
inline constexpr double chain_height = 58;    ///< of the row of boxes, at most
inline constexpr double band_gap = 22;        ///< between bands, where the line of the longest chain passes

/// Rows [from, to) of a level; with the level's box of the longest chain where it is the first column of the level.
struct OrderColumn {
    std::uint32_t level = 0;  ///< place in OrderPlan::levels
    std::size_t from = 0, to = 0;
    double width = 0, width_if_continued = 0, width_of_rows = 0;
    double chain = 0;  ///< height that the box takes

    bool is_first() const { return from == 0; }
};

/// Columns side by side.
struct OrderBand {
    std::vector<OrderColumn> columns;
    double chain = 0;  ///< height of the row of boxes
    std::size_t rows = 0;

    double height() const { return band_head + chain + static_cast<double>(rows) * row_height + 4; }
    void add(const OrderColumn& column);
};

/// A piece of a lane.
struct LanePiece {
    std::size_t lane = 0;  ///< place in OrderPlan::lanes
    std::size_t from = 0, to = 0;
    RowGrid grid;
    Rect rect;
};

struct OrderPage {
    std::vector<OrderBand> bands;
    std::vector<LanePiece> lanes;
    double used = 0;  ///< height below the profile
};

/// How wide the columns of a level are, none wider than `widest`.
OrderColumn measured_column(const Subject& subject, const OrderLevel& level, double widest);

/// Puts what stands apart behind the bands, on pages of its own where there is no room.
void add_lanes(const OrderPlan& plan, Room room, std::vector<OrderPage>& pages);

void draw_order_page(const Subject& subject, const OrderPlan& plan, const OrderPage& page, Room room, Sheet& sheet);

}  // namespace ligament
