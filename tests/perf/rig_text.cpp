#include "rig_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace ligament::perf {

namespace {

constexpr std::uint64_t least_of_limb = 30, most_of_limb = 200, bones_of_body = 2, bones_of_cycle = 3;

/// One pair of limbs. Both sides have the same shape.
struct Pair {
    std::uint64_t bones = 0;  ///< of one side
    std::uint64_t hub = RigShape::all;
    bool has_switch = true;
    std::uint64_t parent = RigShape::all;  ///< the pair that it hangs on; none: the body
    std::vector<std::uint64_t> spaces;     ///< other pairs that its reach follows

    bool sways() const { return hub != RigShape::all; }
    std::uint64_t controls() const { return sways() ? 4 : 3; }
    std::uint64_t joints() const { return (bones - controls()) / 4; }
    std::uint64_t twists() const { return (bones - controls()) % 4; }
};

/// Numbers below `end`, the same on every machine (what the standard calls a distribution is not).
struct Dice {
    std::mt19937_64 engine;

    std::uint64_t below(std::uint64_t end) { return engine() % end; }
    double between(double low, double high) { return low + (high - low) * static_cast<double>(below(10'001)) / 10'000; }
};

/// A place in the plane in which a limb is bent, and how far it is turned there.
struct Turned {
    double y = 0, z = 0, angle = 0;
};

std::string number(double value, int digits) {
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, digits).ptr;
    std::string result(text.data(), end);
    while (result.back() == '0') result.pop_back();
    if (result.back() == '.') result.pop_back();
    return result == "-0" ? "0" : result;
}

std::string padded(std::uint64_t value, std::size_t width) {
    std::string text = std::to_string(value);
    return std::string(width > text.size() ? width - text.size() : 0, '0') + text;
}

std::string place_words(double x, double y, double z) {
    return "[" + number(x, 4) + ", " + number(y, 4) + ", " + number(z, 4) + "]";
}

std::string driven(const std::string& expression, const std::string& property) {
    return R"({"expression": ")" + expression + R"(", "inputs": {"s": {"property": ")" + property + R"("}}})";
}

/// One bone a line.
class BoneLines {
  public:
    explicit BoneLines(const Write& write) : write_(write) {}

    void begin(const std::string& name, const std::string& parent, std::string_view role, const std::string& group) {
        line_ = is_first_ ? "\n  {" : ",\n  {";
        is_first_ = false;
        line_ += R"("name": ")" + name + '"';
        if (!role.empty()) line_.append(R"(, "roles": [")").append(role).append("\"]");
        if (!parent.empty()) line_ += R"(, "parent": ")" + parent + '"';
        if (!group.empty()) line_ += R"(, "group": ")" + group + '"';
    }
    void add(const std::string& more) { line_ += ", " + more; }
    void end() {
        line_ += '}';
        write_(line_);
    }
    void add_constraints(const std::vector<std::string>& constraints) {
        if (constraints.empty()) return;
        std::string list;
        for (const std::string& constraint : constraints) list += (list.empty() ? "" : ", ") + constraint;
        add(R"("constraints": [)" + list + "]");
    }

  private:
    const Write& write_;
    std::string line_;
    bool is_first_ = true;
};

std::string rest_words(const std::string& translation, double angle) {
    std::string words = R"("rest": {"translation": )" + translation;
    if (angle != 0)  // half the angle, about x
        words += R"(, "rotation": [)" + number(std::sin(angle / 2), 6) + ", 0, 0, " + number(std::cos(angle / 2), 6) + "]";
    return words + "}";
}

/// A constraint that takes something over from a bone.
std::string takes(std::string_view name, std::string_view kind, const std::string& from, const std::string& more = "") {
    std::string words = R"({"name": ")";
    words.append(name).append(R"(", "kind": ")").append(kind).append(R"(", "from": ")").append(from).append("\"");
    return words + (more.empty() ? "" : ", " + more) + "}";
}

/// The lengths and bends of a limb's joints, the same on both sides.
struct Joints {
    std::vector<double> along, bend;
    std::uint64_t chain = 2;  ///< of the solver
    Turned end;               ///< where the chain ends
    Turned pole;

