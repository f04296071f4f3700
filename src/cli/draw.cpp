// `ligament draw`: how does it look?
#include <algorithm>
#include <cmath>
#include <iostream>
#include <memory>

#include "commands.hpp"
#include "drawn.hpp"
#include "input.hpp"
#include "ligament/drawing.hpp"
#include "ligament/report.hpp"
#include "numbers.hpp"
#include "page_files.hpp"
#include "state_option.hpp"
#include "status.hpp"

namespace ligament::cli {

Run add_draw(CLI::App& app);

namespace {

struct Options {
    std::string rig, output, view, group, around, property, page;
    unsigned hops = 2, cycle = 0;
    double time_limit = 20;
    std::vector<std::string> state;
    bool has_group = false;
    InputOptions input;
};

constexpr const char* all = "all";

BoneId bone_named(const Options& options, const Rig& rig) {
    const BoneId id = find_bone(rig, options.around);
    if (id != none) return id;
    std::vector<std::string_view> known;
    for (const Bone& bone : rig.bones) known.emplace_back(bone.name);
    throw Unusable(options.rig + ": unknown bone \"" + options.around + '"' + nearest_words(options.around, known));
}

const std::string& group_named(const Options& options, const Rig& rig) {
    const std::vector<std::string> groups = group_names(rig);
    if (std::find(groups.begin(), groups.end(), options.group) != groups.end()) return options.group;
    throw Unusable(options.rig + ": unknown group \"" + options.group + '"' +
                   nearest_words(options.group, {groups.begin(), groups.end()}));
}

/// The view that the other options speak of, where none is named: the plan if they speak of none.
std::string view_meant(const Options& options) {
    if (!options.view.empty()) return options.view;
    if (options.has_group || !options.around.empty()) return std::string(name_of(View::group));
    if (options.cycle > 0) return std::string(name_of(View::cycle));
    return std::string(name_of(options.property.empty() ? View::plan : View::switches));
}

std::vector<View> views_wanted(const Options& options) {
    const std::string wanted = view_meant(options);
    auto need = [&](bool given, const char* option, View view) {
        if (given && wanted != name_of(view))
            throw Unusable(std::string(option) + " goes with --view " + std::string(name_of(view)) + ", not with " + wanted);
    };
    need(options.has_group, "--group", View::group);
    need(!options.around.empty(), "--around", View::group);
    need(options.cycle > 0, "--cycle", View::cycle);
    need(!options.property.empty(), "--property", View::switches);
    std::vector<View> views;
    for (std::size_t v = 0; v < view_count; ++v)
        if (wanted == all || wanted == name_of(static_cast<View>(v))) views.push_back(static_cast<View>(v));
    return views;
}

Paper paper_named(const std::string& page) {
    return page == "A4" ? Paper::a4 : page == "A3" ? Paper::a3 : page == "letter" ? Paper::letter : Paper::automatic;
}

DrawingOptions drawing_options_of(const Options& options, const Rig& rig) {
    DrawingOptions drawing;
    drawing.hops = options.hops;
    drawing.paper = paper_named(options.page);
    drawing.time_limit = std::chrono::milliseconds(std::llround(options.time_limit * 1000));
    if (options.has_group) drawing.group = group_named(options, rig);
    if (!options.around.empty()) drawing.around = bone_named(options, rig);
    if (!options.property.empty()) drawing.property = property_named(rig, options.rig, options.property);
    return drawing;
}

/// The place of --cycle in the facts; throws Unusable where there are fewer.
std::optional<std::size_t> cycle_wanted(const Options& options, const Facts& facts) {
    if (options.cycle == 0) return std::nullopt;
    if (options.cycle <= facts.cycles.size()) return options.cycle - 1;
    throw Unusable(options.rig + ": there is no cycle " + std::to_string(options.cycle) + ", the rig has " +
                   counted_text(facts.cycles.size(), "cycle"));
}

/// Why there is no page, where the view found nothing to show.
std::string nothing_of(const Options& options, const Rig& rig, View view) {
    if (rig.bones.empty()) return "the rig has no bones to draw";
    if (view == View::cycle) return "the rig has no cycles to draw";
    if (view == View::switches) return "the rig has no property that drives anything";
    return "there is nothing to draw with --view " + view_meant(options);
}

int draw_rig(const Options& options) {
    const std::vector<View> views = views_wanted(options);
    PageFiles files(options.output, options.view == all);  // before any layout: it may take its time
    const auto [rig, rules] = load_rig(options.rig, options.input);
    DrawingOptions drawing_options = drawing_options_of(options, rig);
    FactOptions fact_options = read_state(rig, options.rig, options.state);
    fact_options.costs = rules.costs;
    fact_options.workers = 0;
    files.open();
    Dependencies dependencies = build_dependencies(rig, fact_options.workers);
    const Facts facts = find_facts(rig, dependencies, fact_options);
    drawing_options.cycle = cycle_wanted(options, facts);
    if (fact_options.state) dependencies = dependencies_to_draw(rig, dependencies, facts, *fact_options.state);
    const Drawing drawing = draw_views(rig, dependencies, facts, views, drawing_options);
    expect_drawn(options.rig, drawing);
    if (drawing.pages.empty()) throw Unusable(options.rig + ": " + nothing_of(options, rig, views.front()));
    for (const std::string& line : files.write(drawing.pages))
        std::cerr << printable(options.rig) << ": " << printable(line) << '\n';
    print_notice(options.rig, drawing);
    return fine;
}

std::string view_help() {
    std::string help = "what to show (plan, unless another option speaks of one):";
    for (std::size_t v = 0; v < view_count; ++v) {
        const auto view = static_cast<View>(v);
        help += "\n" + std::string(name_of(view)) + ": " + std::string(summary_of(view));
    }
    return help + "\nall: every view, into a folder";
}

std::vector<std::string> view_words() {
    std::vector<std::string> words;
    for (std::size_t v = 0; v < view_count; ++v) words.emplace_back(name_of(static_cast<View>(v)));
    words.emplace_back(all);
    return words;
}

}  // namespace

Run add_draw(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("-o,--output", options->output,
                   "SVG file, - for standard output, or a folder (DIR/); further pages go to FILE-2.svg")
        ->required()
        ->type_name("FILE");
    app.add_option("--view", options->view, view_help())->check(CLI::IsMember(view_words()))->type_name("VIEW");
    CLI::Option* group = app.add_option("--group", options->group, "view group: this group alone")->type_name("GROUP");
    CLI::Option* around =
        app.add_option("--around", options->around, "view group: the neighbourhood of this bone instead")->type_name("BONE");
    group->excludes(around);
    app.add_option("--hops", options->hops, "how many dependencies the neighbourhood goes")
        ->needs(around)
        ->check(whole_number())
        ->capture_default_str()
        ->type_name("N");
    app.add_option("--cycle", options->cycle, "view cycle: this one alone, as check and cycles number them")
        ->check(workers())
        ->type_name("N");
    app.add_option("--property", options->property, "view switch: this property alone")->type_name("PROPERTY");
    app.add_option("--page", options->page, "paper, in landscape; if not given A4, or A3 where that saves pages")
        ->check(CLI::IsMember(std::vector<std::string>{"A4", "A3", "letter"}))
        ->type_name("PAPER");
    app.add_option("--time-limit", options->time_limit, "for the layout of one page; past it the boxes stand in rows")
        ->check(seconds())
        ->capture_default_str()
        ->type_name("SECONDS");
    add_state_option(app, options->state);
    app.footer(
        "Examples:\n  ligament draw heron.rig.json -o heron.svg\n  ligament draw heron.rig.json --group wing_l -o wing.svg\n"
        "  ligament draw heron.rig.json --around wing_arm_l --hops 3 -o arm.svg\n"
        "  ligament draw heron.rig.json --view reach --state wing_mode_l=fk -o fk.svg\n"
        "  ligament draw heron.rig.json --view all --page A3 -o heron/\n"
        "As PDF (Debian's librsvg2-bin):\n  rsvg-convert -f pdf -o heron.pdf heron/*.svg");
    return [options, group] {
        options->has_group = group->count() > 0;
        return draw_rig(*options);
    };
}

}  // namespace ligament::cli
