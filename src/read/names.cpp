// Which names does a rig description mention, and what do they stand for?
#include "names.hpp"

#include <functional>

namespace ligament {

NameId Names::intern(std::string_view text, bool lasts) {
    if (entries_.size() * 2 >= slots_.size()) grow();
    const auto hash = static_cast<std::uint32_t>(std::hash<std::string_view>{}(text));
    const std::size_t mask = slots_.size() - 1;
    std::size_t at = hash & mask;
    for (; slots_[at].id != none; at = (at + 1) & mask)
        if (slots_[at].hash == hash && entries_[slots_[at].id].text == text) return slots_[at].id;
    const auto id = static_cast<NameId>(entries_.size());
    slots_[at] = {id, hash};
    entries_.push_back({lasts ? text : std::string_view(copies_.emplace_back(text)), {}});
    return id;
}

void Names::grow() {
    const std::vector<Slot> old = std::move(slots_);
    slots_.assign(old.empty() ? 64 : old.size() * 2, {});
    const std::size_t mask = slots_.size() - 1;
    for (const Slot& slot : old) {
        if (slot.id == none) continue;
        std::size_t at = slot.hash & mask;
        while (slots_[at].id != none) at = (at + 1) & mask;
        slots_[at] = slot;
    }
}

}  // namespace ligament
