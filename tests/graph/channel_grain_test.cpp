// The channel grain: which part of a transform needs which, kind by kind of the table of constraints.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "dump.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

std::string channels(std::string_view bones, std::string_view to, bool with_order = false, std::string_view rest = {}) {
    return dump_needs(tiny_rig(bones, rest), Grain::channel, to, with_order);
}

/// "T<-T T<-R ..." for the edges of kind constraint from the vertices of bone s into the one constraint of bone a.
std::string joined(std::string_view constraint) {
    const std::string bones = "{'name':'s','curve':{}},{'name':'a','constraints':[" + std::string(constraint) + "]}";
    const Rig rig = tiny_rig(bones, "'objects':[{'name':'o'}]");
    const Dependencies dependencies = build_dependencies(rig);
    const Graph& graph = dependencies.at(rig, Grain::channel);
    const auto letter = [](const Vertex& vertex) { return vertex.channel == Vertex::whole ? '*' : "TRS"[vertex.channel]; };
    std::string text;
    for (VertexId v = 0; v < graph.vertices.size(); ++v)
        for (const Edge& edge : graph.needs(v)) {
            if (edge.kind() != EdgeKind::constraint || graph.vertices[v].kind != VertexKind::constraint) continue;
            if (!text.empty()) text += ' ';
            text += {letter(graph.vertices[v]), '<', '-', letter(graph.vertices[edge.from])};
        }
    return text;
}

}  // namespace

TEST(ChannelGrain, the_steps_split_into_parts_and_the_pose_into_scalars) {
    const Rig rig = tiny_rig(
        "{'name':'t'},{'name':'a','curve':{},'constraints':[{'kind':'ik','target':'t','chain':1},"
        "{'kind':'aim','from':'t'}]}",
        "'properties':[{'name':'p'}],'objects':[{'name':'o'}]");
    const Dependencies dependencies = build_dependencies(rig);
    // t: 9 + 4 * 3; a: 9 + 5 * 3 + 1; property, object and solver 1 each.
    EXPECT_EQ(dependencies.at(rig, Grain::channel).vertices.size(), 21u + 25u + 3u);
    EXPECT_EQ(dependencies.at(rig, Grain::step).vertices.size(), 5u + 7u + 3u);
    EXPECT_EQ(dependencies.bone.vertices.size(), 5u);
}

TEST(ChannelGrain, order_edges_pass_part_by_part) {
    EXPECT_EQ(channels("{'name':'a'}", "a solved", true),
              "a solved position <- a pose position.x (order a)\n"
              "a solved position <- a pose position.y (order a)\n"
              "a solved position <- a pose position.z (order a)\n"
              "a solved rotation <- a pose rotation.x (order a)\n"
              "a solved rotation <- a pose rotation.y (order a)\n"
              "a solved rotation <- a pose rotation.z (order a)\n"
              "a solved scale <- a pose scale.x (order a)\n"
              "a solved scale <- a pose scale.y (order a)\n"
              "a solved scale <- a pose scale.z (order a)\n");
    EXPECT_EQ(channels("{'name':'a'}", "a final", true),
              "a final position <- a base position (order a)\n"
              "a final rotation <- a base rotation (order a)\n"
              "a final scale <- a base scale (order a)\n");
}

TEST(ChannelGrain, position_at_base_needs_all_of_the_parent_rotation_and_scale_their_own) {
    EXPECT_EQ(channels("{'name':'p'},{'name':'a','parent':'p'}", "a base"),
              "a base position <- p final position (parent a)\n"
              "a base position <- p final rotation (parent a)\n"
              "a base position <- p final scale (parent a)\n"
              "a base rotation <- p final rotation (parent a)\n"
              "a base scale <- p final scale (parent a)\n");
}

TEST(ChannelGrain, from_parent_lets_through_part_by_part) {
    EXPECT_EQ(channels("{'name':'p'},{'name':'a','parent':'p','from_parent':['rotation']}", "a base"),
              "a base rotation <- p final rotation (parent a)\n");
    EXPECT_EQ(channels("{'name':'p'},{'name':'a','parent':'p','from_parent':['scale','position']}", "a base"),
              "a base position <- p final position (parent a)\n"
              "a base position <- p final rotation (parent a)\n"
              "a base position <- p final scale (parent a)\n"
              "a base scale <- p final scale (parent a)\n");
}

