// `ligament compare`: what changed between two revisions of a rig, and did anything get worse?
#include <iostream>
#include <memory>
#include <optional>

#include "baseline_file.hpp"
#include "commands.hpp"
#include "drawn.hpp"
#include "input.hpp"
#include "ligament/comparison_report.hpp"
#include "ligament/drawing.hpp"
#include "output.hpp"
#include "page_files.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_compare(CLI::App& app);

namespace {

struct Options {
    std::string before, after, output = "-", drawing, format = "text", colour = "auto", fail_on = "worse";
    InputOptions input;
};

FactOptions facts_wanted(const Rules& rules) {
    FactOptions wanted;
    wanted.costs = rules.costs;
    wanted.workers = 0;
    return wanted;
}

/// A rig with all that is said about it.
struct Judged {
    Rig rig;
    Dependencies dependencies;
    Facts facts;
    std::vector<Finding> findings;

    Judged(Rig of, const Rules& rules)
        : rig(std::move(of)),
          dependencies(build_dependencies(rig, /*workers=*/0)),
          facts(find_facts(rig, dependencies, facts_wanted(rules))),
          findings(review_findings(rig, find_findings(rig, dependencies, facts, rules, /*workers=*/0), rules, nullptr, today())
                       .findings) {}

    Revision revision() const { return {rig, dependencies, facts}; }
    Report report(const std::string& source) const { return {source, rig, dependencies, facts, findings}; }
};

/// Both rigs. Prints the faults of both and throws Unusable where one has some.
std::pair<Rig, Rig> load_both(const Options& options, const Rules& rules) {
    if (options.before == "-" && options.after == "-") throw Unusable("standard input (-) can be read once only");
    ReadResult before = read_rig_by(options.before, options.input, rules),
               after = read_rig_by(options.after, options.input, rules);
    if (before.rig && after.rig) return {*std::move(before.rig), *std::move(after.rig)};
    if (!before.rig) print_faults(options.before, before.faults);
    if (!after.rig) print_faults(options.after, after.faults);
    throw Unusable("");
}

int status_of(const Options& options, const ComparisonReport& report) {
    const bool is_worse = worsened(report).any();
    if (options.fail_on == "worse") return is_worse ? found : fine;
    if (options.fail_on == "change") return is_worse || !report.comparison.is_same() ? found : fine;
    return fine;
}

std::vector<DrawnPage> draw(const Options& options, const Judged& before, const Judged& after, const Comparison& comparison) {
    Drawing drawing = draw_change(before.revision(), after.revision(), comparison, {});
    expect_drawn(options.after, drawing);
    print_notice(options.after, drawing);
    return std::move(drawing.pages);
}

int compare(const Options& options) {
    if (options.drawing == "-" && options.output == "-")
        throw Unusable("report and drawing cannot both go to standard output: name a file for one");
    std::optional<PageFiles> files;
    if (!options.drawing.empty()) files.emplace(options.drawing, false);
    RulesOfCall found(options.input);
    const Rules& rules = found.of(options.after);  // both are judged by what holds now
    auto [old_rig, new_rig] = load_both(options, rules);
    if (files) files->open();
    Output output(options.output);
    const Judged before(std::move(old_rig), rules), after(std::move(new_rig), rules);
    const Comparison comparison = compare_rigs(before.revision(), after.revision());
    const std::vector<DrawnPage> pages = files ? draw(options, before, after, comparison) : std::vector<DrawnPage>{};
    const Report report_before = before.report(options.before), report_after = after.report(options.after);
    const FindingChanges findings = compare_findings(report_before, report_after, comparison.matching);
    const ComparisonReport report{report_before, report_after, comparison, findings};
    if (options.format == "json")
        write_comparison_json(output.stream(), report);
    else
        write_comparison_text(output.stream(), report, style_for(output, options.colour));
    output.commit();
    if (files)
        for (const std::string& line : files->write(pages))
            std::cerr << printable(options.after) << ": " << printable(line) << '\n';
    return status_of(options, report);
}

}  // namespace

Run add_compare(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("OLD", options->before, std::string("the earlier revision: ") + rig_help)->required()->type_name("");
    app.add_option("NEW", options->after, "the later one")->required()->type_name("");
    add_input_options(app, options->input);
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    app.add_option("-o,--output", options->output, "file to write instead of standard output")->type_name("FILE");
    app.add_option("--draw", options->drawing,
                   "draw what changed with what is beside it: SVG file, - for standard output, or a folder (DIR/)")
        ->type_name("FILE");
    app.add_option("--fail-on", options->fail_on, "what gives status 1: something got worse, anything changed, or never")
        ->check(CLI::IsMember({"worse", "change", "never"}))
        ->capture_default_str()
        ->type_name("WHAT");
    add_colour_option(app, options->colour);
    app.footer(
        "Worse is a new error or warning, a deform bone that is attached less well, or a cycle that is new or took in more.\n"
        "Both are judged by the rules that hold for NEW. Equal names are the same element. Others are known again by what "
        "surrounds them, with how sure that is.\n\n"
        "Examples:\n  ligament compare heron-before.rig.json heron.rig.json\n"
        "  ligament compare heron-before.rig.json heron.rig.json --draw changes.svg\n"
        "  ligament compare heron-before.rig.json heron.rig.json --format json -o changes.json --fail-on never");
    return [options] { return compare(*options); };
}

}  // namespace ligament::cli
