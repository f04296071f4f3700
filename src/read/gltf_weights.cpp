#include "gltf_weights.hpp"

#include <algorithm>
#include <string>
#include <unordered_set>
#include <utility>

#include "draft.hpp"
#include "gltf_influences.hpp"

namespace ligament {

namespace {

// Reasons that are told of a skin one by one.
constexpr std::size_t reason_limit = 20;

// What all skins share.
struct Reading {
    const GltfSource& source;
    Remarks& remarks;
    GltfBuffers buffers{source};
    std::uint64_t work_left = source.options.influence_limit;
    std::unordered_set<std::string> told = {};  // what breaks the standard, whichever skin it was found for

    void standard_broken(const std::string& message, std::uint32_t item) {
        if (told.insert(message).second) remarks.push_back({Remark::Kind::standard_broken, message, {}, place_of(source, item)});
    }
};

struct SkinReading {
    Reading& all;
    std::uint32_t index;
    const GltfSkin& skin = all.source.gltf.skins[index];
    InfluenceTally tally = {std::vector<unsigned char>(skin.joints.size()), 0, 0, 0};
    std::unordered_set<std::uint64_t> pairs_read = {};  // of accessors
    std::unordered_set<std::string> reasons = {};
    bool is_read = true;
    bool is_work_told = false;

    std::string name() const { return "skin " + (skin.name.empty() ? std::to_string(index) : in_quotes(skin.name)); }

    void unread(const Obstacle& obstacle) {
        if (obstacle.is_standard_broken) all.standard_broken(obstacle.reason, obstacle.item);
        is_read = false;
        if (!reasons.insert(obstacle.reason).second || reasons.size() > reason_limit) return;
        Remark remark{Remark::Kind::weights_unread, unread_message(obstacle.reason), {}, place_of(all.source, obstacle.item)};
        // Whom it is about is said once.
        if (reasons.size() == 1)
            for (const GltfIndex& joint : skin.joints) remark.bones.push_back(joint.to);
        all.remarks.push_back(std::move(remark));
    }

    std::string unread_message(const std::string& reason) const {
        const std::uint64_t count = skin.joints.size();
        return name() + ": its weights cannot be read: " + reason + ", so " +
               (count == 1 ? "its one joint counts as a deform bone"
                           : "all its " + std::to_string(count) + " joints count as deform bones");
    }

    bool has_work_left(std::uint64_t work) {
        if (work <= all.work_left) {
            all.work_left -= work;
            return true;
        }
        all.work_left = 0;
        if (!std::exchange(is_work_told, true))
            unread({"the file has more than " + std::to_string(all.source.options.influence_limit) +
                        " influences, the most that are read",
                    skin.item, false});
        return false;
    }

    // Both accessors of a set are there, and as long as each other.
    bool has_pair(std::uint32_t mesh, const GltfPrimitive& primitive, const GltfInfluences& set) {
        const std::string number = std::to_string(set.set);
        const std::string of_mesh = " of a primitive of mesh " + std::to_string(mesh);
        for (const GltfIndex& half : {set.joints, set.weights})
            if (half.item != none && !half.is_given()) {
                unread({"set " + number + of_mesh + " names no accessor that there is", half.item, false});
                return false;
            }
        if (!set.weights.is_given() || !set.joints.is_given()) {
            const bool has_joints = set.joints.is_given();
            unread({(has_joints ? "JOINTS_" : "WEIGHTS_") + number + of_mesh + " is there without " +
                        (has_joints ? "WEIGHTS_" : "JOINTS_") + number,
                    (has_joints ? set.joints : set.weights).item, true});
            return false;
        }
        const std::vector<GltfAccessor>& accessors = all.source.gltf.accessors;
        if (set.joints.to >= accessors.size() || set.weights.to >= accessors.size()) return true;
        const std::uint64_t joints = accessors[set.joints.to].count;
        const std::uint64_t weights = accessors[set.weights.to].count;
        if (joints == weights) return true;
        unread({"JOINTS_" + number + of_mesh + " has " + counted(joints, "element", "elements") + ", its WEIGHTS_" + number +
                    " has " + std::to_string(weights),
                primitive.item, true});
        return false;
    }

    // All sets of a primitive are of as many vertices.
    void compare_sets(std::uint32_t mesh, const GltfPrimitive& primitive) {
        const std::vector<GltfAccessor>& accessors = all.source.gltf.accessors;
        const GltfInfluences& first = primitive.influences.front();
        for (const GltfInfluences& set : primitive.influences) {
            if (set.joints.to >= accessors.size() || first.joints.to >= accessors.size()) continue;
            const std::uint64_t count = accessors[set.joints.to].count;
            const std::uint64_t first_count = accessors[first.joints.to].count;
            if (count != first_count)
                unread({"JOINTS_" + std::to_string(set.set) + " of a primitive of mesh " + std::to_string(mesh) + " has " +
                            counted(count, "element", "elements") + ", its JOINTS_" + std::to_string(first.set) + " has " +
                            std::to_string(first_count),
                        primitive.item, true});
        }
    }

