// What do the groups of a rig need of each other?
#include "view_plan_graph.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "components.hpp"
#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

template <typename T>
void add_all(std::vector<T>& to, const std::vector<T>& from) {
    to.insert(to.end(), from.begin(), from.end());
}

void sort_out(std::vector<std::uint32_t>& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
}

/// Which card each folded vertex belongs to. Makes the cards that are no groups.
struct Sorter {
    const Subject& subject;
    GroupGraph& graph;
    std::uint32_t groupless = none;  // card
    std::vector<std::uint32_t> card_of_object;

    explicit Sorter(const Subject& of, GroupGraph& into) : subject(of), graph(into) {
        for (std::uint32_t g = 0; g < subject.groups.size(); ++g) {
            GroupCard& card = graph.cards.emplace_back();
            card.groups = {g};
            card.name = subject.groups[g].empty() ? "(in no group)" : drawable(subject.groups[g]);
            if (subject.groups[g].empty()) groupless = g;
        }
        const bool wanted = std::any_of(subject.folded.vertices.begin(), subject.folded.vertices.end(),
                                        [&](const FoldedVertex& vertex) { return is_groupless(vertex); });
        if (wanted && groupless == none) {
            groupless = static_cast<std::uint32_t>(graph.cards.size());
            graph.cards.emplace_back().name = name_of_groupless();
            graph.cards.back().place = -1;
        }
        find_object_cards();
    }

    /// On no bone at all.
    bool is_groupless(const FoldedVertex& vertex) const {
        if (vertex.kind == VertexKind::property) return subject.rig.properties[vertex.element].on == none;
        return vertex.kind == VertexKind::object && subject.rig.objects[vertex.element].follows.empty();
    }

    /// Of the card of properties and objects on no bone: where there is but one, its own name.
    std::string name_of_groupless() const {
        std::string name;
        for (const FoldedVertex& vertex : subject.folded.vertices)
            if (is_groupless(vertex)) {
                if (!name.empty()) return "(in no group)";
                name = drawable(name_of(subject.rig, subject.dependencies, vertex));
            }
        return name;
    }

    void find_object_cards() {
        const auto& objects = subject.rig.objects;
        std::vector<ObjectId> shared;
        for (ObjectId o = 0; o < objects.size(); ++o) {
            const std::vector<BoneId>& follows = objects[o].follows;
            const std::uint32_t first = follows.empty() ? groupless : subject.group_of[follows.front()];
            const bool one = std::all_of(follows.begin(), follows.end(), [&](BoneId b) { return subject.group_of[b] == first; });
            card_of_object.push_back(one ? first : none);
            if (!one) shared.push_back(o);
        }
        for (ObjectId o : shared) {
            const bool together = shared.size() > most_object_cards;
            if (!together || o == shared.front()) {
                GroupCard& card = graph.cards.emplace_back();
                card.name = together ? number_of(shared.size(), "object") : drawable(objects[o].name);
                card.place = std::numeric_limits<double>::max();
            }
            graph.cards.back().objects.push_back(o);
            card_of_object[o] = static_cast<std::uint32_t>(graph.cards.size() - 1);
        }
    }

    std::uint32_t card_of(const FoldedVertex& vertex) const {
        switch (vertex.kind) {
            case VertexKind::bone:
                return subject.group_of[vertex.element];
            case VertexKind::property: {
                const BoneId on = subject.rig.properties[vertex.element].on;
                return on == none ? groupless : subject.group_of[on];
            }
            case VertexKind::object:
                return card_of_object[vertex.element];
            default:
                return subject.group_of[subject.dependencies.constraints[vertex.element].bone];
        }
    }
};

void count_vertex(GroupTally& tally, const Subject& subject, const FoldedVertex& vertex) {
    if (vertex.cycle) tally.cycles.push_back(vertex.cycle);
    switch (vertex.kind) {
        case VertexKind::bone: {
            const Bone& bone = subject.rig.bones[vertex.element];
            ++(bone.control ? bone.deform ? tally.both : tally.control : bone.deform ? tally.deform : tally.mechanism);
            if (const Attachment* attachment = subject.verdict[vertex.element]) {
                tally.orphaned += attachment->verdict == Verdict::orphaned;
                tally.root_only += attachment->verdict == Verdict::root_only;
                tally.carried += attachment->verdict == Verdict::carried;
            }
            break;
        }
        case VertexKind::property:
            ++tally.properties;
            break;
        case VertexKind::object:
            ++tally.objects;
            break;
        default:
            ++tally.solvers;
    }
}

