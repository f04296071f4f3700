// Which names does a rig description mention, and what do they stand for?
#include "names.hpp"

#include <functional>

namespace ligament {

NameId Names::intern(std::string_view text, bool lasts) {
    if (texts_.size() * 2 >= slots_.size()) grow();
    const std::size_t hash = std::hash<std::string_view>{}(text);
    const std::size_t mask = slots_.size() - 1;
    std::size_t slot = hash & mask;
    for (; slots_[slot] != none; slot = (slot + 1) & mask) {
        const NameId id = slots_[slot];
        if (hashes_[id] == hash && texts_[id] == text) return id;
    }
    const auto id = static_cast<NameId>(texts_.size());
    slots_[slot] = id;
    texts_.push_back(lasts ? text : std::string_view(copies_.emplace_back(text)));
    hashes_.push_back(hash);
    elements_.emplace_back();
    return id;
}

void Names::grow() {
    slots_.assign(slots_.empty() ? 64 : slots_.size() * 2, none);
    const std::size_t mask = slots_.size() - 1;
    for (NameId id = 0; id < texts_.size(); ++id) {
        std::size_t slot = hashes_[id] & mask;
        while (slots_[slot] != none) slot = (slot + 1) & mask;
        slots_[slot] = id;
    }
}

}  // namespace ligament
