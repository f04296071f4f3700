// Which bones still carry the constraints of the bone that they were duplicated from?
#include <algorithm>
#include <map>

#include "stack_entry.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

/// What comes of a bone.
struct Feeding {
    bool something = false;  ///< another bone, driver, object or solver takes what is no handle's
    bool curves = false;     ///< another bone is bent by it
};

std::vector<Feeding> find_feeding(const Checked& checked) {
    const Graph& graph = checked.dependencies.bone;
    std::vector<Feeding> feeding(checked.rig.bones.size());
    for (VertexId to = 0; to < graph.vertices.size(); ++to)
        for (const Edge& edge : graph.needs(to)) {
            if (edge.from >= graph.first_property || edge.from == to || checked.dependencies.is_inert(edge)) continue;
            Feeding& of = feeding[edge.from];  // at bone grain the vertices of bones are numbered as they are
            (edge.kind() == EdgeKind::curve ? of.curves : of.something) = true;
        }
    return feeding;
}

bool is_live(const Constraint& constraint) { return !constraint.is_inert(); }

// Bones with nothing but limits are alike without having been copied.
bool reads_something(const Bone& bone) {
    return std::any_of(bone.constraints.begin(), bone.constraints.end(),
                       [](const Constraint& constraint) { return is_live(constraint) && !constraint.sources.empty(); });
}

std::string stack_words(const Bone& bone) {
    std::string words;
    std::size_t shown = 0, all = 0;
    for (const Constraint& constraint : bone.constraints) {
        if (!is_live(constraint) || ++all > listed_at_most) continue;
        words += (shown++ > 0 ? ", " : "") + quoted(constraint.name);
    }
    if (shown < all) words += ", showing " + std::to_string(shown) + " of " + std::to_string(all);
    return words;
}

/// By stack: the first bone with it that is of use. Holds the stacks of possible copies alone, of which most rigs have none.
struct StackLess {
    bool operator()(const Bone* a, const Bone* b) const { return compare_stacks(*a, *b) < 0; }
};
using Originals = std::map<const Bone*, BoneId, StackLess>;

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const std::vector<Feeding> feeding = find_feeding(checked);
    const auto is_of_use = [&](BoneId bone) { return feeding[bone].something || rig.bones[bone].deform; };
    Originals originals;
    std::vector<BoneId> copies;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        if (!is_of_use(bone) && reads_something(rig.bones[bone])) {
            copies.push_back(bone);
            originals.emplace(&rig.bones[bone], none);
        }
    for (BoneId bone = 0; bone < rig.bones.size() && !copies.empty(); ++bone)
        if (is_of_use(bone) && reads_something(rig.bones[bone]))
            if (const auto found = originals.find(&rig.bones[bone]); found != originals.end() && found->second == none)
                found->second = bone;
    for (BoneId bone : copies) {
        const Bone& copy = rig.bones[bone];
        const auto original = originals.find(&copy);
        if (original->second == none) continue;
        const auto first = std::find_if(copy.constraints.begin(), copy.constraints.end(), is_live);
        Finding& finding = findings.emplace_back(finding_of(self, first->place));
        finding.bones = {bone};
        finding.message = quoted(copy.name) + (feeding[bone].curves ? " feeds only curves as a handle" : " feeds nothing") +
                          ", but carries the same stack (" + stack_words(copy) + ") as " +
                          quoted(rig.bones[original->second].name) + ": likely left from duplicating it";
        finding.hint = feeding[bone].curves ? "take its constraints away, so that it moves with its parent as a handle does"
                                            : "take the bone or its constraints away";
    }
}

}  // namespace

extern constinit const Check constraint_leftover{
    .name = "constraint-leftover",
    .severity = Severity::warning,
    .summary =
        "a bone that feeds only curve handles or nothing carries the same stack as another bone: likely left from "
        "duplicating it",
    .what =
        "A bone that is no deform bone feeds nothing, or only bends curves as a handle, and carries the same constraints as a "
        "bone "
        "that is of use. Stacks are the same as for constraint-repeated; those that read nothing, such as limits alone, do not "
        "count.",
    .harm =
        "A bone that is duplicated keeps the constraints of the original. On a handle they fight what it is there for: the curve "
        "bends with the bone that was copied.",
    .mend = "Take the constraints away from the copy.",
    .find = find,
};

}  // namespace ligament::checks
