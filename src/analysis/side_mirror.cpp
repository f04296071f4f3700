#include "side_mirror.hpp"

#include <algorithm>
#include <cmath>

namespace ligament {

namespace {

bool is_mirror(const std::vector<Sided>& all, std::uint32_t left, std::uint32_t right) {
    if (left == none || right == none) return left == right;
    const Sided &one = all[left], &other = all[right];
    if ((one.side && one.partner == none) || (other.side && other.partner == none)) return true;
    return one.side ? one.partner == right : left == right;
}

}  // namespace

bool SideMirror::is_bone(BoneId left, BoneId right) const { return is_mirror(sides.bones, left, right); }

bool SideMirror::is_property(PropertyId left, PropertyId right) const { return is_mirror(sides.properties, left, right); }

bool SideMirror::is_object(ObjectId left, ObjectId right) const {
    return left == right || (left != none && right != none && sides.objects[left].partner == right);
}

bool SideMirror::is_name(std::string_view left, std::string_view right) const {
    return left == right || tokens.is_mirror(left, right);
}

bool SideMirror::is_source(const Source& left, const Source& right) const {
    return left.use == right.use && is_object(left.object, right.object) &&
           (left.object != none || is_bone(left.bone, right.bone));
}

bool is_about(double left, double right) {
    return left == right || std::abs(left - right) <= 1e-6 * std::max({1.0, std::abs(left), std::abs(right)});
}

namespace {

/// What has to be equal for two constraints to belong together, loosening from pass to pass.
struct StackKeys {
    const SideMirror& mirror;

    /// Whether the two have one key in the first pass. May be false where sources stand in another order.
    bool are_one(const Constraint& left, const Constraint& right) const {
        return left.kind == right.kind && left.sources.size() == right.sources.size() &&
               std::equal(left.sources.begin(), left.sources.end(), right.sources.begin(),
                          [&](const Source& ours, const Source& theirs) { return is_one(ours, theirs); }) &&
               mirror.tokens.is_mirror(left.name, right.name);
    }

    std::string key(const Constraint& constraint, bool is_left, unsigned pass) const {
        const bool has_kind = pass < 4, has_sources = pass < 2, has_name = pass == 0 || pass == 2 || pass == 4;
        std::string text;
        if (has_kind) text.append(name_of(constraint.kind));
        text += '\n';
        if (has_name) text += is_left ? mirror.tokens.look_at(constraint.name).mirrored : constraint.name;
        text += '\n';
        if (has_sources) text += sources_key(constraint, is_left);
        return text;
    }

  private:
    bool is_one(const Source& left, const Source& right) const {
        if (left.use != right.use || (left.object == none) != (right.object == none)) return false;
        return left.object == none ? across(mirror.sides.bones, left.bone) == right.bone
                                   : across(mirror.sides.objects, left.object) == right.object;
    }

    static std::uint32_t across(const std::vector<Sided>& all, std::uint32_t element) {
        return all[element].partner == none ? element : all[element].partner;
    }

    // In no order, but where order counts.
    std::string sources_key(const Constraint& constraint, bool is_left) const {
        std::vector<std::string> keys;
        for (const Source& source : constraint.sources) {
            const auto use = std::to_string(static_cast<unsigned>(source.use));
            const bool bone = source.object == none;
            const std::uint32_t element = bone ? source.bone : source.object;
            keys.push_back(use + (bone ? "b" : "o") +
                           std::to_string(is_left ? across(bone ? mirror.sides.bones : mirror.sides.objects, element) : element));
        }
        if (constraint.kind != ConstraintKind::path) std::sort(keys.begin(), keys.end());
        std::string text;
        for (const std::string& key : keys) text += key + " ";
        return text;
    }
};

}  // namespace

std::vector<std::pair<std::uint32_t, std::uint32_t>> match_stacks(const SideMirror& mirror, const Bone& left, const Bone& right) {
    const StackKeys keys{mirror};
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    // Nearly all stacks are mirrored place by place, which is what the first pass comes to then, without writing any keys.
    const auto are_one = [&](const Constraint& ours, const Constraint& theirs) { return keys.are_one(ours, theirs); };
    if (std::equal(left.constraints.begin(), left.constraints.end(), right.constraints.begin(), right.constraints.end(),
                   are_one)) {
        for (std::uint32_t i = 0; i < left.constraints.size(); ++i) pairs.emplace_back(i, i);
        return pairs;
    }
    std::vector<std::uint32_t> of_left(left.constraints.size(), none);
    std::vector<bool> is_taken(right.constraints.size());
    std::size_t open = std::min(of_left.size(), is_taken.size());
    for (unsigned pass = 0; pass < 5 && open > 0; ++pass) {
        std::map<std::string, std::vector<std::uint32_t>> free;  // those of the right stack, last one first
        for (auto i = static_cast<std::uint32_t>(is_taken.size()); i-- > 0;)
            if (!is_taken[i]) free[keys.key(right.constraints[i], false, pass)].push_back(i);
        for (std::uint32_t i = 0; i < of_left.size(); ++i) {
            if (of_left[i] != none) continue;
            const auto found = free.find(keys.key(left.constraints[i], true, pass));
            if (found == free.end() || found->second.empty()) continue;
            of_left[i] = found->second.back();
            found->second.pop_back();
            is_taken[of_left[i]] = true;
            --open;
        }
    }
    for (std::uint32_t i = 0; i < of_left.size(); ++i)
        if (of_left[i] != none) pairs.emplace_back(i, of_left[i]);
    return pairs;
}

}  // namespace ligament
