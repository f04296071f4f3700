// Which deform bones lose which controls when makers are given up?
#pragma once

#include <optional>

#include "control_search.hpp"
#include "ligament/cycles.hpp"

namespace ligament {

/// Marks of makers, and which edges go with them.
class GivenUp {
  public:
    explicit GivenUp(const Dependencies& dependencies) : dependencies_(dependencies), is_out_(dependencies.makers.size(), 0) {}

    void mark(std::span<const MakerId> makers, bool out) {
        for (MakerId maker : makers) is_out_[maker] = out ? 1 : 0;
    }
    bool takes(const Edge& edge) const;

  private:
    const Dependencies& dependencies_;
    std::vector<std::uint8_t> is_out_;
};

/// Looks for the losses of one cut after the other, in one state. What it needs of the rig is made once, for the first cut.
class LossSearch {
  public:
    LossSearch(const Rig& rig, const Dependencies& dependencies, const State& state)
        : rig_(rig), dependencies_(dependencies), state_(state) {}

    /// Fills in `loses`, `deform_behind` and `deform_looked_at`. `steps` bounds the edges looked at; gives how many were.
    std::uint64_t find(Cut& cut, std::uint64_t steps);

  private:
    struct Prepared {
        GivenUp given_up;
        Liveness liveness;
        Rows moves;     ///< motion graph: whom a vertex moves
        Rows moved_by;  ///< by maker: the vertices into which motion goes along an edge that goes with it
        ControlSearch search;
        std::vector<std::uint32_t> seen;  ///< by vertex: the last cut that came by
    };
    Prepared prepare() const;
    std::vector<BoneId> find_deform_behind(std::span<const MakerId> makers, std::uint64_t& steps);
    std::vector<BoneId> controls_of(BoneId bone, bool after_cut, std::uint64_t& steps);
    void look_at(Cut& cut, std::span<const BoneId> behind, std::uint64_t& steps);

    const Rig& rig_;
    const Dependencies& dependencies_;
    State state_;
    std::optional<Prepared> prepared_;
    std::uint32_t cuts_ = 0;
};

}  // namespace ligament
