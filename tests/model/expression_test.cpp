// Does the expression language say what its description says, all of it and no more?
#include "expression.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <limits>

namespace ligament {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// "offset: message" a line, for inputs a, b, c and wing_mode.
std::string faults_of(std::string_view text) {
    static constexpr std::array<std::string_view, 4> inputs{"a", "b", "c", "wing_mode"};
    std::string dump;
    for (const ExpressionFault& fault : parse_expression(text, inputs).faults)
        dump += std::to_string(fault.offset) + ": " + fault.message + "\n";
    return dump;
}

double value_of(std::string_view text, double a = 0, double b = 0, double c = 0) {
    static constexpr std::array<std::string_view, 3> inputs{"a", "b", "c"};
    const std::array<double, 3> values{a, b, c};
    ExpressionEvaluator evaluator;
    const ExpressionEvaluator::Id id = evaluator.prepare(text, inputs);
    const double value = evaluator.evaluate(id, values);
    EXPECT_EQ(faults_of(text), "") << text;
    return value;
}

TEST(expression, computes_arithmetic_with_the_usual_precedence) {
    EXPECT_EQ(value_of("1 + 2 * 3"), 7);
    EXPECT_EQ(value_of("(1 + 2) * 3"), 9);
    EXPECT_EQ(value_of("10 - 4 - 3"), 3);
    EXPECT_EQ(value_of("24 / 4 / 2"), 3);
    EXPECT_EQ(value_of("2 * a + b / c", 3, 8, 2), 10);
    EXPECT_EQ(value_of("1 - a", 0.25), 0.75);
}

TEST(expression, takes_unary_signs_anywhere_a_value_stands) {
    EXPECT_EQ(value_of("-a", 2), -2);
    EXPECT_EQ(value_of("--a", 2), 2);
    EXPECT_EQ(value_of("- + - - a", 2), -2);
    EXPECT_EQ(value_of("a/-b", 6, 3), -2);
    EXPECT_EQ(value_of("a*-b", 6, 3), -18);
    EXPECT_EQ(value_of("a - -b", 6, 3), 9);
    EXPECT_EQ(value_of("-(a + b)", 6, 3), -9);
    EXPECT_EQ(value_of("a/-(b)*2", 6, 3), -4);
    EXPECT_EQ(value_of("-min(a, b)", 6, 3), -3);
    EXPECT_EQ(value_of("1 - -max(-a, -b) * 2", 6, 3), -5);
    EXPECT_EQ(value_of("-a < b", 1, 0), 1);
    EXPECT_EQ(value_of("a < -b", 1, 0), 0);
    EXPECT_EQ(value_of("+a", 5), 5);
}

TEST(expression, compares_to_one_or_zero_below_sums) {
    EXPECT_EQ(value_of("a < b", 1, 2), 1);
    EXPECT_EQ(value_of("a < b", 2, 2), 0);
    EXPECT_EQ(value_of("a <= b", 2, 2), 1);
    EXPECT_EQ(value_of("a > b", 2, 1), 1);
    EXPECT_EQ(value_of("a >= b", 1, 2), 0);
    EXPECT_EQ(value_of("a == b", 2, 2), 1);
    EXPECT_EQ(value_of("a != b", 2, 2), 0);
    EXPECT_EQ(value_of("a + 1 > b - 1", 1, 2), 1);
    EXPECT_EQ(value_of("(a < b) * 3 + (b < a)", 1, 2), 3);
    EXPECT_EQ(value_of("(a < b) < c", 1, 2, 2), 1);
    EXPECT_EQ(value_of("max(a < b, b < a, 0)", 2, 1), 1);
}

TEST(expression, has_four_functions) {
    EXPECT_EQ(value_of("min(a, b)", 3, 2), 2);
    EXPECT_EQ(value_of("max(a, b, c, 7)", 3, 2, 5), 7);
    EXPECT_EQ(value_of("abs(a)", -3), 3);
    EXPECT_EQ(value_of("clamp(a, 0, 1)", 3), 1);
    EXPECT_EQ(value_of("clamp(a, 0, 1)", -3), 0);
    EXPECT_EQ(value_of("clamp(a, 0, 1)", 0.5), 0.5);
    EXPECT_EQ(value_of("min(max(a, b), abs(min(c, 0)))", 1, 4, -2), 2);
}

TEST(expression, reads_numbers_with_fraction_and_exponent) {
    EXPECT_EQ(value_of("0.5"), 0.5);
    EXPECT_EQ(value_of(".5"), 0.5);
    EXPECT_EQ(value_of("5."), 5);
    EXPECT_EQ(value_of("1e3"), 1000);
    EXPECT_EQ(value_of("1E-3 + 1e+2"), 100.001);
    EXPECT_EQ(value_of("1e-999"), 0);
    EXPECT_EQ(value_of("007"), 7);
    EXPECT_EQ(faults_of("1e999"), "0: number 1e999 is too large\n");
    EXPECT_EQ(faults_of("2a"), "1: wanted an operator before \"a\"\n");
    EXPECT_EQ(faults_of("1e"), "1: wanted an operator before \"e\"\n1: unknown input \"e\"\n");
    EXPECT_EQ(faults_of("1.2.3"), "3: wanted an operator before \".3\"\n");
}

TEST(expression, does_not_depend_on_the_locale) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    // A locale with a decimal comma, where there is one on this machine; the value must be the same in any.
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    EXPECT_EQ(value_of("min(0.5, 1.25)"), 0.5);
    std::setlocale(LC_ALL, before.c_str());
}

