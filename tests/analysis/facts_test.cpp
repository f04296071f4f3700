// All facts of a rig that was put together or changed by a program.
#include "ligament/facts.hpp"

#include <gtest/gtest.h>

#include "tiny_rig.hpp"

namespace ligament::testing {

TEST(Facts, a_driver_whose_value_was_taken_out_drives_nothing) {
    Rig rig = tiny_rig(
        "{'name':'hand','roles':['control']},{'name':'skin','roles':['deform'],'constraints':["
        "{'kind':'transform','from':'hand','weight':{'expression':'s','inputs':{'s':{'property':'mode'}}}}]}",
        "'properties':[{'name':'mode'}]");
    rig.bones[1].constraints.clear();
    const Dependencies dependencies = build_dependencies(rig);
    const Facts facts = find_facts(rig, dependencies);
    ASSERT_EQ(facts.fan_out.size(), 1u);
    EXPECT_EQ(facts.fan_out[0].targets(), 0u);
    EXPECT_EQ(facts.fan_out[0].bones_moved, 0u);
    ASSERT_EQ(facts.attachment.deform.size(), 1u);
    EXPECT_EQ(facts.attachment.deform[0].verdict, Verdict::orphaned);
    EXPECT_EQ(name_of(rig, dependencies, dependencies.motion, dependencies.motion.first_driver), "driver of nothing");
}

}  // namespace ligament::testing
