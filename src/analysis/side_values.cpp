#include "side_values.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace ligament {

namespace {

constexpr std::size_t most_turned = 4;  // inputs of which both signs are tried
constexpr std::size_t samples = 240;

/// Even numbers from nowhere, the same in every run (splitmix64, Steele, Lea and Flood 2014).
struct Numbers {
    std::uint64_t state = 20;

    double next() {
        std::uint64_t z = state += 0x9e3779b97f4a7c15U;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1p-53;
    }
};

ParsedExpression parse(const Driver& driver) {
    std::vector<std::string_view> names;
    for (const Input& input : driver.inputs) names.push_back(input.name);
    return parse_expression(driver.expression, names);
}

/// Whether both compute the same steps from the same numbers and from inputs that belong together, whatever these are called.
bool are_same_steps(const ParsedExpression& left, const ParsedExpression& right, std::span<const std::uint32_t> matches) {
    const auto is_same = [&](const Operand& ours, const Operand& theirs) {
        if (ours.negative != theirs.negative || (ours.input == none) != (theirs.input == none)) return false;
        return ours.input == none ? ours.number == theirs.number : matches[ours.input] == theirs.input;
    };
    return left.faults.empty() && right.faults.empty() && left.structure == right.structure &&
           std::equal(left.operands.begin(), left.operands.end(), right.operands.begin(), right.operands.end(), is_same);
}

/// Numbers where something may happen: those that the drivers name, and the middles between them.
std::vector<double> marks_of(const Driver& left, const Driver& right, const ParsedExpression& left_text,
                             const ParsedExpression& right_text) {
    std::vector<double> marks{0, 1};
    for (const Driver* driver : {&left, &right})
        for (const auto& point : driver->curve) marks.push_back(point[0]);
    for (const ParsedExpression* text : {&left_text, &right_text})
        for (const Operand& operand : text->operands)
            if (operand.input == none) marks.push_back(operand.number);
    std::sort(marks.begin(), marks.end());
    marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
    const std::size_t named = std::min<std::size_t>(marks.size(), 200);
    for (std::size_t i = 0; i + 1 < named; ++i) marks.push_back((marks[i] + marks[i + 1]) / 2);
    return marks;
}

/// What an input may be: within the bounds of a property, else anything.
struct Bounds {
    double low = -1e300, high = 1e300;
    bool may_turn = false;
};

Bounds bounds_of(const SideMirror& mirror, const Input& input) {
    Bounds bounds;
    if (input.kind == Input::Kind::channel) bounds.may_turn = input.channel < 6;
    if (input.kind == Input::Kind::distance || input.kind == Input::Kind::angle) bounds.low = 0;
    if (input.kind != Input::Kind::property) return bounds;
    const Property& property = mirror.rig.properties[input.property];
    if (property.min) bounds.low = *property.min;
    if (property.max) bounds.high = *property.max;
    bounds.may_turn = !mirror.sides.properties[input.property].side && is_about(bounds.low, -bounds.high);
    return bounds;
}

/// Wild numbers at first, then within what is usual, then over the bounds evenly.
double sample(std::size_t round, const Bounds& bounds, const std::vector<double>& marks, Numbers& numbers) {
    const double share = numbers.next();
    const bool is_bounded = bounds.high - bounds.low < 1e6;
    double value = 0;
    switch (round % 4) {
        case 0:
            value = 2 * share - 0.5;
            break;
        case 1:
            value = marks[static_cast<std::size_t>(share * static_cast<double>(marks.size()))];
            break;
        case 2:
            value = (2 * share - 1) * (round % 8 == 2 ? 4 : 200);
            break;
        default:
            value = is_bounded ? bounds.low + share * (bounds.high - bounds.low) : 8 * share - 4;
    }
    return std::clamp(value, bounds.low, bounds.high);
}

bool is_same_result(double left, double right) { return (std::isnan(left) && std::isnan(right)) || is_about(left, right); }

}  // namespace

