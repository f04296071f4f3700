#include "words.hpp"

#include <algorithm>

namespace ligament::checks {

std::string quoted(std::string_view name) { return '"' + std::string(name) + '"'; }

std::string listed(const Rig& rig, std::span<const BoneId> bones) {
    const std::size_t shown = std::min(bones.size(), listed_at_most);
    const bool whole = shown == bones.size();
    std::string text;
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) text += whole && i + 1 == shown ? " and " : ", ";
        text += quoted(rig.bones[bones[i]].name);
    }
    if (!whole) text += " (showing " + std::to_string(shown) + " of " + std::to_string(bones.size()) + ")";
    return text;
}

std::string counted(std::size_t number, std::string_view noun) {
    return std::to_string(number) + " " + std::string(noun) + (number == 1 ? "" : "s");
}

std::string edge_words(const Checked& checked, const FoldedEdge& edge) {
    std::string words{name_of(edge.kind)};
    words += " " + name_of(checked.rig, checked.dependencies, edge.maker);
    for (MakerId maker : edge.through) words += " + " + name_of(checked.rig, checked.dependencies, maker);
    return words;
}

Finding finding_of(const Check& check, Place place) {
    Finding finding;
    finding.check = check.name;
    finding.severity = check.severity;
    finding.place = place;
    return finding;
}

Finding finding_about(const Check& check, const Rig& rig, BoneId bone) {
    Finding finding = finding_of(check, rig.bones[bone].place);
    finding.bones = {bone};
    return finding;
}

Finding finding_about_property(const Check& check, const Rig& rig, PropertyId property) {
    Finding finding = finding_of(check, rig.properties[property].place);
    finding.subject = rig.properties[property].name;
    if (rig.properties[property].on != none) finding.bones = {rig.properties[property].on};
    return finding;
}

namespace {

// "/skins/#/skeleton": what stands before it in a list may come and go.
std::string without_indices(std::string_view pointer) {
    std::string text;
    for (std::size_t at = 0; at < pointer.size();) {
        const std::size_t end = std::min(pointer.find('/', at + 1), pointer.size());
        const std::string_view token = pointer.substr(at + 1, end - at - 1);
        const bool is_index = !token.empty() && token.find_first_not_of("0123456789") == std::string_view::npos;
        text.append("/").append(is_index ? std::string_view("#") : token);
        at = end;
    }
    return text;
}

}  // namespace

void add_remarks(const Rig& rig, Remark::Kind kind, const Check& check, std::string_view hint, std::vector<Finding>& findings) {
    for (const Remark& remark : rig.remarks) {
        if (remark.kind != kind) continue;
        Finding& finding = findings.emplace_back(finding_of(check, remark.place));
        finding.message = remark.message;
        if (kind == Remark::Kind::joint_unweighted) finding.message += ": " + listed(rig, remark.bones);
        finding.hint = hint;
        finding.bones = remark.bones;
        finding.pointer = remark.pointer;
        finding.maker = without_indices(remark.pointer);
    }
}

}  // namespace ligament::checks
