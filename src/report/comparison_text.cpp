// What does a person get to read about two revisions? What changed, what it does, findings, and one line to sum up.
#include "comparison_text.hpp"

#include <algorithm>
#include <map>

namespace ligament {

namespace {

struct Writer : ComparisonText {
    // What it does.

    void write_verdicts() {
        if (comparison.verdicts.empty()) return;
        title("deform bones (" + std::to_string(comparison.verdicts.size()) + ")");
        std::vector<const VerdictChange*> changes;
        for (const VerdictChange& change : comparison.verdicts) changes.push_back(&change);
        std::stable_partition(changes.begin(), changes.end(), [](const VerdictChange* change) { return change->is_worse; });
        for (std::size_t i = 0; i < changes.size() && i < most_shown; ++i) line(verdict_text(*changes[i]), 2);
        showing(changes.size(), 2);
    }

    std::string states_text(const std::vector<Worse>& states, const Report& side) const {
        return listed(states, [&](const Worse& worse) {
            return printable(name_of(side.rig, side.facts.switches.switches, worse.settings)) + " (" +
                   std::string(name_of(worse.verdict)) + ")";
        });
    }

    std::string verdict_text(const VerdictChange& change) const {
        std::string text = worse_mark(change.is_worse);
        if (change.is_better && !change.is_worse) text += "better: ";
        text += change.after != none ? bone(change.after, false) : bone(change.before, true);
        if (!change.is)
            return text + (change.after == none ? " is gone, it was " : " does not deform any more, it was ") +
                   std::string(name_of(*change.was));
        if (!change.was) return text + " is a new deform bone and " + std::string(name_of(*change.is));
        std::string said;
        const auto say = [&](const std::string& words) { said += (said.empty() ? " is " : ", ") + words; };
        if (*change.was != *change.is) say(std::string(name_of(*change.is)) + ", was " + std::string(name_of(*change.was)));
        if (!change.lost_in.empty()) say("now lost in " + states_text(change.lost_in, report.after));
        if (!change.no_longer_in.empty()) say("no longer lost in " + states_text(change.no_longer_in, report.before));
        text += said;
        return text;
    }

    void write_cycles() {
        if (comparison.cycles.empty()) return;
        title("cycles (" + std::to_string(comparison.cycles.size()) + ")");
        for (std::size_t i = 0; i < comparison.cycles.size() && i < most_shown; ++i) write_cycle(comparison.cycles[i]);
        showing(comparison.cycles.size(), 2);
    }

    void write_cycle(const CycleChange& change) {
        using How = CycleChange::How;
        const bool gone = change.after == none;
        const Report& side = gone ? report.before : report.after;
        const std::uint32_t place = gone ? change.before : change.after;
        const Cycle& cycle = side.facts.cycles[place];
        std::string text = worse_mark(change.is_worse) + (gone ? "earlier cycle " : "cycle ") + std::to_string(place + 1) + ", " +
                           std::string(name_of(change.how)) + ", at " + std::string(name_of(cycle.grain)) + " grain: ";
        text += cycle.bones.empty() ? listed(cycle.properties,
                                             [&](PropertyId id) { return "property " + printable(side.rig.properties[id].name); })
                                    : bones(cycle.bones, gone);
        line(text, 2);
        if (change.before != none && !gone) {
            if (!change.gained.empty()) line("took in " + bones(change.gained, false), 4);
            if (!change.lost.empty()) line("let go of " + bones(change.lost, true), 4);
            const Grain was = report.before.facts.cycles[change.before].grain;
            if (was != cycle.grain) line("was at " + std::string(name_of(was)) + " grain", 4);
        }
        if (change.is_worse || change.how == How::regrained) write_cycle_text(out, side, place, style, 4);
    }

    void write_order() {
        const OrderChange& order = comparison.order;
        if (order.levels.empty() && order.turned.empty() && order.chain_before == order.chain_after) return;
        title("order of evaluation");
        if (order.chain_before != order.chain_after)
            line("longest chain: " + counted_text(order.chain_after, "bone") + ", was " + std::to_string(order.chain_before), 2);
        if (!order.levels.empty()) line(levels_text(), 2);
        for (std::size_t i = 0; i < order.turned.size() && i < most_shown; ++i) {
            const Turned& pair = order.turned[i];
            line("turned round: " + bone(pair.now_first, false) + " now comes before " + bone(pair.now_then, false), 2);
        }
        showing(order.turned.size(), 2);
    }