/// What switches are on a group and do to it, and where it stands in the evaluation order.
void count_facts(const Subject& subject, const Sorter& sorter, GroupGraph& graph) {
    const SwitchFacts& facts = subject.facts.switches;
    for (std::uint32_t s = 0; s < facts.switches.size(); ++s) {
        const std::uint32_t card = sorter.card_of({VertexKind::property, facts.switches[s].property, 0});
        if (card != none) graph.cards[card].tally.switches.push_back(s);
    }
    for (std::size_t d = 0; d < subject.facts.attachment.deform.size(); ++d) {
        const bool worse =
            (d < facts.worse.size() && !facts.worse[d].empty()) || (d < facts.worse_yet.size() && !facts.worse_yet[d].empty());
        graph.cards[subject.group_of[subject.facts.attachment.deform[d].bone]].tally.worse += worse;
    }
    for (const SwitchGap& gap : facts.gaps) ++graph.cards[subject.group_of[gap.bone]].tally.gaps;

    std::vector<std::size_t> bones(subject.groups.size(), 0);
    const std::vector<BoneId>& order = subject.facts.order.bones;
    for (std::size_t at = 0; at < order.size(); ++at) {
        const std::uint32_t group = subject.group_of[order[at]];
        graph.cards[group].place += static_cast<double>(at);
        ++bones[group];
    }
    for (std::size_t g = 0; g < bones.size(); ++g)
        graph.cards[g].place /= static_cast<double>(std::max<std::size_t>(bones[g], 1));
}

/// Needs with the same ends become one; they come in any order of ends, and of one pair in the order of their arrows.
std::vector<GroupNeed> joined(std::vector<GroupNeed> needs) {
    std::stable_sort(needs.begin(), needs.end(),
                     [](const GroupNeed& a, const GroupNeed& b) { return std::pair(a.to, a.from) < std::pair(b.to, b.from); });
    std::vector<GroupNeed> out;
    for (GroupNeed& need : needs) {
        if (!out.empty() && out.back().to == need.to && out.back().from == need.from)
            out.back().add(need);
        else
            out.push_back(std::move(need));
    }
    return out;
}

/// Arrows between cards, bundled; arrows inside one are counted.
void bundle_arrows(const Subject& subject, const std::vector<std::uint32_t>& card_of_vertex, GroupGraph& graph) {
    const std::vector<FoldedArrow>& arrows = subject.folded.arrows;
    std::vector<std::pair<std::uint64_t, std::uint32_t>> between;  // ends, arrow
    for (std::uint32_t a = 0; a < arrows.size(); ++a) {
        const std::uint32_t from = card_of_vertex[arrows[a].from], to = card_of_vertex[arrows[a].to];
        if (from == to)
            graph.cards[from].tally.inside += arrows[a].makers.size();
        else
            between.emplace_back((std::uint64_t{to} << 32) | from, a);
    }
    std::sort(between.begin(), between.end());
    for (std::size_t i = 0; i < between.size(); ++i) {
        const auto [ends, a] = between[i];
        if (i == 0 || between[i - 1].first != ends) {
            GroupNeed& need = graph.needs.emplace_back();
            need.to = static_cast<std::uint32_t>(ends >> 32), need.from = static_cast<std::uint32_t>(ends);
        }
        GroupNeed& need = graph.needs.back();
        (arrows[a].inert ? need.inert : need.live)[static_cast<std::size_t>(arrows[a].kind)] += arrows[a].makers.size();
        need.cycle |= arrows[a].cycle != 0;
        if (need.examples.size() < GroupNeed::most_examples) need.examples.push_back(a);
    }
}

}  // namespace

void GroupTally::add(const GroupTally& other) {
    for (auto member : {&GroupTally::control, &GroupTally::mechanism, &GroupTally::deform, &GroupTally::both,
                        &GroupTally::properties, &GroupTally::objects, &GroupTally::solvers, &GroupTally::orphaned,
                        &GroupTally::root_only, &GroupTally::carried, &GroupTally::worse, &GroupTally::gaps, &GroupTally::inside})
        this->*member += other.*member;
    add_all(cycles, other.cycles);
    sort_out(cycles);
    add_all(switches, other.switches);
    sort_out(switches);
}

std::size_t GroupNeed::live_count() const { return std::accumulate(live.begin(), live.end(), std::size_t{0}); }
std::size_t GroupNeed::inert_count() const { return std::accumulate(inert.begin(), inert.end(), std::size_t{0}); }

EdgeKind GroupNeed::kind() const {
    const auto& counts = live_count() > 0 ? live : inert;
    return static_cast<EdgeKind>(std::max_element(counts.begin(), counts.end()) - counts.begin());
}

