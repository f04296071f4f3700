// `ligament controls`: whom does each control move, and who moves only through it?
#include <algorithm>
#include <map>
#include <memory>

#include "commands.hpp"
#include "input.hpp"
#include "ligament/controls.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "state_option.hpp"
#include "status.hpp"
#include "table.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_controls(CLI::App& app);

namespace {

struct Options {
    std::string rig, control, format = "text", colour = "auto";
    std::vector<std::string> state;
    InputOptions input;
};

std::string names_text(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId bone : bones) text += (text.empty() ? "" : ", ") + printable(rig.bones[bone].name);
    return text;
}

void write_bones(std::ostream& out, const Rig& rig, const std::string& title, const std::vector<BoneId>& bones,
                 const TextStyle& style) {
    out << '\n' << heading(title + " (" + counted_text(bones.size(), "bone") + ")", style) << '\n';
    out << wrapped(names_text(rig, bones), 2, style.width);
}

void write_controls(std::ostream& out, const Rig& rig, const ControlFacts& facts) {
    std::vector<std::vector<std::string>> rows{{"control", "moves", "only through it", "alone"}};
    for (const ControlReach& reach : facts.controls)
        rows.push_back({printable(rig.bones[reach.control].name), std::to_string(reach.moves), std::to_string(reach.only_through),
                        std::to_string(reach.alone)});
    write_table(out, rows, 0, "lrrr");
}

/// Bones with the same single points stand together, where the first of them does in the file.
void write_points(std::ostream& out, const Rig& rig, const ControlFacts& facts, const TextStyle& style) {
    std::map<std::vector<BoneId>, std::size_t> places;
    std::vector<std::pair<std::vector<BoneId>, std::vector<BoneId>>> groups;
    std::vector<BoneId> without, unmoved;
    for (const ControlPoints& points : facts.deform) {
        if (!points.is_moved) {
            unmoved.push_back(points.bone);
        } else if (points.single_points.empty()) {
            without.push_back(points.bone);
        } else {
            const auto [place, is_new] = places.emplace(points.single_points, groups.size());
            if (is_new) groups.push_back({points.single_points, {}});
            groups[place->second].second.push_back(points.bone);
        }
    }
    for (const auto& [points, bones] : groups) write_bones(out, rig, "only through " + names_text(rig, points), bones, style);
    if (!without.empty()) write_bones(out, rig, "through no single control", without, style);
    if (!unmoved.empty()) write_bones(out, rig, "moved by no control", unmoved, style);
}

void write_overview(std::ostream& out, const ControlsReport& report, const ControlFacts& facts, const TextStyle& style) {
    out << printable(report.rig.name) << " (" << printable(report.source)
        << "): " << counted_text(facts.controls.size(), "control") << ", " << counted_text(facts.deform.size(), "deform bone")
        << ", in state " << printable(report.state_name) << "\n\n";
    if (facts.controls.empty()) {
        out << "the rig has no controls\n";
        return;
    }
    write_controls(out, report.rig, facts);
    out << '\n'
        << wrapped(
               "Counted are deform bones. Only through it: whatever moves them passes through this control. Alone: no other "
               "control moves them.",
               0, style.width);
    if (facts.are_listed)
        write_points(out, report.rig, facts, style);
    else
        out << "\nsingle points are not listed, there are more than " << control_points_limit
            << "; name a CONTROL to see its bones\n";
}

void write_one(std::ostream& out, const ControlsReport& report, BoneId control, const MovedBones& moved, const TextStyle& style) {
    const Bone& bone = report.rig.bones[control];
    out << "control " << printable(bone.name) << " (" << place_text(report.source, bone.place) << "), in state "
        << printable(report.state_name) << '\n';
    write_bones(out, report.rig, "moves", moved.moves, style);
    write_bones(out, report.rig, "only through it", moved.only_through, style);
    write_bones(out, report.rig, "moved by no other control", moved.alone, style);
}

BoneId control_named(const Options& options, const Rig& rig) {
    const BoneId bone = find_bone(rig, options.control);
    if (bone != none && rig.bones[bone].control) return bone;
    std::vector<std::string_view> known;
    for (const Bone& other : rig.bones)
        if (other.control) known.emplace_back(other.name);
    const std::string what =
        bone == none ? ": unknown control \"" + options.control + '"' : ": bone \"" + options.control + "\" is no control";
    throw Unusable(options.rig + what + nearest_words(options.control, known));
}

int show_controls(const Options& options) {
    const Rig rig = load_rig(options.rig, options.input).rig;
    const BoneId control = options.control.empty() ? none : control_named(options, rig);
    const FactOptions wanted = read_state(rig, options.rig, options.state);
    const Dependencies dependencies = build_dependencies(rig);
    const State state = wanted.state ? *wanted.state : default_state(rig);
    const ControlsReport report{options.rig, rig, wanted.state_name};
    const bool is_json = options.format == "json";
    Output output;
    std::ostream& out = output.stream();
    const TextStyle style = style_for(output, options.colour);
    if (control == none) {
        const ControlFacts facts = find_control_facts(rig, dependencies, state);
        is_json ? write_controls_json(out, report, facts) : write_overview(out, report, facts, style);
    } else {
        const MovedBones moved = find_moved_bones(rig, dependencies, state, control);
        is_json ? write_moved_bones_json(out, report, control, moved) : write_one(out, report, control, moved, style);
    }
    output.commit();
    return fine;
}

}  // namespace

Run add_controls(CLI::App& app) {
    auto options = std::make_shared<Options>();
    add_rig(app, options->rig, options->input);
    app.add_option("CONTROL", options->control, "list the bones that this control moves")->type_name("");
    app.add_option("--format", options->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str()
        ->type_name("FORMAT");
    add_state_option(app, options->state);
    add_colour_option(app, options->colour);
    app.footer(
        "A deform bone moves only through a control when every path that motion takes from a control to it passes through\n"
        "that one: its bone or a property on it. It is the single point of control of that deform bone.\n\n"
        "Examples:\n  ligament controls heron.rig.json\n  ligament controls heron.rig.json wing_hand_ctl_l");
    return [options] { return show_controls(*options); };
}

}  // namespace ligament::cli