    std::string levels_text() const {
        const std::vector<LevelChange>& levels = comparison.order.levels;
        const std::string bones_text = levels.size() == 1 ? "1 bone stands" : std::to_string(levels.size()) + " bones stand";
        return bones_text + " on another level: " + listed(levels, [&](const LevelChange& change) {
                   return bone(change.after, false) + " " + std::to_string(change.was) + " -> " + std::to_string(change.is);
               });
    }

    void write_reach() {
        if (!comparison.deform_reach_listed) {
            title("who moves what");
            line("not looked at: above " + std::to_string(controls_limit) + " bones it is not listed which controls reach a bone",
                 2);
            return;
        }
        // Bones with the same change are told together.
        std::map<std::pair<std::vector<BoneId>, std::vector<BoneId>>, std::size_t> places;
        std::vector<std::vector<const ReachChange*>> alike;
        for (const ReachChange& change : comparison.reach) {
            const auto [found, fresh] = places.emplace(std::pair(change.gained, change.lost), alike.size());
            if (fresh) alike.emplace_back();
            alike[found->second].push_back(&change);
        }
        if (!alike.empty()) title("who moves what (" + counted_text(comparison.reach.size(), "bone") + ")");
        for (std::size_t i = 0; i < alike.size() && i < most_shown; ++i) write_reach_of(alike[i]);
        if (alike.size() > most_shown)
            line("showing " + std::to_string(most_shown) + " of " + std::to_string(alike.size()) + " such changes", 2);
        if (!comparison.other_reach_listed) {
            if (alike.empty()) title("who moves what");
            line("looked at deform bones alone: a rig has more than " + std::to_string(reach_limit) +
                     " pairs of bones and controls",
                 2);
        }
    }

    void write_reach_of(const std::vector<const ReachChange*>& changes) {
        const bool one = changes.size() == 1;
        std::string text =
            listed(changes, [&](const ReachChange* change) { return bone(change->after, false); }) + (one ? " is" : " are");
        const ReachChange& change = *changes.front();
        if (!change.gained.empty()) text += " now also moved by " + bones(change.gained, false);
        if (!change.lost.empty())
            text += std::string(change.gained.empty() ? "" : ", and") + " no longer moved by " + bones(change.lost, true);
        line(text, 2);
    }

    void write_switches() {
        if (comparison.switches.empty()) return;
        title("switches (" + std::to_string(comparison.switches.size()) + ")");
        for (std::size_t i = 0; i < comparison.switches.size() && i < most_shown; ++i)
            line(switch_text(comparison.switches[i]), 2);
        showing(comparison.switches.size(), 2);
    }

    std::string switch_text(const SwitchChange& change) const {
        if (change.after == none)
            return printable(report.before.rig.properties[change.before].name) + " is no switch any more, it gated " +
                   constraints(change.lost, report.before);
        const std::string name = printable(report.after.rig.properties[change.after].name);
        if (change.before == none) return name + " is a new switch, it gates " + constraints(change.gained, report.after);
        std::string text;
        const auto say = [&](const std::string& words) { text += (text.empty() ? " " : ", ") + words; };
        const auto plain = [](const std::string& stop) { return printable(stop); };
        if (!change.gained.empty()) say("now gates " + constraints(change.gained, report.after));
        if (!change.lost.empty()) say("no longer gates " + constraints(change.lost, report.before));
        if (!change.stops_gained.empty()) say("has the new stops " + listed(change.stops_gained, plain));
        if (!change.stops_lost.empty()) say("has no more stops " + listed(change.stops_lost, plain));
        return name + text;
    }

