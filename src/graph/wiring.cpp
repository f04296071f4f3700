#include "wiring.hpp"

#include <algorithm>
#include <cstddef>

namespace ligament {

namespace {

/// position needs all three of the parent's parts; rotation and scale need their own.
Parts inherited(Parts parts) { return parts & position_part ? all_parts : parts; }

/// The kinds that take a source channel by channel; all others join all that they read into all that they write.
bool takes_part_by_part(const Constraint& constraint, const Source& source) {
    if (source.use != Source::Use::from || source.at > 0) return false;
    return constraint.kind == ConstraintKind::transform || constraint.kind == ConstraintKind::position ||
           constraint.kind == ConstraintKind::rotation || constraint.kind == ConstraintKind::scale;
}

struct Wirer {
    const Rig& rig;
    const Numbering& numbering;
    const Dependencies& dependencies;
    std::vector<std::uint32_t> first_source_gate;  ///< by constraint: the first gate of its sources' weights, if there is any
    std::vector<Need> needs;                       ///< of what is at hand
    std::vector<ConstraintId> last_solver;         ///< by bone: the last live one wired whose chain it is in, or none

    VertexId final_of(BoneId b) const { return numbering.final(rig, b); }

    void wire_order(BoneId b, VertexId from, VertexId to, Channels reads = all_parts) {
        needs.push_back({.from = from,
                         .to = to,
                         .maker = stack_maker(rig, b),
                         .reads = reads,
                         .writes = all_parts,
                         .kind = EdgeKind::order,
                         .joining = Joining::pass});
    }

    /// What `need` would take of the final of `child`'s parent, as far as from_parent lets it. `need.writes` is filtered here.
    void wire_parent(BoneId child, Need need) {
        const Bone& bone = rig.bones[child];
        need.writes &= bone.from_parent;
        if (bone.parent == none || need.writes == 0) return;
        need.from = final_of(bone.parent);
        need.joining = Joining::inherit;
        needs.push_back(need);
    }

    /// Reads `parts` of a bone's local. After a late local-space step that is the step and what base takes of the parent.
    /// `pose_channel` is the one scalar that a driver reads where nothing shapes the bone's local channels, else none.
    void wire_local_read(BoneId b, Parts parts, Need need, std::uint32_t pose_channel = none) {
        need.reads = parts;
        if (numbering.late_of[b] != none) {
            need.from = numbering.late_of[b];
            needs.push_back(need);
            wire_parent_of_late(b, parts, need);
        } else if (pose_channel != none && !numbering.shapes_local[b]) {
            need.from = numbering.pose(b);
            need.reads = static_cast<Channels>(1u << pose_channel);
            needs.push_back(need);
        } else {
            need.from = numbering.local(b);
            needs.push_back(need);
        }
    }

    void wire_parent_of_late(BoneId b, Parts parts, Need need) {
        if (need.joining == Joining::pass) {
            wire_parent(b, need);
            return;
        }
        const Bone& bone = rig.bones[b];
        need.reads = inherited(parts & bone.from_parent);
        if (bone.parent == none || need.reads == 0) return;
        need.from = final_of(bone.parent);
        needs.push_back(need);
    }

    /// The gates of a constraint's sources stand one behind the other, in the order of the sources; most have none.
    std::uint32_t gate_of(ConstraintId id, std::uint32_t source) const {
        const Value& weight = constraint_of(rig, dependencies, id).sources[source].weight;
        if (!weight.is_driven() && weight.number >= 1 - 1e-9) return id + 1;
        const auto first = dependencies.gates.begin() + first_source_gate[id];
        const auto last = first + std::min<std::ptrdiff_t>(source, dependencies.gates.end() - first);
        const auto found =
            std::partition_point(first, last, [&](const Gate& gate) { return gate.constraint == id && gate.source < source; });
        return static_cast<std::uint32_t>(found - dependencies.gates.begin());
    }

    /// What a constraint step or solver `need.to` reads of one source, and the driver of that source's weight.
    void wire_source(const Constraint& constraint, ConstraintId id, std::uint32_t index, Need need) {
        const Source& source = constraint.sources[index];
        need.gate = gate_of(id, index);
        const Need weight = need;
        need.joining = takes_part_by_part(constraint, source) ? Joining::pass : Joining::join;
        const Parts parts = parts_read(constraint, source);
        if (source.object != none) {
            need.from = numbering.first_object + source.object;
            need.joining = Joining::join;
            needs.push_back(need);
        } else if (source.curved) {
            need.from = numbering.curve(source.bone);
            need.joining = Joining::join;
            needs.push_back(need);
        } else if (constraint.space == Space::local && !constraint.is_solver()) {
            wire_local_read(source.bone, parts, need);
        } else {
            need.from = final_of(source.bone);
            need.reads = parts;
            needs.push_back(need);
        }
        wire_weight(source.weight, weight);
    }

