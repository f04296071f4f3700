// Does the reader stay on its feet whatever it is given? The seeds of the fuzz targets, as they are and changed at random with a
// fixed seed, so that a part of fuzzing runs everywhere, sanitizers included.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "expression.hpp"
#include "faults.hpp"
#include "mutate.hpp"
#include "same_rig.hpp"
#include "whole_rig.hpp"

namespace ligament::testing {
namespace {

std::vector<std::string> seeds_of(const std::string& corpus) {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(LIGAMENT_SOURCE_DIR "/tests/fuzz/" + corpus))
        paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> seeds;
    for (const std::filesystem::path& path : paths) {
        std::stringstream content;
        content << std::ifstream(path, std::ios::binary).rdbuf();
        seeds.push_back(content.str());
    }
    return seeds;
}

std::size_t lines_of(std::string_view text) { return 1 + static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')); }

void check_reading(const std::string& text) {
    const ReadResult result = read_rig(text);
    ASSERT_EQ(result.rig.has_value(), result.faults.empty()) << text;
    Place last{1, 1};
    for (const Fault& fault : result.faults) {
        ASSERT_FALSE(fault.message.empty());
        ASSERT_TRUE(fault.place.line >= last.line && fault.place.line <= lines_of(text) && fault.place.column >= 1) << text;
        last = fault.place;
    }
    if (!result.rig) return;
    const ReadResult again = read_rig(write_rig(*result.rig));
    ASSERT_TRUE(again.rig) << text;
    ASSERT_EQ(text_of(*again.rig), text_of(*result.rig)) << text;
}

TEST(mutation, of_rig_descriptions) {
    std::vector<std::string> seeds = seeds_of("rig_description_corpus");
    ASSERT_GE(seeds.size(), 5);
    seeds.emplace_back(whole_rig);
    for (const std::string& seed : seeds) check_reading(seed);
    std::mt19937 random(20);
    for (int i = 0; i < 4000; ++i) check_reading(mutate(seeds[random() % seeds.size()], random));
}

// Every prefix of a whole rig breaks off, and says so.
TEST(mutation, of_rig_descriptions_cut_short) {
    const std::string_view whole = whole_rig;
    for (std::size_t size = 0; size < whole.size(); size += size < 200 ? 1 : 7) {
        const ReadResult result = read_rig(whole.substr(0, size));
        ASSERT_FALSE(result.rig) << size;
        ASSERT_FALSE(result.faults.empty()) << size;
    }
}

TEST(mutation, of_expressions) {
    const std::vector<std::string> seeds = seeds_of("expression_corpus");
    ASSERT_GE(seeds.size(), 5);
    static constexpr std::array<std::string_view, 3> inputs{"a", "b", "min"};
    const std::array<double, 3> values{0.5, -2, 3};
    std::mt19937 random(21);
    ExpressionEvaluator evaluator;
    std::size_t good = 0;
    for (int i = 0; i < 4000; ++i) {
        const std::string text = mutate(seeds[random() % seeds.size()], random);
        const ParsedExpression parsed = parse_expression(text, inputs);
        for (const ExpressionFault& fault : parsed.faults) ASSERT_LE(fault.offset, text.size()) << text;
        const double value = evaluator.evaluate(evaluator.prepare(text, inputs), values);
        ASSERT_FALSE(std::isinf(value)) << text;
        ASSERT_TRUE(parsed.faults.empty() || std::isnan(value)) << text;
        good += parsed.faults.empty();
    }
    EXPECT_GE(good, 300) << "the seeds are still expressions";
}

}  // namespace
}  // namespace ligament::testing
