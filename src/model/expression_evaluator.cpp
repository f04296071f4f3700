// What does a driver come to? Expressions through muParser, curves by linear interpolation.
#include <muParserBase.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <unordered_map>
#include <utility>

#include "expression.hpp"

namespace ligament {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

// A step that is not finite is unknown, and so is all that is computed from it, comparisons included.
double known(double value) { return std::isfinite(value) ? value : unknown; }
double known_comparison(double a, double b, bool holds) { return std::isnan(a) || std::isnan(b) ? unknown : holds ? 1.0 : 0.0; }

double add(double a, double b) { return known(a + b); }
double subtract(double a, double b) { return known(a - b); }
double multiply(double a, double b) { return known(a * b); }
double divide(double a, double b) { return b == 0 ? unknown : known(a / b); }
double less(double a, double b) { return known_comparison(a, b, a < b); }
double less_equal(double a, double b) { return known_comparison(a, b, a <= b); }
double greater(double a, double b) { return known_comparison(a, b, a > b); }
double greater_equal(double a, double b) { return known_comparison(a, b, a >= b); }
double equal(double a, double b) { return known_comparison(a, b, a == b); }
double unequal(double a, double b) { return known_comparison(a, b, a != b); }
double negate(double a) { return -a; }
double absolute(double a) { return std::fabs(a); }
double clamp(double x, double low, double high) {
    return std::isnan(x) || std::isnan(low) || std::isnan(high) ? unknown : std::min(std::max(x, low), high);
}
double extreme(const double* values, int count, bool largest) {
    double result = values[0];
    for (int i = 1; i < count; ++i) {
        if (std::isnan(result) || std::isnan(values[i])) return unknown;
        result = largest ? std::max(result, values[i]) : std::min(result, values[i]);
    }
    return result;
}
double smallest(const double* values, int count) { return extreme(values, count, false); }
double largest(const double* values, int count) { return extreme(values, count, true); }

// muParser's base class, with nothing in it but what the language has: operators and functions are ours.
class BareParser final : public mu::ParserBase {
  public:
    BareParser() {
        InitCharSets();
        InitFun();
        InitConst();
        InitOprt();
    }
    void InitCharSets() override {
        DefineNameChars(_T("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"));
        DefineOprtChars(_T("+-*/<>=!"));
        DefineInfixOprtChars(_T(""));
    }
    void InitFun() override {
        DefineFun(_T("min"), smallest);
        DefineFun(_T("max"), largest);
        DefineFun(_T("abs"), absolute);
        DefineFun(_T("clamp"), clamp);
        DefineFun(_T("n"), negate);
    }
    void InitConst() override {}
    void InitOprt() override {
        EnableBuiltInOprt(false);
        DefineOprt(_T("+"), add, mu::prADD_SUB);
        DefineOprt(_T("-"), subtract, mu::prADD_SUB);
        DefineOprt(_T("*"), multiply, mu::prMUL_DIV);
        DefineOprt(_T("/"), divide, mu::prMUL_DIV);
        DefineOprt(_T("<"), less, mu::prCMP);
        DefineOprt(_T("<="), less_equal, mu::prCMP);
        DefineOprt(_T(">"), greater, mu::prCMP);
        DefineOprt(_T(">="), greater_equal, mu::prCMP);
        DefineOprt(_T("=="), equal, mu::prCMP);
        DefineOprt(_T("!="), unequal, mu::prCMP);
    }
};

// One compiled structure; the parser reads its operands from `values`.
struct Compiled {
    BareParser parser;
    std::vector<double> values;
};

std::unique_ptr<Compiled> compile(const std::string& structure, std::size_t operands) {
    auto compiled = std::make_unique<Compiled>();
    compiled->values.resize(operands);
    for (std::size_t i = 0; i < operands; ++i) compiled->parser.DefineVar(operand_name(i), &compiled->values[i]);
    compiled->parser.SetExpr(structure);
    return compiled;
}

}  // namespace

struct ExpressionEvaluator::State {
    // Compiled parsers take kilobytes each: a rig with more different structures than this has them compiled again.
    static constexpr std::size_t compiled_limit = 1'024;

