#include "mixed_rig.hpp"

#include <array>
#include <stdexcept>

#include "ligament/read.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

/// Bone i may look at bones before it; properties and objects may look at the first half of the bones and are looked at by the
/// second half.
struct Writer {
    Random& random;
    const MixedRigOptions& options;
    unsigned properties = 0, objects = 0;

    bool chance(unsigned percent) { return random.below(100) < percent; }
    unsigned half() const { return options.bones / 2; }

    std::string bone(unsigned limit) {
        const unsigned b = limit == 0 || chance(options.backwards) ? random.below(options.bones) : random.below(limit);
        return "'b" + std::to_string(b) + "'";
    }

    std::string input(unsigned limit) {
        if (properties > 0 && (limit == 0 || (limit > half() && chance(60)) || chance(options.backwards)))
            return "{'property': 'p" + std::to_string(random.below(properties)) + "'}";
        switch (random.below(4)) {
            case 0:
                return "{'bone': " + bone(limit) + ", 'channel': 'rotation.x', 'space': 'final'}";
            case 1: {
                const std::string one = bone(limit), other = bone(limit);
                return "{'distance': [" + one + ", " + other + "]}";
            }
            default:
                return "{'bone': " + bone(limit) + ", 'channel': 'position.y'}";
        }
    }

    std::string driver(unsigned limit) {
        if (limit == 0 && properties == 0) return "{'expression': '1', 'inputs': {}}";
        return "{'expression': 'x', 'inputs': {'x': " + input(limit) + "}}";
    }

    std::string weight(unsigned limit) {
        static constexpr std::array<const char*, 5> numbers{"1", "1", "1", "0.5", "0"};
        return chance(35) ? driver(limit) : numbers[random.below(5)];
    }

    std::string source(unsigned limit) {
        if (objects > 0 && limit > half() && chance(15)) return "{'object': 'o" + std::to_string(random.below(objects)) + "'}";
        if (!chance(20)) return bone(limit);
        const std::string name = bone(limit);
        return "{'bone': " + name + ", 'weight': " + weight(limit) + "}";
    }

    std::string solver(unsigned b) {
        const std::string target = bone(b);
        return "{'kind': 'ik', 'target': " + target + ", 'chain': " + std::to_string(1 + random.below(3));
    }

    std::string sourced(unsigned b) {
        static constexpr std::array<const char*, 7> kinds{"transform", "position", "rotation", "aim", "space", "scale", "roll"};
        std::string text = std::string("{'kind': '") + kinds[random.below(7)] + "', 'from': [";
        text += source(b);
        if (chance(30)) text += ", " + source(b);
        text += "]";
        return chance(25) ? text + ", 'space': 'local'" : text;
    }

    std::string constraint(unsigned b) {
        std::string text = chance(15) ? solver(b) : chance(10) ? "{'kind': 'limit', 'channels': ['rotation']" : sourced(b);
        text += ", 'weight': " + weight(b);
        if (chance(8)) text += ", 'enabled': false";
        return text + "}";
    }

    std::string bone_text(unsigned b) {
        static constexpr std::array<const char*, 5> roles{"'control'", "'control'", "'deform'", "'deform'",
                                                          "'control', 'deform'"};
        std::string text = "{'name': 'b" + std::to_string(b) + "'";
        if (chance(75)) text += std::string(", 'roles': [") + roles[random.below(5)] + "]";
        if (b > 0 && chance(70)) text += ", 'parent': 'b" + std::to_string(random.below(b)) + "'";
        if (b > 0 && chance(15)) {
            text += ", 'curve': {'start': " + bone(b);
            text += ", 'end': " + bone(b) + "}";
        }
        if (chance(25)) text += ", 'channels': {'rotation.y': " + driver(b) + "}";
        const unsigned count = b == 0 ? 0 : random.below(4);
        for (unsigned i = 0; i < count; ++i) text += (i == 0 ? ",\n 'constraints': [" : ",\n ") + constraint(b);
        return text + (count > 0 ? "]}" : "}");
    }

    std::string property_text(unsigned p) {
        std::string text = "{'name': 'p" + std::to_string(p) + "'";
        if (chance(60)) text += ", 'on': " + bone(0);
        if (chance(30)) return text + ", 'value': " + driver(half()) + "}";
        return text + ", 'default': " + std::to_string(random.below(2)) + "}";
    }

    std::string write() {
        const unsigned more_properties = random.below(4), more_objects = random.below(3);
        std::string rest = "'properties': [";
        for (unsigned p = 0; p < more_properties; ++p) {
            rest += (p == 0 ? "\n" : ",\n") + property_text(p);
            properties = p + 1;
        }
        rest += "],\n'objects': [";
        for (unsigned o = 0; o < more_objects; ++o) {
            rest += (o == 0 ? "\n{'name': 'o" : ",\n{'name': 'o") + std::to_string(o);
            rest += "', 'follows': [" + bone(half()) + "]}";
        }
        objects = more_objects;
        rest += "]";
        std::string bones;
        for (unsigned b = 0; b < options.bones; ++b) bones += (b == 0 ? "\n" : ",\n") + bone_text(b);
        return rig_text(bones, rest);
    }
};

}  // namespace

Rig mixed_rig(Random& random, const MixedRigOptions& options) {
    const std::string text = Writer{random, options}.write();
    ReadResult result = read_rig(text);
    if (result.rig) return *std::move(result.rig);
    throw std::runtime_error(result.faults.front().message + " in " + text);
}

}  // namespace ligament::testing
