// What stands on the card of a group, and how large must it be?
#pragma once

#include <span>
#include <string>
#include <vector>

#include "view_plan_graph.hpp"

namespace ligament {

/// How much a card says.
struct CardStyle {
    std::size_t most_needs = 6;  ///< rows of groups that it needs; past that the rest share one more row
    std::size_t most_switches = 3;
    bool words = true;    ///< roles and kinds in words, not as signs and letters
    bool narrow = false;  ///< a line for each verdict
};

/// Edges by kind, as told on a card.
struct CountText {
    std::string words, letters, total;  ///< "constraint 12, parent 4"; "c12 p4"; "16"
};
CountText count_text(const GroupNeed& need);

/// The letter of count_text, and what it means: "c", "constraint".
std::pair<std::string_view, std::string_view> letter_of(EdgeKind kind);
inline constexpr std::string_view off_letter = "off";

/// A line of a card: left and right text.
struct CardLine {
    std::string left, right;
    Tone tone = Tone::ink;
    bool is_switch = false;   ///< with the sign of a property before it
    bool is_verdict = false;  ///< never cut
    std::string hover;
    About about;
};

/// A row at which wires enter: a card that is needed, or all that have no row of their own.
struct NeedRow {
    std::string name;
    CountText counts;
    std::vector<std::uint32_t> needs;  ///< indices into GroupGraph::needs, one or several
    bool alarm = false;
    std::string hover;
    About about;
};

struct Card {
    Box box;
    std::string name;
    GroupTally tally;
    std::vector<CardLine> lines;  ///< under the name and the roles
    std::vector<NeedRow> needs;
    About about;

    bool has_frame() const { return box.has(Badge::Kind::unattached) || box.has(Badge::Kind::carried); }
};

/// One card each of the graph's, in their order.
std::vector<Card> make_cards(const Subject& subject, const GroupGraph& graph, const CardStyle& style);

/// How high a card is, and how wide it would be with nothing cut but long names.
double height_of(const Card& card);
double wide_enough(const Card& card, bool words);

/// How narrow it may be: less would cut counts and verdicts.
double least_width(const Card& card);

/// Where the wire of a row of needs enters: from the top of the card.
double inlet_of(const Card& card, std::size_t row);

/// How far right of the card's left side its outline is there.
double indent_of_inlet(const Card& card, std::size_t row);

/// Draws the card into the scene: a node with labels and signs in it. Returns the node.
std::uint32_t add_card(Scene& scene, const Card& card, const Rect& rect, const CardStyle& style);

/// The sign of a role: 8 x 8 px.
Mark role_sign(Mark::Look look, Point corner);

/// What hovers over the wire of a need.
std::string hover_of_need(const Subject& subject, const GroupGraph& graph, const GroupNeed& need);

}  // namespace ligament
