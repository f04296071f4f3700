// Which bone needs which, and in which order do they stand so that groups form blocks?
#include <algorithm>
#include <set>
#include <tuple>

#include "lists.hpp"
#include "view_matrix.hpp"

namespace ligament {

namespace {

constexpr std::size_t most_steps = 20'000'000;

std::size_t rank_of(EdgeKind kind) {
    return static_cast<std::size_t>(std::find(mark_order.begin(), mark_order.end(), kind) - mark_order.begin());
}

/// Arrows by the vertex that they lead to; of a vertex those first whose mark goes before others.
struct Incoming {
    std::vector<std::uint32_t> first, arrow;

    explicit Incoming(const FoldedRig& folded) : first(folded.vertices.size() + 1) {
        for (const FoldedArrow& a : folded.arrows)
            if (!a.inert) ++first[a.to + 1];
        for (std::size_t v = 1; v < first.size(); ++v) first[v] += first[v - 1];
        arrow.resize(first.back());
        std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
        for (std::uint32_t i = 0; i < folded.arrows.size(); ++i)
            if (!folded.arrows[i].inert) arrow[next[folded.arrows[i].to]++] = i;
        for (std::size_t v = 0; v + 1 < first.size(); ++v)
            std::stable_sort(arrow.begin() + first[v], arrow.begin() + first[v + 1],
                             [&](auto a, auto b) { return rank_of(folded.arrows[a].kind) < rank_of(folded.arrows[b].kind); });
    }
};

/// A cycle, or a bone that is in none.
struct Part {
    std::vector<BoneId> bones;
    std::uint32_t group = 0;
    std::size_t waits = 0;  ///< for so many needs
    std::vector<std::uint32_t> needed_by;
};

struct Condensation {
    std::vector<Part> parts;  // by first bone in file order
    std::vector<std::uint32_t> of_bone;
    std::vector<std::size_t> waits_of_group;  // needs of parts of other groups that are not met yet

