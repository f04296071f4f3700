// How does it look? A rig's architecture as pages of SVG: one question a view, each page small enough to print.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/comparison.hpp"
#include "ligament/facts.hpp"

namespace ligament {

/// What a drawing is to answer.
enum class View : std::uint8_t {
    plan,      ///< how is the rig built? One box a group
    group,     ///< how is one group built? Its bones, other groups at the border
    cycle,     ///< what is circular, and where is it cut best?
    order,     ///< what is computed when?
    reach,     ///< which controls move which deform bones, at which stop of which switch?
    switches,  ///< what does one property drive, gate and move?
    body,      ///< where are the bones at rest?
    matrix,    ///< what needs what, as a table of marks
    change     ///< what changed between two revisions? Drawn by draw_change alone
};
inline constexpr std::size_t view_count = 8;  ///< views of one rig: those before `change`

/// "plan" to "change"; `switches` is "switch".
std::string_view name_of(View view);

/// One line on what the view shows.
std::string_view summary_of(View view);

/// What pages are made for, all in landscape. `automatic` takes A4 where that holds what is to be shown, else A3.
enum class Paper : std::uint8_t { automatic, a4, a3, letter };

struct DrawingOptions {
    View view = View::plan;
    std::optional<std::string> group;  ///< view group: this one (empty: bones in no group) instead of all
    std::optional<BoneId> around;      ///< view group: what lies up to `hops` dependencies from this bone instead
    unsigned hops = 2;
    std::optional<std::size_t> cycle;    ///< view cycle: place in Facts::cycles of the one to draw instead of all
    std::optional<PropertyId> property;  ///< view switch: this one instead of all that drive something
    Paper paper = Paper::automatic;
    std::chrono::milliseconds time_limit{20'000};  ///< for the layout of one page; past it the boxes stand in rows
    unsigned workers = 0;                          ///< pages made at the same time; 0: as many as there are processors
    bool embedded = false;                         ///< for a document that has drawing_style() and drawing_definitions()
};

/// One page. `name` is unique within a drawing and fit for a file name: "plan", "group-03-wing_l", "group-03-wing_l-2".
struct DrawnPage {
    View view = View::plan;
    std::string name;
    std::string title;             ///< as on the page
    std::uint32_t subject = none;  ///< group (place in group_names), cycle or property that it is about
    std::string svg;               ///< a document, or where `embedded` one svg element without style
};

struct Drawing {
    std::vector<DrawnPage> pages;
    std::string notice;              ///< what the reader should know: a time limit that was hit; may be empty
    std::string error;               ///< why there is no drawing
    bool ran_out_of_memory = false;  ///< a layout wanted more than its process may have: a cause of the error, else of a notice
};

/// The groups of a rig in the order of their first bone; "" stands for bones in no group.
std::vector<std::string> group_names(const Rig& rig);

/// Draws one view. The same rig and options give the same bytes on every machine, unless a time limit is hit. No page is too
/// full to read: what does not fit is put on further pages or folded, and the page says so.
/// Pages are made in child processes, so that a layout can be bounded; the caller should not be multi-threaded.
Drawing draw(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const DrawingOptions& options);

/// As draw, several views at once; `options.view` does not matter.
Drawing draw_views(const Rig& rig, const Dependencies& dependencies, const Facts& facts, std::span<const View> views,
                   const DrawingOptions& options);

/// What changed between two revisions: each changed element with what it needs and what needs it, in both. Names and numbers are
/// those of the rig after, of what is gone those of the rig before. Of `options` only paper, time limit and workers
/// matter. Where nothing changed there is one page that says so.
Drawing draw_change(const Revision& before, const Revision& after, const Comparison& comparison, const DrawingOptions& options);

/// Ends the child processes that make pages now; draw then fails, where it goes on at all. For the signal handler of a program
/// that ends, in which it may be called.
void end_layouts() noexcept;

/// The style sheet of embedded drawings: light, dark by the reader's preference, print.
std::string drawing_style();

/// What embedded drawings refer to: one svg element, to stand in the document once.
std::string drawing_definitions();

}  // namespace ligament
