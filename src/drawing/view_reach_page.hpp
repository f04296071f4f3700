// Where do lanes and bands go on the pages of who moves what?
#pragma once

#include <vector>

#include "view_reach_bands.hpp"

namespace ligament {

/// Pages that are filled column by column.
struct ReachPages {
    const Subject& subject;
    Room room;
    std::vector<Sheet> sheets;
    std::vector<std::vector<Row>> shown;  ///< by sheet, for the legend
    std::size_t columns = 1, column = 0;
    double width = 0;              ///< of a column
    double top = 0, y = 0;         ///< where columns begin on this sheet, and where the next thing goes
    std::vector<bool> has_arrows;  ///< by sheet

    ReachPages(const Subject& of, Room on);

    Scene& scene() { return sheets.back().scene; }
    double x() const;
    double left() const { return room.height - y; }  ///< height that is left in the column
    void start_sheet();
    void next_column();
    void add_rows(const std::vector<Row>& rows, const RowGrid& grid, Point at);

    /// Says how large the scenes are and what their signs mean.
    void finish();
};

/// Deform bones that are not attached, in the default state or at a stop, with verdict, place and state, and the carried ones.
void add_loose_lane(ReachPages& pages);

/// One limb, on as many columns as it takes.
void add_band(ReachPages& pages, const ReachPlan& plan, const ReachBand& band);

}  // namespace ligament
