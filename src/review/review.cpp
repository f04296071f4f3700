// Which findings count?
#include "ligament/review.hpp"

#include <algorithm>
#include <cstdio>
#include <set>

#include "patterns.hpp"

namespace ligament {

namespace {

std::string text_of(Day day) {
    char text[16];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", day.year, day.month, day.day);
    return text;
}

bool fits(const std::string& pattern, const std::string& text) { return pattern.empty() || is_named_by(pattern, text); }

bool is_about(const Acceptance& accepted, const Rig& rig, const Finding& finding) {
    const auto fits_bone = [&](BoneId bone) { return is_named_by(accepted.bones, rig.bones[bone].name); };
    return accepted.check == finding.check && (accepted.rigs.empty() || is_named_by(accepted.rigs, rig.name)) &&
           fits(accepted.subject, finding.subject) && fits(accepted.maker, finding.maker) &&
           (accepted.bones.empty() ||
            (!finding.bones.empty() && std::all_of(finding.bones.begin(), finding.bones.end(), fits_bone)));
}

/// The first that still holds, else the one that ended last, or null.
const Acceptance* acceptance_of(const Rules& rules, const Rig& rig, const Finding& finding, Day today) {
    const Acceptance* ended = nullptr;
    for (const Acceptance& accepted : rules.accepted) {
        if (!is_about(accepted, rig, finding)) continue;
        if (!accepted.until || today <= *accepted.until) return &accepted;
        if (ended == nullptr || *ended->until < *accepted.until) ended = &accepted;
    }
    return ended;
}

/// What a baseline knows of a rig, and which of it was found again.
struct Known {
    const KnownFindings* known;
    std::set<Identity> left;  // not found yet
    std::set<Identity> all;

    explicit Known(const KnownFindings* findings) : known(findings) {
        if (known == nullptr) return;
        all.insert(known->findings.begin(), known->findings.end());
        left = all;
    }
    bool holds(const Identity& identity) {
        left.erase(identity);
        return all.contains(identity);
    }
    std::vector<Identity> gone() const {
        std::vector<Identity> gone;
        if (known == nullptr) return gone;
        for (const Identity& identity : known->findings)
            if (left.contains(identity) && std::find(gone.begin(), gone.end(), identity) == gone.end()) gone.push_back(identity);
        return gone;
    }
};

}  // namespace

Review review_findings(const Rig& rig, std::vector<Finding> findings, const Rules& rules, const KnownFindings* known, Day today) {
    Review review;
    review.has_baseline = known != nullptr;
    Known baseline(known);
    for (Finding& finding : findings) {
        // First: what rules accept is still there, so it is not gone from the baseline.
        const bool is_known = known != nullptr && baseline.holds(identity_of(rig, finding));
        const Acceptance* accepted = acceptance_of(rules, rig, finding, today);
        if (accepted != nullptr && (!accepted->until || today <= *accepted->until)) {
            review.set_aside.push_back({std::move(finding), SetAside::By::rules, accepted->reason});
        } else if (is_known) {
            review.set_aside.push_back({std::move(finding), SetAside::By::baseline, {}});
        } else {
            if (accepted != nullptr)
                finding.hint += std::string(finding.hint.empty() ? "" : "; ") + "it was accepted up to " +
                                text_of(*accepted->until) + " (" + accepted->reason + ") and counts again";
            review.findings.push_back(std::move(finding));
        }
    }
    review.gone = baseline.gone();
    return review;
}

}  // namespace ligament
