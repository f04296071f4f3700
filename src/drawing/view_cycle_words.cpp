// What is said beside the picture of a cycle? Every edge with its maker and place, where to cut, and what that loses.
#include "view_cycle.hpp"

#include <algorithm>
#include <utility>

#include "loss_groups.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

// Longer lists are shown in part, and say so.
constexpr std::size_t edges_said = 120, makers_said = 20, losses_said = 6, names_said = 12, states_said = 8, rest_said = 40;
constexpr double name_limit = 170, deeper = 22;

std::string short_name(const std::string& name) { return isolated(cut_in_middle(name, 9.5, name_limit)); }

struct Words {
    const CycleStory& story;
    std::vector<Said> lines{};

    const Rig& rig() const { return story.subject.rig; }
    const Dependencies& dependencies() const { return story.subject.dependencies; }

    std::string maker_text(MakerId maker) const { return short_name(drawable(name_of(rig(), dependencies(), maker))); }
    std::string end_text(std::uint32_t id, bool is_property) const {
        return short_name(drawable(is_property ? rig().properties[id].name : rig().bones[id].name));
    }
    std::string arrow_text(const FoldedEdge& edge, bool between_properties) const {
        if (edge.from == none || edge.to == none) return {};
        return end_text(edge.from, between_properties) + " -> " + end_text(edge.to, between_properties);
    }
    std::string made_text(const FoldedEdge& edge) const {
        const bool follows = dependencies().makers[edge.maker].kind == Maker::Kind::follows;
        std::string text = (follows ? "follows" : std::string(name_of(edge.kind))) + " " + maker_text(edge.maker) +
                           at_place(place_of(rig(), dependencies(), edge.maker));
        for (std::size_t i = 0; i < edge.through.size(); ++i)
            text += (i == 0 ? ", through " : ", ") + maker_text(edge.through[i]) +
                    at_place(place_of(rig(), dependencies(), edge.through[i]));
        return text;
    }
    std::string names_text(const std::vector<BoneId>& bones) const {
        std::string text;
        const std::size_t shown = std::min(bones.size(), names_said);
        for (std::size_t i = 0; i < shown; ++i) text += (i > 0 ? ", " : "") + end_text(bones[i], false);
        if (shown < bones.size()) text += " (showing " + std::to_string(shown) + " of " + std::to_string(bones.size()) + ")";
        return text;
    }
    void showing(std::size_t shown, std::size_t of, const std::string& noun, double indent) {
        if (shown < of)
            lines.push_back(
                said("showing " + std::to_string(shown) + " of " + std::to_string(of) + " " + noun, indent, Tone::quiet));
    }

    void say_edges() {
        const std::vector<FoldedEdge>& witness = story.cycle.witness;
        lines.push_back(heading(story.cycle.witness_is_shortest ? "a shortest loop, edge by edge"
                                                                : "a loop, edge by edge (the search for a shorter one stopped)"));
        const std::size_t shown = std::min(witness.size(), edges_said);
        for (std::size_t i = 0; i < shown; ++i) {
            Said arrow = said(std::to_string(i + 1) + " " + arrow_text(witness[i], story.cycle.is_between_properties()), 0);
            arrow.bold = arrow.keep = true;
            arrow.before = 3;
            lines.push_back(std::move(arrow));
            lines.push_back(said(made_text(witness[i]), deeper, Tone::quiet));
        }
        showing(shown, witness.size(), "edges", 0);
    }

    /// Bones that lose the same controls stand together, in the order of their first.
    void say_losses(const Cut& cut) {
        const Facts& facts = story.subject.facts;
        if (story.index < facts.losses_in.size() && !facts.losses_in[story.index].empty())
            lines.push_back(said("in state " + drawable(name_of(rig(), facts.switches.switches, facts.losses_in[story.index])) +
                                     ", where the cycle is closed:",
                                 deeper));
        const bool all = cut.deform_looked_at == cut.deform_behind;
        if (cut.loses.empty() && all) lines.push_back(said("no deform bone loses a control by it", deeper));
        const std::vector<LossGroup> groups = group_losses(cut);
        const std::size_t shown = std::min(groups.size(), losses_said);
        for (std::size_t i = 0; i < shown; ++i) {
            const auto& [controls, bones] = groups[i];
            lines.push_back(said((bones.size() == 1 ? "deform bone " : "deform bones ") + names_text(bones) +
                                     (bones.size() == 1 ? " loses " : " lose ") + names_text(controls),
                                 deeper));
        }
        showing(shown, groups.size(), "groups of deform bones that lose controls", deeper);
        if (!all)
            lines.push_back(said("what is lost was looked at for " + std::to_string(cut.deform_looked_at) + " of " +
                                     std::to_string(cut.deform_behind) + " deform bones behind the cut",
                                 deeper, Tone::quiet));
    }

