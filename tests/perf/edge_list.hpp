// What do all ways of walking a graph start from here? One list of edges, with where reach starts and where it should arrive.
#pragma once

#include <cstdint>
#include <vector>

namespace ligament::perf {

struct Arc {
    std::uint32_t from = 0, to = 0;  ///< `to` needs `from`
};

/// One grain of a rig, without what is inert.
struct EdgeList {
    std::uint32_t vertices = 0;
    std::vector<Arc> arcs;              ///< in the order of `to`, as the rig description names them
    std::vector<std::uint32_t> starts;  ///< the poses of all controls
    std::vector<Arc> arrivals;          ///< of each deform bone the vertices from `from` up to `to`, that one not included
};

/// What every way has to find.
struct Found {
    std::uint32_t components = 0;  ///< strongly connected, single vertices too
    std::uint32_t levels = 0;      ///< vertices on a longest path through the components
    std::uint32_t unreached = 0;   ///< deform bones that no start leads to

    bool operator==(const Found&) const = default;
};

}  // namespace ligament::perf
