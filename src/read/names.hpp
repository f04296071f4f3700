// Which names does a rig description mention, and what do they stand for?
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "ligament/rig.hpp"
#include "name_table.hpp"

namespace ligament {

/// Index into Names: while a rig is being read, names stand in place of the ids of the elements that they will turn out to mean.
using NameId = std::uint32_t;

/// What elements carry a name. Bones, properties and objects may share one.
struct NamedElements {
    BoneId bone = none;
    PropertyId property = none;
    ObjectId object = none;
};

/// Every name mentioned, once. Ids count up in the order of first mention.
class Names {
  public:
    /// The id of a name. `lasts` says that the text outlives this table, else it is copied.
    NameId intern(std::string_view text, bool lasts);

    std::string_view text(NameId id) const { return entries_[id].text; }
    NamedElements& elements(NameId id) { return entries_[id].elements; }
    const NamedElements& elements(NameId id) const { return entries_[id].elements; }
    std::size_t size() const { return entries_.size(); }

  private:
    struct Entry {
        std::string_view text;
        NamedElements elements;
    };
    std::vector<Entry> entries_;
    NameTable table_;
    std::deque<std::string> copies_;
};

}  // namespace ligament
