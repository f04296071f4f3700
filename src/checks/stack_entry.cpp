#include "stack_entry.hpp"

#include "number.hpp"
#include "wiring.hpp"

namespace ligament::checks {

namespace {

void add(std::string& key, std::uint64_t number) { key.append(std::to_string(number)).append(" "); }

// With its length, so that no text can pass for what follows it.
void add(std::string& key, const std::string& text) {
    add(key, text.size());
    key.append(text).append(" ");
}

void add(std::string& key, const Source& source) {
    add(key, static_cast<std::uint64_t>(source.use));
    add(key, source.bone);
    add(key, source.object);
    add(key, source.curved ? 1U : 0U);
    add(key, number_text(source.at));
}

// Kinds that write scalar channels by a list of their own; of the others the kind says what they write.
Channels listed_channels(const Constraint& constraint) {
    const bool lists = constraint.kind == ConstraintKind::transform || constraint.kind == ConstraintKind::limit;
    return lists ? constraint.channels : Channels{0};
}

}  // namespace

std::string entry_key(const Constraint& constraint) {
    std::string key;
    add(key, static_cast<std::uint64_t>(constraint.kind));
    add(key, static_cast<std::uint64_t>(constraint.space));
    add(key, constraint.axes);
    add(key, constraint.chain);
    add(key, listed_channels(constraint));
    add(key, constraint.reads);
    add(key, constraint.writes);
    add(key, (constraint.align ? 1U : 0U) + (constraint.orient ? 2U : 0U));
    add(key, static_cast<std::uint64_t>(constraint.axis));
    add(key, constraint.label.value_or({}));
    for (const Source& source : constraint.sources) add(key, source);
    return key;
}

std::string stack_key(const Bone& bone) {
    std::string key;
    for (const Constraint& constraint : bone.constraints)
        if (!constraint.is_inert()) key.append(entry_key(constraint)).append("| ");
    return key;
}

}  // namespace ligament::checks
