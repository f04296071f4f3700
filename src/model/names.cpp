// How are the elements of a rig called? The words of the rig description, and looking names up.
#include <algorithm>
#include <array>

#include "ligament/rig.hpp"
#include "ligament/version.hpp"

namespace ligament {

std::string_view version() { return LIGAMENT_VERSION; }

std::string_view name_of(Severity severity) {
    static constexpr std::array<std::string_view, 3> names{"note", "warning", "error"};
    return names[static_cast<std::size_t>(severity)];
}

std::string_view name_of(ConstraintKind kind) {
    static constexpr std::array<std::string_view, 14> names{"transform", "position", "rotation", "scale", "aim",
                                                            "roll",      "stretch",  "distance", "space", "limit",
                                                            "surface",   "ik",       "path",     "custom"};
    return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(Axis axis) {
    static constexpr std::array<std::string_view, 10> names{"", "x", "y", "z", "-x", "-y", "-z", "+x", "+y", "+z"};
    return names[static_cast<std::size_t>(axis)];
}

std::string_view channel_name(unsigned channel) {
    static constexpr std::array<std::string_view, 9> names{"position.x", "position.y", "position.z", "rotation.x", "rotation.y",
                                                           "rotation.z", "scale.x",    "scale.y",    "scale.z"};
    return names[channel];
}

Parts parts_of(Channels channels) {
    Parts parts = 0;
    if (channels & position_channels) parts |= position_part;
    if (channels & rotation_channels) parts |= rotation_part;
    if (channels & scale_channels) parts |= scale_part;
    return parts;
}

std::string_view role_of(const Bone& bone) {
    if (bone.control) return bone.deform ? "control + deform" : "control";
    return bone.deform ? "deform" : "mechanism";
}

bool Constraint::is_inert() const { return !enabled || (!weight.is_driven() && weight.number <= 1e-9); }

namespace {

template <class Elements>
std::uint32_t index_of(const Elements& elements, std::string_view name) {
    auto found = std::find_if(elements.begin(), elements.end(), [&](const auto& element) { return element.name == name; });
    return found == elements.end() ? none : static_cast<std::uint32_t>(found - elements.begin());
}

}  // namespace

BoneId find_bone(const Rig& rig, std::string_view name) { return index_of(rig.bones, name); }
PropertyId find_property(const Rig& rig, std::string_view name) { return index_of(rig.properties, name); }
std::string_view pointer_at(const Rig& rig, Place place) {
    const auto before = [](const std::pair<Place, std::string>& pointer, Place at) { return pointer.first < at; };
    const auto found = std::lower_bound(rig.pointers.begin(), rig.pointers.end(), place, before);
    return found != rig.pointers.end() && found->first == place ? std::string_view(found->second) : std::string_view();
}

ObjectId find_object(const Rig& rig, std::string_view name) { return index_of(rig.objects, name); }

}  // namespace ligament
