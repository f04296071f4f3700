// Which constraints, properties, objects and groups of two revisions are the same ones?
#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "comparison_nodes.hpp"
#include "comparison_values.hpp"
#include "ligament/comparison.hpp"

namespace ligament {

namespace {

/// Kind and sources of a constraint, names of bones and objects left out: equal where both revisions read the same.
using Signature = std::vector<std::uint64_t>;

/// The ids of one revision in words of both: by id the number before, or a number of its own where there is no counterpart.
struct Called {
    const std::vector<std::uint32_t>& bones;  ///< by id the one before; of the rig before itself empty
    const std::vector<std::uint32_t>& objects;
    std::uint64_t stranger;  ///< unlike in both revisions

    static std::uint64_t id_of(const std::vector<std::uint32_t>& before, std::uint32_t id, std::uint64_t stranger) {
        if (id == none) return 0;
        const std::uint32_t number = before[id];
        return number == none ? mixed(stranger, id) : mixed(1, number);
    }
};

Signature signature_of(const Constraint& constraint, const Called& called) {
    Signature signature{static_cast<std::uint64_t>(constraint.kind)};
    for (const Source& source : constraint.sources) {
        std::uint64_t one = mixed(static_cast<std::uint64_t>(source.use), mixed(source.at));
        one = mixed(mixed(one, source.curved), Called::id_of(called.bones, source.bone, called.stranger));
        signature.push_back(mixed(one, Called::id_of(called.objects, source.object, called.stranger)));
    }
    return signature;
}

/// By place in the stack before the place after, or none.
std::vector<std::uint32_t> match_stacks(const std::vector<Constraint>& before, const std::vector<Constraint>& after,
                                        const Called& called_before, const Called& called_after) {
    std::vector<std::uint32_t> to(before.size(), none);
    std::vector<bool> taken(after.size());
    std::vector<Signature> old_signatures, new_signatures;
    for (const Constraint& constraint : before) old_signatures.push_back(signature_of(constraint, called_before));
    for (const Constraint& constraint : after) new_signatures.push_back(signature_of(constraint, called_after));
    // A stack may hold thousands, so that partners are looked up, the first one that is left first.
    const auto pass = [&](auto key_of) {
        std::map<std::pair<std::string, Signature>, std::vector<std::uint32_t>> waiting;
        for (std::uint32_t n = static_cast<std::uint32_t>(after.size()); n-- > 0;)
            if (!taken[n])
                if (auto key = key_of(after[n], n, new_signatures[n])) waiting[*key].push_back(n);
        for (std::uint32_t o = 0; o < before.size(); ++o) {
            if (to[o] != none) continue;
            const auto key = key_of(before[o], o, old_signatures[o]);
            if (!key) continue;
            const auto found = waiting.find(*key);
            if (found == waiting.end() || found->second.empty()) continue;
            to[o] = found->second.back();
            taken[to[o]] = true;
            found->second.pop_back();
        }
    };
    using Key = std::optional<std::pair<std::string, Signature>>;
    pass([](const Constraint& c, std::size_t, const Signature& s) { return Key({c.name, s}); });
    pass([](const Constraint& c, std::size_t i, const Signature& s) { return has_given_name(c, i) ? Key() : Key({{}, s}); });
    pass([](const Constraint& c, std::size_t, const Signature&) { return Key({c.name, {}}); });
    pass([](const Constraint&, std::size_t, const Signature& s) { return Key({{}, s}); });
    return to;
}

Counterparts slice(const Counterparts& nodes, std::uint32_t old_first, std::uint32_t old_count, std::uint32_t new_first,
                   std::uint32_t new_count) {
    Counterparts part;
    for (std::uint32_t i = 0; i < old_count; ++i) {
        const std::uint32_t n = nodes.after[old_first + i];
        part.after.push_back(n == none ? none : n - new_first);
    }
    for (std::uint32_t i = 0; i < new_count; ++i) {
        const std::uint32_t o = nodes.before[new_first + i];
        part.before.push_back(o == none ? none : o - old_first);
    }
    return part;
}

std::vector<double> slice(const std::vector<double>& all, std::uint32_t first, std::uint32_t count) {
    return {all.begin() + first, all.begin() + first + count};
}

std::vector<std::uint32_t> own_numbers(const std::vector<std::uint32_t>& after) {
    std::vector<std::uint32_t> own(after.size(), none);
    for (std::uint32_t id = 0; id < after.size(); ++id)
        if (after[id] != none) own[id] = id;
    return own;
}

void match_constraints(const Rig& before, const Dependencies& before_needs, const Rig& after, const Dependencies& after_needs,
                       Matching& matching) {
    const std::vector<std::uint32_t> own_bones = own_numbers(matching.bones.after),
                                     own_objects = own_numbers(matching.objects.after);
    const Called called_before{own_bones, own_objects, 2}, called_after{matching.bones.before, matching.objects.before, 3};
    matching.constraints.after.assign(before_needs.constraints.size(), none);
    matching.constraints.before.assign(after_needs.constraints.size(), none);
    for (BoneId o = 0; o < before.bones.size(); ++o) {
        const BoneId n = matching.bones.after[o];
        if (n == none || before.bones[o].constraints.empty() || after.bones[n].constraints.empty()) continue;
        const auto to = match_stacks(before.bones[o].constraints, after.bones[n].constraints, called_before, called_after);
        for (std::uint32_t i = 0; i < to.size(); ++i) {
            if (to[i] == none) continue;
            const ConstraintId old_id = before_needs.first_constraint_of_bone[o] + i;
            const ConstraintId new_id = after_needs.first_constraint_of_bone[n] + to[i];
            matching.constraints.after[old_id] = new_id;
            matching.constraints.before[new_id] = old_id;
        }
    }
}

}  // namespace

Matching match_rigs(const Rig& before, const Dependencies& before_needs, const Rig& after, const Dependencies& after_needs) {
    const Surroundings old_side = find_surroundings(before), new_side = find_surroundings(after);
    const NodeMatching found = match_nodes(old_side, new_side);
    Matching matching;
    matching.bones = slice(found.nodes, 0, old_side.bones, 0, new_side.bones);
    matching.properties =
        slice(found.nodes, old_side.property(0), old_side.properties, new_side.property(0), new_side.properties);
    matching.objects = slice(found.nodes, old_side.object(0), old_side.objects, new_side.object(0), new_side.objects);
    matching.certainty = slice(found.certainty, 0, new_side.bones);
    matching.property_certainty = slice(found.certainty, new_side.property(0), new_side.properties);
    matching.object_certainty = slice(found.certainty, new_side.object(0), new_side.objects);
    for (std::uint32_t g = new_side.first_group(); g < new_side.size(); ++g) {
        const std::uint32_t o = found.nodes.before[g];
        if (o != none && old_side.names[o] != new_side.names[g])
            matching.groups.emplace_back(old_side.names[o], new_side.names[g]);
    }
    match_constraints(before, before_needs, after, after_needs, matching);
    return matching;
}

}  // namespace ligament
