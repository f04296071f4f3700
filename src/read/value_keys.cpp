// What may stand in a driver, and in the inputs that it reads?
#include "draft.hpp"
#include "expression.hpp"

namespace ligament {

namespace {

constexpr std::array<std::string_view, 2> space_words{"final", "local"};
constexpr std::array<std::string_view, 4> input_kinds{"property", "bone", "distance", "angle"};

// All that is left to ask of an expression once its inputs are known, wherever they stand. Rigs say the same of limb after limb:
// a few expressions that were found good are kept, so as not to be parsed again.
void check_expression(Draft& draft) {
    constexpr std::size_t most_kept = 1'000;
    const Driver& driver = draft.driver();
    draft.input_names.clear();
    for (const Input& input : driver.inputs) draft.input_names.emplace_back(input.name);
    std::string key = key_of_expression(driver.expression, draft.input_names);
    if (draft.good_expressions.contains(key)) return;
    std::vector<ExpressionFault> faults = parse_expression(driver.expression, draft.input_names, draft.hints).faults;
    if (faults.empty() && draft.good_expressions.size() < most_kept) draft.good_expressions.insert(std::move(key));
    Place place = draft.expression_place;
    // Without escapes the expression stands in the file as it is, behind a quotation mark.
    if (draft.expression_lasts) ++place.column;
    std::size_t offset = 0;
    for (ExpressionFault& fault : faults) {
        for (; draft.expression_lasts && offset < fault.offset; ++offset)
            place.column += (static_cast<unsigned char>(driver.expression[offset]) & 0xC0U) != 0x80U;
        draft.fault(place, "expression: " + std::move(fault.message));
    }
}

void close_driver(Draft& draft) {
    const Frame& frame = draft.frame();
    const Place* expression = find_key(frame, "expression");
    const Place* curve = find_key(frame, "curve");
    const Place* inputs = find_key(frame, "inputs");
    const Place* input = find_key(frame, "input");
    if (expression && curve) draft.fault(*curve, "a driver has an \"expression\" or a \"curve\", found both");
    if (!expression && !curve) draft.fault(frame.place, "a driver needs \"expression\" or \"curve\"");
    if (curve && !expression && inputs) draft.fault(*inputs, "\"inputs\" goes with \"expression\", a curve has one \"input\"");
    if (expression && !curve && input) draft.fault(*input, "\"input\" goes with \"curve\", an expression has \"inputs\"");
    if (curve && !expression && !input) draft.fault(frame.place, "a driver with a \"curve\" needs \"input\"");
    if (expression && draft.expression_place != Place{} && !draft.skipped_inputs) check_expression(draft);
    draft.expression_place = {};
    draft.driver().inputs.shrink_to_fit();
    draft.driver().curve.shrink_to_fit();
}

void take_expression(Draft& draft, const Token& token) {
    draft.driver().expression = token.text;
    draft.expression_place = token.place;
    draft.expression_lasts = token.lasts;
}

constexpr Slot point_entry[] = {{.wanted = "a number", .number = take_number_entry}};
constexpr Shape point_shape{.kind = Shape::Kind::list, .noun = "number", .slots = point_entry, .least = 2, .most = 2};

void close_point(Draft& draft) {
    auto& points = draft.driver().curve;
    if (!points.empty() && draft.numbers[0] <= points.back()[0])
        draft.fault(draft.frame().place, "points of a curve rise in x, found " + number_text(draft.numbers[0]) + " after " +
                                             number_text(points.back()[0]));
    points.push_back({draft.numbers[0], draft.numbers[1]});
}

constexpr Slot points_entry[] = {{.wanted = "a list of two numbers", .list = &point_shape, .close = close_point}};
constexpr Shape points_shape{.kind = Shape::Kind::list, .noun = "point", .slots = points_entry, .least = 1};

void close_input(Draft& draft) {
    const Frame& frame = draft.frame();
    const Place* first = nullptr;
    std::string_view first_word;
    for (const std::string_view word : input_kinds) {
        const Place* place = find_key(frame, word);
        if (place && first)
            draft.fault(*place, "an input reads one thing, found " + in_quotes(first_word) + " and " + in_quotes(word));
        if (!place || first) continue;
        first = place;
        first_word = word;
    }
    if (!first) draft.fault(frame.place, "an input needs \"property\", \"bone\", \"distance\" or \"angle\"");
    if (first_word == "bone" && !find_key(frame, "channel"))
        draft.fault(frame.place, "an input that reads a bone needs \"channel\"");
    for (const std::string_view word : {"channel", "space"})
        if (const Place* place = find_key(frame, word); place && first && !find_key(frame, "bone"))
            draft.fault(*place, in_quotes(word) + " goes with \"bone\", not with " + in_quotes(first_word));
}

void take_pair_entry(Draft& draft, const Token& token) {
    const NameId name = refer(draft, Reference::Kind::bone, token);
    if (const std::uint32_t at = draft.frame().count - 1; at < draft.pair.size()) draft.pair[at] = name;
}

constexpr Slot pair_entry[] = {{.wanted = "the name of a bone", .text = take_pair_entry}};
constexpr Shape pair_shape{.kind = Shape::Kind::list, .noun = "bone", .slots = pair_entry, .least = 2, .most = 2};

void close_pair(Draft& draft, Input::Kind kind) {
    draft.input().kind = kind;
    draft.input().bone = draft.pair[0];
    draft.input().other = draft.pair[1];
}

constexpr Slot input_slots[] = {
    {.key = "property",
     .wanted = "the name of a property",
     .text =
         [](Draft& draft, const Token& token) {
             draft.input().kind = Input::Kind::property;
             draft.input().property = refer(draft, Reference::Kind::property, token);
         }},
    {.key = "bone",
     .wanted = "the name of a bone",
     .text =
         [](Draft& draft, const Token& token) {
             draft.input().kind = Input::Kind::channel;
             draft.input().bone = refer(draft, Reference::Kind::bone, token);
         }},
    {.key = "channel",
     .wanted = "a channel such as \"rotation.x\"",
     .text =
         [](Draft& draft, const Token& token) {
             if (const std::uint32_t channel = take_channel(draft, token); channel != none)
                 draft.input().channel = static_cast<std::uint8_t>(channel);
         }},
    {.key = "space",
     .wanted = "\"final\" or \"local\"",
     .text =
         [](Draft& draft, const Token& token) {
             draft.input().space = take_word(draft, token, "space", space_words) == 0 ? Space::final : Space::local;
         }},
    {.key = "distance",
     .wanted = "a list of two names of bones",
     .list = &pair_shape,
     .close = [](Draft& draft) { close_pair(draft, Input::Kind::distance); }},
    {.key = "angle", .wanted = "a list of two names of bones", .list = &pair_shape, .close = [](Draft& draft) {
         close_pair(draft, Input::Kind::angle);
     }}};
constexpr Shape input_shape{.noun = "an input", .slots = input_slots, .close = close_input};

void take_input_name(Draft& draft, const Token& token) { take_name(draft, token, draft.driver().inputs.emplace_back().name); }

constexpr Slot input_slot[] = {{.wanted = "an input (an object)",
                                .object = &input_shape,
                                .open = [](Draft& draft, const Token& token) { draft.input().place = token.place; }}};
constexpr Shape inputs_shape{.kind = Shape::Kind::map, .noun = "input", .slots = input_slot, .take_key = take_input_name};

constexpr Slot driver_slots[] = {
    {.key = "expression", .wanted = "a string", .text = take_expression},
    {.key = "inputs", .wanted = "an object of inputs", .object = &inputs_shape},
    {.key = "curve", .wanted = "a list of points", .list = &points_shape},
    {.key = "input", .wanted = "an input (an object)", .object = &input_shape, .open = [](Draft& draft, const Token& token) {
         draft.driver().inputs.emplace_back().place = token.place;
     }}};

}  // namespace

constinit const Shape driver_shape{.noun = "a driver", .slots = driver_slots, .close = close_driver};

}  // namespace ligament
