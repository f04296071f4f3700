// Which names does a rig description mention, and what do they stand for?
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/rig.hpp"

namespace ligament {

/// Index into Names: while a rig is being read, names stand in place of the ids of the elements that they will turn out to mean.
using NameId = std::uint32_t;

/// What elements carry a name. Bones, properties and objects may share one.
struct NamedElements {
    BoneId bone = none;
    PropertyId property = none;
    ObjectId object = none;
};

/// Every name mentioned, once, found by hashing (open addressing, linear probing). Ids count up in the order of first mention.
class Names {
  public:
    /// The id of a name. `lasts` says that the text outlives this table, else it is copied.
    NameId intern(std::string_view text, bool lasts);

    std::string_view text(NameId id) const { return texts_[id]; }
    NamedElements& elements(NameId id) { return elements_[id]; }
    const NamedElements& elements(NameId id) const { return elements_[id]; }
    std::size_t size() const { return texts_.size(); }

  private:
    void grow();

    std::vector<std::string_view> texts_;
    std::vector<std::size_t> hashes_;
    std::vector<NamedElements> elements_;
    std::vector<NameId> slots_;  // a power of two of them, at most half in use; none = free
    std::deque<std::string> copies_;
};

}  // namespace ligament
