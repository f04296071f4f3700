#include "along_segment.hpp"

#include <algorithm>
#include <string_view>
#include <tuple>
#include <utility>

namespace ligament {

namespace {

/// What takes its place from a bone.
struct Reader {
    BoneId segment = none;
    bool curved = false;
    BoneId bone = none;
    ConstraintId constraint = none;
    double at = 0;
};

/// A reader by one number in its name: the text before and after it, and its digits without leading zeros.
struct Member {
    std::string_view before, after, digits;
    ConstraintId constraint = none;
    double at = 0;

    auto series() const { return std::tie(before, after); }
    /// Shorter numbers are smaller.
    auto number() const { return std::pair(digits.size(), digits); }
};

bool takes_place(const Constraint& constraint) {
    if (constraint.is_inert() || constraint.additive || constraint.sources.size() != 1 || constraint.sources[0].bone == none)
        return false;
    return constraint.kind == ConstraintKind::position ||
           (constraint.kind == ConstraintKind::transform && (constraint.channels & position_channels) != 0);
}

/// In file order; of each bone the first one.
std::vector<Reader> find_readers(const Rig& rig, const Dependencies& dependencies) {
    std::vector<Reader> readers;
    for (BoneId bone = 0; bone < rig.bones.size(); ++bone)
        for (std::uint32_t i = 0; i < rig.bones[bone].constraints.size(); ++i) {
            const Constraint& constraint = rig.bones[bone].constraints[i];
            if (!takes_place(constraint)) continue;
            const Source& source = constraint.sources[0];
            readers.push_back({source.bone, source.curved, bone, dependencies.first_constraint_of_bone[bone] + i, source.at});
            break;
        }
    return readers;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The bone stands in one series for each number in its name.
void add_members(std::string_view name, const Reader& reader, std::vector<Member>& members) {
    for (std::size_t at = 0; at < name.size();) {
        std::size_t end = at;
        while (end < name.size() && is_digit(name[end])) ++end;
        if (end > at) {
            const std::size_t first = std::min(name.find_first_not_of('0', at), end);
            members.push_back(
                {name.substr(0, at), name.substr(end), name.substr(first, end - first), reader.constraint, reader.at});
        }
        at = std::max(end, at + 1);
    }
}

/// All of one segment: neighbours in a series that do not stand beyond each other.
void add_out_of_order(BoneId segment, std::vector<Member>& members, std::vector<OutOfOrder>& found) {
    std::stable_sort(members.begin(), members.end(), [](const Member& a, const Member& b) {
        return a.series() != b.series() ? a.series() < b.series() : a.number() < b.number();
    });
    for (std::size_t i = 0; i + 1 < members.size(); ++i) {
        const Member &a = members[i], &b = members[i + 1];
        if (a.series() == b.series() && a.number() < b.number() && b.at <= a.at && a.at > 0)
            found.push_back({segment, a.constraint, b.constraint, a.at, b.at});
    }
}

}  // namespace

std::vector<OutOfOrder> find_out_of_order(const Rig& rig, const Dependencies& dependencies) {
    std::vector<Reader> readers = find_readers(rig, dependencies);
    // Nearly everything reads a bone at its base, and only one of two that stands beyond it is told: most names are never looked
    // at.
    std::vector<bool> is_read_along(rig.bones.size());
    for (const Reader& reader : readers)
        if (reader.at > 0) is_read_along[reader.segment] = true;
    std::erase_if(readers, [&](const Reader& reader) { return !is_read_along[reader.segment]; });
    const auto segment_of = [](const Reader& reader) { return std::pair(reader.segment, reader.curved); };
    std::stable_sort(readers.begin(), readers.end(),
                     [&](const Reader& a, const Reader& b) { return segment_of(a) < segment_of(b); });
    std::vector<OutOfOrder> found;
    std::vector<Member> members;
    for (std::size_t first = 0, end = 0; first < readers.size(); first = end) {
        members.clear();
        for (; end < readers.size() && segment_of(readers[end]) == segment_of(readers[first]); ++end)
            add_members(rig.bones[readers[end].bone].name, readers[end], members);
        add_out_of_order(readers[first].segment, members, found);
    }
    std::sort(found.begin(), found.end(), [](const OutOfOrder& a, const OutOfOrder& b) {
        return std::tuple(a.after, a.before) < std::tuple(b.after, b.before);
    });
    return found;
}

}  // namespace ligament
