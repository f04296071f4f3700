// What does one check say about a tiny rig?
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "ligament/checks.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

/// A rig with all that is found in it.
struct Looked {
    Rig rig;
    std::vector<Finding> findings;
};

inline Looked look_at(Rig rig, const Rules& rules = {}) {
    const Dependencies dependencies = build_dependencies(rig);
    std::vector<Finding> findings = find_findings(rig, dependencies, find_facts(rig, dependencies), rules);
    return {std::move(rig), std::move(findings)};
}

inline Looked look_at(std::string_view bones, std::string_view rest = {}) { return look_at(tiny_rig(bones, rest)); }

/// The findings of one check, a line each: "severity message [bones] subject", without its place.
inline std::string found(std::string_view check, const Looked& looked) {
    std::string text;
    for (const Finding& finding : looked.findings) {
        if (finding.check != check) continue;
        text.append(name_of(finding.severity)).append(" ").append(finding.message).append(" [");
        for (std::size_t i = 0; i < finding.bones.size(); ++i)
            text += (i > 0 ? " " : "") + looked.rig.bones[finding.bones[i]].name;
        text += finding.subject.empty() ? "]\n" : "] " + finding.subject + "\n";
    }
    return text;
}

inline std::string found(std::string_view check, std::string_view bones, std::string_view rest = {}) {
    return found(check, look_at(bones, rest));
}

/// The first finding of a check; an empty one when there is none.
inline Finding first_found(std::string_view check, const Looked& looked) {
    for (const Finding& finding : looked.findings)
        if (finding.check == check) return finding;
    return {};
}

}  // namespace ligament::testing