    Joints(const Pair& pair, Dice& dice) {
        const std::uint64_t count = pair.joints();
        chain = std::clamp<std::uint64_t>(count / 3, 2, 8);
        std::vector<Turned> places;
        Turned at;
        for (std::uint64_t j = 0; j < count; ++j) {
            along.push_back(j == 0 ? 0 : std::round(dice.between(0.05, 0.4) * 1e4) / 1e4);
            bend.push_back(j < chain || dice.below(3) > 0 ? dice.between(0.05, 0.25) : 0);
            at.y += along[j] * std::cos(at.angle);
            at.z += along[j] * std::sin(at.angle);
            at.angle += bend[j];
            if (j <= chain) places.push_back(at);
        }
        end = places[chain];
        pole = out_of(places);
    }

    /// A place in the plane of the bend, well out on the side of the joint farthest from the line between root and end.
    Turned out_of(const std::vector<Turned>& places) const {
        const Turned &from = places.front(), &to = places.back();
        const double y = to.y - from.y, z = to.z - from.z, length = std::hypot(y, z);
        double farthest = 0;
        Turned best;
        for (const Turned& place : places) {
            const double out = ((place.y - from.y) * z - (place.z - from.z) * y) / length;
            if (std::abs(out) <= std::abs(farthest)) continue;
            farthest = out;
            best = place;
        }
        const double way = farthest > 0 ? length : -length;
        return {best.y + z / length * way, best.z - y / length * way, 0};
    }
};

struct Limb {
    const Pair& pair;
    const Joints& joints;
    BoneLines& lines;
    std::uint64_t index;
    std::string side;

    std::string named(std::string_view what) const { return std::string(what) + "_" + padded(index, 5) + side; }
    std::string joint(std::string_view what, std::uint64_t j) const {
        return std::string(what) + "_" + padded(index, 5) + "_" + padded(j, 2) + side;
    }
    std::string group() const { return named("limb"); }
    std::string under(std::string_view what, std::uint64_t j) const { return j == 0 ? named("limb_ctl") : joint(what, j - 1); }
    std::string hub() const { return "sway_on_" + padded(pair.hub, 3); }
    /// Where the limb hangs, mirrored.
    double x() const { return (side == "_l" ? 1 : -1) * (0.2 + static_cast<double>(index % 20) * 0.05); }

    std::string control_of(std::uint64_t other) const { return "limb_ctl_" + padded(other, 5) + side; }

    void write_control(const std::string& name, double y, double z, const std::vector<std::string>& stack = {}) const {
        lines.begin(name, pair.parent == RigShape::all ? "body_ctl" : control_of(pair.parent), "control", group());
        lines.add(rest_words(place_words(x(), y, z), 0));
        lines.add_constraints(stack);
        lines.end();
    }

