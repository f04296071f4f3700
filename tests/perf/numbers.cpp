// Do all ways of walking a rig's graphs find the same? Prints components, levels and unreached deform bones, a line a grain and
// way.
#include <iostream>

#include "hand_csr.hpp"
#include "igraph_walk.hpp"
#include "ligament/read.hpp"
#include "our_walk.hpp"

int main(int count, char** words) {
    using namespace ligament;
    if (count != 2) return 2;
    const ReadResult read = read_rig_file(words[1]);
    if (!read.rig) return 2;
    const Dependencies dependencies = build_dependencies(*read.rig);
    for (const Grain grain : {Grain::bone, Grain::step, Grain::channel}) {
        const perf::EdgeList list = perf::edge_list_of(*read.rig, dependencies, grain);
        const auto print = [&](const char* way, const perf::Found& found) {
            std::cout << name_of(grain) << ' ' << way << ' ' << found.components << ' ' << found.levels << ' ' << found.unreached
                      << '\n';
        };
        print("ours", perf::walk_by_ours(list));
        print("hand", perf::walk_by_hand(list));
        print("hand_kahn_first", perf::walk_by_hand_kahn_first(list));
        print("igraph", perf::walk_by_igraph(list));
    }
}