    void wire_weight(const Value& weight, Need need) {
        if (!weight.is_driven()) return;
        need.from = numbering.first_driver + weight.driver;
        need.maker = driver_maker(rig, dependencies, weight.driver);
        need.kind = EdgeKind::driver;
        needs.push_back(need);
    }

    /// One constraint of the stack: the step before it, its own reads, its sources, its weight.
    void wire_step(BoneId b, ConstraintId id, VertexId before) {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        const VertexId step = numbering.step_of[id];
        const Need need{.to = step,
                        .gate = id + 1,
                        .maker = constraint_maker(rig, id),
                        .writes = parts_written(constraint),
                        .kind = EdgeKind::constraint};
        wire_order(b, before, step);
        wire_own_reads(b, constraint, before, need);
        if (constraint.space == Space::local && step > numbering.local(b)) wire_parent(b, need);
        for (std::uint32_t i = 0; i < constraint.sources.size(); ++i) wire_source(constraint, id, i, need);
        wire_weight(constraint.weight, need);
    }

    void wire_own_reads(BoneId b, const Constraint& constraint, VertexId before, Need need) {
        need.kind = EdgeKind::order;
        if (constraint.kind == ConstraintKind::aim || constraint.kind == ConstraintKind::stretch) {
            need.from = before;
            need.reads = position_part;
            need.at_step = false;
            needs.push_back(need);
        } else if (constraint.kind == ConstraintKind::space && constraint.space == Space::final) {
            need.from = numbering.local(b);
            need.reads = all_parts;
            needs.push_back(need);
        }
    }

    void wire_pose(BoneId b) {
        for (const ChannelValue& channel : rig.bones[b].channels) {
            if (!channel.value.is_driven()) continue;
            needs.push_back({.from = numbering.first_driver + channel.value.driver,
                             .to = numbering.pose(b),
                             .maker = driver_maker(rig, dependencies, channel.value.driver),
                             .writes = static_cast<Channels>(1u << channel.channel),
                             .kind = EdgeKind::driver});
        }
    }

    void wire_solved(BoneId b) {
        wire_order(b, numbering.pose(b), numbering.solved(b), all_channels);
        for (ConstraintId solver : numbering.solvers_on(b))
            needs.push_back({.from = numbering.step_of[solver],
                             .to = numbering.solved(b),
                             .gate = solver + 1,
                             .maker = constraint_maker(rig, solver),
                             .writes = parts_written(constraint_of(rig, dependencies, solver)),
                             .kind = EdgeKind::solver});
    }

    /// The steps of one segment of the stack, whose numbers lie in [first, end), then `end` itself.
    void wire_segment(BoneId b, VertexId before, VertexId first, VertexId end) {
        for (ConstraintId id = dependencies.first_constraint_of_bone[b]; id < dependencies.first_constraint_of_bone[b + 1];
             ++id) {
            const VertexId step = numbering.step_of[id];
            if (step < first || step >= end) continue;
            wire_step(b, id, before);
            before = step;
        }
        wire_order(b, before, end);
    }

    void wire_curve(BoneId b) {
        const Bone& bone = rig.bones[b];
        if (!bone.curve) return;
        const VertexId curve = numbering.curve(b);
        needs.push_back({.from = final_of(b), .to = curve, .maker = stack_maker(rig, b), .reads = all_parts});
        for (BoneId handle : {bone.curve->start, bone.curve->end})
            if (handle != none)
                needs.push_back({.from = final_of(handle),
                                 .to = curve,
                                 .maker = curve_maker(rig, b),
                                 .reads = all_parts,
                                 .kind = EdgeKind::curve});
    }

    void wire_bone(BoneId b) {
        wire_pose(b);
        wire_solved(b);
        const VertexId local = numbering.local(b), base = numbering.base(b);
        wire_segment(b, numbering.solved(b), numbering.solved(b) + 1, local);
        wire_order(b, local, base);
        wire_parent(b, {.to = base, .maker = parent_maker(rig, b), .writes = all_parts, .kind = EdgeKind::parent});
        wire_segment(b, base, base + 1, final_of(b));
        wire_curve(b);
    }

