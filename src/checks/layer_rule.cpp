// Which dependences break the layers that a project has laid down?
#include <algorithm>

#include "fitting.hpp"
#include "ligament/links.hpp"
#include "link_words.hpp"
#include "words.hpp"

namespace ligament::checks {

namespace {

/// A rule, and by bone id who fits its ends.
struct Layer {
    const LayerRule& rule;
    std::vector<bool> is_from, is_to;
    std::vector<bool> is_met;  ///< of `required`: bones that have what they need

    bool is_about(const FoldedEdge& link) const { return is_from[link.from] && is_to[link.to]; }
};

std::string layer_words(const LayerRule& rule) { return words_of(rule.from) + " to " + words_of(rule.to); }

std::string named(const LayerRule& rule) { return rule.why.empty() ? "the rule" : "the rule " + quoted(rule.why); }

void add_either(std::vector<bool>& to, const std::vector<bool>& more) {
    for (std::size_t i = 0; i < to.size(); ++i)
        if (more[i]) to[i] = true;
}

void find_forbidden(const Checked& checked, const Check& self, const std::vector<Layer>& layers, const FoldedEdge& link,
                    std::vector<Finding>& findings) {
    const auto deciding = std::find_if(layers.begin(), layers.end(), [&](const Layer& layer) {
        return layer.rule.says != LayerRule::Says::required && layer.is_about(link);
    });
    if (deciding == layers.end() || deciding->rule.says == LayerRule::Says::allowed) return;
    const LayerRule& rule = deciding->rule;
    Finding& finding = findings.emplace_back(finding_about_link(checked, self, link));
    finding.maker += ", " + layer_words(rule);
    finding.message = quoted(checked.rig.bones[link.to].name) + " depends on " + quoted(checked.rig.bones[link.from].name) +
                      ", " + makers_words(checked, link) + "; " + named(rule) + " forbids it: from " + layer_words(rule);
    finding.hint = "let it read a bone that the rules let it read";
}

void find_missing(const Checked& checked, const Check& self, const Layer& layer, std::vector<Finding>& findings) {
    for (BoneId id = 0; id < checked.rig.bones.size(); ++id) {
        if (!layer.is_to[id] || layer.is_met[id]) continue;
        Finding& finding = findings.emplace_back(finding_about(self, checked.rig, id));
        finding.maker = layer_words(layer.rule);
        finding.message = quoted(checked.rig.bones[id].name) + " depends on none of the bones that " + named(layer.rule) +
                          " requires: from " + layer_words(layer.rule);
        finding.hint = "let it read one of them";
    }
}

void find(const Checked& checked, const Check& self, std::vector<Finding>& findings) {
    const Rig& rig = checked.rig;
    std::vector<Layer> layers;
    std::vector<bool> is_read(rig.bones.size(), false), is_reader(rig.bones.size(), false);
    for (const LayerRule& rule : checked.rules.layers) {
        const Layer& layer = layers.emplace_back(
            Layer{rule, fitting(rig, rule.from), fitting(rig, rule.to), std::vector<bool>(rig.bones.size(), false)});
        if (rule.says == LayerRule::Says::allowed) continue;
        add_either(is_read, layer.is_from);
        add_either(is_reader, layer.is_to);
    }
    if (layers.empty()) return;
    const std::size_t first = findings.size();
    for (const FoldedEdge& link : find_links(rig, checked.dependencies, is_read, is_reader)) {
        for (Layer& layer : layers)
            if (layer.is_about(link)) layer.is_met[link.to] = true;
        find_forbidden(checked, self, layers, link, findings);
    }
    for (const Layer& layer : layers)
        if (layer.rule.says == LayerRule::Says::required) find_missing(checked, self, layer, findings);
    sort_by_place(findings, first);
}

}  // namespace

extern constinit const Check layer_rule{
    .name = "layer-rule",
    .severity = Severity::warning,
    .summary = "a dependence that breaks the layers set in the rules file, or lacks where they require one",
    .what =
        "The rules file says which bones may need which. Of its rules the first one that allows or forbids decides about a "
        "dependence between two bones, straight or through properties, drivers, objects and solvers; what no rule is about is "
        "allowed. Where it requires one, each bone needs at least one such dependence. Without such rules nothing is found.",
    .harm = "A module that reaches into another one cannot be taken out, exchanged or handed over without it.",
    .mend = "Read a bone of a layer that may be read, or allow the exception by a rule before the one that forbids it.",
    .find = find,
};

}  // namespace ligament::checks
