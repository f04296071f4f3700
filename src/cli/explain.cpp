// `ligament explain`: what does a check find, why does it hurt, how is it mended, and what does that look like?
#include <algorithm>
#include <memory>

#include "check_examples.hpp"
#include "commands.hpp"
#include "input.hpp"
#include "ligament/checks.hpp"
#include "ligament/report.hpp"
#include "output.hpp"
#include "status.hpp"
#include "terminal.hpp"

namespace ligament::cli {

Run add_explain(CLI::App& app);

namespace {

struct Options {
    std::string check, colour = "auto";
};

const Check& check_named(const std::string& name) {
    std::vector<std::string_view> known;
    for (const Check& check : all_checks()) {
        if (check.name == name) return check;
        known.push_back(check.name);
    }
    throw Unusable("unknown check \"" + name + '"' + nearest_words(name, known));
}

/// The example of a check: the file, and its text.
struct Example {
    std::string name, text;
};

Example find_example(const Check& check, const std::string& which) {
    for (const std::string format : {".rig.json", ".gltf"}) {
        const std::string name = std::string(check.name) + which + format;
        if (const std::string_view text = check_example(name); !text.empty()) return {name, std::string(text)};
    }
    return {};
}

/// The rules that the example of a check is looked at with: those of CHECK.rules.json beside it.
Rules rules_for(const Check& check) {
    const std::string_view text = check_example(std::string(check.name) + ".rules.json");
    return text.empty() ? Rules{} : read_rules_text(text).value();
}

Rig rig_of(const Example& example) {
    ReadResult read = example.name.ends_with(".gltf") ? read_gltf(example.text, "") : read_rig(example.text);
    if (!read.rig) throw std::logic_error("the example " + example.name + " has faults: " + read.faults.front().message);
    return std::move(*read.rig);
}

void write_paragraph(std::ostream& out, const std::string& head, std::string_view text, const TextStyle& style) {
    out << '\n' << heading(head, style) << '\n' << wrapped(text, 2, style.width);
}

void write_lines(std::ostream& out, std::string_view text) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        out << (end > 0 ? "  " : "") << printable(text.substr(0, end)) << '\n';
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

/// What this check, and no other, says about its example.
void write_findings(std::ostream& out, const Check& check, const Example& example, const TextStyle& style) {
    const Rig rig = rig_of(example);
    const Rules rules = rules_for(check);
    const Dependencies dependencies = build_dependencies(rig);
    FactOptions wanted;
    wanted.costs = rules.costs;
    const Facts facts = find_facts(rig, dependencies, wanted);
    std::vector<Finding> findings = find_findings(rig, dependencies, facts, rules);
    std::erase_if(findings, [&](const Finding& finding) { return finding.check != check.name; });
    write_text(out, {example.name, rig, dependencies, facts, findings}, style);
}

int explain(const Options& options) {
    const Check& check = check_named(options.check);
    Output output;
    std::ostream& out = output.stream();
    const TextStyle style = style_for(output, options.colour);
    out << heading(std::string(check.name), style) << " (" << name_of(check.severity) << ")\n"
        << wrapped(check.summary, 2, style.width);
    write_paragraph(out, "what is found", check.what, style);
    write_paragraph(out, "why it hurts", check.harm, style);
    write_paragraph(out, "how to mend it", check.mend, style);
    const Example bad = find_example(check, ".bad"), good = find_example(check, ".good");
    if (!bad.name.empty()) {
        out << '\n' << heading("example", style) << ": examples/checks/" << bad.name << "\n\n";
        write_lines(out, bad.text);
        if (const std::string_view rules = check_example(std::string(check.name) + ".rules.json"); !rules.empty()) {
            out << '\n' << heading("with these rules", style) << ": examples/checks/" << check.name << ".rules.json\n\n";
            write_lines(out, rules);
        }
        out << '\n' << heading("what ligament says about it", style) << "\n\n";
        write_findings(out, check, bad, style);
    }
    if (!good.name.empty()) out << "\nmended: examples/checks/" << good.name << '\n';
    output.commit();
    return fine;
}

}  // namespace

Run add_explain(CLI::App& app) {
    auto options = std::make_shared<Options>();
    app.add_option("CHECK", options->check, "the check, as `ligament checks` lists it")->type_name("")->required();
    add_colour_option(app, options->colour);
    app.footer("Examples:\n  ligament explain cycle\n  ligament explain side-differs");
    return [options] { return explain(*options); };
}

}  // namespace ligament::cli
