// What may stand where in a rig description, and what becomes of it? The words of the tables of keys (*_keys.cpp), and the rig
// that is being read.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "fault_list.hpp"
#include "ligament/read.hpp"
#include "names.hpp"
#include "nearest_name.hpp"
#include "number.hpp"
#include "token.hpp"

namespace ligament {

struct Draft;
struct Shape;

/// One key of an object, or what every entry of a map or list is. It takes what its functions and shapes are there for: a string
/// when there is `text`, a list when there is `list`, and so on.
struct Slot {
    std::string_view key = {};     ///< empty for entries of maps and lists
    std::string_view wanted = {};  ///< "a string": what is taken, for messages
    bool required = false;
    void (*text)(Draft&, const Token&) = nullptr;
    void (*number)(Draft&, const Token&) = nullptr;
    void (*flag)(Draft&, const Token&) = nullptr;
    const Shape* object = nullptr;
    const Shape* list = nullptr;
    void (*open)(Draft&, const Token&) = nullptr;  ///< before what is in the object or list
    void (*close)(Draft&) = nullptr;               ///< after all of it and after Shape::close; it is the innermost frame still
};

/// The keys that have to stand in an object: bit = index in its table.
constexpr std::uint32_t required_of(std::span<const Slot> slots) {
    std::uint32_t bits = 0;
    for (std::size_t i = 0; i < slots.size(); ++i) bits |= static_cast<std::uint32_t>(slots[i].required) << i;
    return bits;
}

/// One kind of object (known keys, and `extras`), map (any keys, no `extras`), list, or extras (any keys; of known ones what fits
/// is taken, and all else skipped).
struct Shape {
    enum class Kind : std::uint8_t { object, map, list, extras };
    static constexpr std::uint32_t any = none;

    Kind kind = Kind::object;
    std::string_view noun = {};        ///< "a bone"; of a list or map: what an entry is called
    std::span<const Slot> slots = {};  ///< the keys; one for all entries of a map or list
    std::uint32_t least = 0;           ///< entries of a list
    std::uint32_t most = any;
    void (*take_key)(Draft&, const Token&) = nullptr;  ///< takes the key of a map's entry, before its value
    void (*close)(Draft&) = nullptr;
    const Slot* extras = nullptr;  ///< where something in the `extras` of the object is read
    std::uint32_t required = required_of(slots);
};

/// An object, map or list that is open.
struct Frame {
    static constexpr std::uint32_t most_keys = 24;

    const Shape* shape = nullptr;
    const Slot* owner = nullptr;  ///< the slot that it stands in
    const Slot* slot = nullptr;   ///< the slot of the value to come; nullptr skips the value
    Place place;
    std::uint32_t seen = 0;      ///< bit = index of a key that stood in the object; see extras_bit
    std::uint32_t count = 0;     ///< entries that a list has so far
    std::uint32_t next_key = 0;  ///< index after that of the last key, at the start 0
    /// By next_key: the index of the key that came then, when last an object was open here. Files name keys in one order, so that
    /// most keys are found by looking there. A guess: other kinds of objects are open here too.
    std::array<std::uint8_t, most_keys + 1> next_guess{};
    std::array<Place, most_keys> key_places;      ///< valid where `seen` says so
    std::unordered_set<std::string> keys_of_map;  ///< keys that a map has so far

    static constexpr std::uint32_t extras_bit = 1U << 31U;
};

/// A name that stands for an element.
struct Reference {
    enum class Kind : std::uint8_t { bone, curved_bone, property, object };
    Kind kind = Kind::bone;
    NameId name = none;
    Place place;
};

/// The rig as far as it was read. Until resolve_names, NameIds stand in it where ids of bones, properties and objects belong.
struct Draft {
    Rig rig;
    Names names;
    std::vector<Reference> references;  ///< in file order
    std::vector<Place> parent_places;   ///< by bone id: where its parent is named
    std::size_t text_size = 0;          ///< of the text that is read; 0 where tokens do not say where in it they stand
    FaultList faults;
    NearestNameBudget hints{200'000'000};

    /// Deepest nesting of shapes: the frames are kept from one object to the next, so that reading one allocates nothing.
    std::array<Frame, 16> frames;
    std::size_t depth = 0;  ///< frames in use

    // What the innermost elements need until they close.
    std::array<double, 4> numbers{};            ///< entries of a list of numbers
    std::array<NameId, 2> pair{none, none};     ///< entries of a pair of bones
    std::array<std::string, 2> side;            ///< entries of a pair of side tokens
    std::array<double, 2> last_point{};         ///< of a curve
    std::vector<std::string_view> input_names;  ///< scratch
    std::size_t source_reference = 0;           ///< index of the reference made by a source's bone
    bool has_kind = false;                      ///< the constraint has a kind that is known
    bool skipped_inputs = false;                ///< the driver's inputs could not be read
    bool roles_are_stated = true;               ///< false where the rig says that they were made out
    Place expression_place;
    bool expression_lasts = false;
    std::unordered_set<std::string> good_expressions;  ///< some without faults, each with the names of its inputs

