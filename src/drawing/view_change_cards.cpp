// Which elements changed, and what is beside each of them in either revision?
#include <algorithm>
#include <array>
#include <cstdio>
#include <map>
#include <utility>

#include "text.hpp"
#include "view_change.hpp"
#include "words.hpp"

namespace ligament {

namespace {

constexpr std::size_t most_kept = 4;      // neighbours over ties that stayed
constexpr std::size_t most_changed = 10;  // neighbours over ties that came or went
constexpr std::size_t most_lines = 8;     // of what changed with one element

/// A folded vertex in both rigs; none: not there.
struct Place {
    std::uint32_t before = none, after = none;

    friend auto operator<=>(const Place&, const Place&) = default;
};

/// What is tied to an element on one side, by its place and the kind of the tie, in both revisions.
using Ties = std::map<std::pair<Place, EdgeKind>, std::pair<const FoldedArrow*, const FoldedArrow*>>;

struct Planner {
    const Subject& after;
    const Subject& before = after.change->before;
    const Comparison& comparison = after.change->comparison;
    const Matching& matching = comparison.matching;
    std::vector<std::uint32_t> to_after{}, to_before{};                     ///< by folded vertex
    std::vector<std::vector<std::uint32_t>> into[2]{}, out_of[2]{};         ///< by folded vertex: arrows, before and after
    std::map<std::pair<VertexKind, std::uint32_t>, std::uint32_t> at[2]{};  ///< the folded vertex of an element
    std::map<BoneId, const VerdictChange*> verdicts{};                      ///< by bone after
    ChangePlan plan{};
    std::map<std::string, std::size_t> groups{};
    std::size_t cards = 0, renames = 0;

    const Subject& side(bool is_after) const { return is_after ? after : before; }

    static std::string verdict_line(const VerdictChange& change) {
        const auto name = [](const std::optional<Verdict>& verdict) {
            return verdict ? std::string(name_of(*verdict)) : "\u2014";
        };
        std::string line = change.is_worse ? "worse attached: " : "better attached: ";
        line += name(change.was) + " \u2192 " + name(change.is);
        if (!change.lost_in.empty()) line += ", now lost in " + number_of(change.lost_in.size(), "state");
        if (!change.no_longer_in.empty()) line += ", no longer lost in " + number_of(change.no_longer_in.size(), "state");
        return line;
    }

    void index() {
        for (const VerdictChange& change : comparison.verdicts)
            if (change.after != none) verdicts.emplace(change.after, &change);
        for (const bool is_after : {false, true}) {
            const FoldedRig& folded = side(is_after).folded;
            into[is_after].resize(folded.vertices.size()), out_of[is_after].resize(folded.vertices.size());
            for (std::uint32_t v = 0; v < folded.vertices.size(); ++v)
                at[is_after].emplace(std::pair(folded.vertices[v].kind, folded.vertices[v].element), v);
            for (std::uint32_t a = 0; a < folded.arrows.size(); ++a) {
                into[is_after][folded.arrows[a].to].push_back(a);
                out_of[is_after][folded.arrows[a].from].push_back(a);
            }
        }
        to_after.assign(before.folded.vertices.size(), none), to_before.assign(after.folded.vertices.size(), none);
        for (std::uint32_t v = 0; v < before.folded.vertices.size(); ++v) {
            const FoldedVertex& vertex = before.folded.vertices[v];
            const std::uint32_t element = counterparts(vertex.kind).after[vertex.element];
            const std::uint32_t other = vertex_of(vertex.kind, element, true);
            if (other != none) to_after[v] = other, to_before[other] = v;
        }
    }

    const Counterparts& counterparts(VertexKind kind) const {
        return kind == VertexKind::bone       ? matching.bones
               : kind == VertexKind::property ? matching.properties
               : kind == VertexKind::object   ? matching.objects
                                              : matching.constraints;
    }

    std::uint32_t vertex_of(VertexKind kind, std::uint32_t element, bool is_after) const {
        if (element == none) return none;
        const auto found = at[is_after].find({kind, element});
        return found == at[is_after].end() ? none : found->second;  // properties that nothing reads are not folded
    }

    // Neighbours.

