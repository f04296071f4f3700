// What is wrong with the bones on the body, and what is said beside the picture?
#include <algorithm>
#include <charconv>

#include "lists.hpp"
#include "text.hpp"
#include "view_body.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t groups_said = 24;

/// Smaller is worse.
enum class Rank : std::uint8_t { unattached, worse, in_cycle, carried, fine };

struct Found {
    BodyFinding finding;
    Rank rank = Rank::fine;
};

void add_words(std::string& words, const std::string& more) { words += (words.empty() ? "" : "; ") + more; }

void judge(const Subject& subject, const Attachment& attachment, std::span<const std::vector<Worse>> worse, Found& found) {
    if (attachment.verdict != Verdict::attached) {
        add_words(found.finding.words, std::string(name_of(attachment.verdict)));
        found.finding.unattached = attachment.verdict != Verdict::carried;
        found.rank = found.finding.unattached ? Rank::unattached : Rank::carried;
    }
    std::size_t states = 0;
    for (const std::vector<Worse>& list : worse) states += list.size();
    for (const std::vector<Worse>& list : worse) {
        if (list.empty() || list.front().verdict == attachment.verdict) continue;
        add_words(found.finding.words,
                  std::string(name_of(list.front().verdict)) + " at " +
                      isolated(drawable(name_of(subject.rig, subject.facts.switches.switches, list.front().settings))) +
                      (states > 1 ? " and " + std::to_string(states - 1) + " more" : ""));
        found.rank = std::min(found.rank, Rank::worse);
        break;
    }
}

void say_findings(const Body& body, std::vector<Said>& lines) {
    const Subject& subject = body.subject;
    if (body.findings.empty()) {
        lines.push_back(heading("nothing found"));
        lines.push_back(said("no bone lies in a cycle, and all deform bones are attached"));
        return;
    }
    lines.push_back(heading(number_of(body.findings.size(), "bone") + " to look at"));
    if (body.findings.size() > most_numbered)
        lines.push_back(
            said("in the picture the first " + std::to_string(most_numbered) + " are numbered, all are ringed", 0, Tone::quiet));
    for (std::size_t i = 0; i < body.findings.size(); ++i) {
        const BodyFinding& finding = body.findings[i];
        const Bone& bone = subject.rig.bones[finding.bone];
        Said line = said(std::to_string(i + 1) + " " + isolated(cut_in_middle(drawable(bone.name), 9.5, 150)) + ": " +
                         finding.words + at_place(bone.place));
        line.tone = finding.alarming ? Tone::ink : Tone::quiet;
        line.before = 2;
        line.hover = hover_of(subject, finding.bone);
        line.about = {About::Kind::bone, finding.bone};
        if (!body.places[finding.bone].is_known) line.words += ", not drawn: beyond 1e100 m";
        lines.push_back(std::move(line));
    }
}

void say_groups(const Body& body, const std::vector<bool>& named, std::vector<Said>& lines) {
    const Subject& subject = body.subject;
    std::vector<std::size_t> members(subject.groups.size());
    for (BoneId bone : body.shown) ++members[subject.group_of[bone]];
    std::vector<std::uint32_t> unnamed;
    for (std::uint32_t g = 0; g < named.size(); ++g)
        if (!named[g] && members[g] > 0 && !subject.groups[g].empty()) unnamed.push_back(g);
    if (unnamed.empty()) return;
    lines.push_back(heading(number_of(unnamed.size(), "group") + " without room for a name in the picture"));
    const std::size_t shown = std::min(unnamed.size(), groups_said);
    for (std::size_t i = 0; i < shown; ++i) {
        Said line = said(isolated(cut_in_middle(drawable(subject.groups[unnamed[i]]), 9.5, 170)) + ", " +
                         number_of(members[unnamed[i]], "bone"));
        line.about = {About::Kind::group, unnamed[i]};
        line.hover = "group " + isolated(drawable(subject.groups[unnamed[i]]));
        lines.push_back(std::move(line));
    }
    if (shown < unnamed.size())
        lines.push_back(
            said("showing " + std::to_string(shown) + " of " + std::to_string(unnamed.size()) + " groups", 0, Tone::quiet));
}

}  // namespace

std::vector<BodyFinding> find_on_body(const Subject& subject) {
    std::vector<Found> found(subject.rig.bones.size());
    const SwitchFacts& switches = subject.facts.switches;
    for (std::size_t i = 0; i < subject.facts.attachment.deform.size(); ++i) {
        const Attachment& attachment = subject.facts.attachment.deform[i];
        std::vector<std::vector<Worse>> worse;
        if (i < switches.worse.size()) worse.push_back(switches.worse[i]);
        if (i < switches.worse_yet.size()) worse.push_back(switches.worse_yet[i]);
        judge(subject, attachment, worse, found[attachment.bone]);
    }
    std::array<std::vector<BodyFinding>, static_cast<std::size_t>(Rank::fine)> ranked;
    for (BoneId bone = 0; bone < found.size(); ++bone) {
        Found& one = found[bone];
        one.finding.bone = bone;
        if (const std::uint32_t cycle = cycle_of(subject, bone)) {
            add_words(one.finding.words, "in cycle " + std::to_string(cycle));
            one.rank = std::min(one.rank, Rank::in_cycle);
        }
        one.finding.alarming = one.rank < Rank::carried;
        if (one.rank != Rank::fine) ranked[static_cast<std::size_t>(one.rank)].push_back(std::move(one.finding));
    }
    std::vector<BodyFinding> all;
    for (std::vector<BodyFinding>& list : ranked) all.insert(all.end(), list.begin(), list.end());
    return all;
}

std::vector<Said> words_of_body(const Body& body, const std::vector<bool>& named) {
    std::vector<Said> lines;
    say_findings(body, lines);
    say_groups(body, named, lines);
    return lines;
}

std::string plain_number(double value) {
    char buffer[64];
    return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
}

}  // namespace ligament
