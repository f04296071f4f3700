// The step grain, rule by rule of the rig semantics.
#include <gtest/gtest.h>

#include "dump.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

std::string steps(std::string_view bones, std::string_view to, bool with_order = false, std::string_view rest = {}) {
    return dump_needs(tiny_rig(bones, rest), Grain::step, to, with_order);
}

}  // namespace

TEST(StepGrain, a_bone_runs_from_pose_to_final) {
    EXPECT_EQ(steps("{'name':'a'}", "a", true),
              "a solved <- a pose (order a)\n"
              "a local <- a solved (order a)\n"
              "a base <- a local (order a)\n"
              "a final <- a base (order a)\n");
}

TEST(StepGrain, base_needs_the_parents_final) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'a','parent':'p'}", "a"), "a base <- p final (parent a)\n");
}

TEST(StepGrain, nothing_from_the_parent_makes_no_edge) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'a','parent':'p','from_parent':[]}", "a"), "");
}

TEST(StepGrain, constraints_run_in_order_after_base) {
    EXPECT_EQ(
        steps("{'name':'s'},{'name':'a','constraints':[{'kind':'position','from':'s'},{'kind':'aim','from':'s'}]}", "a", true),
        "a solved <- a pose (order a)\n"
        "a local <- a solved (order a)\n"
        "a base <- a local (order a)\n"
        "a/position1 <- a base (order a)\n"
        "a/position1 <- s final (constraint a/position1)\n"
        "a/aim2 <- a/position1 (order a)\n"
        "a/aim2 <- s final (constraint a/aim2)\n"
        "a final <- a/aim2 (order a)\n");
}

TEST(StepGrain, leading_local_space_steps_work_on_solved_and_need_no_parent) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':["
                    "{'kind':'rotation','from':'s','space':'local'},{'kind':'limit','channels':['rotation']}]}",
                    "a", true),
              "a solved <- a pose (order a)\n"
              "a/rotation1 <- a solved (order a)\n"
              "a/rotation1 <- s local (constraint a/rotation1)\n"
              "a local <- a/rotation1 (order a)\n"
              "a base <- a local (order a)\n"
              "a base <- p final (parent a)\n"
              "a/limit2 <- a base (order a)\n"
              "a final <- a/limit2 (order a)\n");
}

TEST(StepGrain, late_local_space_steps_need_the_parent) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':["
                    "{'kind':'position','from':'s'},{'kind':'rotation','from':'s','space':'local'}]}",
                    "a/rotation2", true),
              "a/rotation2 <- a/position1 (order a)\n"
              "a/rotation2 <- p final (constraint a/rotation2)\n"
              "a/rotation2 <- s local (constraint a/rotation2)\n");
}

TEST(StepGrain, an_inert_final_space_step_does_not_make_later_ones_late) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':["
                    "{'kind':'position','from':'s','enabled':false},{'kind':'rotation','from':'s','space':'local'}]}",
                    "a/rotation2", true),
              "a/rotation2 <- a solved (order a)\n"
              "a/rotation2 <- s local (constraint a/rotation2)\n");
}

TEST(StepGrain, a_solver_does_not_make_later_local_space_steps_late) {
    EXPECT_EQ(steps("{'name':'t'},{'name':'s'},{'name':'a','constraints':["
                    "{'kind':'ik','target':'t','chain':1},{'kind':'rotation','from':'s','space':'local'}]}",
                    "a/rotation2", true),
              "a/rotation2 <- a solved (order a)\n"
              "a/rotation2 <- s local (constraint a/rotation2)\n");
}

TEST(StepGrain, reading_local_of_a_bone_with_a_late_step_reads_that_step_and_the_parent) {
    constexpr auto bones =
        "{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':["
        "{'kind':'position','from':'s'},{'kind':'rotation','from':'s','space':'local'},{'kind':'aim','from':'s'}]},"
        "{'name':'r','constraints':[{'kind':'rotation','from':'a','space':'local'}]}";
    EXPECT_EQ(steps(bones, "r"),
              "r/rotation1 <- a/rotation2 (constraint r/rotation1)\n"
              "r/rotation1 <- p final (constraint r/rotation1)\n");
}

