// Of what do pages of changes consist? One card an element, with lines to what it needs and to what needs it.
#pragma once

#include <string>
#include <vector>

#include "lists.hpp"
#include "scene.hpp"
#include "views.hpp"

namespace ligament {

/// One dependence of an element, in one revision or in both.
struct Tie {
    enum class How : std::uint8_t { kept, added, removed, switched };  ///< switched: inert in one revision alone
    How how = How::kept;
    EdgeKind kind = EdgeKind::parent;
    bool inert = false;
    std::string word;
    std::string hover;
};

/// What an element needs, or what needs it: with a tie a line.
struct Neighbour {
    Shape shape = Shape::mechanism;
    Novelty novelty = Novelty::same;
    std::string name;
    std::string hover;
    About about;
    std::vector<Tie> ties;  ///< none for a stack of several that are told by number
};

struct ChangeCard {
    Shape shape = Shape::mechanism;
    Novelty novelty = Novelty::same;
    std::string name;                ///< "old -> new" where it was renamed
    std::string word;                ///< what it is and what became of it
    std::vector<std::string> lines;  ///< what changed, in words
    std::string hover;
    About about;
    std::vector<Neighbour> needs, needed_by;
};

/// The changes of one group of bones; those without a group stand under an empty name.
struct ChangeGroup {
    std::string name;
    std::uint32_t group = none;  ///< of the rig after
    std::vector<ChangeCard> cards;
    std::vector<Row> renames;  ///< what is as it was but for its name
};

struct ChangePlan {
    std::vector<ChangeGroup> groups;
    std::size_t cards_left_out = 0, renames_left_out = 0;
    std::size_t neighbours_folded = 0;  ///< told by number
};

/// More are not drawn, and the page says so.
inline constexpr std::size_t most_cards = 400, most_renames = 2000;

/// Longer names of renamed elements are cut.
inline constexpr double rename_width = 220;

ChangePlan plan_changes(const Subject& subject);

/// Sheets without title and subtitle.
std::vector<Sheet> draw_change_pages(const ChangePlan& plan, Room room);

/// "heavy: new", "dashed", ...: a sign before the word of what became of an element.
Mark novelty_mark(Novelty novelty, Point middle);

}  // namespace ligament
