// What does one rules file say?
#include "read_rules.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "draft.hpp"

namespace ligament {

namespace {

struct ThresholdKey {
    std::string_view key;
    double Thresholds::*to;
    double high;
};

constexpr double longest = 1e6, widest = 180;
constexpr std::array<ThresholdKey, 5> threshold_keys{{{"rest_distance", &Thresholds::rest_distance, longest},
                                                      {"rest_angle", &Thresholds::rest_angle, widest},
                                                      {"mirror_distance", &Thresholds::mirror_distance, longest},
                                                      {"straight_angle", &Thresholds::straight_angle, widest},
                                                      {"pole_angle", &Thresholds::pole_angle, widest}}};

struct CostKey {
    std::string_view key;
    std::uint32_t CutCosts::*to;
};

constexpr std::array<CostKey, 6> cost_keys{{{"driver", &CutCosts::driver},
                                            {"constraint", &CutCosts::constraint},
                                            {"curve", &CutCosts::curve_handles},
                                            {"solver", &CutCosts::solver},
                                            {"parent", &CutCosts::parent_link},
                                            {"follows", &CutCosts::follows}}};

constexpr std::array<std::string_view, 4> severity_words{"error", "warning", "note", "off"};
constexpr std::array<std::string_view, 3> role_words{"control", "deform", "mechanism"};

std::vector<std::string_view> names_of_checks() {
    std::vector<std::string_view> names;
    for (const Check& check : all_checks()) names.push_back(check.name);
    return names;
}

/// Reads one file into `said`.
struct Reader {
    const Taker& taker;
    const JsonDocument& json;
    SaidRules& said;
    std::vector<std::string_view> checks = names_of_checks();

    bool is_check(std::uint32_t item, std::string_view name) const {
        if (std::find(checks.begin(), checks.end(), name) != checks.end()) return true;
        taker.unknown(item, "check", name, checks);
        return false;
    }

    void read_severities() const {
        for (const std::uint32_t item : json.inside(taker.member(0, "severities", Token::Type::object, "an object"))) {
            const JsonItem& value = json[item];
            if (!is_check(item, value.key)) continue;
            const auto word = std::find(severity_words.begin(), severity_words.end(), value.text);
            if (value.type != Token::Type::text || word == severity_words.end())
                taker.fault(item, "the severity of a check is \"error\", \"warning\", \"note\" or \"off\", found " +
                                      (value.type == Token::Type::text ? in_quotes(value.text) : "something else"));
            else if (*word == "off")
                said.rules.severities.emplace_back(value.key, std::nullopt);
            else
                said.rules.severities.emplace_back(value.key, *word == "error"     ? Severity::error
                                                              : *word == "warning" ? Severity::warning
                                                                                   : Severity::note);
        }
    }

    void read_thresholds() const {
        std::vector<std::string_view> known{"fan_out"};
        for (const ThresholdKey& entry : threshold_keys) known.push_back(entry.key);
        for (const std::uint32_t item : json.inside(taker.member(0, "thresholds", Token::Type::object, "an object"))) {
            const std::string_view key = json[item].key;
            const auto entry = std::find_if(threshold_keys.begin(), threshold_keys.end(),
                                            [&](const ThresholdKey& one) { return one.key == key; });
            if (key == "fan_out")
                said.fan_out = static_cast<std::size_t>(whole(item, 0, 1e9));
            else if (entry != threshold_keys.end())
                said.thresholds.emplace_back(entry->to, taker.number(item, 0, entry->high, 0));
            else
                taker.unknown(item, "threshold", key, known);
        }
    }

    double whole(std::uint32_t item, double low, double high) const {
        const double number = taker.number(item, low, high, low);
        if (number == std::floor(number)) return number;
        taker.fault(item, in_quotes(json[item].key) + " wants a whole number, found " + number_text(number));
        return low;
    }

    void read_costs() const {
        std::vector<std::string_view> known;
        for (const CostKey& entry : cost_keys) known.push_back(entry.key);
        for (const std::uint32_t item : json.inside(taker.member(0, "costs", Token::Type::object, "an object"))) {
            const auto entry =
                std::find_if(cost_keys.begin(), cost_keys.end(), [&](const CostKey& one) { return one.key == json[item].key; });
            if (entry == cost_keys.end())
                taker.unknown(item, "kind of maker", json[item].key, known);
            else
                said.costs.emplace_back(entry->to, static_cast<std::uint32_t>(whole(item, 1, CutCosts::highest)));
        }
    }

