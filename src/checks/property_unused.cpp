// Which properties does nothing read?
#include "words.hpp"

namespace ligament::checks {

namespace {

// A driver inside a disabled constraint still reads: taking the property away would break it.
std::vector<bool> read_properties(const Rig& rig) {
    std::vector<bool> read(rig.properties.size(), false);
    for (const Driver& driver : rig.drivers)
        for (const Input& input : driver.inputs)
            if (input.kind == Input::Kind::property) read[input.property] = true;
    return read;
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const std::vector<bool> read = read_properties(checked.rig);
    for (PropertyId id = 0; id < read.size(); ++id) {
        if (read[id]) continue;
        Finding& finding = findings.emplace_back(finding_about_property(self, checked.rig, id));
        finding.message = "no driver reads property " + quoted(checked.rig.properties[id].name);
        finding.hint = "connect it to what it should steer, or take it away";
    }
}

}  // namespace

extern constinit const Check property_unused{
    .name = "property-unused",
    .severity = Severity::warning,
    .summary = "a property that nothing reads",
    .what = "No driver has this property among its inputs.",
    .harm =
        "Animators find a slider or switch that does nothing, key it all the same, and report a broken rig; or a driver was "
        "meant to read it and reads the property of the limb it was copied from.",
    .mend = "Connect the property, or take it away.",
    .find = find,
};

}  // namespace ligament::checks