    void wire_driver(DriverId d) {
        const Need need{.to = numbering.first_driver + d, .maker = driver_maker(rig, dependencies, d), .kind = EdgeKind::driver};
        for (const Input& input : rig.drivers[d].inputs) {
            Need read = need;
            const auto part = static_cast<Parts>(1u << input.channel / 3);
            switch (input.kind) {
                case Input::Kind::property:
                    read.from = numbering.first_property + input.property;
                    needs.push_back(read);
                    break;
                case Input::Kind::channel:
                    if (input.space == Space::local) {
                        wire_local_read(input.bone, part, read, input.channel);
                    } else {
                        wire_final_read(input.bone, part, read);
                    }
                    break;
                case Input::Kind::distance:
                case Input::Kind::angle:
                    for (BoneId b : {input.bone, input.other})
                        wire_final_read(b, input.kind == Input::Kind::distance ? position_part : rotation_part, read);
                    break;
            }
        }
    }

    void wire_final_read(BoneId b, Parts parts, Need need) {
        need.from = final_of(b);
        need.reads = parts;
        needs.push_back(need);
    }

    void wire_property(PropertyId p) {
        const Property& property = rig.properties[p];
        if (property.is_driven())
            needs.push_back({.from = numbering.first_driver + property.value->driver,
                             .to = numbering.first_property + p,
                             .maker = driver_maker(rig, dependencies, property.value->driver),
                             .kind = EdgeKind::driver});
    }

    void wire_object(ObjectId o) {
        for (BoneId b : rig.objects[o].follows)
            wire_final_read(b, all_parts,
                            {.to = numbering.first_object + o, .maker = follows_maker(rig, o), .kind = EdgeKind::parent});
    }

    void wire_solver(ConstraintId id) {
        const Constraint& constraint = constraint_of(rig, dependencies, id);
        const Need need{
            .to = numbering.step_of[id], .gate = id + 1, .maker = constraint_maker(rig, id), .kind = EdgeKind::solver};
        const std::vector<BoneId> chain = chain_of(rig, dependencies, id);
        for (BoneId b : chain) {
            wire_chain_bone(b, need);
            if (!constraint.is_inert()) last_solver[b] = id;
        }
        wire_chain_root_parent(chain.back(), need);
        for (std::uint32_t i = 0; i < constraint.sources.size(); ++i) wire_source(constraint, id, i, need);
        wire_weight(constraint.weight, need);
    }

    /// What a solver starts from on one bone of its chain: the last live solver before it there, else the bone's pose.
    void wire_chain_bone(BoneId b, Need need) {
        const ConstraintId before = last_solver[b];
        if (before != none) {
            need.from = numbering.step_of[before];
        } else {
            need.from = numbering.pose(b);
            need.reads = all_channels;
            need.at_bone = false;
        }
        needs.push_back(need);
    }

    void wire_chain_root_parent(BoneId root, Need need) {
        const Bone& bone = rig.bones[root];
        need.reads = inherited(bone.from_parent);
        if (bone.parent == none || need.reads == 0) return;
        need.from = final_of(bone.parent);
        needs.push_back(need);
    }
};

std::vector<std::uint32_t> first_source_gates(const Dependencies& dependencies) {
    std::vector<std::uint32_t> first(dependencies.constraints.size(), none);
    for (auto gate = static_cast<std::uint32_t>(dependencies.gates.size()); gate-- > 0;)
        if (dependencies.gates[gate].source != none) first[dependencies.gates[gate].constraint] = gate;
    return first;
}

}  // namespace

void wire(const Rig& rig, const Numbering& numbering, const Dependencies& dependencies, std::span<const std::uint8_t> marked,
          const std::function<void(std::span<const Need>)>& use) {
    Wirer wirer{rig, numbering, dependencies, first_source_gates(dependencies), {}, {}};
    const auto hand_over = [&] {
        use(wirer.needs);
        wirer.needs.clear();
    };
    for (BoneId b = 0; b < rig.bones.size(); ++b) {
        if (!marked.empty() && !marked[b]) continue;
        wirer.wire_bone(b);
        hand_over();
    }
    for (PropertyId p = 0; p < rig.properties.size(); ++p) wirer.wire_property(p), hand_over();
    for (DriverId d = 0; d < rig.drivers.size(); ++d) wirer.wire_driver(d), hand_over();
    for (ObjectId o = 0; o < rig.objects.size(); ++o) wirer.wire_object(o), hand_over();
    wirer.last_solver.assign(dependencies.solvers.empty() ? 0 : rig.bones.size(), none);
    for (ConstraintId solver : dependencies.solvers) wirer.wire_solver(solver), hand_over();
}

}  // namespace ligament
