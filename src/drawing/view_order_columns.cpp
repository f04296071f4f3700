// What stands in which column of the order of evaluation, and what stands apart?
#include "view_order_columns.hpp"

#include <algorithm>
#include <bit>
#include <charconv>
#include <map>

#include "text.hpp"
#include "words.hpp"

namespace ligament {

namespace {

std::string others_on_chain(std::size_t count) {
    return count == 0 ? "" : " and " + std::to_string(count) + " on the longest chain";
}

/// Which cycles a vertex waits for: bit i for cycle i + 1, the last bit for any after that.
using Cycles = std::uint64_t;
constexpr std::size_t last_bit = 63;

/// By vertex of the bone grain; a cycle's own members wait for it as well. Every vertex is looked at again once for each cycle
/// that is new to it at the most.
std::vector<Cycles> find_awaited(const Subject& subject) {
    const Graph& graph = subject.dependencies.bone;
    std::vector<std::vector<VertexId>> needed_by(graph.vertices.size());
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v))
            if (!subject.dependencies.is_inert(edge)) needed_by[edge.from].push_back(v);
    std::vector<Cycles> awaited(graph.vertices.size(), 0);
    std::vector<VertexId> open;
    for (std::size_t c = 0; c < subject.facts.cycles.size(); ++c) {
        const Cycles bit = Cycles{1} << std::min(c, last_bit);
        const Cycle& cycle = subject.facts.cycles[c];
        for (BoneId bone : cycle.bones) awaited[graph.first_of_bone[bone]] |= bit, open.push_back(graph.first_of_bone[bone]);
        for (PropertyId p : cycle.properties) awaited[graph.first_property + p] |= bit, open.push_back(graph.first_property + p);
    }
    while (!open.empty()) {
        const VertexId v = open.back();
        open.pop_back();
        for (VertexId reader : needed_by[v]) {
            if ((awaited[reader] | awaited[v]) == awaited[reader]) continue;
            awaited[reader] |= awaited[v];
            open.push_back(reader);
        }
    }
    return awaited;
}

std::string title_of(Cycles cycles) {
    constexpr int most_named = 8;
    const int count = std::popcount(cycles);
    std::string text = count == 1 ? "waits for cycle " : "waits for cycles ";
    int named = 0;
    for (std::size_t i = 0; i < last_bit && named < most_named; ++i)
        if (cycles >> i & 1) text += (named++ ? ", " : "") + std::to_string(i + 1);
    if (cycles >> last_bit & 1) return text + (named ? " and" : "") + " some after " + std::to_string(last_bit);
    return count > named ? text + " and " + std::to_string(count - named) + " more" : text;
}

struct Columns {
    const Subject& subject;
    const Order& order;
    OrderPlan plan;
    std::vector<std::uint8_t> is_blocked;  ///< by bone
    std::vector<std::uint8_t> is_chain;

    explicit Columns(const Subject& s)
        : subject(s), order(s.facts.order), is_blocked(s.rig.bones.size(), 0), is_chain(s.rig.bones.size(), 0) {
        for (BoneId bone : order.blocked) is_blocked[bone] = 1;
        for (BoneId bone : order.longest_chain) is_chain[bone] = 1;
        plan.is_counted = s.rig.bones.size() > most_bones_named;
        plan.has_slack =
            std::any_of(s.facts.schedule.slack.begin(), s.facts.schedule.slack.end(), [](double slack) { return slack > 0; });
    }

    bool is_apart(BoneId bone) const { return is_blocked[bone] || cycle_of(subject, bone); }

    Row row(BoneId bone, bool with_level) const {
        Row made = row_of(subject, bone, /*with_cycle=*/!with_level);  // a lane is of one cycle
        const double slack = subject.facts.schedule.slack[bone];
        made.bold = plan.has_slack && slack == 0;
        made.hover += time_of(subject, bone);
        if (with_level) made.note += " \u00b7 " + std::to_string(order.level[bone]);
        return made;
    }

    /// Those of one level or range that are neither apart nor on the chain.
    std::vector<Row> rows_of(const std::vector<BoneId>& bones, bool with_level) const {
        std::vector<Row> rows;
        if (plan.is_counted) return counted(bones);
        for (BoneId bone : bones) rows.push_back(row(bone, with_level));
        return rows;
    }