    /// The reach of a limb is carried along by other limbs.
    std::vector<std::string> space_stack() const {
        std::string sources;
        for (const std::uint64_t other : pair.spaces)
            sources += (sources.empty() ? R"({"bone": ")" : R"(, {"bone": ")") + control_of(other) + R"(", "weight": 0.5})";
        if (sources.empty()) return {};
        return {R"({"name": "space", "kind": "space", "from": [)" + sources + R"(], "weight": 0.5})"};
    }

    void write() const {
        const double height = 0.5 + static_cast<double>(index % 7) * 0.1;
        write_control(named("limb_ctl"), height, 0);
        write_control(named("reach_ctl"), height + joints.end.y, joints.end.z, space_stack());
        write_control(named("pole_ctl"), height + joints.pole.y, joints.pole.z);
        if (pair.sways()) write_control(named("sway_ctl"), height + 1, -1);
        for (std::uint64_t j = 0; j < pair.joints(); ++j) {
            const std::string rest = rest_words(place_words(0, joints.along[j], 0), joints.bend[j]);
            write_fk(j, rest);
            write_ik(j, rest);
            write_mech(j, rest);
            write_skin(j, rest);
        }
        for (std::uint64_t t = 0; t < pair.twists(); ++t) write_twist(t);
    }

    void write_fk(std::uint64_t j, const std::string& rest) const {
        lines.begin(joint("fk", j), under("fk", j), "control", group());
        lines.add(rest);
        if (j % 5 < 2)
            lines.add_constraints(
                {R"({"name": "stop", "kind": "limit", "space": "local", "channels": ["rotation.x"], "range": [-2, 2]})"});
        lines.end();
    }

    void write_ik(std::uint64_t j, const std::string& rest) const {
        lines.begin(joint("ik", j), under("ik", j), "", group());
        lines.add(rest);
        if (j + 1 == joints.chain)
            lines.add_constraints({R"({"name": "reach", "kind": "ik", "target": ")" + named("reach_ctl") + R"(", "pole": ")" +
                                   named("pole_ctl") + R"(", "chain": )" + std::to_string(joints.chain) + "}"});
        lines.end();
    }

    void write_mech(std::uint64_t j, const std::string& rest) const {
        const std::string mode = named("limb_mode");
        lines.begin(joint("mech", j), under("mech", j), "", group());
        lines.add(rest);
        std::vector<std::string> stack;
        if (pair.has_switch) {
            stack.push_back(takes("ik", "transform", joint("ik", j), R"("weight": )" + driven("1 - s", mode)));
            stack.push_back(takes("fk", "transform", joint("fk", j), R"("weight": )" + driven("s", mode)));
        } else {
            stack.push_back(takes("ik", "transform", joint("ik", j)));
            stack.push_back(takes("fk", "rotation", joint("fk", j), R"("weight": 0.5)"));
        }
        if (pair.sways())
            stack.push_back(takes("sway", "roll", named("sway_ctl"), R"("axis": "y", "weight": )" + driven("0.25 * s", hub())));
        lines.add_constraints(stack);
        lines.end();
    }

    void write_skin(std::uint64_t j, const std::string& rest) const {
        lines.begin(joint("skin", j), under("skin", j), "deform", group());
        lines.add(rest);
        if (j + 1 < pair.joints() && j % 2 == 0) lines.add(R"("tip": )" + place_words(0, joints.along[j + 1], 0));
        std::vector<std::string> stack{takes("seat", "transform", joint("mech", j))};
        if (j + 1 < pair.joints()) stack.push_back(takes("twist", "roll", joint("mech", j + 1), R"("axis": "y", "weight": 0.5)"));
        lines.add_constraints(stack);
        lines.end();
    }

    void write_twist(std::uint64_t t) const {
        lines.begin(joint("twist", t), joint("skin", t), "deform", group());
        lines.add(rest_words(place_words(0, std::round(joints.along[t + 1] * 5e3) / 1e4, 0), 0));
        lines.add_constraints({takes("twist", "roll", joint("mech", t + 1), R"("axis": "y", "weight": 0.75)")});
        lines.end();
    }
};

/// The limbs of so many bones, none left over but the odd one, which goes to the body.
std::vector<Pair> share_out(std::uint64_t bones, const RigShape& shape, Dice& dice) {
    static constexpr std::array<std::uint64_t, 6> usual{30, 40, 60, 80, 120, 200};
    std::vector<Pair> pairs;
    std::uint64_t hub = 0, on_hub = 0;
    for (std::uint64_t left = bones / 2; left > 0; left -= pairs.back().bones) {
        std::uint64_t size = usual[dice.below(usual.size())];
        if (left <= most_of_limb)
            size = left;
        else
            size = std::min(size, left - least_of_limb);
        Pair pair;
        pair.bones = size;
        const std::uint64_t before = pairs.size();
        if (before > 0) pair.parent = (before - 1) / 3;
        for (std::uint64_t s = 0; s < std::min<std::uint64_t>(2, before); ++s) pair.spaces.push_back(dice.below(before));
        if (pair.spaces.size() == 2 && pair.spaces[0] == pair.spaces[1]) pair.spaces.pop_back();
        pair.has_switch = 2 * pairs.size() < shape.switches;
        if (pairs.size() % 2 == 0) {
            pair.hub = hub;  // the sway control is counted in joints()
            if (on_hub + 2 * pair.joints() > RigShape::most_on_hub) pair.hub = ++hub, on_hub = 0;
            on_hub += 2 * pair.joints();
            if (pair.hub >= shape.hubs) pair.hub = RigShape::all;
        }
        pairs.push_back(pair);
    }
    return pairs;
}

