// What do a drawing's labels and hover titles say?
#include "words.hpp"

#include <algorithm>
#include <charconv>

#include "ligament/version.hpp"
#include "text.hpp"

namespace ligament {

namespace {

std::string shortest(double value) {
    char buffer[32];
    return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
}

std::string quoted_name(std::string_view name) { return isolated(drawable(name)); }

/// How the solver of an arrow uses the bone or object it comes from.
std::string use_by_solver(const Constraint& solver, const FoldedVertex& from) {
    for (const Source& source : solver.sources) {
        const bool is_it = from.kind == VertexKind::object ? source.object == from.element : source.bone == from.element;
        if (!is_it) continue;
        if (source.use == Source::Use::target) return "target";
        if (source.use == Source::Use::pole) return "pole";
        return "along";
    }
    return "base";
}

std::string word_of_driver(const Dependencies& dependencies, DriverId driver) {
    const DriverUse& use = dependencies.driver_uses[driver];
    switch (use.target) {
        case DriverUse::Target::weight:
        case DriverUse::Target::source_weight:
            return "weight";
        case DriverUse::Target::channel:
            return std::string(channel_name(use.index));
        case DriverUse::Target::property:
            return "value";
        case DriverUse::Target::nothing:
            break;
    }
    return {};
}

/// The word for one maker of an arrow.
std::string word_of(const Rig& rig, const Dependencies& dependencies, const FoldedRig& folded, const FoldedArrow& arrow,
                    std::size_t at) {
    const Maker& maker = dependencies.makers[arrow.makers[at]];
    switch (arrow.kind) {
        case EdgeKind::parent:
            return maker.kind == Maker::Kind::follows ? "follows" : "";
        case EdgeKind::driver:
            return word_of_driver(dependencies, arrow.drivers[at]);
        case EdgeKind::curve:
            return "handle";
        case EdgeKind::order:
            return "order";
        case EdgeKind::solver:
            if (folded.vertices[arrow.to].kind == VertexKind::solver)
                return use_by_solver(constraint_of(rig, dependencies, folded.vertices[arrow.to].element),
                                     folded.vertices[arrow.from]);
            return "solves";
        case EdgeKind::constraint:
            if (maker.kind == Maker::Kind::constraint || maker.kind == Maker::Kind::solver)
                return std::string(name_of(constraint_of(rig, dependencies, maker.element).kind));
            return "constraint";
    }
    return {};
}

std::string group_line(const std::string& group) { return group.empty() ? "" : "\ngroup " + quoted_name(group); }

std::string hover_of_bone(const Rig& rig, const Bone& bone, const Attachment* attachment) {
    std::string text = quoted_name(bone.name) + "\n" + std::string(role_of(bone)) + " bone" + at_place(bone.place);
    text += group_line(bone.group);
    if (bone.parent != none) text += "\nparent " + quoted_name(rig.bones[bone.parent].name);
    if (attachment) {
        text += "\n" + std::string(name_of(attachment->verdict));
        if (!attachment->controls.empty()) text += ", reached by " + number_of(attachment->controls.size(), "control");
    }
    for (const Constraint& constraint : bone.constraints) {
        text += "\n" + quoted_name(constraint.name) + " (" + std::string(name_of(constraint.kind));
        if (constraint.is_inert()) text += ", inert";
        text += ")" + at_place(constraint.place);
    }
    return text;
}

std::string hover_of_property(const Rig& rig, const Property& property) {
    std::string text = quoted_name(property.name) + "\n";
    text += property.is_driven() ? "driven property" : "property";
    text += at_place(property.place);
    if (property.on != none) text += "\non " + quoted_name(rig.bones[property.on].name);
    if (!property.is_driven()) text += "\ndefault " + shortest(property.initial);
    if (property.min) text += "\nmin " + shortest(*property.min);
    if (property.max) text += "\nmax " + shortest(*property.max);
    for (const auto& [name, value] : property.stops) text += "\nstop " + quoted_name(name) + " = " + shortest(value);
    return text;
}

}  // namespace

std::string number_of(std::size_t count, const std::string& noun) {
    const bool y = noun.ends_with('y');
    if (count == 1) return "1 " + noun;
    return std::to_string(count) + " " + (y ? noun.substr(0, noun.size() - 1) + "ies" : noun + "s");
}

std::string at_place(Place place) {
    return place.line == 0 ? "" : ", line " + std::to_string(place.line) + ":" + std::to_string(place.column);
}

std::string name_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex) {
    switch (vertex.kind) {
        case VertexKind::bone:
            return drawable(rig.bones[vertex.element].name);
        case VertexKind::property:
            return drawable(rig.properties[vertex.element].name);
        case VertexKind::object:
            return drawable(rig.objects[vertex.element].name);
        default:
            return drawable(constraint_name(rig, dependencies, vertex.element));
    }
}

