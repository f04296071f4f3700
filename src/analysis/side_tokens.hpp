// Which tokens tell the sides in a name?
#pragma once

#include <set>
#include <string_view>
#include <unordered_map>

#include "ligament/sides.hpp"

namespace ligament {

/// The tokens of a rig, made ready to look at many names. The rig has to stay.
class SideTokens {
  public:
    explicit SideTokens(const Rig& rig);

    /// See look_at_side. Linear in the name, for each distinct length of a token.
    SidedName look_at(std::string_view name) const;

  private:
    struct Hit {
        std::size_t at = 0, length = 0;
        NameSide side;
    };
    std::vector<Hit> hits_in(std::string_view name) const;

    const Rig& rig_;
    std::unordered_map<std::string_view, NameSide> sides_;  // of a token that stands in several pairs: the first
    std::set<std::size_t> lengths_;
};

}  // namespace ligament