TEST(StepGrain, final_space_steps_alone_do_not_change_what_is_read_as_local) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':[{'kind':'position','from':'s'}]},"
                    "{'name':'r','constraints':[{'kind':'rotation','from':'a','space':'local'}]}",
                    "r"),
              "r/rotation1 <- a local (constraint r/rotation1)\n");
}

TEST(StepGrain, an_inert_late_step_does_not_change_what_is_read_as_local) {
    EXPECT_EQ(steps("{'name':'p'},{'name':'s'},{'name':'a','parent':'p','constraints':["
                    "{'kind':'position','from':'s'},{'kind':'rotation','from':'s','space':'local','weight':0}]},"
                    "{'name':'r','constraints':[{'kind':'rotation','from':'a','space':'local'}]}",
                    "r"),
              "r/rotation1 <- a local (constraint r/rotation1)\n");
}

TEST(StepGrain, objects_and_bent_bones_are_read_as_final_whatever_space_says) {
    EXPECT_EQ(steps("{'name':'h'},{'name':'b','curve':{'segments':4,'start':'h','end':'h'}},{'name':'a','constraints':["
                    "{'kind':'position','space':'local','from':[{'object':'o'},{'bone':'b','curved':true,'at':0.5}]}]}",
                    "a", false, "'objects':[{'name':'o','follows':['h']}]"),
              "a/position1 <- object o (constraint a/position1)\n"
              "a/position1 <- b curve (constraint a/position1)\n");
}

TEST(StepGrain, space_also_reads_its_owners_local) {
    EXPECT_EQ(steps("{'name':'s'},{'name':'a','constraints':[{'kind':'space','from':'s'}]}", "a/space1", true),
              "a/space1 <- a base (order a)\n"
              "a/space1 <- a local (order a/space1)\n"
              "a/space1 <- s final (constraint a/space1)\n");
}

TEST(StepGrain, space_in_local_space_does_not) {
    EXPECT_EQ(steps("{'name':'s'},{'name':'a','constraints':[{'kind':'space','from':'s','space':'local'}]}", "a/space1", true),
              "a/space1 <- a solved (order a)\n"
              "a/space1 <- s local (constraint a/space1)\n");
}

TEST(StepGrain, a_solver_reads_poses_the_parent_of_its_root_target_and_pole_and_feeds_solved) {
    constexpr auto bones =
        "{'name':'g'},{'name':'t'},{'name':'q'},{'name':'a','parent':'g'},"
        "{'name':'b','parent':'a','constraints':[{'name':'reach','kind':'ik','target':'t','pole':'q','chain':2}]}";
    EXPECT_EQ(steps(bones, "solver b/reach"),
              "solver b/reach <- b pose (solver b/reach)\n"
              "solver b/reach <- a pose (solver b/reach)\n"
              "solver b/reach <- g final (solver b/reach)\n"
              "solver b/reach <- t final (solver b/reach)\n"
              "solver b/reach <- q final (solver b/reach)\n");
    EXPECT_EQ(steps(bones, "a solved", true), "a solved <- a pose (order a)\na solved <- solver b/reach (solver b/reach)\n");
    EXPECT_EQ(steps(bones, "b solved", true), "b solved <- b pose (order b)\nb solved <- solver b/reach (solver b/reach)\n");
}

TEST(StepGrain, a_second_solver_reads_the_first_ones_result) {
    constexpr auto bones =
        "{'name':'t'},{'name':'a'},{'name':'b','parent':'a','constraints':["
        "{'name':'one','kind':'ik','target':'t','chain':2},{'name':'two','kind':'ik','target':'t','chain':1}]}";
    EXPECT_EQ(steps(bones, "solver b/two"),
              "solver b/two <- solver b/one (solver b/two)\n"
              "solver b/two <- a final (solver b/two)\n"
              "solver b/two <- t final (solver b/two)\n");
}