    struct Structure {
        std::string text;
        std::unique_ptr<Compiled> compiled;
    };
    struct Prepared {
        std::uint32_t structure = none;  // none when the text is faulty
        std::vector<Operand> operands;
    };
    std::vector<Structure> structures;
    std::unordered_map<std::string, std::uint32_t> structure_of_text;
    std::vector<Prepared> prepared;
    std::unordered_map<std::string, Id> id_of_key;  // every limb of a rig has the same few expressions
    std::size_t compiled_count = 0;

    Compiled& compiled(const Prepared& expression) {
        Structure& structure = structures[expression.structure];
        if (structure.compiled) return *structure.compiled;
        if (compiled_count == compiled_limit) {
            for (Structure& each : structures) each.compiled.reset();
            compiled_count = 0;
        }
        structure.compiled = compile(structure.text, expression.operands.size());
        ++compiled_count;
        return *structure.compiled;
    }
};

ExpressionEvaluator::ExpressionEvaluator() : state_(std::make_unique<State>()) {}
ExpressionEvaluator::ExpressionEvaluator(ExpressionEvaluator&&) noexcept = default;
ExpressionEvaluator& ExpressionEvaluator::operator=(ExpressionEvaluator&&) noexcept = default;
ExpressionEvaluator::~ExpressionEvaluator() = default;

ExpressionEvaluator::Id ExpressionEvaluator::prepare(std::string_view text, std::span<const std::string_view> inputs) {
    const auto [known_id, is_new_key] =
        state_->id_of_key.try_emplace(key_of_expression(text, inputs), static_cast<Id>(state_->prepared.size()));
    if (!is_new_key) return known_id->second;
    ParsedExpression parsed = parse_expression(text, inputs);
    State::Prepared prepared;
    if (parsed.faults.empty()) {
        const auto [entry, is_new] =
            state_->structure_of_text.try_emplace(parsed.structure, static_cast<std::uint32_t>(state_->structures.size()));
        if (is_new) state_->structures.push_back({std::move(parsed.structure), nullptr});
        prepared.structure = entry->second;
        prepared.operands = std::move(parsed.operands);
    }
    state_->prepared.push_back(std::move(prepared));
    return known_id->second;
}

double ExpressionEvaluator::evaluate(Id id, std::span<const double> values) {
    const State::Prepared& prepared = state_->prepared[id];
    if (prepared.structure == none) return unknown;
    try {
        Compiled& compiled = state_->compiled(prepared);
        for (std::size_t i = 0; i < prepared.operands.size(); ++i) {
            const Operand& operand = prepared.operands[i];
            const double value = operand.input == none ? operand.number : values[operand.input];
            if (!std::isfinite(value)) return unknown;
            compiled.values[i] = operand.negative ? -value : value;
        }
        return known(compiled.parser.Eval());
    } catch (const mu::ParserError&) {
        return unknown;
    }
}

ExpressionEvaluator::Id ExpressionEvaluator::prepare(const Driver& driver) {
    if (!driver.curve.empty()) return 0;
    std::vector<std::string_view> names;
    names.reserve(driver.inputs.size());
    for (const Input& input : driver.inputs) names.push_back(input.name);
    return prepare(driver.expression, names);
}

double ExpressionEvaluator::evaluate(const Driver& driver, Id id, std::span<const double> values) {
    if (driver.curve.empty()) return evaluate(id, values);
    return values.empty() ? unknown : evaluate_curve(driver.curve, values[0]);
}

double evaluate_curve(std::span<const std::array<double, 2>> points, double x) {
    if (points.empty() || !std::isfinite(x)) return unknown;
    const auto after =
        std::upper_bound(points.begin(), points.end(), x, [](double at, const auto& point) { return at < point[0]; });
    if (after == points.begin()) return points.front()[1];
    if (after == points.end()) return points.back()[1];
    const auto& [x0, y0] = *(after - 1);
    const auto& [x1, y1] = *after;
    return known(y0 + (y1 - y0) * ((x - x0) / (x1 - x0)));
}

}  // namespace ligament