TEST(ChannelGrain, each_kind_joins_what_it_reads_into_what_it_writes) {
    const std::map<std::string, std::string> expected{
        {"{'kind':'transform','from':'s'}", "T<-T R<-R S<-S"},
        {"{'kind':'transform','from':'s','channels':['scale','rotation']}", "R<-R S<-S"},
        {"{'kind':'position','from':'s'}", "T<-T"},
        {"{'kind':'rotation','from':'s'}", "R<-R"},
        {"{'kind':'scale','from':'s'}", "S<-S"},
        {"{'kind':'aim','from':'s'}", "R<-T"},
        {"{'kind':'aim','from':'s','up':'s'}", "R<-T R<-T"},
        {"{'kind':'roll','from':'s'}", "R<-R"},
        {"{'kind':'stretch','from':'s'}", "R<-T S<-T"},
        {"{'kind':'distance','from':'s'}", "T<-T"},
        {"{'kind':'space','from':'s'}", "T<-T T<-R T<-S R<-T R<-R R<-S S<-T S<-R S<-S"},
        {"{'kind':'limit','channels':['rotation']}", ""},
        {"{'kind':'surface','from':{'object':'o'}}", "T<-*"},
        {"{'kind':'surface','from':{'object':'o'},'align':true}", "T<-* R<-*"},
        {"{'kind':'custom','from':'s','reads':['rotation'],'writes':['position','scale']}", "T<-R S<-R"},
        {"{'kind':'position','from':{'object':'o'}}", "T<-*"},
        {"{'kind':'transform','from':{'bone':'s','curved':true}}", "T<-* R<-* S<-*"},
    };
    for (const auto& [constraint, edges] : expected) EXPECT_EQ(joined(constraint), edges) << constraint;
}

TEST(ChannelGrain, a_place_along_a_bone_needs_all_three_parts_whatever_the_kind_reads) {
    EXPECT_EQ(joined("{'kind':'position','from':{'bone':'s','at':0.5}}"), "T<-T T<-R T<-S");
    EXPECT_EQ(joined("{'kind':'aim','from':{'bone':'s','at':1}}"), "R<-T R<-R R<-S");
    EXPECT_EQ(joined("{'kind':'rotation','from':{'bone':'s','at':1}}"), "R<-T R<-R R<-S");
    EXPECT_EQ(joined("{'kind':'position','from':{'bone':'s','at':0}}"), "T<-T");
}

TEST(ChannelGrain, aim_and_stretch_read_their_owners_position_before_the_step) {
    EXPECT_EQ(channels("{'name':'s'},{'name':'a','constraints':[{'kind':'aim','from':'s'}]}", "a/aim1", true),
              "a/aim1 position <- a base position (order a)\n"
              "a/aim1 rotation <- a base rotation (order a)\n"
              "a/aim1 rotation <- a base position (order a/aim1)\n"
              "a/aim1 rotation <- s final position (constraint a/aim1)\n"
              "a/aim1 scale <- a base scale (order a)\n");
    EXPECT_EQ(channels("{'name':'s'},{'name':'a','constraints':[{'kind':'stretch','from':'s'}]}", "a/stretch1 scale", true),
              "a/stretch1 scale <- a base scale (order a)\n"
              "a/stretch1 scale <- a base position (order a/stretch1)\n"
              "a/stretch1 scale <- s final position (constraint a/stretch1)\n");
}

TEST(ChannelGrain, a_late_local_space_step_takes_of_its_parent_what_it_writes_and_from_parent_lets_through) {
    constexpr auto late =
        "{'name':'s'},{'name':'p'},{'name':'a','parent':'p',%'constraints':[{'kind':'position','from':'s'},"
        "{'kind':'rotation','from':'s','space':'local'}]}";
    const auto with = [&](std::string_view from_parent) {
        std::string text = late;
        text.replace(text.find('%'), 1, from_parent);
        return channels(text, "a/rotation2");
    };
    EXPECT_EQ(with(""),
              "a/rotation2 rotation <- p final rotation (constraint a/rotation2)\n"
              "a/rotation2 rotation <- s local rotation (constraint a/rotation2)\n");
    EXPECT_EQ(with("'from_parent':['position'],"), "a/rotation2 rotation <- s local rotation (constraint a/rotation2)\n");
}

