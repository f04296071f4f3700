#include "side_tokens.hpp"

#include <map>

namespace ligament {

namespace {

// Letters beyond ASCII are not told from other characters there: all of them count as letters.
bool is_word(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
}

bool stands_alone(std::string_view name, std::size_t at, std::size_t length) {
    const bool before = at > 0 && is_word(name[at]) && is_word(name[at - 1]);
    const std::size_t end = at + length;
    const bool after = end < name.size() && is_word(name[end - 1]) && is_word(name[end]);
    return !before && !after;
}

}  // namespace

SideTokens::SideTokens(const Rig& rig) : rig_(rig) {
    for (std::uint32_t pair = 0; pair < rig.sides.size(); ++pair)
        for (const bool second : {false, true}) {
            const std::string& token = second ? rig.sides[pair].second : rig.sides[pair].first;
            if (token.empty()) continue;
            sides_.emplace(token, NameSide{pair, second});
            lengths_.insert(token.size());
        }
}

std::vector<SideTokens::Hit> SideTokens::hits_in(std::string_view name) const {
    std::vector<Hit> hits;
    for (std::size_t at = 0; at < name.size(); ++at)
        for (std::size_t length : lengths_) {
            if (length > name.size() - at) break;
            const auto found = sides_.find(name.substr(at, length));
            if (found != sides_.end() && stands_alone(name, at, length)) hits.push_back({at, length, found->second});
        }
    return hits;
}

SidedName SideTokens::look_at(std::string_view name) const {
    SidedName looked{{}, std::string(name)};
    const std::vector<Hit> hits = hits_in(name);
    std::map<std::uint32_t, std::array<bool, 2>> seen;  // by pair: has the first, the second
    for (const Hit& hit : hits) seen[hit.side.pair][hit.side.is_second ? 1 : 0] = true;
    for (const auto& [pair, has] : seen) {
        if (has[0] == has[1]) continue;
        looked.side = {pair, has[1]};
        break;
    }
    if (!looked.side) return looked;
    const auto& [first, second] = rig_.sides[looked.side.pair];
    looked.mirrored.clear();
    std::size_t done = 0;
    for (const Hit& hit : hits) {
        if (hit.side.pair != looked.side.pair || hit.at < done) continue;
        looked.mirrored.append(name.substr(done, hit.at - done)).append(looked.side.is_second ? first : second);
        done = hit.at + hit.length;
    }
    looked.mirrored.append(name.substr(done));
    return looked;
}

SidedName look_at_side(const Rig& rig, std::string_view name) { return SideTokens(rig).look_at(name); }

}  // namespace ligament