TEST(expression, knows_nothing_else_that_the_library_behind_it_knows) {
    for (const std::string_view text : {"sin(a)", "sqrt(a)", "sum(a, b)", "avg(a, b)", "rint(a)", "n(a)"})
        EXPECT_NE(faults_of(text).find("unknown function"), std::string::npos) << text;
    for (const std::string_view text : {"_pi", "_e", "A", "pi"})
        EXPECT_NE(faults_of(text).find("unknown input"), std::string::npos) << text;
    for (const std::string_view text :
         {"a ^ b", "a && b", "a || b", "a ? b : c", "a % b", "a = b", "!a", "\"a\"", "a; b", "[a]", "a\\b"})
        EXPECT_NE(faults_of(text).find("is not understood here"), std::string::npos) << text;
    EXPECT_EQ(faults_of("a ^ b"), "2: \"^\" is not understood here\n");
    EXPECT_EQ(faults_of("#a"), "0: \"#\" is not understood here\n");
}

TEST(expression, takes_inputs_called_like_functions_and_constants) {
    static constexpr std::array<std::string_view, 4> inputs{"min", "_pi", "A", "n"};
    const std::array<double, 4> values{1, 2, 4, 8};
    ExpressionEvaluator evaluator;
    EXPECT_EQ(evaluator.evaluate(evaluator.prepare("min(min, _pi) + A * n", inputs), values), 33);
    EXPECT_EQ(evaluator.evaluate(evaluator.prepare("min", inputs), values), 1);
}

TEST(expression, names_unknown_inputs_and_functions_with_the_nearest) {
    EXPECT_EQ(faults_of("1 - wing_mod"), "4: unknown input \"wing_mod\", nearest is \"wing_mode\"\n");
    EXPECT_EQ(faults_of("x + a"), "0: unknown input \"x\"\n");
    EXPECT_EQ(faults_of("clmap(a, 0, 1)"), "0: unknown function \"clmap\", nearest is \"clamp\"\n");
    EXPECT_EQ(faults_of("\xC3\xA9t\xC3\xA9 + a"),
              "0: \"\xC3\xA9t\xC3\xA9\" cannot stand in an expression, names in it have letters a to z, digits and \"_\"\n");
}

TEST(expression, finds_inputs_among_many) {
    std::vector<std::string> names;
    for (int i = 0; i < 5000; ++i) names.push_back("in" + std::to_string(i));
    const std::vector<std::string_view> inputs(names.begin(), names.end());
    std::vector<double> values(5000);
    values[4711] = 5;
    values[3] = 2;
    ExpressionEvaluator evaluator;
    EXPECT_EQ(evaluator.evaluate(evaluator.prepare("in4711 * in3 - in0", inputs), values), 10);
    const ParsedExpression parsed = parse_expression("in47111", inputs);
    EXPECT_EQ(parsed.faults.at(0).message, "unknown input \"in47111\", nearest is \"in4111\"")
        << "as near as in4711, and earlier";
}

