// Which id has this name? A table of ids that looks up names where they stand.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "ligament/rig.hpp"

namespace ligament {

/// A hash that differs from process to process, so that nobody can choose names that all come to lie on one heap.
std::uint32_t hash_of_name(std::string_view name);

/// Open addressing, linear probing. The names stay with whoever asks: `text_of(id)` gives the one of an id in the table.
class NameTable {
  public:
    /// The id of a name, or none.
    template <class TextOf>
    std::uint32_t find(std::string_view name, TextOf text_of) const {
        return slots_.empty() ? none : slots_[place_of(name, hash_of_name(name), text_of)].id;
    }

    /// The id of a name, `id` where it was not in the table; it is then.
    template <class TextOf>
    std::uint32_t find_or_add(std::string_view name, std::uint32_t id, TextOf text_of) {
        if (size_ * 2 >= slots_.size()) grow();
        const std::uint32_t hash = hash_of_name(name);
        Slot& slot = slots_[place_of(name, hash, text_of)];
        if (slot.id == none) {
            slot = {id, hash};
            ++size_;
        }
        return slot.id;
    }

  private:
    // The hash stands with the id, so that looking a name up touches the text of that name only.
    struct Slot {
        std::uint32_t id = none;  // none = free
        std::uint32_t hash = 0;
    };

    template <class TextOf>
    std::size_t place_of(std::string_view name, std::uint32_t hash, TextOf text_of) const {
        const std::size_t mask = slots_.size() - 1;
        std::size_t at = hash & mask;
        while (slots_[at].id != none && !(slots_[at].hash == hash && text_of(slots_[at].id) == name)) at = (at + 1) & mask;
        return at;
    }
    void grow();

    std::vector<Slot> slots_;  // a power of two of them, at most half in use
    std::size_t size_ = 0;
};

}  // namespace ligament
