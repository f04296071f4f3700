#include "comparison_fields.hpp"

#include <algorithm>
#include <utility>

#include "comparison_values.hpp"

namespace ligament {

std::string_view name_of(Element element) {
    static constexpr std::array<std::string_view, 6> names{"rig", "group", "property", "object", "bone", "constraint"};
    return names[static_cast<std::size_t>(element)];
}

namespace {

using Fields = std::vector<ValueWriter::Field>;

std::size_t place_of(const Fields& fields, const std::string& key) {
    const auto found = std::find_if(fields.begin(), fields.end(), [&](const auto& field) { return field.key == key; });
    return static_cast<std::size_t>(found - fields.begin());
}

bool is_same(const ValueWriter::Field& a, const ValueWriter::Field& b) { return a.key == b.key && a.value == b.value; }

/// Two revisions, and the changes found so far.
struct Comparer {
    const Rig& before;
    const Dependencies& before_needs;
    const Rig& after;
    const Dependencies& after_needs;
    const Matching& matching;
    ValueWriter told_before{before}, told_after{after};
    ValueWriter same_before{before, matching, true}, same_after{after, matching, false};
    std::vector<Change> changes{};

    /// `write` gives the fields of an element. What differs is told in the words of each revision.
    template <class Item, class Write>
    std::vector<FieldChange> differences(const Item& old_item, const Item& new_item, Write write) const {
        const Fields old_same = write(same_before, old_item), new_same = write(same_after, new_item);
        if (std::equal(old_same.begin(), old_same.end(), new_same.begin(), new_same.end(), is_same)) return {};
        const Fields old_told = write(told_before, old_item), new_told = write(told_after, new_item);
        std::vector<FieldChange> found;
        for (std::size_t i = 0; i < old_same.size(); ++i) {
            const std::size_t k = place_of(new_same, old_same[i].key);
            if (k == new_same.size())
                found.push_back({old_same[i].key, old_told[i].value, ""});
            else if (old_same[i].value != new_same[k].value)
                found.push_back({old_same[i].key, old_told[i].value, new_told[k].value});
        }
        for (std::size_t k = 0; k < new_same.size(); ++k)
            if (place_of(old_same, new_same[k].key) == old_same.size()) found.push_back({new_same[k].key, "", new_told[k].value});
        return found;
    }

    /// Of a list of bones, told under this key, only those that are not in both.
    void shorten_list(std::vector<FieldChange>& fields, const std::string& key, const std::vector<BoneId>& old_bones,
                      const std::vector<BoneId>& new_bones) const {
        const auto field = std::find_if(fields.begin(), fields.end(), [&](const auto& f) { return f.field == key; });
        if (field == fields.end() || field->before.empty() || field->after.empty()) return;
        std::vector<bool> was(after.bones.size()), is(after.bones.size());
        for (const BoneId bone : old_bones)
            if (matching.bones.after[bone] != none) was[matching.bones.after[bone]] = true;
        for (const BoneId bone : new_bones) is[bone] = true;
        FieldChange change{key, "", ""};
        for (const BoneId bone : old_bones)
            if (const BoneId now = matching.bones.after[bone]; now == none || !is[now])
                change.before += (change.before.empty() ? "" : ", ") + before.bones[bone].name;
        for (const BoneId bone : new_bones)
            if (!was[bone]) change.after += (change.after.empty() ? "" : ", ") + after.bones[bone].name;
        *field = std::move(change);
    }

    void keep(Change change) {
        if (change.is_added() || change.is_removed() || change.renamed || !change.fields.empty())
            changes.push_back(std::move(change));
    }

    void compare_rig() {
        Change change{Element::rig, 0, 0, false, 1, {}};
        change.fields = differences(before, after, [](const ValueWriter& w, const Rig&) { return w.of_rig(); });
        if (before.roots && after.roots) shorten_list(change.fields, "roots", *before.roots, *after.roots);
        keep(std::move(change));
        for (std::uint32_t g = 0; g < matching.groups.size(); ++g) keep({Element::group, g, g, true, 1, {}});
    }

    void compare_properties() {
        for (PropertyId n = 0; n < after.properties.size(); ++n) {
            const PropertyId o = matching.properties.before[n];
            Change change{Element::property, o, n, false, matching.property_certainty[n], {}};
            if (o != none) {
                const Property &old_one = before.properties[o], &new_one = after.properties[n];
                change.renamed = old_one.name != new_one.name;
                change.fields =
                    differences(old_one, new_one, [](const ValueWriter& w, const Property& p) { return w.of_property(p); });
            }
            keep(std::move(change));
        }
        keep_removed(Element::property, matching.properties.after);
    }