TEST(StepGrain, an_inert_solver_hands_nothing_on) {
    constexpr auto bones =
        "{'name':'t'},{'name':'a'},{'name':'b','parent':'a','constraints':["
        "{'name':'one','kind':'ik','target':'t','chain':2,'enabled':false},{'name':'two','kind':'ik','target':'t','chain':1}]}";
    EXPECT_EQ(steps(bones, "solver b/two"),
              "solver b/two <- b pose (solver b/two)\n"
              "solver b/two <- a final (solver b/two)\n"
              "solver b/two <- t final (solver b/two)\n");
    EXPECT_EQ(steps(bones, "a solved", true), "a solved <- a pose (order a)\na solved <- solver b/one (solver b/one inert)\n");
}

TEST(StepGrain, solvers_of_two_owners_run_in_file_order) {
    constexpr auto bones =
        "{'name':'t'},{'name':'a','constraints':[{'name':'one','kind':'path','from':'t','chain':1}]},"
        "{'name':'b','parent':'a','constraints':[{'name':'two','kind':'ik','target':'t','chain':2}]}";
    EXPECT_EQ(steps(bones, "solver b/two"),
              "solver b/two <- b pose (solver b/two)\n"
              "solver b/two <- solver a/one (solver b/two)\n"
              "solver b/two <- t final (solver b/two)\n");
}

TEST(StepGrain, a_chain_longer_than_the_ancestors_takes_those_there_are) {
    EXPECT_EQ(steps("{'name':'t'},{'name':'a'},{'name':'b','parent':'a','constraints':[{'kind':'ik','target':'t','chain':9}]}",
                    "solver"),
              "solver b/ik1 <- b pose (solver b/ik1)\n"
              "solver b/ik1 <- a pose (solver b/ik1)\n"
              "solver b/ik1 <- t final (solver b/ik1)\n");
}

TEST(StepGrain, a_solver_reads_its_targets_final_whatever_its_space) {
    EXPECT_EQ(steps("{'name':'t'},{'name':'a','constraints':[{'kind':'ik','target':'t','chain':1,'space':'local'}]}", "solver"),
              "solver a/ik1 <- a pose (solver a/ik1)\n"
              "solver a/ik1 <- t final (solver a/ik1)\n");
}

TEST(StepGrain, a_curve_needs_its_own_final_and_both_handles) {
    EXPECT_EQ(steps("{'name':'h'},{'name':'k'},{'name':'b','curve':{'segments':4,'start':'h','end':'k'}}", "b curve", true),
              "b curve <- b final (order b)\n"
              "b curve <- h final (curve b)\n"
              "b curve <- k final (curve b)\n");
}

TEST(StepGrain, an_object_needs_the_final_of_each_bone_it_follows) {
    EXPECT_EQ(steps("{'name':'a'},{'name':'b'}", "object", false, "'objects':[{'name':'o','follows':['b','a']}]"),
              "object o <- b final (parent o)\n"
              "object o <- a final (parent o)\n");
}

TEST(StepGrain, drivers_read_inputs_and_feed_weights_channels_and_properties) {
    constexpr auto bones =
        "{'name':'a'},{'name':'b'},{'name':'d','channels':{'rotation.x':{'expression':'s','inputs':{'s':{'property':'p'}}}},"
        "'constraints':[{'name':'c','kind':'position','weight':{'expression':'f','inputs':{'f':{'property':'q'}}},"
        "'from':{'bone':'a','weight':{'curve':[[0,0],[1,1]],'input':{'bone':'b','channel':'position.y'}}}}]}";
    constexpr auto rest =
        "'properties':[{'name':'p'},{'name':'q','value':{'expression':'x+y+z','inputs':{'x':{'distance':['a','b']},"
        "'y':{'angle':['a','b']},'z':{'bone':'a','channel':'scale.z','space':'final'}}}}]";
    EXPECT_EQ(steps(bones, "d", false, rest),
              "d pose <- driver of d/rotation.x (driver d/rotation.x)\n"
              "d/c <- a final (constraint d/c)\n"
              "d/c <- driver of d/c (driver d/c)\n"
              "d/c <- driver of d/c (driver d/c)\n"
              "driver of d/rotation.x <- property p (driver d/rotation.x)\n"
              "driver of d/c <- property q (driver d/c)\n"
              "driver of d/c <- b pose (driver d/c)\n"
              "driver of q <- a final (driver q)\n"
              "driver of q <- b final (driver q)\n"
              "driver of q <- a final (driver q)\n"
              "driver of q <- b final (driver q)\n"
              "driver of q <- a final (driver q)\n");
    EXPECT_EQ(steps(bones, "property", false, rest), "property q <- driver of q (driver q)\n");
}