    Ties ties_of(const Place& place, bool needs) const {
        Ties ties;
        for (const bool is_after : {false, true}) {
            const std::uint32_t own = is_after ? place.after : place.before;
            if (own == none) continue;
            for (const std::uint32_t a : needs ? into[is_after][own] : out_of[is_after][own]) {
                const FoldedArrow& arrow = side(is_after).folded.arrows[a];
                const std::uint32_t other = needs ? arrow.from : arrow.to;
                const Place there = is_after ? Place{to_before[other], other} : Place{other, to_after[other]};
                auto& [was, is] = ties[{there, arrow.kind}];
                const FoldedArrow*& slot = is_after ? is : was;
                if (!slot || slot->inert) slot = &arrow;  // a live one says more than an inert one beside it
            }
        }
        return ties;
    }

    Tie tie_of(const FoldedArrow* was, const FoldedArrow* is) const {
        const Subject& shown = side(is != nullptr);
        const FoldedArrow& arrow = is ? *is : *was;
        Tie tie;
        tie.kind = arrow.kind, tie.inert = arrow.inert;
        tie.word = label_of(shown.rig, shown.dependencies, shown.folded, arrow);
        if (tie.word.empty()) tie.word = "parent";
        tie.hover = hover_of(shown.rig, shown.dependencies, shown.folded, arrow);
        if (!was || !is) {
            tie.how = is ? Tie::How::added : Tie::How::removed;
            tie.word = (is ? "+ " : "gone: ") + tie.word;
            tie.hover += is ? "\nnew" : "\ngone";
        } else if (was->inert != is->inert) {
            tie.how = Tie::How::switched;
            tie.word = is->inert ? "off: " + tie.word.substr(0, tie.word.rfind(" (off)")) : "on: " + tie.word;
            tie.hover += is->inert ? "\nwas live before" : "\nwas inert before";
        }
        return tie;
    }

    Neighbour neighbour_at(const Place& place) const {
        const bool is_after = place.after != none;
        const Subject& shown = side(is_after);
        const FoldedVertex& vertex = shown.folded.vertices[is_after ? place.after : place.before];
        Neighbour neighbour;
        neighbour.novelty = !is_after ? Novelty::removed : place.before == none ? Novelty::added : Novelty::same;
        // A property that nothing read before is not new.
        if (counterparts(vertex.kind).before.size() > vertex.element && is_after &&
            counterparts(vertex.kind).before[vertex.element] != none)
            neighbour.novelty = Novelty::same;
        if (!is_after && counterparts(vertex.kind).after[vertex.element] != none) neighbour.novelty = Novelty::same;
        neighbour.name = name_of(shown.rig, shown.dependencies, vertex);
        if (neighbour.novelty == Novelty::added) neighbour.name = "+ " + neighbour.name;
        if (neighbour.novelty == Novelty::removed) neighbour.name = "gone: " + neighbour.name;
        neighbour.hover = hover_of(shown.rig, shown.dependencies, vertex, nullptr);
        neighbour.shape = vertex.kind == VertexKind::bone       ? role_shape(shown.rig.bones[vertex.element])
                          : vertex.kind == VertexKind::property ? Shape::property
                          : vertex.kind == VertexKind::object   ? Shape::object
                                                                : Shape::solver;
        if (is_after && vertex.kind == VertexKind::bone) neighbour.about = {About::Kind::bone, vertex.element};
        if (is_after && vertex.kind == VertexKind::property) neighbour.about = {About::Kind::property, vertex.element};
        return neighbour;
    }

    std::vector<Neighbour> neighbours_of(const Place& place, bool needs) {
        std::vector<std::pair<Place, Neighbour>> found;
        for (const auto& [key, arrows] : ties_of(place, needs)) {
            if (found.empty() || found.back().first != key.first) found.emplace_back(key.first, neighbour_at(key.first));
            found.back().second.ties.push_back(tie_of(arrows.first, arrows.second));
        }
        const auto has_changed = [](const auto& entry) {
            return std::any_of(entry.second.ties.begin(), entry.second.ties.end(),
                               [](const Tie& tie) { return tie.how != Tie::How::kept; });
        };
        const auto order = [&](const auto& a, const auto& b) {  // those that came or went first, then as the rig after has them
            const auto key = [&](const auto& entry) {
                return std::tuple(!has_changed(entry), entry.first.after, entry.first.before);
            };
            return key(a) < key(b);
        };
        std::sort(found.begin(), found.end(), order);
        std::vector<Neighbour> shown;
        std::vector<std::string> folded;
        std::size_t kept = 0, changed = 0;
        for (auto& entry : found) {
            const bool fits = has_changed(entry) ? changed++ < most_changed : kept++ < most_kept;
            if (fits)
                shown.push_back(std::move(entry.second));
            else
                folded.push_back(entry.second.name);
        }
        if (!folded.empty()) shown.push_back(stack_of(folded));
        return shown;
    }