void write_properties(const std::vector<Pair>& pairs, const Write& write) {
    std::string separator = "\n  ";
    const auto add = [&](const std::string& name, const std::string& on, const std::string& rest) {
        write(separator + R"({"name": ")" + name + R"(", "on": ")" + on + R"(", )" + rest + R"(, "min": 0, "max": 1})");
        separator = ",\n  ";
    };
    std::uint64_t hubs = 0;
    for (const Pair& pair : pairs)
        if (pair.sways()) hubs = pair.hub + 1;
    for (std::uint64_t hub = 0; hub < hubs; ++hub) add("sway_on_" + padded(hub, 3), "body_ctl", R"("default": 1)");
    for (std::uint64_t p = 0; p < pairs.size(); ++p)
        for (const char* side : {"_l", "_r"})
            if (pairs[p].has_switch)
                add("limb_mode_" + padded(p, 5) + side, "limb_ctl_" + padded(p, 5) + side,
                    R"("default": 0, "stops": {"ik": 0, "fk": 1})");
}

std::string reads_rotation(const std::string& bone) {
    return R"("channels": {"rotation.x": {"expression": "r", "inputs": {"r": {"bone": ")" + bone +
           R"(", "channel": "rotation.x", "space": "final"}}}})";
}

void write_cycle(std::uint64_t index, BoneLines& lines) {
    const std::string group = "loop_" + padded(index, 4);
    const std::string a = group + "_a", b = group + "_b", c = group + "_c";
    const auto bone = [&](const std::string& name, const std::string& parent, const std::string& more) {
        lines.begin(name, parent, "control", group);
        if (!more.empty()) lines.add(more);
        lines.end();
    };
    const auto follows = [](const char* kind, const std::string& from) {
        return R"("constraints": [)" + takes("follow", kind, from, R"("weight": 0.5)") + "]";
    };
    switch (index % 4) {
        case 0:
            bone(a, "body_ctl", follows("transform", b));
            bone(b, "body_ctl", follows("transform", a));
            bone(c, a, "");
            break;
        case 1:
            bone(a, "body_ctl", reads_rotation(b));
            bone(b, "body_ctl", reads_rotation(a));
            bone(c, a, "");
            break;
        case 2:  // crosswise: b is turned by what a is turned by, and a placed by where b is
            bone(a, "body_ctl", follows("position", b));
            bone(b, "body_ctl", follows("rotation", a));
            bone(c, b, "");
            break;
        default:
            bone(a, "body_ctl", "");
            bone(b, a, R"("constraints": [{"name": "reach", "kind": "ik", "target": ")" + c + R"(", "chain": 2}])");
            bone(c, b, "");
    }
}

}  // namespace

bool write_rig_text(const RigShape& shape, const Write& write) {
    const std::uint64_t planted = bones_of_body + bones_of_cycle * shape.cycles + 2 * shape.orphans;
    if (shape.bones < planted + 2 * least_of_limb) return false;
    Dice dice{std::mt19937_64(shape.seed)};
    const std::uint64_t in_limbs = shape.bones - planted;
    const std::vector<Pair> pairs = share_out(in_limbs, shape, dice);
    write(R"({"format": "rig-description", "version": 1, "name": "rig_)" + std::to_string(shape.bones) +
          "\",\n \"sides\": [[\"_l\", \"_r\"]], \"roots\": [\"root\"],\n \"properties\": [");
    write_properties(pairs, write);
    write("],\n \"bones\": [");
    BoneLines lines(write);
    const auto plain = [&](const std::string& name, const std::string& parent, const char* role, const std::string& group) {
        lines.begin(name, parent, role, group);
        lines.end();
    };
    plain("root", "", "control", "body");
    plain("body_ctl", "root", "control", "body");
    if (in_limbs % 2 == 1) plain("body_skin", "body_ctl", "deform", "body");
    for (std::uint64_t p = 0; p < pairs.size(); ++p) {
        const Joints joints(pairs[p], dice);
        for (const char* side : {"_l", "_r"}) Limb{pairs[p], joints, lines, p, side}.write();
    }
    for (std::uint64_t i = 0; i < shape.cycles; ++i) write_cycle(i, lines);
    for (std::uint64_t i = 0; i < shape.orphans; ++i) {
        const std::string tag = padded(i, 4);
        plain("loose_mech_" + tag, "", "", "loose_" + tag);
        plain("loose_skin_" + tag, "loose_mech_" + tag, "deform", "loose_" + tag);
    }
    write("]}\n");
    return true;
}

}  // namespace ligament::perf
