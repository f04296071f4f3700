// What may stand in a constraint, which keys go with which kind, and what may stand in a source?
#include <algorithm>

#include "draft.hpp"

namespace ligament {

namespace {

constexpr std::array<std::string_view, 14> kind_words{"transform", "position", "rotation", "scale",   "aim", "roll", "stretch",
                                                      "distance",  "space",    "limit",    "surface", "ik",  "path", "custom"};
constexpr std::array<std::string_view, 2> space_words{"final", "local"};
constexpr std::array<std::string_view, 9> axis_words{"x", "y", "z", "-x", "-y", "-z", "+x", "+y", "+z"};  // of Axis::x and on

void take_weight(Draft& draft, const Token& token, Value& value) { take_in_range(draft, token, 0, 1, value.number); }

void take_source_bone(Draft& draft, const Token& token) {
    draft.source_reference = draft.references.size();
    draft.source().bone = refer(draft, Reference::Kind::bone, token);
}

void close_source(Draft& draft) {
    const Frame& frame = draft.frame();
    const Place* bone = find_key(frame, "bone");
    const Place* object = find_key(frame, "object");
    if (bone && object) draft.fault(*object, "a source is a \"bone\" or an \"object\", found both");
    if (!bone && !object) draft.fault(frame.place, "a source needs \"bone\" or \"object\"");
    for (const std::string_view key : {"at", "curved"})
        if (const Place* place = find_key(frame, key); place && object && !bone)
            draft.fault(*place, in_quotes(key) + " goes with \"bone\", not with \"object\"");
    if (draft.source().curved && draft.source().bone != none)
        draft.references[draft.source_reference].kind = Reference::Kind::curved_bone;
}

constexpr Slot source_slots[] = {
    {.key = "bone", .wanted = "the name of a bone", .text = take_source_bone},
    {.key = "object",
     .wanted = "the name of an object",
     .text = [](Draft& draft, const Token& token) { draft.source().object = refer(draft, Reference::Kind::object, token); }},
    {.key = "at",
     .wanted = "a number",
     .number = [](Draft& draft, const Token& token) { take_in_range(draft, token, 0, 1, draft.source().at); }},
    {.key = "curved",
     .wanted = "true or false",
     .flag = [](Draft& draft, const Token& token) { draft.source().curved = token.flag; }},
    {.key = "weight",
     .wanted = "a number or a driver (an object)",
     .number = [](Draft& draft, const Token& token) { take_weight(draft, token, draft.source().weight); },
     .object = &driver_shape,
     .open = [](Draft& draft, const Token& token) { open_driver(draft, token, draft.source().weight); }}};
constexpr Shape source_shape{.noun = "a source", .slots = source_slots, .close = close_source};

template <Source::Use use>
void open_source(Draft& draft, const Token& token) {
    if (token.type == Token::Type::list) return;
    Source& source = draft.constraint().sources.emplace_back();
    source.use = use;
    source.place = token.place;
}

template <Source::Use use>
void take_source(Draft& draft, const Token& token) {
    open_source<use>(draft, token);
    take_source_bone(draft, token);
}

constexpr std::string_view source_wanted = "the name of a bone or a source (an object)";
constexpr Slot from_entry[] = {{.wanted = source_wanted,
                                .text = take_source<Source::Use::from>,
                                .object = &source_shape,
                                .open = open_source<Source::Use::from>}};
constexpr Shape from_shape{.kind = Shape::Kind::list, .noun = "source", .slots = from_entry, .least = 1};

constexpr std::string_view channel_wanted = "a channel such as \"rotation\" or \"rotation.x\"";
template <Channels Constraint::*channels>
constexpr Slot channel_entry[] = {{.wanted = channel_wanted, .text = [](Draft& draft, const Token& token) {
                                       take_channels(draft, token, draft.constraint().*channels);
                                   }}};
template <Channels Constraint::*channels>
constexpr Shape channel_list{.kind = Shape::Kind::list, .noun = "channel", .slots = channel_entry<channels>, .least = 1};

void take_kind(Draft& draft, const Token& token) {
    const std::uint32_t word = take_word(draft, token, "kind of constraint", kind_words);
    if (word == none) return;
    draft.constraint().kind = static_cast<ConstraintKind>(word);
    draft.has_kind = true;
}

void take_axes(Draft& draft, const Token& token) {
    unsigned axes = 0;
    bool good = !token.text.empty();
    for (const char c : token.text) {
        const unsigned bit = c >= 'x' && c <= 'z' ? 1U << (c - 'x') : 0U;
        good = good && bit != 0 && (axes & bit) == 0;
        axes |= bit;
    }
    if (good)
        draft.constraint().axes = static_cast<std::uint8_t>(axes);
    else
        draft.fault(token.place, "\"axes\" wants some of the letters x, y and z, each once, found " + in_quotes(token.text));
}

void take_axis(Draft& draft, const Token& token) {
    const auto word = std::find(axis_words.begin(), axis_words.end(), token.text);
    if (word != axis_words.end())
        draft.constraint().axis = static_cast<Axis>(word - axis_words.begin() + 1);
    else
        draft.fault(token.place,
                    "\"axis\" wants x, y or z, with \"-\" or \"+\" before it or not, found " + in_quotes(token.text));
}

void close_range(Draft& draft) {
    draft.constraint().range = std::array{draft.numbers[0], draft.numbers[1]};
    if (draft.numbers[0] > draft.numbers[1])
        draft.fault(draft.frame().place, "\"range\" is low, then high, found " + number_text(draft.numbers[0]) + " above " +
                                             number_text(draft.numbers[1]));
}

constexpr Slot constraint_slots[] = {
    {.key = "name",
     .wanted = "a string",
     .text = [](Draft& draft, const Token& token) { take_name(draft, token, draft.constraint().name); }},
    {.key = "kind", .wanted = "a string", .required = true, .text = take_kind},
    {.key = "from",
     .wanted = "the name of a bone, a source (an object) or a list of them",
     .text = take_source<Source::Use::from>,
     .object = &source_shape,
     .list = &from_shape,
     .open = open_source<Source::Use::from>},
    {.key = "weight",
     .wanted = "a number or a driver (an object)",
     .number = [](Draft& draft, const Token& token) { take_weight(draft, token, draft.constraint().weight); },
     .object = &driver_shape,
     .open = [](Draft& draft, const Token& token) { open_driver(draft, token, draft.constraint().weight); }},
    {.key = "enabled",
     .wanted = "true or false",
     .flag = [](Draft& draft, const Token& token) { draft.constraint().enabled = token.flag; }},
    {.key = "space",
     .wanted = "\"final\" or \"local\"",
     .text =
         [](Draft& draft, const Token& token) {
             draft.constraint().space = take_word(draft, token, "space", space_words) == 1 ? Space::local : Space::final;
         }},
    {.key = "axes", .wanted = "a string", .text = take_axes},
    {.key = "additive",
     .wanted = "true or false",
     .flag = [](Draft& draft, const Token& token) { draft.constraint().additive = token.flag; }},
    {.key = "channels",
     .wanted = "a list of channels",
     .list = &channel_list<&Constraint::channels>,
     .open = [](Draft& draft, const Token&) { draft.constraint().channels = 0; }},
    {.key = "range", .wanted = "a list of two numbers", .list = &two_numbers, .close = close_range},
    {.key = "axis", .wanted = "a string", .text = take_axis},
    {.key = "up",
     .wanted = source_wanted,
     .text = take_source<Source::Use::up>,
     .object = &source_shape,
     .open = open_source<Source::Use::up>},
    {.key = "target",
     .wanted = source_wanted,
     .text = take_source<Source::Use::target>,
     .object = &source_shape,
     .open = open_source<Source::Use::target>},
    {.key = "pole",
     .wanted = source_wanted,
     .text = take_source<Source::Use::pole>,
     .object = &source_shape,
     .open = open_source<Source::Use::pole>},
    {.key = "chain",
     .wanted = "a whole number",
     .number = [](Draft& draft, const Token& token) { take_count(draft, token, draft.constraint().chain); }},
    {.key = "orient",
     .wanted = "true or false",
     .flag = [](Draft& draft, const Token& token) { draft.constraint().orient = token.flag; }},
    {.key = "align",
     .wanted = "true or false",
     .flag = [](Draft& draft, const Token& token) { draft.constraint().align = token.flag; }},
    {.key = "reads", .wanted = "a list of channels", .list = &channel_list<&Constraint::reads>},
    {.key = "writes", .wanted = "a list of channels", .list = &channel_list<&Constraint::writes>},
    {.key = "label", .wanted = "a string", .text = [](Draft& draft, const Token& token) {
         if (!token.text.empty()) draft.constraint().label = std::string(token.text);
     }}};
static_assert(std::size(constraint_slots) <= Frame::most_keys);

// A set of keys, bit = place in the table above. For the compiler alone, which refuses a word that is no key.
consteval std::uint32_t keys(std::initializer_list<std::string_view> words) {
    std::uint32_t bits = 0;
    for (const std::string_view word : words)
        bits |= 1U << index_of_key(constraint_slots, word);  // NOLINT(clang-analyzer-core.*)
    return bits;
}

struct KeysOfKind {
    std::uint32_t required = 0;
    std::uint32_t optional = 0;
};

constexpr std::uint32_t keys_of_all =
    keys({"name", "kind", "weight", "enabled", "space", "axes", "additive"}) | Frame::extras_bit;
constexpr std::array<KeysOfKind, kind_words.size()> keys_of_kind{{
    {keys({"from"}), keys({"channels"})},                   // transform
    {keys({"from"}), 0},                                    // position
    {keys({"from"}), 0},                                    // rotation
    {keys({"from"}), 0},                                    // scale
    {keys({"from"}), keys({"axis", "up"})},                 // aim
    {keys({"from"}), keys({"axis"})},                       // roll
    {keys({"from"}), keys({"axis"})},                       // stretch
    {keys({"from"}), keys({"range"})},                      // distance
    {keys({"from"}), 0},                                    // space
    {keys({"channels"}), keys({"range"})},                  // limit
    {keys({"from"}), keys({"align"})},                      // surface
    {keys({"target", "chain"}), keys({"pole", "orient"})},  // ik
    {keys({"from", "chain"}), 0},                           // path
    {keys({"from", "reads", "writes"}), keys({"label"})},   // custom
}};

void check_keys_of_kind(Draft& draft, std::string_view kind, const KeysOfKind& wanted) {
    const Frame& frame = draft.frame();
    const std::uint32_t missing = wanted.required & ~frame.seen;
    const std::uint32_t surplus = frame.seen & ~(keys_of_all | wanted.required | wanted.optional);
    if ((missing | surplus) == 0) return;
    for (std::uint32_t i = 0; i < std::size(constraint_slots); ++i) {
        const std::string key = in_quotes(constraint_slots[i].key);
        if ((missing >> i & 1U) != 0) draft.fault(frame.place, "a constraint of kind " + in_quotes(kind) + " needs " + key);
        if ((surplus >> i & 1U) != 0) draft.fault(frame.key_places[i], key + " does not go with kind " + in_quotes(kind));
    }
}

void close_constraint(Draft& draft) {
    Constraint& constraint = draft.constraint();
    if (constraint.sources.size() > 1)
        std::stable_sort(constraint.sources.begin(), constraint.sources.end(),
                         [](const Source& a, const Source& b) { return a.use < b.use; });
    constraint.sources.shrink_to_fit();
    if (!draft.has_kind) return;
    const auto kind = static_cast<std::size_t>(constraint.kind);
    if (constraint.name.empty() && !find_key(draft.frame(), "name"))
        constraint.name = std::string(kind_words[kind]) + std::to_string(draft.bone().constraints.size());
    check_keys_of_kind(draft, kind_words[kind], keys_of_kind[kind]);
    if (constraint.kind != ConstraintKind::surface) return;
    for (const Source& source : constraint.sources)
        if (source.use == Source::Use::from && source.bone != none && source.object == none)
            draft.fault(source.place, "a constraint of kind \"surface\" reads objects only, found bone " +
                                          in_quotes(draft.names.text(source.bone)));
}

}  // namespace

constinit const Shape constraint_shape{.noun = "a constraint", .slots = constraint_slots, .close = close_constraint};

}  // namespace ligament
