// What do VRMC_node_constraint extensions (VRM 1.0) say?
#include <algorithm>

#include "draft.hpp"
#include "vrm.hpp"

namespace ligament {

namespace {

struct AxisWord {
    std::string_view word;
    Axis axis;
};
constexpr std::array<AxisWord, 3> roll_axes{{{"X", Axis::x}, {"Y", Axis::y}, {"Z", Axis::z}}};
constexpr std::array<AxisWord, 6> aim_axes{{{"PositiveX", Axis::x},
                                            {"NegativeX", Axis::minus_x},
                                            {"PositiveY", Axis::y},
                                            {"NegativeY", Axis::minus_y},
                                            {"PositiveZ", Axis::z},
                                            {"NegativeZ", Axis::minus_z}}};

void take_axis(const GltfTaker& taker, std::uint32_t item, std::string_view key, std::span<const AxisWord> axes, Axis& axis) {
    const std::uint32_t found = taker.member(item, key, Token::Type::text, "a string");
    if (found == none) {
        if (taker.json.find(item, key) == none) taker.remark(item, in_quotes(key) + " is missing");
        return;
    }
    const auto known =
        std::find_if(axes.begin(), axes.end(), [&](const AxisWord& one) { return one.word == taker.json[found].text; });
    if (known != axes.end())
        axis = known->axis;
    else
        taker.remark(found, in_quotes(key) + " is one of " + in_quotes(axes.front().word) + " to " + in_quotes(axes.back().word) +
                                ", found " + in_quotes(taker.json[found].text));
}

struct KindWords {
    std::string_view key, axis_key;
    std::span<const AxisWord> axes;
    ConstraintKind kind;
};
constexpr std::array<KindWords, 3> kinds{{{"roll", "rollAxis", roll_axes, ConstraintKind::roll},
                                          {"aim", "aimAxis", aim_axes, ConstraintKind::aim},
                                          {"rotation", "", {}, ConstraintKind::rotation}}};

void take_weight(const GltfTaker& taker, std::uint32_t item, double& weight) {
    const std::uint32_t found = taker.member(item, "weight", Token::Type::number, "a number");
    if (found == none) return;
    const double given = taker.json[found].number;
    weight = std::clamp(given, 0.0, 1.0);
    if (given != weight) taker.remark(found, "\"weight\" lies in 0 to 1, found " + number_text(given));
}

void take_kind(const Gltf& gltf, const GltfTaker& taker, const KindWords& words, std::uint32_t item, std::uint32_t node,
               Vrm& vrm) {
    VrmConstraint constraint{.node = node, .kind = words.kind, .axis = Axis::unset, .weight = 1, .source = {}, .item = item};
    constraint.source = taker.index(item, "source", gltf.nodes.size(), "node");
    if (constraint.source.item == none) taker.fault(item, "a constraint needs \"source\"");
    if (constraint.source.to == node)
        taker.fault(constraint.source.item, "node " + std::to_string(node) + " is constrained to itself");
    if (!words.axis_key.empty()) take_axis(taker, item, words.axis_key, words.axes, constraint.axis);
    take_weight(taker, item, constraint.weight);
    if (constraint.source.is_given()) vrm.constraints.push_back(std::move(constraint));
}

}  // namespace

void take_node_constraints(const Gltf& gltf, const GltfTaker& taker, Vrm& vrm) {
    for (std::uint32_t node = 0; node < gltf.nodes.size(); ++node) {
        const std::uint32_t extension = taker.object(gltf.nodes[node].extensions, "VRMC_node_constraint");
        if (extension == none) continue;
        const std::uint32_t constraint = taker.object(extension, "constraint");
        std::size_t count = 0;
        for (const KindWords& words : kinds) {
            const std::uint32_t item = taker.object(constraint, words.key);
            if (item != none && ++count == 1) take_kind(gltf, taker, words, item, node, vrm);
        }
        if (count != 1)
            taker.remark(
                constraint == none ? extension : constraint,
                "a node constraint is one of \"roll\", \"aim\" and \"rotation\", found " +
                    (count == 0 ? std::string("none") : std::to_string(count) + ", of which the first in this order counts"));
    }
}

}  // namespace ligament
