// `ligament check`: what is wrong with these rigs?
#include <algorithm>
#include <iostream>
#include <memory>
#include <optional>

#include "commands.hpp"
#include "cut_options.hpp"
#include "input.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_check(CLI::App& app);

namespace {

struct Options {
    std::vector<std::string> rigs;
    std::string format, fail_on = "error", output = "-", colour = "auto";
    std::vector<std::string> cut_costs, state;
    std::size_t circuits = 0;
    ReadOptions reading;
};

const ReportFormat& format_named(std::string_view name) {
    const auto formats = all_report_formats();
    return *std::find_if(formats.begin(), formats.end(), [&](const ReportFormat& format) { return format.name == name; });
}

bool is_failing(const Totals& totals, std::string_view fail_on) {
    if (totals.errors > 0) return true;
    if (fail_on == "error") return false;
    return totals.warnings > 0 || (fail_on == "note" && totals.notes > 0);
}

// The output of one call: opened by the first rig that can be read, so that faults alone replace no file.
struct Reports {
    const Options& options;
    const ReportFormat& format = format_named(options.format);
    std::optional<Output> output;
    TextStyle style;
    Totals totals;

    bool several() const { return options.rigs.size() > 1; }

    void write(const Report& report) {
        const bool first = !output;
        if (first) {
            output.emplace(options.output);
            style = style_for(*output, options.colour);
        }
        if (several()) first ? format.open(output->stream()) : format.between(output->stream());
        format.write(output->stream(), report, style);
        totals.add(report);
    }

    void skip(const std::string& path, const std::vector<Fault>& faults) {
        if (output) output->stream().flush();  // so that on a terminal faults stand where their rig does
        print_faults(path, faults);
        ++totals.unreadable;
    }

    /// A rig that does not have the state; the others may.
    void skip(const Unusable& reason) {
        if (!several()) throw reason;
        if (output) output->stream().flush();
        std::cerr << "ligament: " << printable(reason.what()) << '\n';
        ++totals.unreadable;
    }

    int close() {
        if (output) {
            if (several()) format.close(output->stream(), totals, style);
            output->commit();
        }
        if (totals.unreadable > 0) return unusable;
        return is_failing(totals, options.fail_on) ? found : fine;
    }
};

void check_rig(Reports& reports, const std::string& path, const FactOptions& wanted) {
    const ReadResult result = read_rig_file(path, reports.options.reading);
    if (!result.rig) return reports.skip(path, result.faults);
    const Rig& rig = *result.rig;
    FactOptions options = wanted;
    try {
        const FactOptions in_state = read_state(rig, path, reports.options.state);
        options.state = in_state.state;
        options.state_name = in_state.state_name;
    } catch (const Unusable& reason) {
        return reports.skip(reason);
    }
    const Dependencies dependencies = build_dependencies(rig);
    const Facts facts = find_facts(rig, dependencies, options);
    expect_cuts_hold(facts.cuts);
    const std::vector<Finding> findings = find_findings(rig, dependencies, facts);
    reports.write({path, rig, dependencies, facts, findings});
}

int check(const Options& options) {
    if (std::count(options.rigs.begin(), options.rigs.end(), "-") > 1) throw Unusable("standard input (-) can be read once only");
    FactOptions wanted;
    wanted.costs = read_cut_costs(options.cut_costs);
    wanted.circuits = options.circuits;
    Reports reports{.options = options, .output = {}, .style = {}, .totals = {}};
    for (const std::string& path : options.rigs) check_rig(reports, path, wanted);
    return reports.close();
}

}  // namespace

Run add_check(CLI::App& app) {
    auto options = std::make_shared<Options>();
    std::vector<std::string> formats;
    for (const ReportFormat& format : all_report_formats()) formats.emplace_back(format.name);
    options->format = formats.front();
    add_rig(app, options->rigs, options->reading);
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember(formats))
        ->capture_default_str()
        ->type_name("FORMAT");
    app.add_option("--fail-on", options->fail_on, "mildest severity that gives status 1: note, warning or error")
        ->check(CLI::IsMember({"note", "warning", "error"}))
        ->capture_default_str()
        ->type_name("SEVERITY");
    add_state_option(app, options->state);
    add_cut_costs(app, options->cut_costs);
    add_circuits(app, options->circuits);
    app.add_option("-o,--output", options->output, "write to this file instead of standard output")->type_name("FILE");
    add_colour_option(app, options->colour);
    app.footer(
        "Examples:\n  ligament check heron.rig.json\n  ligament check --format json --fail-on warning *.rig.json -o report.json");
    return [options] { return check(*options); };
}

}  // namespace ligament::cli
