#include "roots.hpp"

#include <algorithm>
#include <iterator>
#include <span>

#include "marks.hpp"

namespace ligament {

namespace {

using Marks = std::vector<std::uint64_t>;

constexpr std::size_t batch = 62;
constexpr std::uint64_t any_control = std::uint64_t{1} << 62;
constexpr std::uint64_t another_control = std::uint64_t{1} << 63;

struct RootSearch {
    const Rig& rig;
    const Graph& graph;
    const Motion& motion;
    std::vector<std::uint32_t> roots;  ///< indices into Motion::controls

    Marks no_marks() const { return Marks(graph.vertices.size(), 0); }

    template <class Word = std::uint64_t, class MarkOf>  // (index into Motion::controls)
    std::vector<Word> spread_from_controls(MarkOf mark_of) const {
        std::vector<Word> marks(graph.vertices.size(), 0);
        for (std::uint32_t i = 0; i < motion.controls.size(); ++i)
            for (VertexId v : motion.starts_of(i)) marks[v] |= mark_of(i);
        spread_marks(motion.rows, motion.order, marks);
        return marks;
    }

    /// Against the edges: each vertex gets the marks of all that it reaches.
    void spread_back(Marks& marks) const {
        for (std::uint32_t c = motion.order.size(); c-- > 0;) {
            std::uint64_t all = 0;
            for (std::uint32_t v : motion.order.of(c)) all |= marks[v];
            if (all == 0) continue;
            for (std::uint32_t v : motion.order.of(c)) {
                marks[v] = all;
                for (std::uint32_t from : motion.rows.of(v)) marks[from] |= all;
            }
        }
    }

    std::uint64_t arrived(const Marks& marks, BoneId bone) const {
        const Arrivals arrivals = arrivals_of(rig, graph, bone);
        std::uint64_t all = 0;
        for (VertexId v = arrivals.first; v < arrivals.end; ++v) all |= marks[v];
        return all;
    }

    /// The controls that reach the first deform bone in file order that any control reaches. What was walked in vain for bones
    /// before it is not walked again.
    std::vector<std::uint32_t> controls_of_first_deform() const {
        std::vector<std::uint32_t> start_of(graph.vertices.size(), none), found;
        for (std::uint32_t i = 0; i < motion.controls.size(); ++i)
            for (VertexId v : motion.starts_of(i)) start_of[v] = i;
        std::vector<std::uint8_t> seen(graph.vertices.size(), 0);
        std::vector<VertexId> going;
        const auto visit = [&](VertexId v) {
            if (seen[v]) return;
            seen[v] = 1;
            going.push_back(v);
            if (start_of[v] != none) found.push_back(start_of[v]);
        };
        for (BoneId b = 0; b < rig.bones.size() && found.empty(); ++b) {
            if (!rig.bones[b].deform) continue;
            const Arrivals arrivals = arrivals_of(rig, graph, b);
            for (VertexId v = arrivals.first; v < arrivals.end; ++v) visit(v);
            while (!going.empty()) {
                const VertexId v = going.back();
                going.pop_back();
                for (std::uint32_t from : motion.rows.of(v)) visit(from);
            }
        }
        std::sort(found.begin(), found.end());
        found.erase(std::unique(found.begin(), found.end()), found.end());
        return found;
    }

    std::vector<BoneId> reached_deform_bones() const {
        const Marks marks = spread_from_controls([](std::uint32_t) { return any_control; });
        std::vector<BoneId> reached;
        for (BoneId b = 0; b < rig.bones.size(); ++b)
            if (rig.bones[b].deform && arrived(marks, b)) reached.push_back(b);
        return reached;
    }

    std::uint64_t started(const Marks& marks, std::uint32_t control) const {
        std::uint64_t all = 0;
        for (VertexId v : motion.starts_of(control)) all |= marks[v];
        return all;
    }

