// Which tokens tell the sides in a name?
#pragma once

#include <array>
#include <set>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "ligament/sides.hpp"

namespace ligament {

/// The tokens of a rig, made ready to look at many names. The rig has to stay.
class SideTokens {
  public:
    explicit SideTokens(const Rig& rig);

    /// See look_at_side. Linear in the name, for each distinct length of a token.
    SidedName look_at(std::string_view name) const;
    /// The side alone, without the name on the other one.
    NameSide side_of(std::string_view name) const;
    /// Whether `right` is what look_at calls the mirrored name of `left`.
    bool is_mirror(std::string_view left, std::string_view right) const;
    /// Whether a name can be on a side at all.
    bool are_any() const { return !sides_.empty(); }

  private:
    struct Hit {
        std::size_t at = 0, length = 0;
        NameSide side;
    };
    std::vector<Hit> hits_in(std::string_view name) const;
    static NameSide side_told_by(const std::vector<Hit>& hits);
    std::string mirrored(std::string_view name, const std::vector<Hit>& hits, NameSide side) const;

    const Rig& rig_;
    std::unordered_map<std::string_view, NameSide> sides_;  // of a token that stands in several pairs: the first
    std::set<std::size_t> lengths_;
    std::array<bool, 256> begins_;  // by byte: whether a token begins with it; few places of a name are looked at further
};

}  // namespace ligament