    Frame& frame() { return frames[depth - 1]; }
    /// The frame `up` steps outside the innermost one.
    Frame& outer(std::size_t up) { return frames[depth - 1 - up]; }
    Bone& bone() { return rig.bones.back(); }
    Constraint& constraint() { return bone().constraints.back(); }
    Source& source() { return constraint().sources.back(); }
    Driver& driver() { return rig.drivers.back(); }
    Input& input() { return driver().inputs.back(); }

    void fault(Place place, std::string message) { faults.add({place, std::move(message), {}}); }
};

/// Index of a key in the innermost object's table, or none. Known at compile time where the table is.
constexpr std::uint32_t index_of_key(std::span<const Slot> slots, std::string_view key) {
    for (std::uint32_t i = 0; i < slots.size(); ++i)
        if (slots[i].key == key) return i;
    return none;
}

/// Whether the innermost object has a key, and where.
const Place* find_key(const Frame& frame, std::string_view key);

/// A text in quotation marks on one line: control characters as escapes, a very long text shortened with its length said.
std::string in_quotes(std::string_view text);
/// "the number 5": what was found where something else was wanted.
std::string found_text(const Token& token);
std::string place_text(Place place);
/// "1 joint", "2 joints".
std::string counted(std::uint64_t count, std::string_view one, std::string_view many);
/// ", nearest is "x"", or nothing.
std::string nearest_text(Draft& draft, std::string_view name, std::span<const std::string_view> known);

/// Takes a name: not empty, at most 1,000 code points.
void take_name(Draft& draft, const Token& token, std::string& name);
/// Takes the name of the newest of `elements`, which no other of them may have. `noun` is what they are, `id_of` where a name
/// notes it.
template <class Element>
void take_unique_name(Draft& draft, const Token& token, std::string_view noun, std::vector<Element>& elements,
                      std::uint32_t NamedElements::*id_of) {
    take_name(draft, token, elements.back().name);
    std::uint32_t& id = draft.names.elements(draft.names.intern(token.text, token.lasts)).*id_of;
    if (id == none) {
        id = static_cast<std::uint32_t>(elements.size() - 1);
        return;
    }
    draft.fault(token.place,
                std::string(noun) + " " + in_quotes(token.text) + " stands twice, first at " + place_text(elements[id].place));
}
/// Takes one of the words; gives its index, or none after a fault. `noun` is what the words name.
std::uint32_t take_word(Draft& draft, const Token& token, std::string_view noun, std::span<const std::string_view> words);
/// Takes a number in low..high; the key is that of the slot.
void take_in_range(Draft& draft, const Token& token, double low, double high, double& number);
/// Takes a whole number from 1 up to what a count can hold.
void take_count(Draft& draft, const Token& token, std::uint32_t& count);
/// Notes a reference; gives the NameId that stands for it.
NameId refer(Draft& draft, Reference::Kind kind, const Token& token);
/// Finds names that stand twice in the list of references that closes now.
void find_repeated(Draft& draft, std::span<const NameId> names);
/// Takes one of "position", "rotation", "scale" or a scalar channel into a set; a fault when it is in it by the same word
/// already.
void take_channels(Draft& draft, const Token& token, Channels& channels);
/// 0..8 for "position.x" to "scale.z", or none after a fault.
std::uint32_t take_channel(Draft& draft, const Token& token);

/// Takes the next entry of a list of numbers into Draft::numbers.
void take_number_entry(Draft& draft, const Token& token);
/// Makes room for one more of the elements that a rig has many of, whose token is given: for all that there will be if the rest
/// of the text has as many as what was read. Doubling would hold two copies of most of the rig at the end. It is never for more
/// than eight times as many as there are, so that a short text cannot ask for much.
template <class Element>
void make_room(const Draft& draft, const Token& token, std::vector<Element>& elements) {
    constexpr double least = 1.125, most = 8, spare = 1.06;
    if (elements.size() < elements.capacity()) return;
    const double share = token.offset == 0 ? 0 : static_cast<double>(draft.text_size) / static_cast<double>(token.offset);
    const double factor = draft.text_size == 0 ? 2 : std::clamp(share * spare, least, most);
    elements.reserve(16 + static_cast<std::size_t>(factor * static_cast<double>(elements.size())));
}
/// Starts the driver of a value.
void open_driver(Draft& draft, const Token& token, Value& value);

/// Puts ids in place of names, finds unknown names and parent loops. Whatever is wrong becomes a fault.
void resolve_names(Draft& draft);
/// The rig, or the faults where there are some.
ReadResult finish(Draft& draft);

// The shapes that more than one table speaks of.
extern const Shape rig_shape, carried_rig_shape;
extern const Shape bone_shape, carried_bone_shape;
extern const Shape constraint_shape;
extern const Shape driver_shape;
extern const Shape two_numbers, three_numbers, four_numbers;

}  // namespace ligament
