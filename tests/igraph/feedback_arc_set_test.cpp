// Is the cheapest cut as cheap as the lightest feedback arc set of igraph?
#include <gtest/gtest.h>

#include "cut_search.hpp"
#include "exact_feedback.hpp"

namespace ligament {
namespace {

// Five hundred digraphs of 4 to 15 vertices, half of them with unit weights.
TEST(FeedbackArcSet, WeighsWhatIgraphFinds) {
    unsigned cyclic = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        const CutProblem problem = testing::random_digraph(4 + seed % 12, 2 + seed % 3, seed % 2 == 0 ? 1 : 9, seed);
        Budget budget{20'000'000'000};
        const CutAnswer answer = find_cheapest_cut(problem, budget);
        ASSERT_TRUE(answer.is_exact);
        ASSERT_EQ(answer.weight, testing::exact_feedback_weight(problem)) << "seed " << seed;
        cyclic += answer.weight > 0 ? 1U : 0U;
    }
    EXPECT_GE(cyclic, 490U);
}

}  // namespace
}  // namespace ligament
