// Which views are there, and what does each put onto its pages?
#pragma once

#include <chrono>
#include <span>
#include <string>
#include <vector>

#include "fold.hpp"
#include "ligament/drawing.hpp"
#include "scene.hpp"

namespace ligament {

struct ChangeSubject;

/// Everything that a view reads.
struct Subject {
    const Rig& rig;
    const Dependencies& dependencies;
    const Facts& facts;
    DrawingOptions options;
    FoldedRig folded;
    std::vector<std::string> groups;                      ///< group_names()
    std::vector<std::uint32_t> group_of;                  ///< by bone: index into groups
    std::vector<const Attachment*> verdict;               ///< by bone; null for bones that do not deform
    std::vector<std::uint32_t> group_of_vertex;           ///< by folded vertex: index into groups; none for what is in no bone's
    std::vector<std::vector<std::uint32_t>> vertices_in;  ///< by group: folded vertices
    std::vector<std::vector<std::uint32_t>> arrows_at;    ///< by group: folded arrows with an end in it
    bool in_rows = false;                                 ///< boxes stand in plain rows: the layout would not end
    const ChangeSubject* change = nullptr;                ///< view change: what it was like before

    Subject(const Rig& rig, const Dependencies& dependencies, const Facts& facts, const DrawingOptions& options);
};

/// A revision before, and what changed since. The subject that refers to it is the rig after.
struct ChangeSubject {
    const Subject& before;
    const Comparison& comparison;
};

/// What a scene may take of a page, in px at which its text may not be made smaller. Scenes smaller than that are made larger.
struct Room {
    double width = 0, height = 0;
};

/// One view. Items are what it is drawn of, a page or more each: groups, cycles, properties; one for views of the whole rig.
struct ViewEntry {
    View view;
    std::string_view name, summary;
    std::vector<std::uint32_t> (*find_items)(const Subject& subject);
    std::vector<Sheet> (*plan)(const Subject& subject, std::uint32_t item, Room room);
};

/// The views of one rig, in the order of View. A new view is a file with these two functions and a line in the table.
std::span<const ViewEntry> all_views();

/// The view of a change, which is no view of one rig.
const ViewEntry& change_view();

/// A part of a name that is fit for a file: letters, digits, - and _ of ASCII, at most 40.
std::string file_words(std::string_view name);

// One file a view.
std::vector<std::uint32_t> whole_rig(const Subject& subject);  ///< one item
std::vector<Sheet> plan_of_groups(const Subject& subject, std::uint32_t item, Room room);
std::vector<std::uint32_t> groups_to_draw(const Subject& subject);
std::vector<Sheet> plan_of_group(const Subject& subject, std::uint32_t item, Room room);
std::vector<std::uint32_t> cycles_to_draw(const Subject& subject);
std::vector<Sheet> plan_of_cycle(const Subject& subject, std::uint32_t item, Room room);
std::vector<Sheet> plan_of_order(const Subject& subject, std::uint32_t item, Room room);
std::vector<Sheet> plan_of_reach(const Subject& subject, std::uint32_t item, Room room);
std::vector<std::uint32_t> switches_to_draw(const Subject& subject);
std::vector<Sheet> plan_of_switch(const Subject& subject, std::uint32_t item, Room room);
std::vector<Sheet> plan_of_body(const Subject& subject, std::uint32_t item, Room room);
std::vector<Sheet> plan_of_matrix(const Subject& subject, std::uint32_t item, Room room);
std::vector<std::uint32_t> changes_to_draw(const Subject& subject);
std::vector<Sheet> plan_of_change(const Subject& subject, std::uint32_t item, Room room);

}  // namespace ligament