TEST(StepGrain, a_local_channel_input_reads_local_where_steps_or_solvers_shape_it) {
    constexpr auto reader = ",{'name':'d','channels':{'scale.x':{'curve':[[0,1]],'input':{'bone':'b','channel':'rotation.x'}}}}";
    EXPECT_EQ(
        steps(std::string("{'name':'a'},{'name':'b','constraints':[{'kind':'rotation','from':'a','space':'local'}]}") + reader,
              "driver"),
        "driver of d/scale.x <- b local (driver d/scale.x)\n");
    EXPECT_EQ(
        steps(std::string("{'name':'t'},{'name':'b','constraints':[{'kind':'ik','target':'t','chain':1}]}") + reader, "driver"),
        "driver of d/scale.x <- b local (driver d/scale.x)\n");
    EXPECT_EQ(steps(std::string("{'name':'t'},{'name':'b','constraints':[{'kind':'ik','target':'t','chain':1,'weight':0},"
                                "{'kind':'rotation','from':'t','space':'local','enabled':false}]}") +
                        reader,
                    "driver"),
              "driver of d/scale.x <- b pose (driver d/scale.x)\n");
    EXPECT_EQ(steps(std::string("{'name':'t'},{'name':'b','constraints':[{'kind':'rotation','from':'t'}]}") + reader, "driver"),
              "driver of d/scale.x <- b pose (driver d/scale.x)\n");
}

TEST(StepGrain, disabled_and_zero_weight_constraints_make_inert_edges_but_the_stack_runs_through) {
    EXPECT_EQ(steps("{'name':'s'},{'name':'a','constraints':[{'name':'off','kind':'position','from':'s','enabled':false},"
                    "{'name':'nil','kind':'aim','from':'s','up':'s','weight':0}]}",
                    "a/", true),
              "a/off <- a base (order a)\n"
              "a/off <- s final (constraint a/off inert)\n"
              "a/nil <- a/off (order a)\n"
              "a/nil <- s final (constraint a/nil inert)\n"
              "a/nil <- s final (constraint a/nil inert)\n");
}

TEST(StepGrain, a_source_of_weight_zero_is_inert_alone) {
    EXPECT_EQ(steps("{'name':'s'},{'name':'r'},{'name':'a','constraints':["
                    "{'kind':'position','from':[{'bone':'s','weight':0},{'bone':'r','weight':1}]}]}",
                    "a"),
              "a/position1 <- s final (constraint a/position1 inert)\n"
              "a/position1 <- r final (constraint a/position1)\n");
}

TEST(StepGrain, every_edge_knows_the_weights_that_gate_it) {
    const Rig rig = tiny_rig(
        "{'name':'s'},{'name':'a','constraints':[{'name':'c','kind':'aim','weight':0.5,'from':{'bone':'s','weight':0.25},'up':'s'"
        "}]}");
    EXPECT_EQ(dump_gates(rig, Grain::step, "a/c"),
              "a/c <- s final (constraint a/c gated by c source 0)\n"
              "a/c <- s final (constraint a/c gated by c)\n");
}

TEST(StepGrain, edges_know_their_place) {
    const Rig rig = tiny_rig("{'name':'s'},\n  {'name':'a','parent':'s','constraints':[\n    {'kind':'position','from':'s'}]}");
    const Dependencies dependencies = build_dependencies(rig);
    std::vector<Place> places;
    for (const Edge& edge : dependencies.at(rig, Grain::step).edges)
        if (edge.kind() != EdgeKind::order) places.push_back(place_of(rig, dependencies, edge.maker));
    EXPECT_EQ(places, (std::vector<Place>{{2, 3}, {3, 5}}));
}

}  // namespace ligament::testing