TEST(ChannelGrain, reading_a_late_local_takes_what_base_takes_of_the_parent) {
    constexpr auto late =
        "{'name':'s'},{'name':'p'},{'name':'a','parent':'p','constraints':[{'kind':'position','from':'s'},"
        "{'name':'late','kind':'rotation','from':'s','space':'local'}]},";
    EXPECT_EQ(channels(std::string(late) + "{'name':'r','constraints':[{'kind':'rotation','from':'a','space':'local'}]}", "r"),
              "r/rotation1 rotation <- a/late rotation (constraint r/rotation1)\n"
              "r/rotation1 rotation <- p final rotation (constraint r/rotation1)\n");
    EXPECT_EQ(channels(std::string(late) + "{'name':'r','constraints':[{'kind':'aim','from':'a','space':'local'}]}", "r"),
              "r/aim1 rotation <- a/late position (constraint r/aim1)\n"
              "r/aim1 rotation <- p final position (constraint r/aim1)\n"
              "r/aim1 rotation <- p final rotation (constraint r/aim1)\n"
              "r/aim1 rotation <- p final scale (constraint r/aim1)\n");
    EXPECT_EQ(channels(std::string(late) + "{'name':'r','channels':{'scale.x':{'curve':[[0,0]],"
                                           "'input':{'bone':'a','channel':'rotation.z'}}}}",
                       "driver"),
              "driver of r/scale.x <- a/late rotation (driver r/scale.x)\n"
              "driver of r/scale.x <- p final rotation (driver r/scale.x)\n");
}

TEST(ChannelGrain, a_solver_joins_the_poses_and_writes_rotation_and_a_path_writes_all) {
    constexpr auto bones = "{'name':'t'},{'name':'a','constraints':[{'name':'x','kind':'%','?':'t','chain':1}]}";
    const auto with = [&](std::string_view kind, std::string_view key, std::string_view to) {
        std::string text = bones;
        text.replace(text.find('%'), 1, kind);
        text.replace(text.find('?'), 1, key);
        return channels(text, to);
    };
    EXPECT_EQ(with("ik", "target", "solver"),
              "solver a/x <- a pose position.x (solver a/x)\n"
              "solver a/x <- a pose position.y (solver a/x)\n"
              "solver a/x <- a pose position.z (solver a/x)\n"
              "solver a/x <- a pose rotation.x (solver a/x)\n"
              "solver a/x <- a pose rotation.y (solver a/x)\n"
              "solver a/x <- a pose rotation.z (solver a/x)\n"
              "solver a/x <- a pose scale.x (solver a/x)\n"
              "solver a/x <- a pose scale.y (solver a/x)\n"
              "solver a/x <- a pose scale.z (solver a/x)\n"
              "solver a/x <- t final position (solver a/x)\n");
    EXPECT_EQ(with("ik", "target", "a solved"), "a solved rotation <- solver a/x (solver a/x)\n");
    EXPECT_EQ(with("path", "from", "a solved"),
              "a solved position <- solver a/x (solver a/x)\n"
              "a solved rotation <- solver a/x (solver a/x)\n"
              "a solved scale <- solver a/x (solver a/x)\n");
}

TEST(ChannelGrain, orient_reads_the_targets_rotation_too_and_the_pole_its_position) {
    const std::string text = channels(
        "{'name':'t'},{'name':'q'},{'name':'a','constraints':[{'name':'x','kind':'ik','target':'t','pole':'q','orient':true,"
        "'chain':1}]}",
        "solver");
    EXPECT_TRUE(
        text.ends_with("solver a/x <- t final position (solver a/x)\n"
                       "solver a/x <- t final rotation (solver a/x)\n"
                       "solver a/x <- q final position (solver a/x)\n"))
        << text;
}

