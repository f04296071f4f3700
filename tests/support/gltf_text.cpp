#include "gltf_text.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace ligament::testing {

namespace {

// RFC 4648, section 4.
std::string base64(std::string_view bytes) {
    static constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t bits = 0;
        for (std::size_t k = 0; k < 3; ++k)
            bits = bits << 8U | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k) text += i + k > bytes.size() ? '=' : digits[bits >> (18 - 6 * k) & 63U];
    }
    return text;
}

std::string dump_faults(const std::vector<Fault>& faults) {
    std::string dump;
    for (const Fault& fault : faults) dump.append(fault.pointer).append(": ").append(fault.message).append("\n");
    return dump;
}

std::string list_of(const std::vector<std::string>& entries) {
    std::string text;
    for (const std::string& entry : entries) text += (text.empty() ? "" : ", ") + entry;
    return "[" + text + "]";
}

std::string number(double value) {
    std::string text = std::to_string(value);
    text.erase(text.find_last_not_of('0') + 1);
    return text;
}

}  // namespace

std::string gltf_text(std::string_view rest) {
    std::string text = "{'asset': {'version': '2.0'}";
    if (!rest.empty()) text.append(", ").append(rest);
    text += "}\n";
    std::replace(text.begin(), text.end(), '\'', '"');
    return text;
}

std::string weighted_meshes(const std::vector<std::vector<std::uint8_t>>& meshes) {
    std::string bytes;
    std::vector<std::string> views, accessors, parts;
    const auto add = [&](const std::string& data) {
        views.push_back("{'buffer': 0, 'byteOffset': " + std::to_string(bytes.size()) +
                        ", 'byteLength': " + std::to_string(data.size()) + "}");
        accessors.push_back("{'bufferView': " + std::to_string(views.size() - 1) +
                            ", 'componentType': 5121, 'type': 'VEC4', 'count': " + std::to_string(data.size() / 4));
        bytes += data;
        return std::to_string(accessors.size() - 1);
    };
    for (const std::vector<std::uint8_t>& joints : meshes) {
        std::string places, weights;
        for (const std::uint8_t joint : joints) {
            places.append({static_cast<char>(joint), 0, 0, 0});
            weights.append({static_cast<char>(255), 0, 0, 0});
        }
        const std::string places_at = add(places), weights_at = add(weights);
        accessors[accessors.size() - 2] += "}";
        accessors.back() += ", 'normalized': true}";
        parts.push_back("{'primitives': [{'attributes': {'JOINTS_0': " + places_at + ", 'WEIGHTS_0': " + weights_at + "}}]}");
    }
    return "'meshes': " + list_of(parts) + ", 'accessors': " + list_of(accessors) + ", 'bufferViews': " + list_of(views) +
           ", 'buffers': [{'byteLength': " + std::to_string(bytes.size()) + ", 'uri': 'data:application/octet-stream;base64," +
           base64(bytes) + "'}]";
}

Rig gltf_rig(std::string_view rest) {
    ReadResult result = read_gltf(gltf_text(rest), {});
    if (!result.rig) throw std::runtime_error("tiny glTF file is faulty\n" + dump_faults(result.faults));
    return *std::move(result.rig);
}

std::string gltf_faults(std::string_view rest) { return dump_faults(read_gltf(gltf_text(rest), {}).faults); }

std::string dump_remarks(const Rig& rig) {
    static constexpr std::array<std::string_view, 4> kinds{"broken", "weights", "joint", "extension"};
    std::string dump;
    for (const Remark& remark : rig.remarks) {
        dump.append(remark.pointer).append(": ").append(kinds.at(static_cast<std::size_t>(remark.kind))).append(": ");
        dump += remark.message;
        for (std::size_t i = 0; i < remark.bones.size(); ++i) dump += (i == 0 ? " [" : " ") + rig.bones[remark.bones[i]].name;
        dump += remark.bones.empty() ? "\n" : "]\n";
    }
    return dump;
}

std::string gltf_remarks(std::string_view rest) { return dump_remarks(gltf_rig(rest)); }

std::string dump_bones(const Rig& rig) {
    std::string dump;
    for (const Bone& bone : rig.bones) {
        dump.append(bone.name).append(" ").append(role_of(bone));
        if (bone.parent != none) dump += " < " + rig.bones[bone.parent].name;
        if (!bone.group.empty()) dump += " (" + bone.group + ")";
        dump += "\n";
    }
    return dump;
}

std::string dump_constraints(const Rig& rig) {
    std::string dump;
    for (const Bone& bone : rig.bones)
        for (const Constraint& constraint : bone.constraints) {
            dump.append(bone.name).append(": ").append(constraint.name).append(" ").append(name_of(constraint.kind));
            if (constraint.space == Space::final) dump += " final";
            if (constraint.axis != Axis::unset) dump.append(" ").append(name_of(constraint.axis));
            if (constraint.weight.number != 1) dump += " " + number(constraint.weight.number);
            if (constraint.kind == ConstraintKind::custom)
                dump += " | " + std::to_string(constraint.reads) + " > " + std::to_string(constraint.writes) + " \"" +
                        constraint.label.value_or({}) + "\"";
            dump += " <-";
            for (const Source& source : constraint.sources)
                dump += " " + (source.bone != none ? rig.bones[source.bone].name : rig.objects[source.object].name);
            dump += "\n";
        }
    return dump;
}

}  // namespace ligament::testing