void GroupNeed::add(const GroupNeed& other) {
    for (std::size_t k = 0; k < edge_kind_count; ++k) live[k] += other.live[k], inert[k] += other.inert[k];
    cycle |= other.cycle;
    add_all(examples, other.examples);
    std::sort(examples.begin(), examples.end());
    if (examples.size() > most_examples) examples.resize(most_examples);
}

GroupGraph build_group_graph(const Subject& subject) {
    GroupGraph graph;
    const Sorter sorter(subject, graph);
    std::vector<std::uint32_t> card_of_vertex;
    for (const FoldedVertex& vertex : subject.folded.vertices) {
        card_of_vertex.push_back(sorter.card_of(vertex));
        count_vertex(graph.cards[card_of_vertex.back()].tally, subject, vertex);
    }
    for (GroupCard& card : graph.cards) sort_out(card.tally.cycles);
    count_facts(subject, sorter, graph);
    bundle_arrows(subject, card_of_vertex, graph);
    return graph;
}

GroupGraph join_cards(const GroupGraph& graph, const std::vector<std::uint32_t>& card_of, const std::vector<std::string>& names) {
    GroupGraph out;
    out.cards.resize(names.size());
    std::vector<double> weight(names.size(), 0);
    for (std::size_t c = 0; c < graph.cards.size(); ++c) {
        const GroupCard& from = graph.cards[c];
        GroupCard& to = out.cards[card_of[c]];
        add_all(to.groups, from.groups);
        add_all(to.objects, from.objects);
        to.tally.add(from.tally);
        const double bones = static_cast<double>(std::max<std::size_t>(from.tally.bones(), 1));
        to.place += from.objects.empty() ? from.place * bones : from.place;
        weight[card_of[c]] += from.objects.empty() ? bones : 1;
    }
    for (std::size_t c = 0; c < names.size(); ++c) out.cards[c].name = names[c], out.cards[c].place /= std::max(weight[c], 1.0);
    std::vector<GroupNeed> needs;
    for (const GroupNeed& need : graph.needs) {
        GroupNeed moved = need;
        moved.to = card_of[need.to], moved.from = card_of[need.from];
        if (moved.to == moved.from)
            out.cards[moved.to].tally.inside += need.live_count() + need.inert_count();
        else
            needs.push_back(std::move(moved));
    }
    out.needs = joined(std::move(needs));
    return out;
}

std::vector<std::uint32_t> cards_by_place(const GroupGraph& graph) {
    std::vector<std::uint32_t> order(graph.cards.size());
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::uint32_t a, std::uint32_t b) { return graph.cards[a].place < graph.cards[b].place; });
    return order;
}

namespace {

/// What each card needs live.
Rows needs_of_cards(const GroupGraph& graph) {
    std::vector<std::vector<std::uint32_t>> sources(graph.cards.size());
    for (const GroupNeed& need : graph.needs)
        if (need.live_count() > 0) sources[need.to].push_back(need.from);
    Rows rows;
    for (const std::vector<std::uint32_t>& of_one : sources) {
        rows.needs.insert(rows.needs.end(), of_one.begin(), of_one.end());
        rows.first.push_back(static_cast<std::uint32_t>(rows.needs.size()));
    }
    return rows;
}

/// Every card after all that it needs, but for those that need it in turn: these by place.
std::vector<std::uint32_t> cards_in_order(const GroupGraph& graph, const Rows& needs) {
    const Condensation parts = find_components(needs);
    std::vector<std::uint32_t> order = cards_by_place(graph);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::uint32_t a, std::uint32_t b) { return parts.component_of[a] < parts.component_of[b]; });
    return order;
}

}  // namespace

std::vector<std::uint32_t> find_card_levels(const GroupGraph& graph) {
    const Rows needs = needs_of_cards(graph);
    const std::vector<std::uint32_t> order = cards_in_order(graph, needs);
    std::vector<std::uint32_t> rank(order.size()), level(order.size(), 0);
    for (std::uint32_t i = 0; i < order.size(); ++i) rank[order[i]] = i;
    std::uint32_t deepest = 0;
    bool any = false;
    for (std::uint32_t card : order) {
        for (std::uint32_t from : needs.of(card))
            if (rank[from] < rank[card]) level[card] = std::max(level[card], level[from] + 1);
        if (!graph.cards[card].objects.empty()) continue;
        deepest = std::max(deepest, level[card]);
        any = true;
    }
    for (std::uint32_t card : order)
        if (!graph.cards[card].objects.empty() && any) level[card] = std::max(level[card], deepest + 1);
    return level;
}

}  // namespace ligament
