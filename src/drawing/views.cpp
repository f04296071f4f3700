// Which views are there?
#include "views.hpp"

#include <array>
#include <unordered_map>

#include "words.hpp"

namespace ligament {

namespace {

constexpr std::array<ViewEntry, view_count> views{{
    {View::plan, "plan", "how the rig is built: one box a group", whole_rig, plan_of_groups},
    {View::group, "group", "how a group is built: its bones, other groups at the border", groups_to_draw, plan_of_group},
    {View::cycle, "cycle", "a cycle, edge by edge, and where it is cut best", cycles_to_draw, plan_of_cycle},
    {View::order, "order", "what is computed when: levels, longest chain, what waits", whole_rig, plan_of_order},
    {View::reach, "reach", "which controls move which deform bones, at which stop", whole_rig, plan_of_reach},
    {View::switches, "switch", "what a property drives, gates and moves", switches_to_draw, plan_of_switch},
    {View::body, "body", "where the bones are at rest, with their verdicts", whole_rig, plan_of_body},
    {View::matrix, "matrix", "what needs what, in the order of evaluation", whole_rig, plan_of_matrix},
}};

constexpr ViewEntry changes{View::change, "change", "what changed between two revisions, with what is beside it", changes_to_draw,
                            plan_of_change};

const ViewEntry& entry_of(View view) { return view == View::change ? changes : views[static_cast<std::size_t>(view)]; }

}  // namespace

std::span<const ViewEntry> all_views() { return views; }
const ViewEntry& change_view() { return changes; }

std::string_view name_of(View view) { return entry_of(view).name; }
std::string_view summary_of(View view) { return entry_of(view).summary; }

std::vector<std::uint32_t> whole_rig(const Subject& subject) {
    return subject.rig.bones.empty() ? std::vector<std::uint32_t>{} : std::vector<std::uint32_t>{0};
}

std::vector<std::string> group_names(const Rig& rig) {
    std::vector<std::string> names;
    std::unordered_map<std::string_view, std::size_t> known;
    for (const Bone& bone : rig.bones)
        if (known.try_emplace(bone.group, names.size()).second) names.push_back(bone.group);
    return names;
}

std::string file_words(std::string_view name) {
    std::string words;
    for (char c : name.substr(0, 40)) {
        const bool fit = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
        words += fit ? c : '-';
    }
    return words;
}

Subject::Subject(const Rig& whole, const Dependencies& needs, const Facts& found, const DrawingOptions& wanted)
    : rig(whole),
      dependencies(needs),
      facts(found),
      options(wanted),
      folded(fold(whole, needs, found)),
      groups(group_names(whole)),
      verdict(whole.bones.size(), nullptr) {
    std::unordered_map<std::string_view, std::uint32_t> places;
    for (std::uint32_t g = 0; g < groups.size(); ++g) places.emplace(groups[g], g);
    for (const Bone& bone : rig.bones) group_of.push_back(places.at(bone.group));
    for (const Attachment& entry : facts.attachment.deform) verdict[entry.bone] = &entry;
    vertices_in.resize(groups.size());
    arrows_at.resize(groups.size());
    for (std::uint32_t v = 0; v < folded.vertices.size(); ++v) {
        const FoldedVertex& vertex = folded.vertices[v];
        const auto place = vertex.kind == VertexKind::bone ? places.find(rig.bones[vertex.element].group)
                                                           : places.find(ligament::group_of(rig, dependencies, vertex));
        const bool is_known = place != places.end();
        group_of_vertex.push_back(is_known ? place->second : none);
        if (is_known) vertices_in[place->second].push_back(v);
    }
    for (std::uint32_t a = 0; a < folded.arrows.size(); ++a) {
        const std::uint32_t from = group_of_vertex[folded.arrows[a].from], to = group_of_vertex[folded.arrows[a].to];
        if (from != none) arrows_at[from].push_back(a);
        if (to != none && to != from) arrows_at[to].push_back(a);
    }
}

}  // namespace ligament
