// What is there on one side and has no mirror on the other?
#include "common.hpp"
#include "side_tokens.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

struct Words {
    const Checked& checked;
    const Check& self;
    const Sides& sides;
    const SideTokens& tokens;

    const Bone& bone_at(BoneId bone) const { return checked.rig.bones[bone]; }

    Finding about(const Unpaired& unpaired) const {
        switch (unpaired.what) {
            case Unpaired::What::property:
                return about_property(unpaired.element);
            case Unpaired::What::constraint:
                return about_constraint(unpaired.element, bone_at(unpaired.element).constraints[unpaired.index]);
            case Unpaired::What::driver:
                return about_driver(unpaired.element, bone_at(unpaired.element).channels[unpaired.index]);
            case Unpaired::What::bone:
                break;
        }
        Finding finding = finding_about(self, checked.rig, unpaired.element);
        finding.message = lonely("bone", bone_at(unpaired.element).name);
        finding.hint = "mirror it, or take the side out of its name";
        return finding;
    }

  private:
    std::string lonely(std::string_view noun, const std::string& name) const {
        return std::string(noun) + " " + quoted(name) + " has no mirror on the other side: there is no " + std::string(noun) +
               " " + quoted(tokens.look_at(name).mirrored);
    }

    Finding about_property(PropertyId property) const {
        Finding finding = finding_about_property(self, checked.rig, property);
        finding.message = lonely("property", checked.rig.properties[property].name);
        finding.hint = "mirror it, or take the side out of its name";
        return finding;
    }

    Finding about_constraint(BoneId bone, const Constraint& constraint) const {
        Finding finding = finding_of(self, constraint.place);
        finding.bones = {bone};
        finding.maker = bone_at(bone).name + "/" + constraint.name;
        const std::string partner = quoted(bone_at(sides.bones[bone].partner).name);
        finding.message = "constraint " + quoted(finding.maker) + " has no mirror on the other side: " + partner +
                          " has no such " + std::string(name_of(constraint.kind)) + " constraint";
        finding.hint = "give " + partner + " its mirror, or take it away";
        return finding;
    }

    Finding about_driver(BoneId bone, const ChannelValue& entry) const {
        Finding finding = finding_of(self, entry.place);
        finding.bones = {bone};
        finding.maker = bone_at(bone).name + "/" + std::string(channel_name(entry.channel));
        const std::string partner = quoted(bone_at(sides.bones[bone].partner).name);
        finding.message = "the driver of channel " + quoted(finding.maker) + " has no mirror on the other side: nothing drives " +
                          std::string(channel_name(entry.channel)) + " of " + partner;
        finding.hint = "drive it there as well, or take the driver away";
        return finding;
    }
};

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Sides& sides = checked.common.sides();
    if (!sides.is_any()) return;
    const SideTokens tokens(checked.rig);
    const Words words{checked, self, sides, tokens};
    for (const Unpaired& unpaired : find_unpaired(checked.rig, sides)) findings.push_back(words.about(unpaired));
}

}  // namespace

extern constinit const Check side_unpaired{
    .name = "side-unpaired",
    .severity = Severity::warning,
    .summary = "a bone, property, constraint or driven channel of one side without its mirror on the other",
    .what =
        "Something stands on one side alone: a bone or property whose name has the token of a side, without one of the mirrored "
        "name; a constraint or a driven channel of a bone whose partner has none like it. Constraints are paired by kind and "
        "sources before they are paired by name or place. What is there on both sides, but not alike, is told by side-differs.",
    .harm =
        "The sides are not the same rig: a pose copied to the other side falls short of it, and the tools of animators that swap "
        "sides by name stop or skip the bone.",
    .mend = "Mirror it anew, or take the side out of the name of what is there once.",
    .find = find,
};

}  // namespace ligament::checks
