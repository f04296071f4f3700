// Which findings are new since an earlier revision, and which are gone? And what got worse by all that is known?
#include <algorithm>
#include <map>
#include <string>
#include <unordered_map>

#include "ligament/comparison_report.hpp"

namespace ligament {

namespace {

/// Names before in words of the rig after, for what was renamed.
struct Translation {
    const Report& before;
    const Report& after;
    const Matching& matching;
    std::unordered_map<std::string, BoneId> bones;            ///< by name before
    std::unordered_map<std::string, std::string> properties;  ///< renamed ones
    std::unordered_map<std::string, std::string> objects;

    Translation(const Report& old_report, const Report& new_report, const Matching& found)
        : before(old_report), after(new_report), matching(found) {
        for (BoneId bone = 0; bone < before.rig.bones.size(); ++bone) bones.emplace(before.rig.bones[bone].name, bone);
        for (PropertyId id = 0; id < before.rig.properties.size(); ++id)
            if (const PropertyId now = matching.properties.after[id]; now != none)
                properties.emplace(before.rig.properties[id].name, after.rig.properties[now].name);
        for (ObjectId id = 0; id < before.rig.objects.size(); ++id)
            if (const ObjectId now = matching.objects.after[id]; now != none)
                objects.emplace(before.rig.objects[id].name, after.rig.objects[now].name);
    }

    std::string bone(BoneId id) const {
        const BoneId now = matching.bones.after[id];
        return now == none ? before.rig.bones[id].name : after.rig.bones[now].name;
    }

    /// A property, an object or a bone, whatever has the name.
    std::string name(const std::string& old_name) const {
        if (const auto found = properties.find(old_name); found != properties.end()) return found->second;
        if (const auto found = bones.find(old_name); found != bones.end()) return bone(found->second);
        const auto found = objects.find(old_name);
        return found == objects.end() ? old_name : found->second;
    }

    /// What stands behind "bone/" in the name of a maker: a constraint, or a channel.
    std::string part(BoneId bone, const std::string& old_part) const {
        const std::vector<Constraint>& stack = before.rig.bones[bone].constraints;
        for (std::uint32_t i = 0; i < stack.size(); ++i) {
            if (stack[i].name != old_part) continue;
            const ConstraintId now = matching.constraints.after[before.dependencies.first_constraint_of_bone[bone] + i];
            return now == none ? old_part : constraint_of(after.rig, after.dependencies, now).name;
        }
        return old_part;
    }

    std::string maker(const std::string& old_maker) const {
        for (std::size_t slash = old_maker.find('/'); slash != std::string::npos; slash = old_maker.find('/', slash + 1))
            if (const auto found = bones.find(old_maker.substr(0, slash)); found != bones.end())
                return bone(found->second) + "/" + part(found->second, old_maker.substr(slash + 1));
        return name(old_maker);
    }
};

using Counts = std::map<Identity, std::size_t>;

Identity in_any_order(Identity identity) {
    std::sort(identity.bones.begin(), identity.bones.end());
    return identity;
}

std::vector<std::size_t> beyond(const std::vector<Identity>& some, const std::vector<Identity>& others) {
    Counts left;
    for (const Identity& identity : others) ++left[identity];
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < some.size(); ++i) {
        const auto found = left.find(some[i]);
        if (found == left.end() || found->second == 0)
            places.push_back(i);
        else
            --found->second;
    }
    return places;
}

}  // namespace

FindingChanges compare_findings(const Report& before, const Report& after, const Matching& matching) {
    const Translation translation(before, after, matching);
    std::vector<Identity> olds, news;
    for (const Finding& finding : before.findings) {
        Identity identity = identity_of(before.rig, finding);
        for (std::size_t i = 0; i < finding.bones.size(); ++i) identity.bones[i] = translation.bone(finding.bones[i]);
        identity.subject = translation.name(identity.subject);
        identity.maker = translation.maker(identity.maker);
        olds.push_back(in_any_order(std::move(identity)));
    }
    for (const Finding& finding : after.findings) news.push_back(in_any_order(identity_of(after.rig, finding)));
    return {beyond(news, olds), beyond(olds, news)};
}

Worsened worsened(const ComparisonReport& report) {
    Worsened worse;
    for (const std::size_t place : report.findings.added) {
        const Severity severity = report.after.findings[place].severity;
        worse.errors += severity == Severity::error;
        worse.warnings += severity == Severity::warning;
    }
    for (const VerdictChange& change : report.comparison.verdicts) worse.verdicts += change.is_worse;
    for (const CycleChange& change : report.comparison.cycles) worse.cycles += change.is_worse;
    return worse;
}

}  // namespace ligament
