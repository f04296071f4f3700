// What may stand in a bone, but for its constraints?
#include <algorithm>

#include "draft.hpp"

namespace ligament {

namespace {

constexpr std::array<std::string_view, 2> role_words{"control", "deform"};
constexpr std::array<std::string_view, 3> part_words{"position", "rotation", "scale"};

void take_bone_name(Draft& draft, const Token& token) {
    take_unique_name(draft, token, "bone", draft.rig.bones, &NamedElements::bone);
}

void take_role(Draft& draft, const Token& token) {
    const std::uint32_t word = take_word(draft, token, "role", role_words);
    if (word == none) return;
    bool& role = word == 0 ? draft.bone().control : draft.bone().deform;
    if (role) draft.fault(token.place, in_quotes(token.text) + " stands twice in a list");
    role = true;
}

void take_part(Draft& draft, const Token& token) {
    const std::uint32_t word = take_word(draft, token, "part of a transform", part_words);
    if (word == none) return;
    const auto part = static_cast<Parts>(1U << word);
    if ((draft.bone().from_parent & part) != 0) draft.fault(token.place, in_quotes(token.text) + " stands twice in a list");
    draft.bone().from_parent |= part;
}

template <std::size_t size>
void copy_numbers(const Draft& draft, std::array<double, size>& to) {
    std::copy_n(draft.numbers.begin(), size, to.begin());
}

constexpr Slot role_entry[] = {{.wanted = "\"control\" or \"deform\"", .text = take_role}};
constexpr Shape roles_shape{.kind = Shape::Kind::list, .noun = "role", .slots = role_entry};
constexpr Slot part_entry[] = {{.wanted = "\"position\", \"rotation\" or \"scale\"", .text = take_part}};
constexpr Shape parts_shape{.kind = Shape::Kind::list, .noun = "part", .slots = part_entry};

constexpr Slot rest_slots[] = {
    {.key = "translation",
     .wanted = "a list of three numbers",
     .list = &three_numbers,
     .close = [](Draft& draft) { copy_numbers(draft, draft.bone().rest->translation); }},
    {.key = "rotation",
     .wanted = "a list of four numbers",
     .list = &four_numbers,
     .close = [](Draft& draft) { copy_numbers(draft, draft.bone().rest->rotation); }},
    {.key = "scale", .wanted = "a list of three numbers", .list = &three_numbers, .close = [](Draft& draft) {
         copy_numbers(draft, draft.bone().rest->scale);
     }}};
constexpr Shape rest_shape{.noun = "a rest", .slots = rest_slots};

constexpr Slot curve_slots[] = {
    {.key = "segments",
     .wanted = "a whole number",
     .number = [](Draft& draft, const Token& token) { take_count(draft, token, draft.bone().curve->segments); }},
    {.key = "start",
     .wanted = "the name of a bone",
     .text = [](Draft& draft, const Token& token) { draft.bone().curve->start = refer(draft, Reference::Kind::bone, token); }},
    {.key = "end", .wanted = "the name of a bone", .text = [](Draft& draft, const Token& token) {
         draft.bone().curve->end = refer(draft, Reference::Kind::bone, token);
     }}};
constexpr Shape curve_shape{.noun = "a curve of a bone", .slots = curve_slots};

void take_channel_key(Draft& draft, const Token& token) {
    ChannelValue& channel = draft.bone().channels.emplace_back();
    channel.place = token.place;
    if (const std::uint32_t index = take_channel(draft, token); index != none) channel.channel = static_cast<std::uint8_t>(index);
}

constexpr Slot channel_slot[] = {
    {.wanted = "a number or a driver (an object)",
     .number = [](Draft& draft, const Token& token) { draft.bone().channels.back().value.number = token.number; },
     .object = &driver_shape,
     .open = [](Draft& draft, const Token& token) { open_driver(draft, token, draft.bone().channels.back().value); }}};
constexpr Shape channels_shape{.kind = Shape::Kind::map, .noun = "channel", .slots = channel_slot, .take_key = take_channel_key};

void open_constraint(Draft& draft, const Token& token) {
    draft.bone().constraints.emplace_back().place = token.place;
    draft.has_kind = false;
}

constexpr Slot constraint_entry[] = {
    {.wanted = "a constraint (an object)", .object = &constraint_shape, .open = open_constraint}};

// Names left out are kind and place on the bone; a name that is given may not be one of those either.
void close_bone(Draft& draft) {
    std::vector<Constraint>& constraints = draft.bone().constraints;
    constraints.shrink_to_fit();
    draft.bone().channels.shrink_to_fit();
    if (constraints.size() < 2) return;
    std::vector<std::pair<std::string_view, std::uint32_t>> names;
    for (std::uint32_t i = 0; i < constraints.size(); ++i) names.emplace_back(constraints[i].name, i);
    std::sort(names.begin(), names.end());
    for (std::size_t i = 1; i < names.size(); ++i) {
        if (names[i].first != names[i - 1].first || names[i].first.empty()) continue;
        const Constraint& first = constraints[names[i - 1].second];
        draft.fault(constraints[names[i].second].place, "constraint " + in_quotes(first.name) + " stands twice on bone " +
                                                            in_quotes(draft.bone().name) + ", first at " +
                                                            place_text(first.place));
    }
}

constexpr Shape constraints_shape{.kind = Shape::Kind::list, .noun = "constraint", .slots = constraint_entry};

constexpr Slot bone_slots[] = {
    {.key = "name", .wanted = "a string", .required = true, .text = take_bone_name},
    {.key = "roles", .wanted = "a list of \"control\" and \"deform\"", .list = &roles_shape},
    {.key = "parent",
     .wanted = "the name of a bone",
     .text =
         [](Draft& draft, const Token& token) {
             draft.bone().parent = refer(draft, Reference::Kind::bone, token);
             draft.parent_places.back() = token.place;
         }},
    {.key = "group",
     .wanted = "a string",
     .text = [](Draft& draft, const Token& token) { take_name(draft, token, draft.bone().group); }},
    {.key = "from_parent",
     .wanted = "a list of \"position\", \"rotation\" and \"scale\"",
     .list = &parts_shape,
     .open = [](Draft& draft, const Token&) { draft.bone().from_parent = 0; }},
    {.key = "rest",
     .wanted = "an object",
     .object = &rest_shape,
     .open = [](Draft& draft, const Token&) { draft.bone().rest.emplace(); }},
    {.key = "tip",
     .wanted = "a list of three numbers",
     .list = &three_numbers,
     .close = [](Draft& draft) { copy_numbers(draft, draft.bone().tip.emplace()); }},
    {.key = "channels", .wanted = "an object of numbers and drivers", .object = &channels_shape},
    {.key = "curve",
     .wanted = "an object",
     .object = &curve_shape,
     .open = [](Draft& draft, const Token& token) { draft.bone().curve.emplace().place = token.place; }},
    {.key = "constraints", .wanted = "a list of constraints", .list = &constraints_shape}};

// What a glTF node has words of its own for: how it is called, what it hangs under, where it stands.
constexpr bool is_told_by_node(const Slot& slot) { return slot.key == "name" || slot.key == "parent" || slot.key == "rest"; }

constexpr auto carried_bone_slots = [] {
    std::array<Slot, std::size(bone_slots) - 3> carried{};
    std::size_t count = 0;
    for (const Slot& slot : bone_slots)
        if (!is_told_by_node(slot)) carried[count++] = slot;
    return carried;
}();

}  // namespace

constinit const Shape bone_shape{.noun = "a bone", .slots = bone_slots, .close = close_bone};
constinit const Shape carried_bone_shape{.noun = "the rig data of a node", .slots = carried_bone_slots, .close = close_bone};

}  // namespace ligament
