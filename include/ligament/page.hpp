// How can a rig be explored without the program? A report as one HTML file that opens from disk and asks nothing of a network.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <span>
#include <string>
#include <vector>

#include "ligament/drawing.hpp"
#include "ligament/report.hpp"

namespace ligament {

/// All that a page shows. Not to outlive what it refers to.
struct PageContents {
    const Report& report;
    const State& state;                     ///< the one that the report is of, and that the page opens with
    const Drawing& drawing;                 ///< embedded pages of all views; the first one is what the page opens with
    const std::vector<StateTable>& tables;  ///< as find_state_tables gives them in that state
};

/// One HTML document with style, script, data and drawings. Names are data: whatever they hold, nothing of it is run. Same
/// contents, same bytes.
///
/// The page judges no rig. It follows edges, and what weights come to is looked up in tables that are made here, for every
/// combination of the switches that a weight hangs on, as far as there are no more than `weight_rows_limit`.
void write_page(std::ostream& out, const PageContents& contents);

/// Of the weights of one constraint at most so many combinations of stops are worked out; past that, those with one switch off
/// its default.
inline constexpr std::size_t weight_rows_limit = 256;

/// Rigs whose channel grain has more edges than this are followed at bone grain in the page, which then says so.
inline constexpr std::size_t page_edges_limit = 1'000'000;

/// A row of the index of several pages.
struct IndexEntry {
    std::string source;  ///< the path as given
    std::string link;    ///< file name of the page; empty where there is none
    std::string name;    ///< of the rig
    std::size_t bones = 0, deform = 0, controls = 0;
    std::size_t errors = 0, warnings = 0, notes = 0;
    std::string worst;       ///< the first finding of the greatest severity, in words; empty where there is none
    std::string unreadable;  ///< why there is no page
};

/// The entry of a rig that has a page.
IndexEntry index_entry(const Report& report, const std::string& link);

/// An HTML document without scripts: one row a rig.
void write_page_index(std::ostream& out, std::span<const IndexEntry> entries);

}  // namespace ligament