    Neighbour stack_of(const std::vector<std::string>& names) {
        constexpr std::size_t most_told = 40;
        plan.neighbours_folded += names.size();
        Neighbour stack;
        stack.shape = Shape::bundle;
        stack.name = std::to_string(names.size()) + " more";
        for (std::size_t i = 0; i < names.size() && i < most_told; ++i) stack.hover += (i > 0 ? "\n" : "") + isolated(names[i]);
        if (names.size() > most_told) stack.hover += "\nand " + std::to_string(names.size() - most_told) + " more";
        return stack;
    }

    // Cards.

    static std::string field_line(const std::string& of, const FieldChange& field) {
        const auto value = [](const std::string& text) {
            return text.empty() ? std::string("\u2014") : isolated(drawable(text));
        };
        return of + field.field + ": " + value(field.before) + " \u2192 " + value(field.after);
    }

    std::string constraint_words(const Change& change) const {
        const bool gone = change.is_removed();
        const Subject& shown = side(!gone);
        const Constraint& constraint = constraint_of(shown.rig, shown.dependencies, gone ? change.before : change.after);
        return isolated(drawable(constraint.name)) + " (" + std::string(name_of(constraint.kind)) + ")";
    }

    void add_lines(const Change& change, std::vector<std::string>& lines) const {
        std::string of;
        if (change.element == Element::constraint) {
            of = constraint_words(change);
            if (change.is_added()) lines.push_back("+ constraint " + of);
            if (change.is_removed()) lines.push_back("gone: constraint " + of);
            if (change.renamed)
                lines.push_back("constraint " +
                                isolated(drawable(constraint_of(before.rig, before.dependencies, change.before).name)) +
                                " \u2192 " + of);
            of += " ";
        }
        for (const FieldChange& field : change.fields) lines.push_back(field_line(of, field));
    }

    std::string name_before_and_after(const std::string& was, const std::string& is, bool renamed) const {
        return renamed ? isolated(drawable(was)) + " \u2192 " + isolated(drawable(is)) : drawable(is.empty() ? was : is);
    }

    std::string element_name(const Change& change, bool is_after) const {
        const std::uint32_t id = is_after ? change.after : change.before;
        if (id == none) return {};
        const Rig& rig = side(is_after).rig;
        return change.element == Element::property ? rig.properties[id].name
               : change.element == Element::object ? rig.objects[id].name
                                                   : rig.bones[id].name;
    }

    static std::string became(const Change& change) {
        if (change.is_added()) return "new";
        if (change.is_removed()) return "gone";
        char certainty[16];
        std::snprintf(certainty, sizeof certainty, "%.2f", change.certainty);
        return change.renamed ? "changed and renamed, " + std::string(certainty) + " sure" : "changed";
    }

    ChangeGroup& group_at(const std::string& name) {
        const auto [found, fresh] = groups.emplace(name, plan.groups.size());
        if (fresh) {
            ChangeGroup& group = plan.groups.emplace_back();
            group.name = name;
            const auto place = std::find(after.groups.begin(), after.groups.end(), name);
            if (place != after.groups.end()) group.group = static_cast<std::uint32_t>(place - after.groups.begin());
        }
        return plan.groups[found->second];
    }

