// What does a driver's expression say, and what does it come to?
//
// The language is that of the rig description and no more: numbers, names of inputs, + - * /, unary + and -, parentheses, one
// comparison (< <= > >= == !=) a parenthesis level, min and max of two or more, abs, clamp(x, low, high). Numbers are decimal,
// with optional fraction and exponent; ".5" and "5." are taken too. A name before "(" is a function, any other an input, so an
// input may be called "min".
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/rig.hpp"
#include "nearest_name.hpp"

namespace ligament {

/// Longest text of an expression, in characters.
inline constexpr std::size_t expression_length_limit = 10'000;
/// Deepest nesting of parentheses, those of functions included.
inline constexpr std::size_t expression_depth_limit = 1'000;

/// What is wrong at one place of an expression.
struct ExpressionFault {
    std::size_t offset = 0;  ///< in bytes from the start of the text
    std::string message;
};

/// One number or input that an expression computes with, its signs folded into it.
struct Operand {
    std::uint32_t input = none;  ///< index into the inputs; none for a number
    bool negative = false;
    double number = 0.0;
};

/// An expression that was looked at: its faults in the order of their places, or else what it computes.
struct ParsedExpression {
    std::vector<ExpressionFault> faults;
    std::string structure;          ///< the text with its operands called A, B, ... in their order
    std::vector<Operand> operands;  ///< in the order of the text

    /// Whether the expression uses the input of that index. Linear in the number of operands.
    bool uses(std::uint32_t input) const;
};

/// How a structure calls its n-th operand from 0: A to Z, AA, AB, ... Capitals alone, so none is the name of a function.
std::string operand_name(std::size_t n);

/// All that an expression is judged and computed by, as one text: two keys are equal only where the expressions and the names of
/// their inputs are, whatever stands in the names.
std::string key_of_expression(std::string_view text, std::span<const std::string_view> inputs);

/// Checks a text against the names of its inputs. All faults are found in one run, in time linear in the text and the inputs but
/// for nearest names, which are looked for within the budget. Not recursive.
ParsedExpression parse_expression(std::string_view text, std::span<const std::string_view> inputs, NearestNameBudget& hints);
ParsedExpression parse_expression(std::string_view text, std::span<const std::string_view> inputs);

/// Piecewise linear through points with rising x, held flat outside; NaN for an unknown x or no points.
double evaluate_curve(std::span<const std::array<double, 2>> points, double x);

/// Computes expressions through muParser. Expressions that differ in numbers and names only share one compiled parser. Not for
/// use by two threads at once.
class ExpressionEvaluator {
  public:
    ExpressionEvaluator();
    ExpressionEvaluator(ExpressionEvaluator&&) noexcept;
    ExpressionEvaluator& operator=(ExpressionEvaluator&&) noexcept;
    ~ExpressionEvaluator();

    using Id = std::uint32_t;
    /// Makes an expression ready to be evaluated often.
    Id prepare(std::string_view text, std::span<const std::string_view> inputs);
    /// Its value, `values` being those of its inputs. NaN (unknown) when the text is faulty, an input that it uses is not finite,
    /// or any step of the computation is not finite, as after a division by zero.
    double evaluate(Id id, std::span<const double> values);

    /// A driver's expression made ready; for a curve, which needs no expression, any id.
    Id prepare(const Driver& driver);
    /// The value of a driver, expression or curve, `values` being those of its inputs.
    double evaluate(const Driver& driver, Id id, std::span<const double> values);

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace ligament
