#include "along_segment.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace ligament {

namespace {

/// A number as text, without leading zeros; shorter ones are smaller.
struct Number {
    std::string digits;

    friend bool operator<(const Number& a, const Number& b) {
        return std::pair(a.digits.size(), std::string_view(a.digits)) < std::pair(b.digits.size(), std::string_view(b.digits));
    }
};

struct Member {
    Number number;
    ConstraintId constraint = none;
    double at = 0;
};

struct SeriesKey {
    BoneId segment = none;
    bool curved = false;
    std::string before, after;  // of the number in the name

    friend auto operator<=>(const SeriesKey&, const SeriesKey&) = default;
};

using AllSeries = std::map<SeriesKey, std::vector<Member>>;

bool takes_place(const Constraint& constraint) {
    if (constraint.is_inert() || constraint.additive || constraint.sources.size() != 1 || constraint.sources[0].bone == none)
        return false;
    return constraint.kind == ConstraintKind::position ||
           (constraint.kind == ConstraintKind::transform && (constraint.channels & position_channels) != 0);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The bone stands in one series for each number in its name.
void add_member(AllSeries& all, const std::string& name, ConstraintId id, const Source& source) {
    for (std::size_t at = 0; at < name.size();) {
        std::size_t end = at;
        while (end < name.size() && is_digit(name[end])) ++end;
        if (end > at) {
            const std::size_t first = std::min(name.find_first_not_of('0', at), end);
            all[{source.bone, source.curved, name.substr(0, at), name.substr(end)}].push_back(
                {{name.substr(first, end - first)}, id, source.at});
        }
        at = std::max(end, at + 1);
    }
}

}  // namespace

std::vector<OutOfOrder> find_out_of_order(const Rig& rig, const Dependencies& dependencies) {
    AllSeries all;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        for (std::uint32_t i = 0; i < rig.bones[bone].constraints.size(); ++i) {
            const Constraint& constraint = rig.bones[bone].constraints[i];
            if (!takes_place(constraint)) continue;
            add_member(all, rig.bones[bone].name, dependencies.first_constraint_of_bone[bone] + i, constraint.sources[0]);
            break;
        }
    std::vector<OutOfOrder> found;
    for (auto& [key, members] : all) {
        std::stable_sort(members.begin(), members.end(), [](const Member& a, const Member& b) { return a.number < b.number; });
        for (std::size_t i = 0; i + 1 < members.size(); ++i) {
            const Member &a = members[i], &b = members[i + 1];
            if (a.number < b.number && b.at <= a.at && a.at > 0)
                found.push_back({key.segment, a.constraint, b.constraint, a.at, b.at});
        }
    }
    std::sort(found.begin(), found.end(), [](const OutOfOrder& a, const OutOfOrder& b) {
        return std::tuple(a.after, a.before) < std::tuple(b.after, b.before);
    });
    return found;
}

}  // namespace ligament