std::string group_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex) {
    switch (vertex.kind) {
        case VertexKind::bone:
            return rig.bones[vertex.element].group;
        case VertexKind::property: {
            const BoneId on = rig.properties[vertex.element].on;
            return on == none ? "" : rig.bones[on].group;
        }
        case VertexKind::object: {
            const std::vector<BoneId>& follows = rig.objects[vertex.element].follows;
            if (follows.empty()) return {};
            const std::string& group = rig.bones[follows.front()].group;
            const bool shared =
                std::all_of(follows.begin(), follows.end(), [&](BoneId b) { return rig.bones[b].group == group; });
            return shared ? group : "";
        }
        default:
            return rig.bones[dependencies.constraints[vertex.element].bone].group;
    }
}

std::string label_of(const Rig& rig, const Dependencies& dependencies, const FoldedRig& folded, const FoldedArrow& arrow) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < arrow.makers.size(); ++i) {
        std::string word = word_of(rig, dependencies, folded, arrow, i);
        if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(std::move(word));
    }
    if (words.empty() || words.front().empty()) return {};
    std::string label = words.front();
    if (words.size() > 1)
        label += " +" + std::to_string(words.size() - 1);
    else if (arrow.makers.size() > 1)
        label += " \u00d7" + std::to_string(arrow.makers.size());
    return arrow.inert ? label + " (off)" : label;
}

std::string hover_of(const Rig& rig, const Dependencies& dependencies, const FoldedRig& folded, const FoldedArrow& arrow) {
    std::string text = isolated(name_of(rig, dependencies, folded.vertices[arrow.from])) + " -> " +
                       isolated(name_of(rig, dependencies, folded.vertices[arrow.to])) + "\n" + std::string(name_of(arrow.kind));
    if (arrow.inert) text += ", inert: disabled or of weight 0";
    if (arrow.makers.size() > 1) text += ", " + std::to_string(arrow.makers.size()) + " in one";
    if (arrow.cycle) text += "\nin cycle " + std::to_string(arrow.cycle) + (arrow.witness ? ", on its shortest loop" : "");
    for (std::size_t i = 0; i < arrow.makers.size(); ++i) {
        const std::string word = word_of(rig, dependencies, folded, arrow, i);
        text += "\nmade by " + quoted_name(name_of(rig, dependencies, arrow.makers[i]));
        if (!word.empty()) text += " (" + word + ")";
        text += at_place(place_of(rig, dependencies, arrow.makers[i]));
    }
    return text;
}

std::string hover_of(const Rig& rig, const Dependencies& dependencies, const FoldedVertex& vertex, const Attachment* attachment) {
    std::string text;
    switch (vertex.kind) {
        case VertexKind::bone:
            text = hover_of_bone(rig, rig.bones[vertex.element], attachment);
            break;
        case VertexKind::property:
            text = hover_of_property(rig, rig.properties[vertex.element]);
            break;
        case VertexKind::object: {
            const Object& object = rig.objects[vertex.element];
            text = quoted_name(object.name) + "\nobject" + at_place(object.place) + "\nfollows " +
                   number_of(object.follows.size(), "bone");
            break;
        }
        default: {
            const Constraint& solver = constraint_of(rig, dependencies, vertex.element);
            text = isolated(name_of(rig, dependencies, vertex)) + "\n" + std::string(name_of(solver.kind)) +
                   " solver over a chain of " + std::to_string(solver.chain) + at_place(solver.place);
            if (solver.is_inert()) text += "\ninert: disabled or of weight 0";
        }
    }
    if (vertex.cycle) text += "\nin cycle " + std::to_string(vertex.cycle);
    return text;
}

std::vector<std::string> subtitle_of(const Rig& rig, const Dependencies& dependencies, const Facts& facts,
                                     const FoldedRig& folded) {
    auto bones = [&](auto is) { return std::to_string(std::count_if(rig.bones.begin(), rig.bones.end(), is)); };
    std::string counts =
        number_of(rig.bones.size(), "bone") + " (" + bones([](const Bone& b) { return b.control; }) + " control, " +
        bones([](const Bone& b) { return b.is_mechanism(); }) + " mechanism, " + bones([](const Bone& b) { return b.deform; }) +
        " deform), " + number_of(dependencies.constraints.size(), "constraint") + ", " + number_of(rig.drivers.size(), "driver") +
        ", " + number_of(rig.properties.size(), "property") + ", " + number_of(rig.objects.size(), "object");
    std::vector<std::string> lines{counts + " \u00b7 drawn by ligament " + std::string(version())};

    auto verdicts = [&](Verdict verdict) {
        return static_cast<std::size_t>(std::count_if(facts.attachment.deform.begin(), facts.attachment.deform.end(),
                                                      [&](const Attachment& a) { return a.verdict == verdict; }));
    };
    std::string wrong = facts.cycles.empty() ? "no cycles" : number_of(facts.cycles.size(), "cycle");
    for (Verdict verdict : {Verdict::orphaned, Verdict::root_only, Verdict::carried})
        if (std::size_t n = verdicts(verdict)) wrong += ", " + number_of(n, "deform bone") + " " + std::string(name_of(verdict));
    if (verdicts(Verdict::attached) == facts.attachment.deform.size() && !facts.attachment.deform.empty())
        wrong += ", all deform bones attached";
    if (folded.unused_left_out && folded.bones_kept == folded.bones)
        wrong += " \u00b7 not drawn: " + number_of(folded.unused_left_out, "property") + " that nothing reads";
    lines.push_back(wrong);
    return lines;
}

}  // namespace ligament