    Condensation(const Subject& subject, const std::vector<BoneNeed>& needs)
        : of_bone(subject.rig.bones.size(), none), waits_of_group(subject.groups.size()) {
        std::vector<std::uint32_t> of_cycle(subject.facts.cycles.size() + 1, none);
        for (BoneId bone = 0; bone < of_bone.size(); ++bone) {
            const std::uint32_t cycle = cycle_of(subject, bone);
            std::uint32_t part = cycle ? of_cycle[cycle] : none;
            if (part == none) {
                part = static_cast<std::uint32_t>(parts.size());
                parts.emplace_back().group = subject.group_of[bone];
                if (cycle) of_cycle[cycle] = part;
            }
            parts[part].bones.push_back(bone);
            of_bone[bone] = part;
        }
        for (const BoneNeed& need : needs) {
            const std::uint32_t from = of_bone[need.needed], to = of_bone[need.bone];
            if (from == to) continue;
            parts[from].needed_by.push_back(to);
            ++parts[to].waits;
            waits_of_group[parts[to].group] += parts[from].group != parts[to].group;
        }
    }
};

struct Queue {
    Condensation& all;
    std::vector<std::set<std::uint32_t>> ready;                // by group
    std::set<std::pair<std::size_t, std::uint32_t>> groups{};  // of those with something ready: what it waits for, group
    explicit Queue(Condensation& parts) : all(parts), ready(parts.waits_of_group.size()) {
        for (std::uint32_t p = 0; p < all.parts.size(); ++p)
            if (all.parts[p].waits == 0) push(p);
    }
    void push(std::uint32_t part) {
        const std::uint32_t group = all.parts[part].group;
        if (ready[group].empty()) groups.insert({all.waits_of_group[group], group});
        ready[group].insert(part);
    }
    /// Of `group` where that has something ready.
    std::uint32_t pop(std::uint32_t group) {
        if (group == none || ready[group].empty()) group = groups.begin()->second;
        const std::uint32_t part = *ready[group].begin();
        ready[group].erase(ready[group].begin());
        if (ready[group].empty()) groups.erase({all.waits_of_group[group], group});
        return part;
    }
    void finish(std::uint32_t part) {
        for (std::uint32_t next : all.parts[part].needed_by) {
            const std::uint32_t group = all.parts[next].group;
            if (group != all.parts[part].group) {
                const bool known = groups.erase({all.waits_of_group[group], group}) > 0;
                --all.waits_of_group[group];
                if (known) groups.insert({all.waits_of_group[group], group});
            }
            if (--all.parts[next].waits == 0) push(next);
        }
    }
};

}  // namespace

BoneNeeds find_bone_needs(const FoldedRig& folded) {
    BoneNeeds needs;
    for (const FoldedArrow& arrow : folded.arrows) needs.inert += arrow.inert;
    const Incoming incoming(folded);
    std::vector<std::uint32_t> seen(folded.vertices.size(), none);  // by vertex: the last bone that it was reached from
    std::vector<std::pair<std::uint32_t, EdgeKind>> stack;
    std::size_t steps = 0;
    for (std::uint32_t bone = 0; bone < folded.vertices.size() && folded.vertices[bone].kind == VertexKind::bone; ++bone) {
        const std::size_t before = needs.all.size();
        for (std::uint32_t i = incoming.first[bone]; i < incoming.first[bone + 1]; ++i) {
            const FoldedArrow& last = folded.arrows[incoming.arrow[i]];
            stack.assign(1, {last.from, last.kind});
            while (!stack.empty()) {
                const auto [v, kind] = stack.back();
                stack.pop_back();
                if (seen[v] == bone) continue;
                seen[v] = bone;
                if (folded.vertices[v].kind == VertexKind::bone) {
                    needs.all.push_back({bone, v, kind});
                    continue;
                }
                if (steps > most_steps) needs.is_complete = false;
                if (!needs.is_complete) continue;
                for (std::uint32_t j = incoming.first[v]; j < incoming.first[v + 1]; ++j, ++steps)
                    stack.emplace_back(folded.arrows[incoming.arrow[j]].from, kind);
            }
        }
        std::sort(needs.all.begin() + static_cast<std::ptrdiff_t>(before), needs.all.end(),
                  [](const BoneNeed& a, const BoneNeed& b) { return a.needed < b.needed; });
    }
    return needs;
}

GroupedOrder find_grouped_order(const Subject& subject, const std::vector<BoneNeed>& needs) {
    Condensation parts(subject, needs);
    Queue queue(parts);
    GroupedOrder order;
    std::uint32_t group = none;
    while (!queue.groups.empty()) {
        const std::uint32_t part = queue.pop(group);
        group = parts.parts[part].group;
        order.bones.insert(order.bones.end(), parts.parts[part].bones.begin(), parts.parts[part].bones.end());
        queue.finish(part);
    }
    order.place.assign(subject.rig.bones.size(), none);
    for (std::size_t i = 0; i < order.bones.size(); ++i) {
        order.place[order.bones[i]] = i;
        const std::uint32_t own = subject.group_of[order.bones[i]];
        if (order.runs.empty() || order.runs.back().group != own) order.runs.push_back({own, i, 0});
        ++order.runs.back().count;
    }
    return order;
}

Matrix::Matrix(const Subject& of) : subject(of), needs(find_bone_needs(of.folded)), order(find_grouped_order(of, needs.all)) {
    for (const BoneNeed& need : needs.all)
        if (order.place[need.bone] <= order.place[need.needed]) loud.push_back({need, cycle_of(of, need.bone)});
    std::sort(loud.begin(), loud.end(), [&](const LoudNeed& a, const LoudNeed& b) {
        return std::tuple(order.place[a.need.bone], order.place[a.need.needed]) <
               std::tuple(order.place[b.need.bone], order.place[b.need.needed]);
    });
}

}  // namespace ligament