TEST(expression, counts_the_values_of_functions) {
    EXPECT_EQ(faults_of("min(a)"), "0: min wants two or more values, found 1\n");
    EXPECT_EQ(faults_of("max()"), "0: max wants two or more values, found 0\n");
    EXPECT_EQ(faults_of("1 + abs(a, b)"), "4: abs wants one value, found 2\n");
    EXPECT_EQ(faults_of("clamp(a, 0)"), "0: clamp wants three values, found 2\n");
    EXPECT_EQ(faults_of("clamp(a, 0, 1, 2)"), "0: clamp wants three values, found 4\n");
    EXPECT_EQ(faults_of("a, b"), "1: \",\" stands only between the values of a function\n");
    EXPECT_EQ(faults_of("min((a, b), c)"), "6: \",\" stands only between the values of a function\n");
}

TEST(expression, allows_one_comparison_a_level) {
    EXPECT_EQ(faults_of("a < b < c"), "6: \"<\" is a second comparison, put the first one in parentheses\n");
    EXPECT_EQ(faults_of("(a < b) < (b < c)"), "");
    EXPECT_EQ(faults_of("min(a < b, b < c)"), "");
    EXPECT_EQ(faults_of("min(a < b == c, 1)"), "10: \"==\" is a second comparison, put the first one in parentheses\n");
}

TEST(expression, says_where_it_breaks_off) {
    EXPECT_EQ(faults_of(""), "0: expression is empty\n");
    EXPECT_EQ(faults_of("  "), "0: expression is empty\n");
    EXPECT_EQ(faults_of("a +"), "3: wanted a number, an input or \"(\", found the end\n");
    EXPECT_EQ(faults_of("a + * b"), "4: wanted a number, an input or \"(\", found \"*\"\n");
    EXPECT_EQ(faults_of("(a"), "0: parenthesis is not closed\n");
    EXPECT_EQ(faults_of("a)"), "1: \")\" has no \"(\" before it\n");
    EXPECT_EQ(faults_of("()"), "1: wanted a number, an input or \"(\", found \")\"\n");
    EXPECT_EQ(faults_of("min(a, )"), "7: wanted a number, an input or \"(\", found \")\"\n");
    EXPECT_EQ(faults_of("a b"), "2: wanted an operator before \"b\"\n");
    EXPECT_EQ(faults_of("a (b)"), "0: unknown function \"a\"\n");
    EXPECT_EQ(faults_of("2 (b)"), "2: wanted an operator before \"(\"\n");
}

TEST(expression, finds_all_faults_in_one_run) {
    EXPECT_EQ(faults_of("x + min(a) $ y)"),
              "0: unknown input \"x\"\n4: min wants two or more values, found 1\n11: \"$\" is not understood here\n"
              "13: unknown input \"y\"\n14: \")\" has no \"(\" before it\n");
}

TEST(expression, is_unknown_where_any_step_is_not_finite) {
    EXPECT_TRUE(std::isnan(value_of("1 / a")));
    EXPECT_TRUE(std::isnan(value_of("a / a")));
    EXPECT_TRUE(std::isnan(value_of("1e308 * 10")));
    EXPECT_TRUE(std::isnan(value_of("1 / a < 2")));
    EXPECT_TRUE(std::isnan(value_of("min(1 / a, 1)")));
    EXPECT_TRUE(std::isnan(value_of("max(1, 0 / a)")));
    EXPECT_TRUE(std::isnan(value_of("clamp(1 / a, 0, 1)")));
    EXPECT_TRUE(std::isnan(value_of("1 / (1 / a)")));
    EXPECT_TRUE(std::isnan(value_of("a + 1", nan)));
    EXPECT_TRUE(std::isnan(value_of("a < 1", nan)));
    EXPECT_TRUE(std::isnan(value_of("min(a, 1)", nan)));
    EXPECT_EQ(value_of("b + 1", nan, 2), 3) << "an unknown input that is not used does not matter";
}

TEST(expression, tells_which_inputs_are_used) {
    static constexpr std::array<std::string_view, 3> inputs{"a", "b", "c"};
    const ParsedExpression parsed = parse_expression("a * -a + c", inputs);
    EXPECT_TRUE(parsed.uses(0));
    EXPECT_FALSE(parsed.uses(1));
    EXPECT_TRUE(parsed.uses(2));
    EXPECT_EQ(parsed.structure, "A*B+C");
}

std::string nested(std::size_t depth) { return std::string(depth, '(') + "a" + std::string(depth, ')'); }

