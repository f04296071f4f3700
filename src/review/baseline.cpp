// What was accepted as it was, and how is it kept?
#include <algorithm>
#include <nlohmann/json.hpp>

#include "draft.hpp"
#include "ligament/review.hpp"
#include "taker.hpp"

namespace ligament {

namespace {

using Row = nlohmann::ordered_json;

std::string text_of(const Row& row) { return row.dump(-1, ' ', false, Row::error_handler_t::replace); }

Row row_of(const Identity& identity) {
    Row row;
    row["check"] = identity.check;
    row["bones"] = identity.bones;
    if (!identity.subject.empty()) row["subject"] = identity.subject;
    if (!identity.maker.empty()) row["maker"] = identity.maker;
    return row;
}

Identity identity_at(const Taker& taker, std::uint32_t item) {
    Identity identity;
    identity.check = taker.text(item, "check", true);
    for (const std::uint32_t bone : taker.json.inside(taker.list(item, "bones", true))) {
        if (taker.json[bone].type == Token::Type::text)
            identity.bones.emplace_back(taker.json[bone].text);
        else
            taker.fault(bone, "\"bones\" holds names");
    }
    identity.subject = taker.text(item, "subject");
    identity.maker = taker.text(item, "maker");
    return identity;
}

KnownFindings known_at(const Taker& taker, std::uint32_t item) {
    KnownFindings known;
    known.source = taker.text(item, "source", true);
    for (const std::uint32_t finding : taker.json.inside(taker.list(item, "findings", true)))
        if (taker.is_object(finding, "a finding", {"check", "bones", "subject", "maker"}))
            known.findings.push_back(identity_at(taker, finding));
    return known;
}

}  // namespace

const KnownFindings* Baseline::find(std::string_view source) const {
    const auto found = std::find_if(rigs.begin(), rigs.end(), [&](const KnownFindings& rig) { return rig.source == source; });
    return found == rigs.end() ? nullptr : &*found;
}

void Baseline::put(KnownFindings known) {
    const auto place = std::lower_bound(rigs.begin(), rigs.end(), known.source,
                                        [](const KnownFindings& rig, const std::string& source) { return rig.source < source; });
    if (place != rigs.end() && place->source == known.source)
        *place = std::move(known);
    else
        rigs.insert(place, std::move(known));
}

BaselineResult read_baseline(std::string_view text) {
    FaultList faults;
    const JsonDocument json = read_desk_file(text, "baselines", 50'000'000, faults);
    const Taker taker{json, faults};
    Baseline baseline;
    if (json.is_complete && taker.is_format("rig-baseline", "a baseline")) {
        taker.is_object(0, "a baseline", {"format", "version", "rigs"});
        for (const std::uint32_t item : json.inside(taker.list(0, "rigs", true))) {
            if (!taker.is_object(item, "a rig of a baseline", {"source", "findings"})) continue;
            KnownFindings known = known_at(taker, item);
            if (baseline.find(known.source) != nullptr) taker.fault(item, "rig " + in_quotes(known.source) + " stands twice");
            baseline.put(std::move(known));
        }
    } else if (faults.empty()) {
        faults.add({{1, 1}, "a baseline is an object, found nothing"});
    }
    BaselineResult result;
    result.faults = faults.take();
    if (result.faults.empty()) result.baseline = std::move(baseline);
    return result;
}

std::string write_baseline(const Baseline& baseline) {
    std::string text = "{\n  \"format\": \"rig-baseline\", \"version\": 1,\n  \"rigs\": [";
    for (const KnownFindings& rig : baseline.rigs) {
        text += &rig == &baseline.rigs.front() ? "\n" : ",\n";
        text += "    {\"source\": " + text_of(rig.source) + ", \"findings\": [";
        std::vector<Identity> findings = rig.findings;
        std::sort(findings.begin(), findings.end());
        findings.erase(std::unique(findings.begin(), findings.end()), findings.end());
        for (const Identity& finding : findings)
            text += (&finding == &findings.front() ? "\n      " : ",\n      ") + text_of(row_of(finding));
        text += findings.empty() ? "]}" : "\n    ]}";
    }
    return text + (baseline.rigs.empty() ? "]\n}\n" : "\n  ]\n}\n");
}

}  // namespace ligament
