// Which controls move this one bone? Searched backwards from where motion arrives in it.
#pragma once

#include <algorithm>
#include <vector>

#include "motion.hpp"
#include "visits.hpp"

namespace ligament {

/// Searches for one bone after the other, each of a cost that grows with what the bone needs and not with the rig.
class ControlSearch {
  public:
    ControlSearch(const Rig& rig, const Dependencies& dependencies);

    /// The controls that reach the bone's final or curve, in file order. `carries(v, edge)` says whether motion travels along an
    /// edge into v (motion graph).
    template <class Carries>
    std::vector<BoneId> find(BoneId bone, Carries carries) {
        begin(bone);
        while (!going_.empty()) {
            const VertexId v = going_.back();
            going_.pop_back();
            work_ += dependencies_.motion.needs(v).size();
            for (const Edge& edge : dependencies_.motion.needs(v))
                if (!seen_.has(edge.from) && carries(v, edge)) visit(edge.from);
        }
        std::sort(found_.begin(), found_.end());
        found_.erase(std::unique(found_.begin(), found_.end()), found_.end());
        return found_;
    }

    /// Edges looked at by all searches so far.
    std::uint64_t work() const { return work_; }

  private:
    void begin(BoneId bone);
    void visit(VertexId v) {
        seen_.enter(v);
        going_.push_back(v);
        if (start_of_[v] != none) found_.push_back(start_of_[v]);
    }

    const Rig& rig_;
    const Dependencies& dependencies_;
    std::vector<BoneId> start_of_;  ///< by vertex: the control whose motion starts there, or none
    Visits seen_;
    std::vector<VertexId> going_;
    std::vector<BoneId> found_;
    std::uint64_t work_ = 0;
};

}  // namespace ligament