TEST(ChannelGrain, the_parent_of_a_chains_root_is_taken_as_from_parent_says) {
    const auto from_g = [](std::string_view from_parent) {
        const std::string text = channels("{'name':'g'},{'name':'t'},{'name':'a','parent':'g'," + std::string(from_parent) +
                                              "'constraints':[{'name':'x','kind':'ik','target':'t','chain':1}]}",
                                          "solver");
        std::set<std::string> parts;
        for (const char* part : {"position", "rotation", "scale"})
            if (text.find(std::string("<- g final ") + part) != std::string::npos) parts.insert(part);
        return parts;
    };
    EXPECT_EQ(from_g(""), (std::set<std::string>{"position", "rotation", "scale"}));
    EXPECT_EQ(from_g("'from_parent':['rotation'],"), (std::set<std::string>{"rotation"}));
    EXPECT_EQ(from_g("'from_parent':['position'],"), (std::set<std::string>{"position", "rotation", "scale"}));
    EXPECT_EQ(from_g("'from_parent':[],"), (std::set<std::string>{}));
}

TEST(ChannelGrain, driven_channels_and_local_channel_inputs_touch_one_scalar) {
    constexpr auto bones =
        "{'name':'b'},{'name':'d','channels':{'rotation.y':{'curve':[[0,0]],"
        "'input':{'bone':'b','channel':'scale.z'}}}}";
    EXPECT_EQ(channels(bones, "d pose"), "d pose rotation.y <- driver of d/rotation.y (driver d/rotation.y)\n");
    EXPECT_EQ(channels(bones, "driver"), "driver of d/rotation.y <- b pose scale.z (driver d/rotation.y)\n");
}

TEST(ChannelGrain, a_channel_given_as_a_number_makes_no_edge) {
    EXPECT_EQ(channels("{'name':'d','channels':{'rotation.y':0.5}}", "d pose"), "");
}

TEST(ChannelGrain, inputs_read_the_part_they_name) {
    constexpr auto driver = "{'name':'a'},{'name':'b'},{'name':'d','channels':{'scale.x':{'curve':[[0,0]],'input':%}}}";
    const auto with = [&](std::string_view input) {
        std::string text = driver;
        text.replace(text.find('%'), 1, input);
        return channels(text, "driver");
    };
    EXPECT_EQ(with("{'bone':'a','channel':'rotation.x','space':'final'}"),
              "driver of d/scale.x <- a final rotation (driver d/scale.x)\n");
    EXPECT_EQ(with("{'distance':['a','b']}"),
              "driver of d/scale.x <- a final position (driver d/scale.x)\n"
              "driver of d/scale.x <- b final position (driver d/scale.x)\n");
    EXPECT_EQ(with("{'angle':['a','b']}"),
              "driver of d/scale.x <- a final rotation (driver d/scale.x)\n"
              "driver of d/scale.x <- b final rotation (driver d/scale.x)\n");
}

TEST(ChannelGrain, a_weights_driver_feeds_the_parts_that_the_constraint_writes) {
    EXPECT_EQ(channels("{'name':'s'},{'name':'a','constraints':[{'name':'c','kind':'stretch','from':'s',"
                       "'weight':{'expression':'w','inputs':{'w':{'property':'p'}}}}]}",
                       "a/c", false, "'properties':[{'name':'p'}]"),
              "a/c rotation <- s final position (constraint a/c)\n"
              "a/c rotation <- driver of a/c (driver a/c)\n"
              "a/c scale <- s final position (constraint a/c)\n"
              "a/c scale <- driver of a/c (driver a/c)\n");
}

TEST(ChannelGrain, weight_edges_are_told_apart) {
    const Rig rig = tiny_rig(
        "{'name':'s'},{'name':'a','channels':{'scale.x':{'expression':'w','inputs':{'w':{'property':'p'}}}},"
        "'constraints':[{'name':'c','kind':'scale','from':'s','weight':{'expression':'w','inputs':{'w':{'property':'p'}}}}]}",
        "'properties':[{'name':'p'}]");
    const Dependencies dependencies = build_dependencies(rig);
    std::string text;
    for (VertexId v = 0; v < dependencies.at(rig, Grain::step).vertices.size(); ++v)
        for (const Edge& edge : dependencies.at(rig, Grain::step).needs(v))
            if (dependencies.is_weight_edge(edge) && dependencies.bone_of(dependencies.at(rig, Grain::step), v) != none)
                text += name_of(rig, dependencies, dependencies.at(rig, Grain::step), v) + "\n";
    EXPECT_EQ(text, "a/c\n");
}

}  // namespace ligament::testing