    void compare_objects() {
        for (ObjectId n = 0; n < after.objects.size(); ++n) {
            const ObjectId o = matching.objects.before[n];
            Change change{Element::object, o, n, false, matching.object_certainty[n], {}};
            if (o != none) {
                const Object &old_one = before.objects[o], &new_one = after.objects[n];
                change.renamed = old_one.name != new_one.name;
                change.fields =
                    differences(old_one, new_one, [](const ValueWriter& w, const Object& x) { return w.of_object(x); });
                shorten_list(change.fields, "follows", old_one.follows, new_one.follows);
            }
            keep(std::move(change));
        }
        keep_removed(Element::object, matching.objects.after);
    }

    void keep_removed(Element element, const std::vector<std::uint32_t>& to_after) {
        for (std::uint32_t o = 0; o < to_after.size(); ++o)
            if (to_after[o] == none) changes.push_back({element, o, none, false, 1, {}});
    }

    /// The order of what both stacks have.
    std::optional<FieldChange> stack_change(BoneId o, BoneId n) const {
        FieldChange change{"constraints", "", ""};
        const ConstraintId old_first = before_needs.first_constraint_of_bone[o];
        const ConstraintId new_first = after_needs.first_constraint_of_bone[n];
        std::uint32_t last = 0;
        bool in_order = true;
        for (std::uint32_t i = 0; i < before.bones[o].constraints.size(); ++i) {
            const ConstraintId to = matching.constraints.after[old_first + i];
            if (to == none) continue;
            in_order = in_order && to >= last;
            last = to;
            change.before += (change.before.empty() ? "" : ", ") + before.bones[o].constraints[i].name;
        }
        if (in_order) return std::nullopt;
        for (std::uint32_t i = 0; i < after.bones[n].constraints.size(); ++i)
            if (matching.constraints.before[new_first + i] != none)
                change.after += (change.after.empty() ? "" : ", ") + after.bones[n].constraints[i].name;
        return change;
    }

    void compare_stacks(BoneId o, BoneId n) {
        const ConstraintId old_first = before_needs.first_constraint_of_bone[o];
        const ConstraintId new_first = after_needs.first_constraint_of_bone[n];
        const std::vector<Constraint>&olds = before.bones[o].constraints, &news = after.bones[n].constraints;
        for (std::uint32_t i = 0; i < news.size(); ++i) {
            Change change{Element::constraint, matching.constraints.before[new_first + i], new_first + i, false, 1, {}};
            if (!change.is_added()) {
                const std::uint32_t k = change.before - old_first;
                change.renamed = olds[k].name != news[i].name && (has_given_name(olds[k], k) || has_given_name(news[i], i));
                change.fields =
                    differences(olds[k], news[i], [](const ValueWriter& w, const Constraint& c) { return w.of_constraint(c); });
            }
            keep(std::move(change));
        }
        for (std::uint32_t k = 0; k < olds.size(); ++k)
            if (matching.constraints.after[old_first + k] == none) keep({Element::constraint, old_first + k, none, false, 1, {}});
    }

    void compare_bones() {
        for (BoneId n = 0; n < after.bones.size(); ++n) {
            const BoneId o = matching.bones.before[n];
            Change change{Element::bone, o, n, false, matching.certainty[n], {}};
            if (o == none) {
                keep(std::move(change));
                continue;
            }
            const Bone &old_one = before.bones[o], &new_one = after.bones[n];
            change.renamed = old_one.name != new_one.name;
            change.fields = differences(old_one, new_one, [](const ValueWriter& w, const Bone& b) { return w.of_bone(b); });
            if (auto order = stack_change(o, n)) change.fields.push_back(*std::move(order));
            keep(std::move(change));
            compare_stacks(o, n);
        }
        keep_removed(Element::bone, matching.bones.after);
    }
};

}  // namespace

std::vector<Change> compare_elements(const Rig& before, const Dependencies& before_needs, const Rig& after,
                                     const Dependencies& after_needs, const Matching& matching) {
    Comparer comparer{before, before_needs, after, after_needs, matching};
    comparer.compare_rig();
    comparer.compare_properties();
    comparer.compare_objects();
    comparer.compare_bones();
    return std::move(comparer.changes);
}

}  // namespace ligament
