// Which bones of the rig read the deform bones that they should move?
#include "ligament/links.hpp"
#include "link_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    const std::size_t first = findings.size();
    std::vector<bool> is_read, is_reader;
    for (const Bone& bone : rig.bones) {
        is_read.push_back(bone.deform && !bone.control);
        is_reader.push_back((bone.control || !bone.deform) && bone.role_is_stated);
    }
    for (const FoldedEdge& link : find_links(rig, checked.dependencies, is_read, is_reader)) {
        Finding& finding = findings.emplace_back(finding_about_link(checked, self, link));
        const Bone& reader = rig.bones[link.to];
        finding.message = (reader.control ? "control " : "mechanism bone ") + quoted(reader.name) + " depends on deform bone " +
                          quoted(rig.bones[link.from].name) + ", " + makers_words(checked, link);
        finding.hint = "let it read the mechanism bone or control that moves " + quoted(rig.bones[link.from].name);
    }
    sort_by_place(findings, first);
}

}  // namespace

extern constinit const Check deform_feeds_rig{
    .name = "deform-feeds-rig",
    .severity = Severity::warning,
    .summary = "a control or mechanism bone depends on a deform bone",
    .what =
        "Data flows from controls over mechanism bones to deform bones. Here a control or mechanism bone needs a deform bone, "
        "straight or through a property, driver, object or solver. A bone that is deform and control counts as a control. Of a "
        "file that does not state the roles of its bones the readers are left out.",
    .harm =
        "Deform bones go to the engine, where nothing but their motion is kept, and are exchanged when the skin is. What reads "
        "them breaks then, waits for the whole rig to be evaluated, and is the first edge of many a cycle.",
    .mend = "Read the mechanism bone that the deform bone follows.",
    .find = find,
};

}  // namespace ligament::checks
