// What is not the same about two partners of opposite sides?
#include <algorithm>
#include <cmath>
#include <string_view>
#include <unordered_map>

#include "mirror_plane.hpp"
#include "side_differences.hpp"
#include "side_mirror.hpp"
#include "side_values.hpp"

namespace ligament {

namespace {

using Aspect = SideDifference::Aspect;

constexpr Channels turning_channels = position_channels | rotation_channels;

/// 0 x, 1 y, 2 z. Not for an axis that is unset.
std::size_t letter_of(Axis axis) { return static_cast<std::size_t>(name_of(axis).back() - 'x'); }

/// The direction of an axis; nothing where it is unset.
std::optional<Vector3> direction_of(Axis axis) {
    if (axis == Axis::unset) return {};
    Vector3 direction{};
    direction[letter_of(axis)] = name_of(axis).front() == '-' ? -1 : 1;
    return direction;
}

bool is_range(const Rare<std::array<double, 2>>& left, const Rare<std::array<double, 2>>& right, bool may_turn) {
    if (!left || !right) return left.has_value() == right.has_value();
    const auto [low, high] = *left;
    const auto [other_low, other_high] = *right;
    return (is_about(low, other_low) && is_about(high, other_high)) ||
           (may_turn && is_about(low, -other_high) && is_about(high, -other_low));
}

bool is_bound(const std::optional<double>& left, const std::optional<double>& right) {
    return left.has_value() == right.has_value() && (!left || is_about(*left, *right));
}

/// How many pairs of partners are in which groups.
struct GroupCounts {
    std::unordered_map<std::string_view, std::uint32_t> ids;
    std::unordered_map<std::uint64_t, std::size_t> pairs;  // by the ids of both groups
    std::vector<std::size_t> first, second;                // by the id of the group on the first side, on the second

    std::uint32_t id_of(std::string_view group) {
        const auto [at, is_new] = ids.emplace(group, static_cast<std::uint32_t>(ids.size()));
        if (is_new) first.push_back(0), second.push_back(0);
        return at->second;
    }
    static std::uint64_t key(std::uint32_t of_first, std::uint32_t of_second) {
        return std::uint64_t{of_first} << 32 | of_second;
    }
    void add(std::string_view of_first, std::string_view of_second) {
        const std::uint32_t one = id_of(of_first), other = id_of(of_second);
        ++pairs[key(one, other)];
        ++first[one];
        ++second[other];
    }
    bool are_mostly_partners(std::string_view of_first, std::string_view of_second) {
        const std::uint32_t one = id_of(of_first), other = id_of(of_second);
        const auto found = pairs.find(key(one, other));
        const std::size_t both = found == pairs.end() ? 0 : found->second;
        return both > 1 && 2 * both > first[one] && 2 * both > second[other];
    }
};

struct Comparison {
    const Rig& rig;
    const Sides& sides;
    double mirror_distance;
    SideMirror mirror;
    SideValues values;
    const std::vector<RestFrame>& frames;
    std::optional<MirrorPlane> plane;
    std::optional<GroupCounts> group_counts;             // made when first asked for: few rigs need them
    std::vector<SideDifference>* differences = nullptr;  // of the pair that is looked at
    BoneId left_id = none, right_id = none;

    Comparison(const Rig& of, const Sides& its, const std::vector<RestFrame>& at_rest, double distance)
        : rig(of), sides(its), mirror_distance(distance), mirror(of, its), values(mirror), frames(at_rest) {
        std::vector<std::pair<Vector3, Vector3>> places;
        for (BoneId left = 0; left < rig.bones.size(); ++left) {
            const BoneId right = partner_behind(left);
            if (right != none && are_placed(left, right)) places.emplace_back(frames[left].origin, frames[right].origin);
        }
        plane = find_mirror_plane(places, distance);
    }

    /// The partner where it stands later in the file.
    BoneId partner_behind(BoneId left) const {
        const BoneId right = sides.bones[left].partner;
        return right == none || right < left ? none : right;
    }

    bool are_placed(BoneId left, BoneId right) const { return frames[left].is_known && frames[right].is_known; }