    /// `changes`: of one element, a bone's own and those of its constraints.
    void add_card(const Change& own, const std::vector<const Change*>& changes) {
        const bool gone = own.is_removed();
        const Subject& shown = side(!gone);
        const std::uint32_t id = gone ? own.before : own.after;
        const VertexKind kind = own.element == Element::property ? VertexKind::property
                                : own.element == Element::object ? VertexKind::object
                                                                 : VertexKind::bone;
        const FoldedVertex vertex{kind, id, 0};
        ChangeGroup& group = group_at(ligament::group_of(shown.rig, shown.dependencies, vertex));
        const bool is_rename_alone = changes.empty() && own.renamed && own.fields.empty();
        if (is_rename_alone) {
            if (renames++ >= most_renames) {
                ++plan.renames_left_out;
                return;
            }
            group.renames.push_back(rename_row(own, kind));
            return;
        }
        if (cards++ >= most_cards) {
            ++plan.cards_left_out;
            return;
        }
        ChangeCard card;
        card.novelty = own.is_added() ? Novelty::added : gone ? Novelty::removed : Novelty::changed;
        card.shape = kind == VertexKind::property ? Shape::property
                     : kind == VertexKind::object ? Shape::object
                                                  : role_shape(shown.rig.bones[id]);
        card.name = name_before_and_after(element_name(own, false), element_name(own, true), own.renamed);
        card.word = kind == VertexKind::bone ? std::string(role_of(shown.rig.bones[id])) : std::string(name_of(own.element));
        card.word += ", " + became(own);
        add_lines(own, card.lines);
        for (const Change* change : changes) add_lines(*change, card.lines);
        if (kind == VertexKind::bone && !gone)
            if (const auto verdict = verdicts.find(id); verdict != verdicts.end())
                card.lines.push_back(verdict_line(*verdict->second));
        card.hover = hover_of(shown.rig, shown.dependencies, vertex, nullptr);
        for (const std::string& line : card.lines) card.hover += "\n" + line;
        if (card.lines.size() > most_lines) {
            const std::size_t more = card.lines.size() - most_lines + 1;
            card.lines.resize(most_lines - 1);
            card.lines.push_back("and " + std::to_string(more) + " more changes");
        }
        if (!gone)
            card.about = {kind == VertexKind::property ? About::Kind::property
                          : kind == VertexKind::bone   ? About::Kind::bone
                                                       : About::Kind::nothing,
                          id};
        const Place place{vertex_of(kind, own.before, false), vertex_of(kind, own.after, true)};
        card.needs = neighbours_of(place, true);
        card.needed_by = neighbours_of(place, false);
        group.cards.push_back(std::move(card));
    }

    Row rename_row(const Change& own, VertexKind kind) const {
        Row row;
        if (kind == VertexKind::bone) row = plain_row_of(after, own.after);
        if (kind == VertexKind::property) row.sign = Row::Sign::property, row.about = {About::Kind::property, own.after};
        const auto cut = [](const std::string& name) { return isolated(cut_in_middle(drawable(name), row_size, rename_width)); };
        row.words = cut(element_name(own, false)) + " \u2192 " + cut(element_name(own, true));
        row.hover = name_before_and_after(element_name(own, false), element_name(own, true), true) + "\n" + row.hover;
        char certainty[24];
        std::snprintf(certainty, sizeof certainty, " %.2f", own.certainty);
        row.note = certainty;
        return row;
    }

    void add_all() {
        // Changes of constraints stand behind the one of their bone, which may be missing.
        std::map<BoneId, std::vector<const Change*>> of_bone;
        std::vector<const Change*> singles;
        for (const Change& change : comparison.changes) {
            if (change.element == Element::rig || change.element == Element::group) continue;
            if (change.element != Element::constraint) {
                singles.push_back(&change);
                continue;
            }
            const BoneId bone = change.is_removed() ? matching.bones.after[before.dependencies.constraints[change.before].bone]
                                                    : after.dependencies.constraints[change.after].bone;
            of_bone[bone].push_back(&change);
        }
        std::vector<bool> has_own(after.rig.bones.size());
        for (const Change* change : singles)
            if (change->element == Element::bone && change->after != none) has_own[change->after] = true;
        // In file order: bones without a change of their own are put among the others.
        auto next = of_bone.begin();
        const auto add_until = [&](BoneId bone) {
            for (; next != of_bone.end() && next->first < bone; ++next)
                if (!has_own[next->first])
                    add_card({Element::bone, matching.bones.before[next->first], next->first, false, 1, {}}, next->second);
        };
        for (const Change* change : singles) {
            if (change->element == Element::bone) add_until(change->after);  // all of them before those that are gone
            const auto stack =
                change->element == Element::bone && change->after != none ? of_bone.find(change->after) : of_bone.end();
            add_card(*change, stack == of_bone.end() ? std::vector<const Change*>{} : stack->second);
        }
        add_until(none);
    }
};

}  // namespace

ChangePlan plan_changes(const Subject& subject) {
    Planner planner{subject};
    planner.index();
    planner.add_all();
    return std::move(planner.plan);
}

}  // namespace ligament