    BonePattern pattern(std::uint32_t object, std::string_view key, std::string_view noun) const {
        BonePattern found;
        const std::uint32_t item = taker.member(object, key, Token::Type::object, "an object", true);
        if (item == none || !taker.is_object(item, noun, {"name", "group", "role"})) return found;
        found.names = taker.texts(item, "name");
        found.groups = taker.texts(item, "group");
        for (const std::string& word : taker.texts(item, "role")) {
            const auto role = std::find(role_words.begin(), role_words.end(), word);
            if (role == role_words.end())
                taker.unknown(json.find(item, "role"), "role", word, role_words);
            else
                found.roles.push_back(static_cast<Role>(role - role_words.begin()));
        }
        return found;
    }

    void read_names() const {
        for (const std::uint32_t item : json.inside(taker.list(0, "names"))) {
            if (!taker.is_object(item, "a rule for names", {"of", "names", "why"})) continue;
            NamePattern& rule = said.rules.names.emplace_back();
            rule.of = pattern(item, "of", "the bones of a rule for names");
            rule.names = taker.texts(item, "names", true);
            if (json.find(item, "names") != none && rule.names.empty())
                taker.fault(item, "a rule for names wants one pattern or more under \"names\"");
            rule.why = taker.text(item, "why");
            rule.place = json[item].place;
        }
    }

    void read_layers() const {
        for (const std::uint32_t item : json.inside(taker.list(0, "layers"))) {
            if (!taker.is_object(item, "a layer rule", {"from", "to", "allow", "require", "why"})) continue;
            LayerRule& rule = said.rules.layers.emplace_back();
            rule.from = pattern(item, "from", "the bones of a layer rule");
            rule.to = pattern(item, "to", "the bones of a layer rule");
            rule.why = taker.text(item, "why");
            rule.place = json[item].place;
            const std::optional<bool> allow = taker.flag(item, "allow"), require = taker.flag(item, "require");
            if ((json.find(item, "allow") != none) == (json.find(item, "require") != none))
                taker.fault(item, "a layer rule has either \"allow\" (true or false) or \"require\" (true)");
            else if (require && !*require)
                taker.fault(json.find(item, "require"), "\"require\" is true or left out, found false");
            rule.says = require                 ? LayerRule::Says::required
                        : allow.value_or(false) ? LayerRule::Says::allowed
                                                : LayerRule::Says::forbidden;
        }
    }

    void read_accepted() const {
        for (const std::uint32_t item : json.inside(taker.list(0, "accepted"))) {
            if (!taker.is_object(item, "an accepted finding", {"check", "rig", "bones", "subject", "maker", "reason", "until"}))
                continue;
            Acceptance& accepted = said.rules.accepted.emplace_back();
            accepted.check = taker.text(item, "check", true);
            if (const std::uint32_t check = json.find(item, "check"); check != none && json[check].type == Token::Type::text)
                is_check(check, accepted.check);
            accepted.rigs = taker.texts(item, "rig");
            accepted.bones = taker.texts(item, "bones");
            accepted.subject = taker.text(item, "subject");
            accepted.maker = taker.text(item, "maker");
            accepted.reason = taker.text(item, "reason", true);
            if (json.find(item, "reason") != none && accepted.reason.find_first_not_of(" \t\n") == std::string::npos)
                taker.fault(json.find(item, "reason"), "an accepted finding wants a reason, found none in it");
            accepted.place = json[item].place;
            const std::string day = taker.text(item, "until");
            accepted.until = read_day(day);
            if (const std::uint32_t until = json.find(item, "until");
                until != none && json[until].type == Token::Type::text && !accepted.until)
                taker.fault(until, "\"until\" wants a day such as \"2027-01-31\", found " + in_quotes(day));
        }
    }
};

}  // namespace

SaidRules read_said_rules(std::string_view text, FaultList& faults) {
    SaidRules said;
    const JsonDocument json = read_desk_file(text, "rules files", 1'000'000, faults);
    const Taker taker{json, faults};
    if (!json.is_complete) return said;
    if (!taker.is_format("rig-rules", "a rules file")) return said;
    taker.is_object(
        0, "a rules file",
        {"format", "version", "extends", "severities", "thresholds", "costs", "roots", "names", "layers", "accepted"});
    for (std::string& path : taker.texts(0, "extends"))
        said.extends.push_back({std::move(path), json[json.find(0, "extends")].place});
    const Reader reader{taker, json, said};
    reader.read_severities();
    reader.read_thresholds();
    reader.read_costs();
    if (json.find(0, "roots") != none) said.rules.roots = taker.texts(0, "roots");
    reader.read_names();
    reader.read_layers();
    reader.read_accepted();
    return said;
}

}  // namespace ligament
