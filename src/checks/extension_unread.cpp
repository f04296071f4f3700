// Which extensions of its format does a file use that say nothing here?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    add_remarks(checked.rig, Remark::Kind::extension_unread, self, "", findings);
}

}  // namespace

extern constinit const Check extension_unread{
    .name = "extension-unread",
    .severity = Severity::note,
    .summary = "extensions of the file format that are not looked at",
    .what = "The file uses extensions of its format that are not looked at.",
    .harm =
        "Those of materials, lights and textures say nothing about a rig. If one of them drives nodes, what it does is missing "
        "in the graph.",
    .mend =
        "Nothing need be done where the extensions say nothing about the rig; else carry what they do in `extras.rig` of the "
        "nodes.",
    .find = find,
};

}  // namespace ligament::checks