    void write_links() {
        const LinkChanges& links = comparison.links;
        if (links.added.empty() && links.removed.empty()) return;
        title("dependences between bones (" + std::to_string(links.added.size()) + " new, " +
              std::to_string(links.removed.size()) + " gone)");
        std::size_t told = 0;
        for (const bool before : {false, true}) {
            const Report& side = before ? report.before : report.after;
            for (const FoldedEdge& edge : before ? links.removed : links.added) {
                if (told++ >= most_shown) break;
                line(std::string(before ? "- " : "+ ") + bone(edge.from, before) + " -> " + bone(edge.to, before) + ", " +
                         edge_text(side.rig, side.dependencies, edge),
                     2);
            }
        }
        showing(links.added.size() + links.removed.size(), 2);
    }

    void write_findings(const Report& side, const std::vector<std::size_t>& places, const std::string& what) {
        if (places.empty()) return;
        title("findings that are " + what + " (" + std::to_string(places.size()) + ")");
        for (std::size_t i = 0; i < places.size() && i < most_shown; ++i) {
            const Finding& finding = side.findings[places[i]];
            line(place_text(side.source, finding.place) + ": " + std::string(name_of(finding.severity)) + ": " + finding.check +
                     pointer_text(finding.pointer),
                 2);
            line(printable(finding.message), 4);
            if (!finding.hint.empty() && what == "new") line("hint: " + printable(finding.hint), 4);
        }
        showing(places.size(), 2);
    }

    // The line that sums up.

    std::string counts_text() const {
        std::map<Element, std::array<std::size_t, 4>> counts;  // added, removed, renamed, changed
        for (const Change& change : comparison.changes) {
            auto& of = counts[change.element];
            ++of[change.is_added() ? 0 : change.is_removed() ? 1 : change.renamed ? 2 : 3];
        }
        static constexpr std::array<const char*, 4> words{"new", "gone", "renamed", "changed"};
        std::string text;
        for (auto element = counts.rbegin(); element != counts.rend(); ++element) {
            if (element->first == Element::rig) continue;
            std::string one;
            std::size_t all = 0;
            for (std::size_t i = 0; i < words.size(); ++i) {
                if (element->second[i] > 0)
                    one += (one.empty() ? "" : ", ") + std::to_string(element->second[i]) + " " + words[i];
                all += element->second[i];
            }
            std::string noun(name_of(element->first));
            if (all > 1) noun = noun == "property" ? "properties" : noun + "s";
            text += (text.empty() ? "" : "; ") + noun + ": " + one;
        }
        return text;
    }

    void write_summary() {
        const Worsened worse = worsened(report);
        const std::string names = report.before.rig.name == report.after.rig.name
                                      ? printable(report.after.rig.name)
                                      : printable(report.before.rig.name) + " -> " + printable(report.after.rig.name);
        std::string text = names + " (" + printable(report.before.source) + " -> " + printable(report.after.source) + "): ";
        const std::string counts = counts_text();
        text += comparison.is_same() ? "nothing changed" : counts.empty() ? "changed" : counts;
        std::string bad;
        const auto say = [&](std::size_t count, const std::string& words) {
            if (count > 0) bad += (bad.empty() ? "" : ", ") + words;
        };
        say(worse.errors, counted_text(worse.errors, "new error"));
        say(worse.warnings, counted_text(worse.warnings, "new warning"));
        say(worse.verdicts, counted_text(worse.verdicts, "deform bone") + " attached less well");
        say(worse.cycles, counted_text(worse.cycles, "cycle") + " new or grown");
        if (!comparison.is_same() || worse.any()) text += bad.empty() ? "; nothing got worse" : "; worse: " + bad;
        line(text, 0);
    }

    void write() {
        const bool has_findings = !report.findings.added.empty() || !report.findings.gone.empty();
        const bool is_short = comparison.is_same() && !has_findings;
        if (!is_short) out << bold(printable(report.before.source) + " -> " + printable(report.after.source)) << '\n';
        write_changes_text(*this);
        write_verdicts();
        write_cycles();
        write_order();
        write_reach();
        write_switches();
        write_links();
        write_findings(report.after, report.findings.added, "new");
        write_findings(report.before, report.findings.gone, "gone");
        if (!is_short) out << '\n';
        write_summary();
    }
};

}  // namespace

void write_comparison_text(std::ostream& out, const ComparisonReport& report, const TextStyle& style) {
    Writer{{out, report, style}}.write();
}

}  // namespace ligament
