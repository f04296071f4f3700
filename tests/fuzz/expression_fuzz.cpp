// Do expressions survive any text? Faults lie inside the text, values are finite or unknown, and what has no fault is understood
// by the library that computes it: with inputs and steps all finite and no division, that shows as a value.
#include <array>
#include <cmath>
#include <cstdlib>

#include "expression.hpp"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    static constexpr std::array<std::string_view, 3> inputs{"a", "b", "min"};
    static constexpr std::array<double, 3> values{0.5, -2, 3};
    const std::string_view text{reinterpret_cast<const char*>(data), size};
    const ligament::ParsedExpression parsed = ligament::parse_expression(text, inputs);
    for (const ligament::ExpressionFault& fault : parsed.faults)
        if (fault.offset > text.size() || fault.message.empty()) std::abort();
    ligament::ExpressionEvaluator evaluator;
    const double value = evaluator.evaluate(evaluator.prepare(text, inputs), values);
    if (std::isinf(value) || (!parsed.faults.empty() && !std::isnan(value))) std::abort();
    const bool may_overflow = text.find_first_of("/*eE") != std::string_view::npos || text.size() > 200;
    if (parsed.faults.empty() && std::isnan(value) && !may_overflow) std::abort();
    return 0;
}
