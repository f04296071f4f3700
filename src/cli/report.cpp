// `ligament report`: what is there to explore?
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <iostream>
#include <memory>
#include <set>

#include "baseline_file.hpp"
#include "commands.hpp"
#include "cut_options.hpp"
#include "drawn.hpp"
#include "input.hpp"
#include "ligament/page.hpp"
#include "new_folder.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_report(CLI::App& app);

namespace {

struct Options {
    std::vector<std::string> rigs;
    std::string output;
    double time_limit = 20;
    std::vector<std::string> state;
    InputOptions input;
};

Drawing draw_all(const Options& options, const std::string& path, const Report& report, const FactOptions& wanted) {
    DrawingOptions drawing_options;
    drawing_options.embedded = true;
    drawing_options.time_limit = std::chrono::milliseconds(std::llround(options.time_limit * 1000));
    std::vector<View> views;
    for (std::size_t v = 0; v < view_count; ++v) views.push_back(static_cast<View>(v));
    const Dependencies in_state =
        wanted.state ? dependencies_to_draw(report.rig, report.dependencies, report.facts, *wanted.state) : Dependencies{};
    const Dependencies& shown = wanted.state ? in_state : report.dependencies;
    Drawing drawing = draw_views(report.rig, shown, report.facts, views, drawing_options);
    expect_drawn(path, drawing);
    print_notice(path, drawing);
    return drawing;
}

/// Who moves what at which stop, with the values of the state in the place of the defaults.
std::vector<StateTable> tables_in(const Rig& rig, const State& state) {
    Rig in_state = rig;
    for (PropertyId p = 0; p < rig.properties.size(); ++p) in_state.properties[p].initial = state.properties[p];
    return find_state_tables(in_state, build_dependencies(in_state));
}

/// Writes the page of a rig, and gives its row of the index.
IndexEntry write_rig_page(std::ostream& out, const Options& options, const std::string& path, const Rig& rig, const Rules& rules,
                          const std::string& link) {
    FactOptions wanted = read_state(rig, path, options.state);
    wanted.costs = rules.costs;
    wanted.workers = 0;
    const Dependencies dependencies = build_dependencies(rig, wanted.workers);
    const Facts facts = find_facts(rig, dependencies, wanted);
    expect_cuts_hold(facts.cuts);
    const Review review =
        review_findings(rig, find_findings(rig, dependencies, facts, rules, wanted.workers), rules, nullptr, today());
    const Report report{path, rig, dependencies, facts, review.findings, rules.file.empty() ? nullptr : &review};
    const State state = wanted.state.value_or(default_state(rig));
    const Drawing drawing = draw_all(options, path, report, wanted);
    const std::vector<StateTable> tables = tables_in(rig, state);
    write_page(out, {report, state, drawing, tables});
    return index_entry(report, link);
}

int report_one(const Options& options) {
    const std::string& path = options.rigs.front();
    const auto [rig, rules] = load_rig(path, options.input);
    read_state(rig, path, options.state);  // before a file is opened, and before the layout, which may take its time
    Output output(options.output);
    write_rig_page(output.stream(), options, path, rig, rules, options.output);
    output.commit();
    return fine;
}

/// The name of a page in the folder: that of the rig file without its ending, and with a number where that is taken.
std::string page_name(const std::string& path, std::set<std::string>& taken) {
    std::string stem = path == "-" ? "rig" : std::filesystem::path(path).filename().string();
    for (const std::string_view ending : {".json", ".rig"})
        if (stem.size() > ending.size() && stem.ends_with(ending)) stem.resize(stem.size() - ending.size());
    std::string name = stem;
    for (std::size_t number = 2; !taken.insert(name).second; ++number) name = stem + "-" + std::to_string(number);
    return name + ".html";
}

/// Pages of several rigs: all are written before the first one comes to stand under its name.
struct Pages {
    const Options& options;
    RulesOfCall rules;
    std::unique_ptr<NewFolder> folder;
    std::vector<std::unique_ptr<Output>> outputs;
    std::vector<IndexEntry> entries;
    std::set<std::string> taken{"index"};
    bool are_all_written = true;

    void open_folder() {
        std::error_code ignored;
        if (std::filesystem::exists(options.output, ignored) && !std::filesystem::is_directory(options.output, ignored))
            throw Unusable("several rigs go into a folder, and \"" + options.output + "\" is none");
        folder = std::make_unique<NewFolder>(options.output);
    }

    Output& open(const std::string& name) {
        if (!folder) open_folder();
        outputs.push_back(std::make_unique<Output>(options.output + "/" + name));
        return *outputs.back();
    }

    void skip(const std::string& path, const std::string& reason) {
        are_all_written = false;
        entries.emplace_back();
        entries.back().source = path;
        entries.back().unreadable = reason;
    }

    void add(const std::string& path) {
        const Rules& by = rules.of(path);
        const ReadResult result = read_rig_by(path, options.input, by);
        if (!result.rig) {
            print_faults(path, result.faults);
            return skip(path, counted_text(result.faults.size(), "fault") + ", the first: " +
                                  place_text(path, result.faults.front().place) + ": " + result.faults.front().message);
        }
        try {
            read_state(*result.rig, path, options.state);
        } catch (const Unusable& reason) {
            std::cerr << "ligament: " << printable(reason.what()) << '\n';
            return skip(path, reason.what());
        }
        const std::string name = page_name(path, taken);
        entries.push_back(write_rig_page(open(name).stream(), options, path, *result.rig, by, name));
    }

    int close() {
        if (outputs.empty()) return unusable;  // what stands in the folder stays
        write_page_index(open("index.html").stream(), entries);
        for (const auto& output : outputs) output->commit();
        return are_all_written ? fine : unusable;
    }
};

int report_rigs(const Options& options) {
    if (std::count(options.rigs.begin(), options.rigs.end(), "-") > 1) throw Unusable("standard input (-) can be read once only");
    if (options.rigs.size() == 1) return report_one(options);
    if (options.output == "-") throw Unusable("several rigs go into a folder, not to standard output (-)");
    Pages pages{.options = options, .rules = RulesOfCall(options.input), .folder = {}, .outputs = {}, .entries = {}};
    for (const std::string& path : options.rigs) pages.add(path);
    return pages.close();
}

}  // namespace

Run add_report(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rigs, options->input);
    app.add_option("-o,--output", options->output, "the HTML file to write, - for standard output; a folder for several rigs")
        ->required()
        ->type_name("FILE");
    app.add_option("--time-limit", options->time_limit, "for the layout of one drawing; past it its boxes stand in rows")
        ->check(seconds())
        ->capture_default_str()
        ->type_name("SECONDS");
    add_state_option(app, options->state);
    app.footer(
        "One file a rig that opens from disk in any browser: drawings, search, findings, and tables. Several rigs: a page each "
        "and\nindex.html in the folder.\n\n"
        "Examples:\n  ligament report heron.rig.json -o heron.html\n  ligament report heron.rig.json egret.rig.json -o pages");
    return [options] { return report_rigs(*options); };
}

}  // namespace ligament::cli