    static std::string cost_text(const Cut& cut) {
        const std::string text = "costs " + std::to_string(cut.cost);
        return text + (cut.is_exact ? ", none costs less" : "; proven: none costs less than " + std::to_string(cut.at_least));
    }

    void say_cut(const Cut& cut, const std::vector<bool>& on_loop, bool finer, const std::string& title) {
        lines.push_back(heading(title + ": " + cost_text(cut)));
        const std::size_t shown = std::min(cut.makers.size(), makers_said);
        for (std::size_t i = 0; i < shown; ++i) {
            const CutMaker& maker = cut.makers[i];
            Said what = said(CutSign{i + 1, maker.cost, finer}.words() + ": " + made_text(maker.edge), 0);
            what.bold = what.keep = true;
            what.before = 3;
            lines.push_back(std::move(what));
            const std::string arrow = arrow_text(maker.edge, cut.between_properties);
            const std::string where = on_loop[i] ? "by the maker that is marked on the loop" : "not on this loop";
            lines.push_back(said(arrow + (arrow.empty() || where.empty() ? "" : ", ") + where, deeper, Tone::quiet));
        }
        showing(shown, cut.makers.size(), "makers of the cut", 0);
        say_losses(cut);
    }

    void say_cuts() {
        if (!story.cut) return;
        std::string title = story.cut->is_exact ? "cheapest cut" : "cheapest cut that was found";
        if (story.finer || story.cycle.grain == Grain::bone) title += " at bone grain";
        say_cut(*story.cut, story.cut_on_loop, false, title);
        if (story.finer)
            say_cut(*story.finer, story.finer_on_loop, true,
                    "at " + std::string(name_of(story.cycle.grain)) + " grain less is enough");
    }

    /// Nothing where it is left in every state, and nothing where the facts are of one state.
    void say_states() {
        const SwitchFacts& switches = story.subject.facts.switches;
        if (story.index >= switches.live_in.size()) return;
        const std::vector<Settings>& live_in = switches.live_in[story.index];
        std::size_t states = 1;
        for (const Switch& each : switches.switches) states += each.stops.size();
        if (live_in.size() == states) return;
        lines.push_back(heading("states of switches"));
        if (live_in.empty()) {
            lines.push_back(said("open in all " + std::to_string(states) +
                                     " states looked at: some weight on it is 0 in each; between the stops it may close",
                                 0));
            return;
        }
        std::string text = "closed in " + std::to_string(live_in.size()) + " of " + std::to_string(states) + " states: ";
        const std::size_t shown = std::min(live_in.size(), states_said);
        for (std::size_t i = 0; i < shown; ++i)
            text += (i > 0 ? ", " : "") + short_name(drawable(name_of(rig(), switches.switches, live_in[i])));
        if (shown < live_in.size()) text += ", showing " + std::to_string(shown);
        lines.push_back(said(text, 0));
    }

    void say_rest(const RestOfCycle& rest, bool drawn) {
        if (drawn || (rest.vertices.empty() && rest.arrows.empty())) return;
        const std::string arrows = number_of(rest.arrows.size(), "dependency");
        if (rest.vertices.empty()) {
            lines.push_back(heading("not drawn: " + arrows + " more within the loop"));
            return;
        }
        lines.push_back(heading("not drawn: " + std::to_string(rest.vertices.size()) + " more of the component, and " + arrows));
        std::string text;
        const std::size_t shown = std::min(rest.vertices.size(), rest_said);
        for (std::size_t i = 0; i < shown; ++i)
            text +=
                (i > 0 ? ", " : "") + short_name(name_of(rig(), dependencies(), story.subject.folded.vertices[rest.vertices[i]]));
        // In lines of a few names each, so that columns can be broken between them.
        for (const std::string& line : lines_of_names(text)) lines.push_back(said(line, 0));
        showing(shown, rest.vertices.size(), "names", 0);
    }

    static std::vector<std::string> lines_of_names(const std::string& text) {
        constexpr std::size_t characters = 200;
        std::vector<std::string> rows{""};
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find(", ", at), text.size());
            if (rows.back().size() > characters) rows.push_back("");
            rows.back().append(text, at, std::min(end + 2, text.size()) - at);
            at = end + 2;
        }
        return rows;
    }
};

}  // namespace

std::string CutSign::short_words() const { return (finer ? "finer cut " : "cut ") + std::to_string(number); }

std::string CutSign::words() const { return short_words() + ", costs " + std::to_string(cost); }

std::vector<Said> words_of_cycle(const CycleStory& story, const RestOfCycle& rest, bool rest_drawn) {
    Words words{story};
    words.say_edges();
    words.say_cuts();
    words.say_states();
    words.say_rest(rest, rest_drawn);
    return std::move(words.lines);
}

}  // namespace ligament
