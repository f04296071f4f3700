// What do the groups of a rig need of each other, counted?
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "views.hpp"

namespace ligament {

inline constexpr std::size_t edge_kind_count = 6;

/// What is in a group.
struct GroupTally {
    std::size_t control = 0, mechanism = 0, deform = 0, both = 0, properties = 0, objects = 0, solvers = 0;
    std::size_t orphaned = 0, root_only = 0, carried = 0;
    std::size_t worse = 0;                ///< deform bones attached less well in some state than in the default one
    std::size_t gaps = 0;                 ///< places that a switch leaves out
    std::size_t inside = 0;               ///< dependencies between members
    std::vector<std::uint32_t> cycles;    ///< from 1, rising
    std::vector<std::uint32_t> switches;  ///< indices into SwitchFacts::switches: those whose property is on a bone of it

    std::size_t bones() const { return control + mechanism + deform + both; }
    void add(const GroupTally& other);
};

/// A group, several that are folded into one, or what belongs to no single group.
struct GroupCard {
    std::string name;                   ///< drawable
    std::vector<std::uint32_t> groups;  ///< indices into Subject::groups; none for objects and for properties on no bone
    std::vector<ObjectId> objects;      ///< those that follow bones of several groups
    GroupTally tally;
    double place = 0;  ///< mean place of its bones in the evaluation order; before all where it has none, objects behind all
};

/// All that one card needs of another.
struct GroupNeed {
    std::uint32_t to = 0, from = 0;                    ///< cards
    std::array<std::size_t, edge_kind_count> live{};   ///< makers by EdgeKind
    std::array<std::size_t, edge_kind_count> inert{};  ///< likewise
    bool cycle = false;                                ///< one cycle runs through both over this
    std::vector<std::uint32_t> examples;               ///< the first arrows in FoldedRig::arrows

    std::size_t live_count() const;
    std::size_t inert_count() const;
    EdgeKind kind() const;  ///< that of most edges, the first of EdgeKind on ties; live ones count where there are any

    static constexpr std::size_t most_examples = 3;
    void add(const GroupNeed& other);
};

struct GroupGraph {
    std::vector<GroupCard> cards;  ///< groups in the order of Subject::groups, then properties on no bone, then objects
    std::vector<GroupNeed> needs;  ///< by `to`, then by `from`, never the same
};

/// Objects that follow bones of several groups: more of them than this share one card.
inline constexpr std::size_t most_object_cards = 4;

/// One card a group. O(n log n) in the folded rig.
GroupGraph build_group_graph(const Subject& subject);

/// A graph with fewer cards, and how it was made, in words.
struct FoldedGroups {
    GroupGraph graph;
    std::string rule;  ///< empty where nothing was folded
};

/// At most `most` cards of groups (others are kept). Folded as little as needed, in this order: groups whose names differ only in
/// side or numbers stand together, neighbours in file order, as few in a card as will do; then those whose names begin with the
/// same word; then the smallest ones, by the group that they need most of; then what is left of these in one card.
FoldedGroups fold_groups(const Subject& subject, const GroupGraph& graph, std::size_t most);

/// By card, from 0: the longest way to it over live needs. Cards that need each other are taken in the order of `place` (ties: in
/// order of the cards), and needs against that order are left out, so that there are no cycles. Objects stand behind everything.
std::vector<std::uint32_t> find_card_levels(const GroupGraph& graph);

/// Cards in the order of `place`, ties in order of the cards.
std::vector<std::uint32_t> cards_by_place(const GroupGraph& graph);

/// The same graph with cards put together: `card_of` by old card, numbered in order of first members; `names` by new card.
GroupGraph join_cards(const GroupGraph& graph, const std::vector<std::uint32_t>& card_of, const std::vector<std::string>& names);

}  // namespace ligament
