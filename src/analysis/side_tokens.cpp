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

SideTokens::SideTokens(const Rig& rig) : rig_(rig), begins_{} {
    for (std::uint32_t pair = 0; pair < rig.sides.size(); ++pair)
        for (const bool second : {false, true}) {
            const std::string& token = second ? rig.sides[pair].second : rig.sides[pair].first;
            if (token.empty()) continue;
            sides_.emplace(token, NameSide{pair, second});
            lengths_.insert(token.size());
            begins_[static_cast<unsigned char>(token.front())] = true;
        }
}

std::vector<SideTokens::Hit> SideTokens::hits_in(std::string_view name) const {
    std::vector<Hit> hits;
    for (std::size_t at = 0; at < name.size(); ++at) {
        if (!begins_[static_cast<unsigned char>(name[at])]) continue;
        for (std::size_t length : lengths_) {
            if (length > name.size() - at) break;
            if (!stands_alone(name, at, length)) continue;
            const auto found = sides_.find(name.substr(at, length));
            if (found != sides_.end()) hits.push_back({at, length, found->second});
        }
    }
    return hits;
}

/// The first pair of which there is one token and not the other.
NameSide SideTokens::side_told_by(const std::vector<Hit>& hits) {
    if (hits.size() == 1) return hits.front().side;
    std::map<std::uint32_t, std::array<bool, 2>> seen;  // by pair: has the first, the second
    for (const Hit& hit : hits) seen[hit.side.pair][hit.side.is_second ? 1 : 0] = true;
    for (const auto& [pair, has] : seen)
        if (has[0] != has[1]) return {pair, has[1]};
    return {};
}

std::string SideTokens::mirrored(std::string_view name, const std::vector<Hit>& hits, NameSide side) const {
    if (!side) return std::string(name);
    const auto& [first, second] = rig_.sides[side.pair];
    std::string text;
    std::size_t done = 0;
    for (const Hit& hit : hits) {
        if (hit.side.pair != side.pair || hit.at < done) continue;
        text.append(name.substr(done, hit.at - done)).append(side.is_second ? first : second);
        done = hit.at + hit.length;
    }
    return text.append(name.substr(done));
}

SidedName SideTokens::look_at(std::string_view name) const {
    const std::vector<Hit> hits = hits_in(name);
    const NameSide side = side_told_by(hits);
    return {side, mirrored(name, hits, side)};
}

NameSide SideTokens::side_of(std::string_view name) const { return side_told_by(hits_in(name)); }

bool SideTokens::is_mirror(std::string_view left, std::string_view right) const {
    const std::vector<Hit> hits = hits_in(left);
    const NameSide side = side_told_by(hits);
    return side ? mirrored(left, hits, side) == right : left == right;
}

SidedName look_at_side(const Rig& rig, std::string_view name) { return SideTokens(rig).look_at(name); }

}  // namespace ligament