    void expect(bool is_so, Aspect aspect, std::uint32_t left = none, std::uint32_t right = none) {
        if (!is_so) differences->push_back({aspect, left, right});
    }

    /// How far the right one stands from where the left one's mirror image is.
    Vector3 offset(BoneId left, BoneId right) const {
        return minus(frames[right].origin, mirrored_in(*plane, frames[left].origin));
    }

    bool is_moved_along(const Vector3& by) const {
        const BoneId above = rig.bones[left_id].parent, other = rig.bones[right_id].parent;
        return above != none && sides.bones[above].partner == other && are_placed(above, other) &&
               distance_between(offset(above, other), by) <= mirror_distance;
    }

    using Spot = std::optional<Vector3>;

    void expect_place(bool is_so, Aspect aspect, const Spot& left, const Spot& right) {
        if (!is_so) differences->push_back({aspect, none, none, none, none, left, right});
    }

    void compare_places() {
        if (!plane || !are_placed(left_id, right_id)) return;
        const RestFrame &left = frames[left_id], &right = frames[right_id];
        const Vector3 by = offset(left_id, right_id);
        expect_place(length_of(by) <= mirror_distance || is_moved_along(by), Aspect::rest_position, left.origin, right.origin);
        const auto tip_of = [&](BoneId bone) {
            return rig.bones[bone].tip ? Spot(rest_tip(rig.bones[bone], frames[bone])) : Spot();
        };
        const Spot left_tip = tip_of(left_id), right_tip = tip_of(right_id);
        if ((left_tip && !is_within_bounds(*left_tip)) || (right_tip && !is_within_bounds(*right_tip))) return;
        if (!left_tip || !right_tip) return expect_place(left_tip == right_tip, Aspect::tip, left_tip, right_tip);
        const Vector3 tip_by = minus(*right_tip, mirrored_in(*plane, *left_tip));
        expect_place(distance_between(tip_by, by) <= mirror_distance || length_of(tip_by) <= mirror_distance, Aspect::tip,
                     left_tip, right_tip);
    }

    void compare_curves(const Rare<BoneCurve>& left, const Rare<BoneCurve>& right) {
        if (!left || !right) return expect(left.has_value() == right.has_value(), Aspect::curve);
        expect(left->segments == right->segments, Aspect::curve_segments);
        expect(mirror.is_bone(left->start, right->start), Aspect::curve_start);
        expect(mirror.is_bone(left->end, right->end), Aspect::curve_end);
    }

    // A driven channel without entry on the other side is unpaired.
    void compare_channels(const std::vector<ChannelValue>& left, const std::vector<ChannelValue>& right) {
        for (std::uint8_t channel = 0; channel < 9; ++channel) {
            const auto find = [&](const std::vector<ChannelValue>& entries) {
                const auto found =
                    std::find_if(entries.begin(), entries.end(), [&](const ChannelValue& e) { return e.channel == channel; });
                return found == entries.end() ? none : static_cast<std::uint32_t>(found - entries.begin());
            };
            const std::uint32_t l = find(left), r = find(right);
            if (l == none && r == none) continue;
            if (l != none && r != none)
                expect(values.are_alike(left[l].value, right[r].value, channel < 6), Aspect::channel, l, r);
            else
                expect((l != none ? left[l] : right[r]).value.is_driven(), Aspect::channel, l, r);
        }
    }

    bool is_axis(const Constraint& left, const Constraint& right) const {
        if (left.axis == right.axis) return true;
        const auto ours = direction_of(left.axis), theirs = direction_of(right.axis);
        if (!ours || !theirs) return false;
        const bool same_letter = letter_of(left.axis) == letter_of(right.axis), is_line = left.kind == ConstraintKind::roll;
        if (!plane || !are_placed(left_id, right_id)) return same_letter;
        if (same_letter && is_line) return true;
        Vector3 expected = frames[left_id].direct(*ours);
        expected[plane->axis] *= -1;
        const double angle = angle_between(expected, frames[right_id].direct(*theirs));
        return angle < 45 || (is_line && angle > 135);
    }

