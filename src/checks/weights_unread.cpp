// Which skins count wholly as deform bones because their weights could not be read?
#include "words.hpp"

namespace ligament::checks {

namespace {

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    add_remarks(checked.rig, Remark::Kind::weights_unread, self,
                "write them whole and uncompressed, with their buffers in the file or beside it", findings);
}

}  // namespace

extern constinit const Check weights_unread{
    .name = "weights-unread",
    .severity = Severity::warning,
    .summary = "vertex weights could not be read, so that all joints of a skin count as deform bones",
    .what =
        "A joint is a deform bone when some vertex is weighted to it. Where the weights lie in a file that is not there, or are "
        "compressed in a way that is not read, that cannot be told: all joints of the skin count as deform bones then, end tips "
        "and helpers too.",
    .harm = "Verdicts on them may be false alarms.",
    .mend = "Put the buffer beside the file, or write the weights uncompressed.",
    .find = find,
};

}  // namespace ligament::checks
