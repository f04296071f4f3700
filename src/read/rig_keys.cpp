// What may stand in a rig description outside its bones: the rig itself, properties, objects, sides.
#include "draft.hpp"

namespace ligament {

namespace {

void take_property_name(Draft& draft, const Token& token) {
    take_unique_name(draft, token, "property", draft.rig.properties, &NamedElements::property);
}

void close_property(Draft& draft) {
    const Property& property = draft.rig.properties.back();
    if (property.min && property.max && *property.min > *property.max)
        draft.fault(*find_key(draft.frame(), "min"),
                    "\"min\" " + number_text(*property.min) + " lies above \"max\" " + number_text(*property.max));
}

void take_stop_name(Draft& draft, const Token& token) {
    take_name(draft, token, draft.rig.properties.back().stops.emplace_back().first);
}

constexpr Slot stop_slot[] = {{.wanted = "a number", .number = [](Draft& draft, const Token& token) {
                                   draft.rig.properties.back().stops.back().second = token.number;
                               }}};
constexpr Shape stops_shape{.kind = Shape::Kind::map, .noun = "stop", .slots = stop_slot, .take_key = take_stop_name};

constexpr Slot property_slots[] = {
    {.key = "name", .wanted = "a string", .required = true, .text = take_property_name},
    {.key = "on",
     .wanted = "the name of a bone",
     .text = [](Draft& draft,
                const Token& token) { draft.rig.properties.back().on = refer(draft, Reference::Kind::bone, token); }},
    {.key = "default",
     .wanted = "a number",
     .number = [](Draft& draft, const Token& token) { draft.rig.properties.back().initial = token.number; }},
    {.key = "min",
     .wanted = "a number",
     .number = [](Draft& draft, const Token& token) { draft.rig.properties.back().min = token.number; }},
    {.key = "max",
     .wanted = "a number",
     .number = [](Draft& draft, const Token& token) { draft.rig.properties.back().max = token.number; }},
    {.key = "value",
     .wanted = "a driver (an object)",
     .object = &driver_shape,
     .open = [](Draft& draft, const Token& token) { open_driver(draft, token, draft.rig.properties.back().value.emplace()); }},
    {.key = "stops", .wanted = "an object of numbers", .object = &stops_shape}};
constexpr Shape property_shape{.noun = "a property", .slots = property_slots, .close = close_property};
constexpr Slot property_entry[] = {
    {.wanted = "a property (an object)", .object = &property_shape, .open = [](Draft& draft, const Token& token) {
         draft.rig.properties.emplace_back().place = token.place;
     }}};
constexpr Shape properties_shape{.kind = Shape::Kind::list, .noun = "property", .slots = property_entry};

void take_object_name(Draft& draft, const Token& token) {
    take_unique_name(draft, token, "object", draft.rig.objects, &NamedElements::object);
}

constexpr Slot follows_entry[] = {{.wanted = "the name of a bone", .text = [](Draft& draft, const Token& token) {
                                       draft.rig.objects.back().follows.push_back(refer(draft, Reference::Kind::bone, token));
                                   }}};
constexpr Shape follows_shape{.kind = Shape::Kind::list, .noun = "bone", .slots = follows_entry, .close = [](Draft& draft) {
                                  find_repeated(draft, draft.rig.objects.back().follows);
                              }};
constexpr Slot object_slots[] = {{.key = "name", .wanted = "a string", .required = true, .text = take_object_name},
                                 {.key = "follows", .wanted = "a list of names of bones", .list = &follows_shape}};
constexpr Shape object_shape{.noun = "an object", .slots = object_slots};
constexpr Slot object_entry[] = {
    {.wanted = "an object of the rig (an object)", .object = &object_shape, .open = [](Draft& draft, const Token& token) {
         draft.rig.objects.emplace_back().place = token.place;
     }}};
constexpr Shape objects_shape{.kind = Shape::Kind::list, .noun = "object", .slots = object_entry};

constexpr Slot side_token[] = {{.wanted = "a string", .text = [](Draft& draft, const Token& token) {
                                    if (const std::uint32_t at = draft.frame().count - 1; at < 2)
                                        take_name(draft, token, draft.side[at]);
                                }}};
constexpr Shape side_shape{.kind = Shape::Kind::list, .noun = "side token", .slots = side_token, .least = 2, .most = 2};

void close_side(Draft& draft) {
    if (draft.side[0] == draft.side[1] && !draft.side[0].empty())
        draft.fault(draft.frame().place, "two sides want two different tokens, found " + in_quotes(draft.side[0]) + " twice");
    draft.rig.sides.emplace_back(draft.side[0], draft.side[1]);
    draft.side = {};
}

constexpr Slot sides_entry[] = {{.wanted = "a list of two strings", .list = &side_shape, .close = close_side}};
constexpr Shape sides_shape{.kind = Shape::Kind::list, .noun = "pair of sides", .slots = sides_entry};

constexpr Slot root_entry[] = {{.wanted = "the name of a bone", .text = [](Draft& draft, const Token& token) {
                                    draft.rig.roots->push_back(refer(draft, Reference::Kind::bone, token));
                                }}};
constexpr Shape roots_shape{.kind = Shape::Kind::list, .noun = "bone", .slots = root_entry, .close = [](Draft& draft) {
                                find_repeated(draft, *draft.rig.roots);
                            }};

void take_format(Draft& draft, const Token& token) {
    if (token.text != "rig-description")
        draft.fault(token.place, "\"format\" wants \"rig-description\", found " + in_quotes(token.text));
}

void take_version(Draft& draft, const Token& token) {
    if (token.number != 1) draft.fault(token.place, "version " + number_text(token.number) + " is not known, known is 1");
}

constexpr Slot bone_entry[] = {
    {.wanted = "a bone (an object)", .object = &bone_shape, .open = [](Draft& draft, const Token& token) {
         make_room(draft, token, draft.rig.bones);
         draft.rig.bones.emplace_back().place = token.place;
         draft.parent_places.emplace_back();
     }}};
constexpr Shape bones_shape{.kind = Shape::Kind::list, .noun = "bone", .slots = bone_entry};

constexpr Slot rig_slots[] = {{.key = "format", .wanted = "\"rig-description\"", .required = true, .text = take_format},
                              {.key = "version", .wanted = "the number 1", .required = true, .number = take_version},
                              {.key = "name",
                               .wanted = "a string",
                               .required = true,
                               .text = [](Draft& draft, const Token& token) { take_name(draft, token, draft.rig.name); }},
                              {.key = "sides", .wanted = "a list of pairs of strings", .list = &sides_shape},
                              {.key = "roots",
                               .wanted = "a list of names of bones",
                               .list = &roots_shape,
                               .open = [](Draft& draft, const Token&) { draft.rig.roots.emplace(); }},
                              {.key = "properties", .wanted = "a list of properties", .list = &properties_shape},
                              {.key = "objects", .wanted = "a list of objects", .list = &objects_shape},
                              {.key = "bones", .wanted = "a list of bones", .required = true, .list = &bones_shape}};

// A rig that was converted from a file which does not state its roles says so: some checks ask for it, and would find more in it
// than in that file.
constexpr Slot rig_extras_entry[] = {{.key = "roles_are_stated",
                                      .wanted = "true or false",
                                      .flag = [](Draft& draft, const Token& token) { draft.roles_are_stated = token.flag; }}};
constexpr Shape rig_extras_shape{.kind = Shape::Kind::extras, .noun = "extra", .slots = rig_extras_entry};
constexpr auto ignore = [](Draft&, const Token&) {};
constexpr Slot rig_extras_slot{
    .key = "extras", .wanted = "any value", .text = ignore, .number = ignore, .flag = ignore, .object = &rig_extras_shape};

void close_rig(Draft& draft) {
    if (draft.roles_are_stated) return;
    for (Bone& bone : draft.rig.bones) bone.role_is_stated = false;
}

// What the outermost object of a glTF file can carry: all but the bones, which are nodes.
constexpr auto carried_rig_slots = [] {
    std::array<Slot, 5> carried{};
    std::size_t count = 0;
    for (const Slot& slot : rig_slots)
        if (slot.key != "format" && slot.key != "version" && slot.key != "bones") carried[count++] = slot;
    carried[0].required = false;  // the name: else that of the file's scene
    return carried;
}();

}  // namespace

constinit const Shape rig_shape{.noun = "a rig", .slots = rig_slots, .close = close_rig, .extras = &rig_extras_slot};
constinit const Shape carried_rig_shape{.noun = "the rig data of a glTF file", .slots = carried_rig_slots};

}  // namespace ligament