    // What is looked at of an accessor before it may be found wrong: no more than it states, and than its view can hold.
    std::uint64_t sparse_entries(GltfIndex accessor) const {
        const Gltf& gltf = all.source.gltf;
        if (accessor.to >= gltf.accessors.size() || !gltf.accessors[accessor.to].sparse) return 0;
        const GltfSparse& sparse = *gltf.accessors[accessor.to].sparse;
        if (sparse.indices_view.to >= gltf.views.size()) return 0;
        return std::min({sparse.count, gltf.accessors[accessor.to].count, gltf.views[sparse.indices_view.to].length});
    }

    void read_pair(const GltfInfluences& set) {
        if (!pairs_read.insert(std::uint64_t{set.joints.to} << 32U | set.weights.to).second) return;
        if (!has_work_left(sparse_entries(set.joints) + sparse_entries(set.weights))) return;
        std::vector<Obstacle> obstacles;
        const auto joints = find_elements(all.source, all.buffers, set.joints, GltfUse::joints, obstacles, all.remarks);
        const auto weights = find_elements(all.source, all.buffers, set.weights, GltfUse::weights, obstacles, all.remarks);
        for (const Obstacle& obstacle : obstacles) unread(obstacle);
        if (!joints || !weights) return;
        if (!has_work_left(weights->is_zero ? 0 : weights->count)) return;
        tally.vertices_of_strangers = tally.vertices_of_no_weights = 0;
        tally.stranger = 0;
        tally_influences(*joints, *weights, tally);
        tell_tally(set);
    }

    void tell_tally(const GltfInfluences& set) {
        const GltfAccessor& weights = all.source.gltf.accessors[set.weights.to];
        const std::string name_of_weights = "accessor " + std::to_string(set.weights.to) + " for weights";
        if (!weights.normalized && weights.component != static_cast<std::uint32_t>(GltfComponent::f32))
            all.standard_broken(name_of_weights + " is of integers, and they are not normalised", weights.item);
        if (tally.vertices_of_no_weights > 0)
            all.standard_broken(name_of_weights + " has " + counted(tally.vertices_of_no_weights, "vertex", "vertices") +
                                    " with a weight that is negative or not finite",
                                weights.item);
        if (tally.vertices_of_strangers > 0)
            all.standard_broken(name() + " has " + counted(skin.joints.size(), "joint", "joints") + ", accessor " +
                                    std::to_string(set.joints.to) + " weights " +
                                    counted(tally.vertices_of_strangers, "vertex", "vertices") + " to others, up to joint " +
                                    std::to_string(tally.stranger),
                                all.source.gltf.accessors[set.joints.to].item);
    }

    void read_mesh(std::uint32_t mesh) {
        for (const GltfPrimitive& primitive : all.source.gltf.meshes[mesh].primitives) {
            if (primitive.influences.empty()) continue;
            if (!has_work_left(primitive.influences.size())) return;
            if (primitive.is_compressed) {
                unread({"a primitive of mesh " + std::to_string(mesh) + " is compressed by an extension", primitive.item, false});
                continue;
            }
            compare_sets(mesh, primitive);
            for (const GltfInfluences& set : primitive.influences)
                if (has_pair(mesh, primitive, set)) read_pair(set);
        }
    }

    void tell_rest() {
        if (reasons.size() <= reason_limit) return;
        const std::uint64_t more = reasons.size() - reason_limit;
        all.remarks.push_back({Remark::Kind::weights_unread,
                               name() + ": its weights cannot be read for " + counted(more, "more reason", "more reasons") +
                                   ", listed are " + std::to_string(reason_limit),
                               {},
                               place_of(all.source, skin.item)});
    }
};

/// Skins with the meshes of the nodes that have both, each pair once, by skin.
std::vector<std::pair<std::uint32_t, std::uint32_t>> find_skinned_meshes(const Gltf& gltf) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
    for (const GltfNode& node : gltf.nodes)
        if (node.skin.to < gltf.skins.size() && node.mesh.to < gltf.meshes.size()) pairs.emplace_back(node.skin.to, node.mesh.to);
    std::sort(pairs.begin(), pairs.end());
    pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
    return pairs;
}

}  // namespace

std::vector<SkinWeights> find_weighted_joints(const GltfSource& source, Remarks& remarks) {
    std::vector<SkinWeights> found(source.gltf.skins.size());
    for (std::size_t i = 0; i < found.size(); ++i) found[i].is_weighted.assign(source.gltf.skins[i].joints.size(), false);
    const auto pairs = find_skinned_meshes(source.gltf);
    Reading reading{source, remarks};
    for (std::size_t i = 0; i < pairs.size();) {
        SkinReading skin{reading, pairs[i].first};
        for (; i < pairs.size() && pairs[i].first == skin.index; ++i) skin.read_mesh(pairs[i].second);
        skin.tell_rest();
        SkinWeights& weights = found[skin.index];
        weights.is_used = true;
        weights.is_read = skin.is_read;
        if (skin.is_read)
            weights.is_weighted.assign(skin.tally.is_weighted.begin(), skin.tally.is_weighted.end());
        else
            weights.is_weighted.assign(skin.skin.joints.size(), true);
    }
    return found;
}

}  // namespace ligament
