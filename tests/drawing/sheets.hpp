// The sheets of one view of a judged rig, and what stands on them, for tests.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "drawn.hpp"
#include "ligament/read.hpp"
#include "scene_rules.hpp"
#include "views.hpp"

namespace ligament::testing {

/// A rig of the examples.
inline Rig example(const std::string& name) {
    ReadResult result = read_rig_file(LIGAMENT_SOURCE_DIR "/examples/" + name + ".rig.json");
    return *std::move(result.rig);
}

/// A judged rig with what its views read.
struct Viewed {
    Judged judged;
    DrawingOptions options;
    Subject subject;

    explicit Viewed(Judged of, DrawingOptions with = {})
        : judged(std::move(of)), options(std::move(with)), subject(judged.rig, judged.dependencies, judged.facts, options) {}
    Viewed(const Viewed&) = delete;

    /// Of all items, each sheet held against the rules of geometry, by itself and as a page.
    std::vector<Sheet> sheets(View view, Paper paper = Paper::a4) const {
        const Room room = room_on(paper);
        std::vector<Sheet> all;
        const ViewEntry& entry = all_views()[static_cast<std::size_t>(view)];
        for (std::uint32_t item : entry.find_items(subject))
            for (Sheet& sheet : entry.plan(subject, item, room)) all.push_back(std::move(sheet));
        for (const Sheet& sheet : all) {
            expect_good(sheet, room);
            EXPECT_EQ(faults_of_page(sheet, paper), "") << sheet.title;
        }
        return all;
    }
};

/// How often each bone stands on the sheets, as box or label.
inline std::map<BoneId, std::size_t> bones_on(const std::vector<Sheet>& sheets) {
    std::map<BoneId, std::size_t> count;
    for (const Sheet& sheet : sheets) {
        for (const Node& node : sheet.scene.nodes)
            if (node.about.kind == About::Kind::bone) ++count[node.about.id];
        for (const Label& label : sheet.scene.labels)
            if (label.about.kind == About::Kind::bone) ++count[label.about.id];
    }
    return count;
}

/// The words of all labels in the order in which they were written, a line each.
inline std::string words_of(const Sheet& sheet) {
    std::string text;
    for (const Label& label : sheet.scene.labels) text += label.words + "\n";
    return text;
}

/// Everything that is drawn, for comparing two runs.
inline std::string dump_of(const std::vector<Sheet>& sheets) {
    std::string text;
    for (const Sheet& sheet : sheets) {
        text += sheet.name + "\n" + sheet.title + "\n";
        for (const std::string& line : sheet.subtitle) text += line + "\n";
        for (const Backdrop& backdrop : sheet.scene.backdrops) text += draw_backdrop(backdrop);
        for (const Mark& mark : sheet.scene.marks) text += draw_mark(mark);
        for (const Stroke& stroke : sheet.scene.strokes) text += draw_stroke(stroke);
        for (const Node& node : sheet.scene.nodes) text += draw_node(node);
        for (const Label& label : sheet.scene.labels) text += draw_label(label);
        for (const Mark& sign : sheet.scene.signs) text += draw_mark(sign);
    }
    return text;
}

/// Bones that hang one under the other.
inline Rig chain_of(std::size_t bones) {
    Rig rig;
    rig.name = "chain";
    for (std::size_t i = 0; i < bones; ++i) {
        Bone& bone = rig.bones.emplace_back();
        bone.name = "link_" + std::to_string(i);
        if (i > 0) bone.parent = static_cast<BoneId>(i - 1);
    }
    return rig;
}

}  // namespace ligament::testing