    void compare_constraints(const Constraint& left, const Constraint& right, std::uint32_t l, std::uint32_t r) {
        expect(left.kind == right.kind, Aspect::kind, l, r);
        expect(left.enabled == right.enabled, Aspect::enabled, l, r);
        if (left.kind == right.kind) compare_settings(left, right, l, r);
        expect(values.are_alike(left.weight, right.weight, false), Aspect::weight, l, r);
        compare_sources(left, right, l, r);
    }

    void compare_settings(const Constraint& left, const Constraint& right, std::uint32_t l, std::uint32_t r) {
        const bool may_turn = left.kind == ConstraintKind::limit && (left.channels & turning_channels) != 0;
        expect(left.space == right.space, Aspect::space, l, r);
        expect(left.axes == right.axes, Aspect::axes, l, r);
        expect(left.additive == right.additive, Aspect::additive, l, r);
        expect(left.align == right.align, Aspect::align, l, r);
        expect(left.orient == right.orient, Aspect::orient, l, r);
        expect(left.chain == right.chain, Aspect::chain, l, r);
        expect(left.channels == right.channels, Aspect::channels, l, r);
        expect(left.reads == right.reads, Aspect::reads, l, r);
        expect(left.writes == right.writes, Aspect::writes, l, r);
        expect(is_axis(left, right), Aspect::axis, l, r);
        expect(mirror.is_name(left.label.value_or({}), right.label.value_or({})), Aspect::label, l, r);
        expect(is_range(left.range, right.range, may_turn), Aspect::range, l, r);
    }

    bool is_read_alike(const Source& left, const Source& right) {
        return is_about(left.at, right.at) && left.curved == right.curved && values.are_alike(left.weight, right.weight, false);
    }

    /// For each source of the left constraint one of the right, or none: the same one read alike, else the same one, else the
    /// next of its use.
    std::vector<std::uint32_t> match_sources(const Constraint& left, const Constraint& right) {
        std::vector<std::uint32_t> matches(left.sources.size(), none);
        std::vector<bool> is_taken(right.sources.size());
        const bool in_order = left.kind == ConstraintKind::path || matches.size() > 1'000;
        for (unsigned pass = in_order ? 2 : 0; pass < 3; ++pass)
            for (std::uint32_t i = 0; i < matches.size(); ++i)
                for (std::uint32_t j = 0; j < is_taken.size() && matches[i] == none; ++j) {
                    const Source &ours = left.sources[i], &theirs = right.sources[j];
                    if (is_taken[j] || ours.use != theirs.use || (pass < 2 && !mirror.is_source(ours, theirs))) continue;
                    if (pass == 0 && !is_read_alike(ours, theirs)) continue;
                    matches[i] = j;
                    is_taken[j] = true;
                }
        return matches;
    }

    void compare_sources(const Constraint& left, const Constraint& right, std::uint32_t l, std::uint32_t r) {
        const std::vector<std::uint32_t> matches = match_sources(left, right);
        std::vector<bool> is_taken(right.sources.size());
        for (std::uint32_t i = 0; i < matches.size(); ++i) {
            const std::uint32_t j = matches[i];
            const auto expect_of = [&](bool is_so, Aspect aspect) {
                if (!is_so) differences->push_back({aspect, l, r, i, j});
            };
            expect_of(j != none && mirror.is_source(left.sources[i], right.sources[j]), Aspect::source);
            if (j == none) continue;
            is_taken[j] = true;
            expect_of(is_about(left.sources[i].at, right.sources[j].at), Aspect::source_at);
            expect_of(left.sources[i].curved == right.sources[j].curved, Aspect::source_curved);
            expect_of(values.are_alike(left.sources[i].weight, right.sources[j].weight, false), Aspect::source_weight);
        }
        for (std::uint32_t j = 0; j < is_taken.size(); ++j)
            if (!is_taken[j]) differences->push_back({Aspect::source, l, r, none, j});
    }

    void compare_stacks(const Bone& left, const Bone& right) {
        const auto pairs = match_stacks(mirror, left, right);
        expect(std::is_sorted(pairs.begin(), pairs.end(), [](const auto& a, const auto& b) { return a.second < b.second; }),
               Aspect::order);
        for (const auto& [l, r] : pairs) compare_constraints(left.constraints[l], right.constraints[r], l, r);
    }

