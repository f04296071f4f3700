// `ligament watch`: what is new and what is gone each time a rig is saved?
#include <algorithm>
#include <iostream>
#include <memory>
#include <set>
#include <sstream>

#include "baseline_file.hpp"
#include "check_rig.hpp"
#include "commands.hpp"
#include "numbers.hpp"
#include "report_stream.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "terminal.hpp"
#include "watched.hpp"

namespace ligament::cli {

Run add_watch(CLI::App& app);

namespace {

struct Options {
    std::string rig, colour = "auto";
    std::uint32_t times = 0;
    std::vector<std::string> state;
    InputOptions input;
};

/// What was so when the rig was looked at last.
struct Seen {
    std::vector<Identity> findings;  ///< in the order of the report
    bool has_rig = false;            ///< it could be read at least once, and `findings` are those of then
};

std::string words_for(const Identity& identity) {
    std::string words = identity.check;
    for (std::size_t i = 0; i < identity.bones.size() && i < 12; ++i) words += (i == 0 ? ": " : ", ") + identity.bones[i];
    if (identity.bones.size() > 12) words += " (showing 12 of " + std::to_string(identity.bones.size()) + ")";
    if (!identity.subject.empty()) words += " (" + identity.subject + ")";
    if (!identity.maker.empty()) words += " by " + identity.maker;
    return words;
}

/// The report with only the findings that were not there before.
Review only_new(const CheckedRig& checked, const std::vector<Identity>& before) {
    const std::set<Identity> known(before.begin(), before.end());
    Review review;
    for (const Finding& finding : checked.review.findings)
        if (!known.contains(identity_of(checked.rig, finding))) review.findings.push_back(finding);
    return review;
}

std::string summary_of(const Options& options, const CheckedRig& checked) {
    Totals totals;
    totals.add(report_of(options.rig, checked));
    return counted_text(totals.errors, "error") + ", " + counted_text(totals.warnings, "warning") + ", " +
           counted_text(totals.notes, "note");
}

void tell_changes(std::ostream& out, const Options& options, const CheckedRig& checked, Seen& seen, const TextStyle& style) {
    std::vector<Identity> now;
    for (const Finding& finding : checked.review.findings) now.push_back(identity_of(checked.rig, finding));
    const Review fresh = only_new(checked, seen.findings);
    const std::set<Identity> left(now.begin(), now.end());
    std::vector<Identity> gone;
    for (const Identity& identity : seen.findings)
        if (!left.contains(identity) && std::find(gone.begin(), gone.end(), identity) == gone.end()) gone.push_back(identity);
    for (const Identity& identity : gone) out << wrapped("gone: " + printable(words_for(identity)), 0, style.width);
    if (!fresh.findings.empty())
        write_finding_list(out, {options.rig, checked.rig, checked.dependencies, checked.facts, fresh.findings}, style);
    out << printable(options.rig) << ": ";
    if (seen.has_rig) out << fresh.findings.size() << " new, " << gone.size() << " gone; ";
    out << summary_of(options, checked) << '\n';
    seen.findings = std::move(now);
    seen.has_rig = true;
}

/// Looks once more, with the rules as they are now.
void look(std::ostream& out, const Options& options, Seen& seen, WatchedFiles& watched, const TextStyle& style) {
    CheckOptions check;
    check.rigs = {options.rig};
    check.state = options.state;
    check.input = options.input;
    RulesOfCall rules(options.input);
    CheckSetting setting{check, {}, {}, today()};
    try {
        setting.rules = {rules.of(options.rig)};
    } catch (const Unusable&) {
        out << printable(options.rig) << ": not checked, since its rules cannot be used\n" << std::flush;
        return;
    }
    for (const std::string& file : rules.files()) watched.add(file);
    const CheckOutcome outcome = check_rig(setting, 0);
    if (outcome.checked) {
        tell_changes(out, options, *outcome.checked, seen, style);
    } else {
        print_faults(options.rig, outcome.faults);
        if (!outcome.unusable.empty()) std::cerr << "ligament: " << printable(outcome.unusable) << '\n';
        out << printable(options.rig) << ": cannot be checked as it stands\n";
    }
    out << std::flush;
}

int watch(const Options& options) {
    if (options.rig == "-") throw Unusable("standard input (-) cannot be watched");
    WatchedFiles watched;
    watched.add(options.rig);
    Output output;
    const TextStyle style = style_for(output, options.colour);
    Seen seen;
    look(output.stream(), options, seen, watched, style);
    // Until nobody reads on, too.
    for (std::uint32_t change = 0; output.stream() && (options.times == 0 || change < options.times); ++change) {
        watched.wait_for_change();
        look(output.stream(), options, seen, watched, style);
    }
    output.commit();
    return fine;
}

}  // namespace

Run add_watch(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("RIG", options->rig, "rig description, glTF, GLB or VRM file")->required()->type_name("");
    add_input_options(app, options->input);
    add_state_option(app, options->state);
    app.add_option("--times", options->times, "end after so many changes; 0: go on until Ctrl-C")
        ->check(whole_number())
        ->capture_default_str()
        ->type_name("N");
    add_colour_option(app, options->colour);
    app.footer(
        "Checks when it is called and whenever the rig or its rules are written; says what is new and what is gone.\n\n"
        "Example:\n  ligament watch heron.rig.json");
    return [options] { return watch(*options); };
}

}  // namespace ligament::cli