TEST(expression, nests_a_thousand_deep_and_no_deeper) {
    EXPECT_EQ(value_of(nested(1000), 3), 3);
    EXPECT_EQ(faults_of(nested(1001)), "1000: parentheses nested deeper than 1000\n");
    std::string calls;
    for (int i = 0; i < 1000; ++i) calls += "-abs(";
    EXPECT_EQ(value_of(calls + "a" + std::string(1000, ')'), 3), -3);
    EXPECT_NE(faults_of(std::string(9'000, '(')).find("nested deeper"), std::string::npos);
}

TEST(expression, takes_the_longest_text_and_refuses_a_longer_one) {
    std::string sum = "a";
    while (sum.size() + 2 <= expression_length_limit) sum += "+a";
    EXPECT_EQ(value_of(sum, 1), 5000);
    EXPECT_EQ(faults_of(sum + "+a"), "0: expression of 10001 characters, at most 10000 are taken\n");
    EXPECT_EQ(value_of(std::string(9'999, '-') + "a", 3), -3);
}

TEST(expression, shares_parsers_but_not_values) {
    static constexpr std::array<std::string_view, 2> inputs{"s", "t"};
    ExpressionEvaluator evaluator;
    std::vector<ExpressionEvaluator::Id> ids;
    for (int i = 0; i < 2200; ++i) {
        // More different structures than parsers are kept, and numbers that differ within one.
        std::string text = std::to_string(i) + " + t";
        for (int k = 0; k < i % 1100; ++k) text += "*1";
        ids.push_back(evaluator.prepare(text, inputs));
    }
    for (int round = 0; round < 2; ++round)
        for (int i = 0; i < 2200; i += 7) {
            const std::array<double, 2> values{0, static_cast<double>(round)};
            ASSERT_EQ(evaluator.evaluate(ids[static_cast<std::size_t>(i)], values), i + round);
        }
}

// Names of inputs may hold any character, NUL too: none may be taken for what stands between two names.
TEST(expression, is_prepared_once_for_equal_names_only) {
    using namespace std::string_view_literals;
    ExpressionEvaluator evaluator;
    const std::array two{"p\0q"sv, "r"sv};
    const std::array three{"p"sv, "q"sv, "r"sv};
    const auto first = evaluator.prepare("r", two), second = evaluator.prepare("r", three);
    EXPECT_EQ(evaluator.prepare("r", two), first);
    EXPECT_EQ(evaluator.evaluate(first, std::array{1.0, 2.0}), 2.0);
    EXPECT_EQ(evaluator.evaluate(second, std::array{1.0, 2.0, 3.0}), 3.0);
}

TEST(expression, of_a_faulty_text_is_unknown) {
    ExpressionEvaluator evaluator;
    EXPECT_TRUE(std::isnan(evaluator.evaluate(evaluator.prepare("1 +", {}), {})));
}

TEST(curve, is_straight_between_points_and_flat_outside) {
    const std::vector<std::array<double, 2>> points{{0, 0}, {1, 1}, {3, -1}};
    EXPECT_EQ(evaluate_curve(points, -5), 0);
    EXPECT_EQ(evaluate_curve(points, 0), 0);
    EXPECT_EQ(evaluate_curve(points, 0.25), 0.25);
    EXPECT_EQ(evaluate_curve(points, 1), 1);
    EXPECT_EQ(evaluate_curve(points, 2), 0);
    EXPECT_EQ(evaluate_curve(points, 3), -1);
    EXPECT_EQ(evaluate_curve(points, 50), -1);
    EXPECT_EQ(evaluate_curve(std::vector<std::array<double, 2>>{{2, 7}}, 0), 7);
    EXPECT_TRUE(std::isnan(evaluate_curve(points, nan)));
    EXPECT_TRUE(std::isnan(evaluate_curve({}, 1)));
}

TEST(driver, evaluates_expressions_and_curves) {
    ExpressionEvaluator evaluator;
    Driver expression;
    expression.expression = "1 - s";
    expression.inputs.resize(1);
    expression.inputs[0].name = "s";
    Driver curve;
    curve.curve = {{0, 0}, {1, 2}};
    curve.inputs.resize(1);
    const std::array<double, 1> values{0.25};
    EXPECT_EQ(evaluator.evaluate(expression, evaluator.prepare(expression), values), 0.75);
    EXPECT_EQ(evaluator.evaluate(curve, evaluator.prepare(curve), values), 0.5);
}

}  // namespace
}  // namespace ligament
