// Where does the file break the standard of its format, although the rig can be read?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    add_remarks(checked.rig, Remark::Kind::standard_broken, self,
                "mend it where the file is written: other programs may read another rig out of it", findings);
}

}  // namespace

extern constinit const Check standard_broken{
    .name = "standard-broken",
    .severity = Severity::warning,
    .summary = "the file breaks the standard of its format, though the rig can be read",
    .what =
        "The standard of the file format (glTF 2.0, ISO/IEC 12113:2022, or VRM) forbids what stands here, but the rig can be "
        "read all the same.",
    .harm =
        "Other programs may refuse the file or read another rig out of it: joints without a common root, a skeleton that is no "
        "ancestor of its joints, a node in two springs.",
    .mend = "Mend it where the file is written.",
    .find = find,
};

}  // namespace ligament::checks