    /// The groups with the most bones first.
    std::vector<Row> counted(const std::vector<BoneId>& bones) const {
        std::map<std::uint32_t, std::size_t> count_of;
        for (BoneId bone : bones) ++count_of[subject.group_of[bone]];
        std::vector<std::pair<std::uint32_t, std::size_t>> groups(count_of.begin(), count_of.end());
        std::stable_sort(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
        std::vector<Row> rows;
        std::size_t rest = 0;
        for (std::size_t i = 0; i < groups.size(); ++i) {
            if (i >= most_groups_named) {
                rest += groups[i].second;
                continue;
            }
            const std::string& name = subject.groups[groups[i].first];
            Row made;
            made.words = name.empty() ? "no group" : drawable(name);
            made.note = " \u00d7" + std::to_string(groups[i].second);
            made.sign = Row::Sign::group;
            made.hover = isolated(made.words) + "\n" + number_of(groups[i].second, "bone") + " here";
            made.about = {About::Kind::group, groups[i].first};
            rows.push_back(std::move(made));
        }
        if (rest) {
            Row made;
            made.words = number_of(rest, "bone");
            made.note = " of " + number_of(groups.size() - most_groups_named, "more group");
            made.tone = Tone::quiet;
            rows.push_back(std::move(made));
        }
        return rows;
    }

    void add_levels() {
        const std::size_t span = plan.is_counted ? (order.levels.size() + most_columns - 1) / most_columns : 1;
        for (std::size_t first = 0; first < order.levels.size(); first += span) {
            OrderLevel level;
            level.first = static_cast<std::uint32_t>(first + 1);
            level.last = static_cast<std::uint32_t>(std::min(first + span, order.levels.size()));
            if (first < order.longest_chain.size()) level.chain = order.longest_chain[first];
            std::vector<BoneId> here;
            for (std::uint32_t l = level.first; l <= level.last; ++l)
                for (BoneId bone : order.levels[l - 1]) {
                    ++level.bones;
                    if (bone == level.chain) continue;
                    if (is_apart(bone))
                        ++level.apart;
                    else
                        here.push_back(bone);
                }
            level.rows = rows_of(here, false);
            plan.levels.push_back(std::move(level));
        }
    }

    /// In the order of the levels; what stands in a column on the longest chain is left out.
    std::vector<BoneId> by_level() const {
        std::vector<BoneId> bones;
        for (std::size_t l = 0; l < order.levels.size(); ++l)
            for (BoneId bone : order.levels[l])
                if (is_apart(bone) && !is_in_column(bone)) bones.push_back(bone);
        return bones;
    }

    bool is_in_column(BoneId bone) const {
        if (!is_chain[bone]) return false;
        const std::size_t span = plan.is_counted ? (order.levels.size() + most_columns - 1) / most_columns : 1;
        return (order.level[bone] - 1) % span == 0;
    }

    void add_lanes() {
        std::vector<std::vector<BoneId>> in_cycle(subject.facts.cycles.size() + 1);
        std::map<Cycles, std::vector<BoneId>> waiting;
        const std::vector<Cycles> awaited = find_awaited(subject);
        for (BoneId bone : by_level()) {
            if (const std::uint32_t cycle = cycle_of(subject, bone))
                in_cycle[cycle].push_back(bone);
            else
                waiting[awaited[subject.dependencies.bone.first_of_bone[bone]]].push_back(bone);
        }
        for (std::uint32_t cycle = 1; cycle < in_cycle.size(); ++cycle) {
            plan.in_cycles += subject.facts.cycles[cycle - 1].bones.size();
            if (in_cycle[cycle].empty()) continue;
            const std::string title = "in cycle " + std::to_string(cycle) + ": " + number_of(in_cycle[cycle].size(), "bone") +
                                      others_on_chain(subject.facts.cycles[cycle - 1].bones.size() - in_cycle[cycle].size());
            plan.lanes.push_back({title, {}, cycle, rows_of(in_cycle[cycle], true)});
        }
        plan.waiting = order.blocked.size();
        for (const auto& [cycles, bones] : waiting)
            plan.lanes.push_back({title_of(cycles) + ": " + number_of(bones.size(), "bone"), {}, 0, rows_of(bones, true)});
    }
};

}  // namespace

std::string time_of(const Subject& subject, BoneId bone) {
    const std::string text = "\nlevel " + std::to_string(subject.facts.order.level[bone]);
    const double slack = subject.facts.schedule.slack[bone];
    if (slack == 0) return text + "\nno slack: started later, all is done later";
    char buffer[32];
    const std::string number(buffer, std::to_chars(buffer, buffer + sizeof buffer, slack).ptr);
    return text + "\nslack " + number + ": may start so many bones later";
}

OrderPlan plan_columns(const Subject& subject) {
    Columns columns(subject);
    columns.add_levels();
    if (!subject.facts.cycles.empty()) columns.add_lanes();
    return std::move(columns.plan);
}

}  // namespace ligament
