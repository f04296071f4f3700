// The bone grain: what is left when a bone's steps are made one vertex.
#include <gtest/gtest.h>

#include "dump.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

std::string bones(std::string_view text, std::string_view rest = {}) {
    return dump_needs(tiny_rig(text, rest), Grain::bone, {}, true);
}

}  // namespace

TEST(BoneGrain, order_edges_vanish_and_the_others_stay) {
    EXPECT_EQ(
        bones("{'name':'p'},{'name':'a','parent':'p','constraints':[{'kind':'space','from':'p'},{'kind':'aim','from':'p'}]}"),
        "a <- p (parent a)\n"
        "a <- p (constraint a/space1)\n"
        "a <- p (constraint a/aim2)\n");
}

TEST(BoneGrain, an_edge_from_a_bone_to_itself_stays_as_a_loop) {
    EXPECT_EQ(bones("{'name':'a','constraints':[{'kind':'position','from':'a'}]}"), "a <- a (constraint a/position1)\n");
}

TEST(BoneGrain, chain_bones_depend_on_the_solver_and_not_it_on_them) {
    EXPECT_EQ(bones("{'name':'g'},{'name':'t'},{'name':'q'},{'name':'a','parent':'g'},"
                    "{'name':'b','parent':'a','constraints':[{'name':'reach','kind':'ik','target':'t','pole':'q','chain':2}]}"),
              "a <- solver b/reach (solver b/reach)\n"
              "a <- g (parent a)\n"
              "b <- solver b/reach (solver b/reach)\n"
              "b <- a (parent b)\n"
              "solver b/reach <- g (solver b/reach)\n"
              "solver b/reach <- t (solver b/reach)\n"
              "solver b/reach <- q (solver b/reach)\n");
}

TEST(BoneGrain, a_driver_of_a_chain_bones_channel_feeds_the_solver_as_well_as_the_bone) {
    EXPECT_EQ(bones("{'name':'t'},{'name':'a','channels':{'rotation.x':{'curve':[[0,0]],'input':{'property':'p'}}},"
                    "'constraints':[{'kind':'ik','target':'t','chain':1}]}",
                    "'properties':[{'name':'p'}]"),
              "a <- driver of a/rotation.x (driver a/rotation.x)\n"
              "a <- solver a/ik1 (solver a/ik1)\n"
              "driver of a/rotation.x <- property p (driver a/rotation.x)\n"
              "solver a/ik1 <- driver of a/rotation.x (driver a/rotation.x)\n"
              "solver a/ik1 <- t (solver a/ik1)\n");
}

TEST(BoneGrain, a_second_solver_depends_on_the_first) {
    EXPECT_EQ(bones("{'name':'t'},{'name':'a','constraints':["
                    "{'name':'one','kind':'ik','target':'t','chain':1},{'name':'two','kind':'path','from':'t','chain':1}]}"),
              "a <- solver a/one (solver a/one)\n"
              "a <- solver a/two (solver a/two)\n"
              "solver a/one <- t (solver a/one)\n"
              "solver a/two <- solver a/one (solver a/two)\n"
              "solver a/two <- t (solver a/two)\n");
}

TEST(BoneGrain, properties_drivers_and_objects_keep_their_vertices) {
    EXPECT_EQ(bones("{'name':'a'},{'name':'b','constraints':[{'kind':'surface','from':{'object':'o'},"
                    "'weight':{'expression':'w','inputs':{'w':{'property':'p'}}}}]}",
                    "'properties':[{'name':'p'}],'objects':[{'name':'o','follows':['a']}]"),
              "b <- object o (constraint b/surface1)\n"
              "b <- driver of b/surface1 (driver b/surface1)\n"
              "driver of b/surface1 <- property p (driver b/surface1)\n"
              "object o <- a (parent o)\n");
}

TEST(BoneGrain, a_property_on_a_bone_makes_no_transform_dependency) {
    EXPECT_EQ(bones("{'name':'a','channels':{'scale.x':{'curve':[[0,0]],'input':{'property':'p'}}}}",
                    "'properties':[{'name':'p','on':'a'}]"),
              "a <- driver of a/scale.x (driver a/scale.x)\n"
              "driver of a/scale.x <- property p (driver a/scale.x)\n");
}

}  // namespace ligament::testing
