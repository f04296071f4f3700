// How long does the cheapest cut take, beside igraph's exact feedback arc set in the same run?
#include <chrono>
#include <cstdlib>
#include <iostream>

#include "cut_search.hpp"
#include "exact_feedback.hpp"

namespace {

using Clock = std::chrono::steady_clock;

double milliseconds_since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

}  // namespace

// measure_cuts VERTICES SEEDS [igraph]: components of out-degree 3 with unit weights, so three makers a vertex.
int main(int count, char** arguments) {
    using namespace ligament;
    if (count < 3) {
        std::cerr << "usage: measure_cuts VERTICES SEEDS [igraph]\n";
        return 2;
    }
    const auto size = static_cast<unsigned>(std::strtoul(arguments[1], nullptr, 10));
    const auto seeds = static_cast<unsigned>(std::strtoul(arguments[2], nullptr, 10));
    for (unsigned seed = 1; seed <= seeds; ++seed) {
        const CutProblem problem = testing::random_digraph(size, 3, 1, seed);
        Budget budget{1'500'000'000};  // as cuts.cpp allows a rig
        const Clock::time_point start = Clock::now();
        const CutAnswer answer = find_cheapest_cut(problem, budget);
        std::cout << size << " vertices, " << problem.weights.size() << " makers, seed " << seed << ": "
                  << milliseconds_since(start) << " ms, " << (answer.is_exact ? "exactly " : "at most ") << answer.weight;
        if (!answer.is_exact) std::cout << ", at least " << answer.at_least;
        if (count > 3) {
            const Clock::time_point igraph_start = Clock::now();
            const std::uint64_t weight = testing::exact_feedback_weight(problem);
            std::cout << "; igraph " << milliseconds_since(igraph_start) << " ms, " << weight;
        }
        std::cout << std::endl;
    }
}
