// Which names does a rig description mention, and what do they stand for?
#include "names.hpp"

namespace ligament {

NameId Names::intern(std::string_view text, bool lasts) {
    const auto next = static_cast<NameId>(entries_.size());
    const NameId id = table_.find_or_add(text, next, [this](NameId known) { return entries_[known].text; });
    if (id == next) entries_.push_back({lasts ? text : std::string_view(copies_.emplace_back(text)), {}});
    return id;
}

}  // namespace ligament