    /// The groups of a pair of bones, that of the first side first.
    std::pair<std::string_view, std::string_view> groups_of(BoneId left, BoneId right) const {
        if (sides.bones[left].side.is_second) std::swap(left, right);
        return {rig.bones[left].group, rig.bones[right].group};
    }

    GroupCounts& groups() {
        if (group_counts) return *group_counts;
        group_counts.emplace();
        for (BoneId left = 0; left < rig.bones.size(); ++left) {
            if (partner_behind(left) == none) continue;
            const auto [first, second] = groups_of(left, partner_behind(left));
            group_counts->add(first, second);
        }
        return *group_counts;
    }

    /// Readers of humanoids call groups "left arm" and "right arm", whatever the tokens: two names without a side are partners
    /// where most of the bones in either of them have theirs in the other.
    bool is_group() {
        const std::string &left = rig.bones[left_id].group, &right = rig.bones[right_id].group;
        if (mirror.tokens.is_mirror(left, right)) return true;
        if (left.empty() || right.empty() || mirror.tokens.side_of(left) || mirror.tokens.side_of(right)) return false;
        const auto [first, second] = groups_of(left_id, right_id);
        return groups().are_mostly_partners(first, second);
    }

    void compare_bones(DifferingPair& pair) {
        left_id = pair.left, right_id = pair.right;
        differences = &pair.differences;
        const Bone &left = rig.bones[left_id], &right = rig.bones[right_id];
        const bool stated = left.role_is_stated && right.role_is_stated;
        expect(!stated || (left.control == right.control && left.deform == right.deform), Aspect::roles);
        expect(mirror.is_bone(left.parent, right.parent), Aspect::parent);
        expect(is_group(), Aspect::group);
        expect(left.from_parent == right.from_parent, Aspect::from_parent);
        compare_places();
        compare_curves(left.curve, right.curve);
        compare_channels(left.channels, right.channels);
        compare_stacks(left, right);
    }

    using Stops = std::vector<std::pair<std::string, double>>;

    // In any order.
    bool are_stops(Stops left, Stops right) const {
        std::sort(left.begin(), left.end());
        std::sort(right.begin(), right.end());
        if (left == right) return true;
        for (auto& [name, value] : left) name = mirror.tokens.look_at(name).mirrored;
        std::sort(left.begin(), left.end());
        return left == right;
    }

    void compare_properties(DifferingPair& pair) {
        differences = &pair.differences;
        const Property &left = rig.properties[pair.left], &right = rig.properties[pair.right];
        expect(is_about(left.initial, right.initial), Aspect::initial);
        expect(is_bound(left.min, right.min), Aspect::min);
        expect(is_bound(left.max, right.max), Aspect::max);
        expect(are_stops(left.stops, right.stops), Aspect::stops);
        expect(mirror.is_bone(left.on, right.on), Aspect::carrier);
        if (left.is_driven() || right.is_driven())
            expect(left.value && right.value && values.are_alike(*left.value, *right.value, false), Aspect::driver);
    }
};

}  // namespace

SideDifferences find_side_differences(const Rig& rig, const Sides& sides, double mirror_distance) {
    return find_side_differences(rig, sides, RestFrames(rig), mirror_distance);
}

SideDifferences find_side_differences(const Rig& rig, const Sides& sides, const RestFrames& frames, double mirror_distance) {
    SideDifferences found;
    if (!sides.is_any()) return found;
    Comparison comparison(rig, sides, frames.all(), mirror_distance);
    found.plane = comparison.plane;
    for (BoneId left = 0; left < rig.bones.size(); ++left) {
        if (comparison.partner_behind(left) == none) continue;
        DifferingPair pair{left, sides.bones[left].partner, {}};
        comparison.compare_bones(pair);
        if (!pair.differences.empty()) found.bones.push_back(std::move(pair));
    }
    for (PropertyId left = 0; left < rig.properties.size(); ++left) {
        const PropertyId right = sides.properties[left].partner;
        if (right == none || right < left) continue;
        DifferingPair pair{left, right, {}};
        comparison.compare_properties(pair);
        if (!pair.differences.empty()) found.properties.push_back(std::move(pair));
    }
    return found;
}

}  // namespace ligament
