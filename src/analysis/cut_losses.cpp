#include "cut_losses.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace ligament {

bool GivenUp::takes(const Edge& edge) const {
    const Removers removers = removers_of(dependencies_, edge);
    return is_out_[removers.maker] || (removers.constraint != none && is_out_[removers.constraint]);
}

namespace {

Rows list_moved_by(const Dependencies& dependencies, const Liveness& liveness) {
    const Graph& graph = dependencies.motion;
    Rows makers_of;  // by vertex: the makers with which an edge into it goes
    makers_of.first.reserve(graph.vertices.size() + 1);
    for (VertexId v = 0; v < graph.vertices.size(); ++v) {
        for (const Edge& edge : graph.needs(v)) {
            if (!carries_motion(dependencies, liveness, v, edge)) continue;
            const Removers removers = removers_of(dependencies, edge);
            makers_of.needs.push_back(removers.maker);
            if (removers.constraint != none) makers_of.needs.push_back(removers.constraint);
        }
        makers_of.first.push_back(static_cast<std::uint32_t>(makers_of.needs.size()));
    }
    return reversed(makers_of, static_cast<std::uint32_t>(dependencies.makers.size()));
}

void pay(std::uint64_t& steps, std::uint64_t by) { steps -= std::min(steps, by); }

}  // namespace

LossSearch::Prepared LossSearch::prepare() const {
    Liveness liveness = find_liveness(rig_, dependencies_, evaluate(rig_, dependencies_, state_));
    const Graph& graph = dependencies_.motion;
    const Rows carried =
        pick_rows(graph, [&](VertexId v, const Edge& edge) { return carries_motion(dependencies_, liveness, v, edge); });
    Rows moved_by = list_moved_by(dependencies_, liveness);
    return {GivenUp(dependencies_),
            std::move(liveness),
            reversed(carried, carried.size()),
            std::move(moved_by),
            ControlSearch(rig_, dependencies_),
            std::vector<std::uint32_t>(graph.vertices.size(), 0)};
}

/// Deform bones that motion reaches over an edge that goes.
std::vector<BoneId> LossSearch::find_deform_behind(std::span<const MakerId> makers, std::uint64_t& steps) {
    const Graph& graph = dependencies_.motion;
    std::vector<VertexId> going;
    std::vector<BoneId> behind;
    const auto visit = [&](VertexId v) {
        if (prepared_->seen[v] == cuts_) return;
        prepared_->seen[v] = cuts_;
        going.push_back(v);
        const BoneId bone = dependencies_.bone_of(graph, v);
        if (bone != none && rig_.bones[bone].deform && v >= arrivals_of(rig_, graph, bone).first) behind.push_back(bone);
    };
    for (MakerId maker : makers)
        for (VertexId v : prepared_->moved_by.of(maker)) visit(v);
    while (!going.empty()) {
        const VertexId v = going.back();
        going.pop_back();
        for (VertexId to : prepared_->moves.of(v)) visit(to);
        pay(steps, prepared_->moves.of(v).size() + 1);
    }
    std::sort(behind.begin(), behind.end());
    behind.erase(std::unique(behind.begin(), behind.end()), behind.end());
    return behind;
}

std::vector<BoneId> LossSearch::controls_of(BoneId bone, bool after_cut, std::uint64_t& steps) {
    std::uint64_t looked_at = 0;
    std::vector<BoneId> controls = prepared_->search.find(bone, [&](VertexId v, const Edge& edge) {
        ++looked_at;
        return carries_motion(dependencies_, prepared_->liveness, v, edge) && !(after_cut && prepared_->given_up.takes(edge));
    });
    pay(steps, looked_at + 1);
    return controls;
}

void LossSearch::look_at(Cut& cut, std::span<const BoneId> behind, std::uint64_t& steps) {
    std::vector<std::vector<BoneId>> before;
    const std::uint64_t for_after = steps / 2;
    for (BoneId bone : behind) {
        if (steps <= for_after) break;
        before.push_back(controls_of(bone, /*after_cut=*/false, steps));
    }
    // A step that goes throws nothing away any more.
    std::vector<std::pair<ConstraintId, Parts>> kept;
    for (const CutMaker& maker : cut.makers) {
        const Maker& made_by = dependencies_.makers[maker.edge.maker];
        if (made_by.kind == Maker::Kind::constraint)
            kept.emplace_back(made_by.element, std::exchange(prepared_->liveness.replaced[made_by.element], Parts{0}));
    }
    for (std::size_t i = 0; i < before.size(); ++i) {
        if (i > 0 && steps == 0) break;
        const std::vector<BoneId> after = controls_of(behind[i], /*after_cut=*/true, steps);
        CutLoss loss{behind[i], {}};
        std::set_difference(before[i].begin(), before[i].end(), after.begin(), after.end(), std::back_inserter(loss.controls));
        if (!loss.controls.empty()) cut.loses.push_back(std::move(loss));
        ++cut.deform_looked_at;
    }
    for (const auto& [constraint, parts] : kept) prepared_->liveness.replaced[constraint] = parts;
}

std::uint64_t LossSearch::find(Cut& cut, std::uint64_t steps) {
    cut.loses.clear();
    cut.deform_behind = cut.deform_looked_at = 0;
    const std::uint64_t had = steps;
    if (!prepared_) prepared_.emplace(prepare());
    ++cuts_;
    std::vector<MakerId> makers;
    for (const CutMaker& maker : cut.makers) makers.push_back(maker.edge.maker);
    prepared_->given_up.mark(makers, true);
    const std::vector<BoneId> behind = find_deform_behind(makers, steps);
    cut.deform_behind = behind.size();
    look_at(cut, behind, steps);
    prepared_->given_up.mark(makers, false);
    return had - steps;
}

}  // namespace ligament
