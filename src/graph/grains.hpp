// How does the wiring of a rig look at each of the three grains?
#pragma once

#include <array>
#include <span>
#include <utility>
#include <vector>

#include "numbering.hpp"
#include "wiring.hpp"

namespace ligament {

/// Grows a graph finer than the bone grain from needs that come step by step, in the order of wire().
class FinerGrain {
  public:
    enum class Split : std::uint8_t {
        step,     ///< one vertex a step, one edge a need
        channel,  ///< steps split into position, rotation and scale, poses into nine; needs joined part by part or all to all
        motion    ///< as `channel`, but see Dependencies::motion
    };

    /// `marked` as in LateGraph.
    FinerGrain(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering, Split split,
               std::span<const std::uint8_t> marked = {});

    void add(std::span<const Need> needs);
    /// To be called once, after all needs.
    Graph finish();

    // Of a motion graph: what the other grains have.
    std::size_t step_edges() const { return step_edges_; }
    std::size_t channel_edges() const { return channel_edges_; }
    std::vector<EdgeInto> take_step_only() { return std::move(step_only_); }  ///< Dependencies::step_only

  private:
    void lay_out_bone(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering, BoneId b);
    bool is_handed_on(const Rig& rig, const Numbering& numbering, const Vertex& step, VertexId v) const;
    std::uint8_t width_of(const Rig& rig, const Vertex& step) const;
    void begin_row(VertexId v);
    void add_vertex(VertexId start, std::span<const Need> needs);
    std::size_t join(const Need& need, VertexId start);

    /// Of one need: the edge from the first vertex of `from`, and by part of `to` the parts of `from` that go into it.
    struct Joined {
        Edge edge;
        std::array<Channels, 9> into;
    };

    Split split_;
    Graph graph_;
    std::vector<VertexId> start_of_;  ///< by step: its first vertex, or none where the part wanted leaves it out
    std::vector<Vertex> steps_;       ///< of the bone at hand
    std::vector<Joined> joined_;      ///< what is needed of the vertices at hand
    std::vector<EdgeInto> step_only_;
    std::size_t step_edges_ = 0, channel_edges_ = 0;
};

/// A bone's steps made one vertex. Order edges inside a bone vanish, and so do the poses that a solver reads; but a driver of
/// such a pose feeds the solver as well as the bone. Grown like FinerGrain.
class BoneGrain {
  public:
    BoneGrain(const Rig& rig, const Dependencies& dependencies, const Numbering& numbering);

    void add(std::span<const Need> needs);
    Graph finish();

  private:
    const Rig& rig_;
    const Dependencies& dependencies_;
    Graph graph_;
    std::vector<VertexId> whole_;  ///< by step: its vertex
};

/// How many vertices there are at channel grain.
std::size_t count_channel_vertices(const Rig& rig, const Numbering& numbering);

/// The step or the channel grain, of the marked bones as in LateGraph.
Graph build_finer_graph(const Rig& rig, const Dependencies& dependencies, FinerGrain::Split split,
                        std::span<const std::uint8_t> marked);

}  // namespace ligament