    /// Leaves the candidates that reach each of up to 64 deform bones spread over the file, and takes out as roots those whose
    /// way leads through the last vertex that alone reaches all deform bones.
    void narrow(std::vector<std::uint32_t>& candidates) {
        const std::vector<BoneId> reached = reached_deform_bones();
        const std::size_t samples = std::min<std::size_t>(64, reached.size());
        if (samples == 0) return;
        Marks marks = no_marks();
        for (std::size_t i = 0; i < samples; ++i) {
            const BoneId bone = samples == 1 ? reached.front() : reached[i * (reached.size() - 1) / (samples - 1)];
            const Arrivals arrivals = arrivals_of(rig, graph, bone);
            for (VertexId v = arrivals.first; v < arrivals.end; ++v) marks[v] |= std::uint64_t{1} << i;
        }
        spread_back(marks);
        const std::uint64_t all = ~std::uint64_t{0} >> (64 - samples);
        std::erase_if(candidates, [&](std::uint32_t i) { return started(marks, i) != all; });
        const auto hub =
            std::find_if(motion.order.members.rbegin(), motion.order.members.rend(), [&](VertexId v) { return marks[v] == all; });
        if (hub == motion.order.members.rend()) return;
        Marks ahead = no_marks(), behind = no_marks();
        ahead[*hub] = behind[*hub] = 1;
        spread_marks(motion.rows, motion.order, ahead);
        if (!std::all_of(reached.begin(), reached.end(), [&](BoneId b) { return arrived(ahead, b); })) return;
        spread_back(behind);
        std::erase_if(candidates, [&](std::uint32_t i) {
            if (!started(behind, i)) return false;
            roots.push_back(i);
            return true;
        });
    }

    /// Takes those of up to 62 candidates that reach every reached deform bone as roots; gives the marks.
    std::vector<std::uint8_t> judge(std::span<const std::uint32_t> candidates) {
        std::vector<std::uint64_t> bit(motion.controls.size(), another_control);
        for (std::size_t i = 0; i < candidates.size(); ++i) bit[candidates[i]] = std::uint64_t{1} << i;
        Marks marks = spread_from_controls([&](std::uint32_t i) { return bit[i] | any_control; });
        std::uint64_t reach_all = any_control - 1;
        for (BoneId b = 0; b < rig.bones.size(); ++b) {
            if (!rig.bones[b].deform) continue;
            const std::uint64_t at_bone = arrived(marks, b);
            if (at_bone != 0) reach_all &= at_bone;
        }
        for (std::size_t i = 0; i < candidates.size(); ++i)
            if (reach_all >> i & 1u) roots.push_back(candidates[i]);
        // The others now are just other controls.
        const std::uint64_t others = ~(reach_all | any_control);
        std::vector<std::uint8_t> reached;
        reached.reserve(marks.size());
        for (std::uint64_t mark : marks)
            reached.push_back(
                static_cast<std::uint8_t>((mark & any_control ? Reached::any : 0) | (mark & others ? Reached::another : 0)));
        return reached;
    }

    std::vector<std::uint8_t> spread_known_roots(std::span<const BoneId> known) const {
        std::vector<std::uint8_t> is_root(rig.bones.size(), 0);
        for (BoneId b : known) is_root[b] = 1;
        return spread_from_controls<std::uint8_t>([&](std::uint32_t i) {
            return is_root[motion.controls[i]] ? Reached::any : static_cast<std::uint8_t>(Reached::any | Reached::another);
        });
    }

    std::vector<BoneId> root_controls() const {
        std::vector<BoneId> controls;
        for (std::uint32_t i : roots) controls.push_back(motion.controls[i]);
        return controls;
    }

    std::vector<std::uint8_t> find() {
        std::vector<std::uint32_t> candidates = controls_of_first_deform();
        if (candidates.size() <= batch) return judge(candidates);
        narrow(candidates);
        for (std::size_t i = 0; i < candidates.size(); i += batch)
            judge(std::span(candidates).subspan(i, std::min(batch, candidates.size() - i)));
        std::sort(roots.begin(), roots.end());
        return spread_known_roots(root_controls());
    }
};

}  // namespace

Reached find_reached(const Rig& rig, const Dependencies& dependencies, const Motion& motion) {
    RootSearch search{rig, dependencies.motion, motion, {}};
    if (rig.roots) return {*rig.roots, search.spread_known_roots(*rig.roots)};
    std::vector<std::uint8_t> marks = search.find();
    return {search.root_controls(), std::move(marks)};
}

}  // namespace ligament