bool SideValues::is_input(const Input& left, const Input& right) const {
    if (left.kind != right.kind) return false;
    switch (left.kind) {
        case Input::Kind::property:
            return mirror_.is_property(left.property, right.property);
        case Input::Kind::channel:
            return left.channel == right.channel && left.space == right.space && mirror_.is_bone(left.bone, right.bone);
        case Input::Kind::distance:
        case Input::Kind::angle:
            break;
    }
    return (mirror_.is_bone(left.bone, right.bone) && mirror_.is_bone(left.other, right.other)) ||
           (mirror_.is_bone(left.bone, right.other) && mirror_.is_bone(left.other, right.bone));
}

std::vector<std::uint32_t> SideValues::match_inputs(const Driver& left, const Driver& right) const {
    if (left.inputs.size() != right.inputs.size()) return {};
    std::vector<std::uint32_t> matches(left.inputs.size(), none);
    std::vector<bool> is_taken(right.inputs.size());
    for (const bool by_name : {true, false})
        for (std::uint32_t i = 0; i < matches.size(); ++i)
            for (std::uint32_t j = 0; j < is_taken.size() && matches[i] == none; ++j) {
                if (is_taken[j] || (by_name && left.inputs[i].name != right.inputs[j].name)) continue;
                if (!is_input(left.inputs[i], right.inputs[j])) continue;
                matches[i] = j;
                is_taken[j] = true;
            }
    if (std::find(matches.begin(), matches.end(), none) != matches.end()) return {};
    return matches;
}

bool SideValues::are_alike(const Value& left, const Value& right, bool may_turn) {
    if (left.is_driven() != right.is_driven()) return false;
    if (left.is_driven()) return are_alike(mirror_.rig.drivers[left.driver], mirror_.rig.drivers[right.driver], may_turn);
    return is_about(left.number, right.number) || (may_turn && is_about(left.number, -right.number));
}

bool SideValues::are_alike(const Driver& left, const Driver& right, bool may_turn) {
    const std::vector<std::uint32_t> matches = match_inputs(left, right);
    if (matches.empty() && !(left.inputs.empty() && right.inputs.empty())) return false;
    bool same_names = true;
    for (std::uint32_t i = 0; i < matches.size(); ++i) same_names &= left.inputs[i].name == right.inputs[matches[i]].name;
    if (same_names && left.expression == right.expression && left.curve == right.curve) return true;
    const ParsedExpression left_text = parse(left), right_text = parse(right);
    if (!left.expression.empty() && !right.expression.empty() && are_same_steps(left_text, right_text, matches)) return true;

    std::vector<Bounds> bounds;
    std::vector<std::uint32_t> turning;
    for (std::uint32_t i = 0; i < matches.size(); ++i) {
        bounds.push_back(bounds_of(mirror_, left.inputs[i]));
        if (bounds.back().may_turn && turning.size() < most_turned) turning.push_back(i);
    }
    const std::vector<double> marks = marks_of(left, right, left_text, right_text);
    const auto left_id = evaluator_.prepare(left), right_id = evaluator_.prepare(right);
    std::vector<double> ours(matches.size()), theirs(matches.size());
    const auto holds = [&](unsigned turned, double sign) {
        Numbers numbers;
        for (std::size_t round = 0; round < samples; ++round) {
            for (std::uint32_t i = 0; i < matches.size(); ++i)
                theirs[matches[i]] = ours[i] = sample(round, bounds[i], marks, numbers);
            for (std::size_t bit = 0; bit < turning.size(); ++bit)
                if ((turned >> bit & 1U) != 0) theirs[matches[turning[bit]]] *= -1;
            if (!is_same_result(evaluator_.evaluate(left, left_id, ours), sign * evaluator_.evaluate(right, right_id, theirs)))
                return false;
        }
        return true;
    };
    for (unsigned turned = 0; turned < 1U << turning.size(); ++turned)
        if (holds(turned, 1) || (may_turn && holds(turned, -1))) return true;
    return false;
}

}  // namespace ligament
