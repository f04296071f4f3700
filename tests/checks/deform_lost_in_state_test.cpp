// Does `deform-lost-in-state` name the state, the constraint to blame and the neighbours that do it right?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const char* const mode = "'roots': ['root'], 'properties': [{'name': 'mode', 'on': 'root', 'stops': {'ik': 0, 'fk': 1}}]";

/// A mechanism chain of three that blends IK and FK; the FK bone of the forearm hangs under nothing.
std::string arm(const std::string& forearm_fk) {
    const auto joint = [](const std::string& name, const std::string& parent) {
        return "{'name': '" + name + "_mech', 'parent': '" + parent +
               "', 'constraints': [{'name': 'ik', 'kind': 'transform', 'from': 'ik'}, " +
               "{'name': 'fk', 'kind': 'transform', 'from': '" + name +
               "_fk', 'weight': {'expression': 's', 'inputs': {'s': {'property': 'mode'}}}}]}, {'name': '" + name +
               "', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': '" + name + "_mech'}]}";
    };
    return "{'name': 'root', 'roles': ['control']}, {'name': 'reach', 'roles': ['control'], 'parent': 'root'}, "
           "{'name': 'ik', 'parent': 'reach'}, {'name': 'upper_fk', 'roles': ['control'], 'parent': 'root'}, " +
           forearm_fk + ", {'name': 'hand_fk', 'roles': ['control'], 'parent': 'root'}, " + joint("upper", "root") + ", " +
           joint("forearm", "upper_mech") + ", " + joint("hand", "forearm_mech");
}

}  // namespace

TEST(CheckDeformLostInState, NamesStateBlameAndNeighbours) {
    const Looked looked = look_at(arm("{'name': 'forearm_fk'}"), mode);
    EXPECT_EQ(found("deform-lost-in-state", looked),
              "error deform bone \"forearm\" is attached in the default state; at \"mode=fk\" no control reaches it, by what "
              "\"forearm_mech/fk\" does there; \"upper_mech\" and \"hand_mech\" beside it do it right [forearm]\n");
    EXPECT_EQ(first_found("deform-lost-in-state", looked).hint,
              "compare \"forearm_mech/fk\" with the same constraint of \"upper_mech\"");
    EXPECT_GT(first_found("deform-lost-in-state", looked).place.column, 0u);
}

TEST(CheckDeformLostInState, TellsABoneThatFallsBackToTheRoot) {
    EXPECT_EQ(
        found("deform-lost-in-state", arm("{'name': 'forearm_fk', 'parent': 'root'}"), mode),
        "error deform bone \"forearm\" is attached in the default state; at \"mode=fk\" it moves only with root controls, by "
        "what \"forearm_mech/fk\" does there; \"upper_mech\" and \"hand_mech\" beside it do it right [forearm]\n");
}

TEST(CheckDeformLostInState, IsSilentWhereEveryStopHasItsControls) {
    EXPECT_EQ(found("deform-lost-in-state", arm("{'name': 'forearm_fk', 'roles': ['control'], 'parent': 'root'}"), mode), "");
}

TEST(CheckDeformLostInState, FindsWhatTakesTwoSwitches) {
    // Each weight alone leaves the other way in; only with both switches set is there none.
    EXPECT_EQ(
        found("deform-lost-in-state",
              "{'name': 'root', 'roles': ['control']}, {'name': 'a_ctl', 'roles': ['control']}, {'name': 'b_ctl', 'roles': "
              "['control']},"
              "{'name': 'plume', 'roles': ['deform'], 'constraints': ["
              "{'name': 'a', 'kind': 'aim', 'from': 'a_ctl', 'weight': {'expression': '1 - s', 'inputs': {'s': {'property': "
              "'p'}}}},"
              "{'name': 'b', 'kind': 'aim', 'from': 'b_ctl', 'weight': {'expression': '1 - s', 'inputs': {'s': {'property': "
              "'q'}}}}]}",
              "'roots': ['root'], 'properties': [{'name': 'p'}, {'name': 'q'}]"),
        "error deform bone \"plume\" is attached in the default state; at \"p=1 + q=1\" no control reaches it, since "
        "\"plume/b\" has the weight 0 there [plume]\n");
}

TEST(CheckDeformLostInState, TellsABoneWhoseOwnMotionHasNotChanged) {
    // By default only the root moves anything; with the switch on another bone has a control of its own.
    EXPECT_EQ(
        found("deform-lost-in-state",
              "{'name': 'root', 'roles': ['control']}, {'name': 'ctl', 'roles': ['control']}, {'name': 'body', 'roles': "
              "['deform'], "
              "'constraints': [{'kind': 'transform', 'from': 'root'}]}, {'name': 'tail', 'roles': ['deform'], 'constraints': "
              "[{'kind': "
              "'transform', 'from': 'root'}, {'kind': 'rotation', 'from': 'ctl', 'weight': {'expression': 's', 'inputs': {'s': "
              "{'property': 'p'}}}}]}",
              "'roots': ['root'], 'properties': [{'name': 'p'}]"),
        "error deform bone \"body\" is attached in the default state; at \"p=1\" it still moves with the same root controls, but "
        "there other deform bones have controls of their own [body]\n");
}

TEST(CheckDeformLostInState, SaysNothingWhereTheFactsAreOfAnotherState) {
    const Rig rig = tiny_rig(arm("{'name': 'forearm_fk'}"), mode);
    const Dependencies dependencies = build_dependencies(rig);
    FactOptions options;
    options.state = default_state(rig);
    options.state->properties[0] = 1;
    options.state_name = "mode=fk";
    const Looked looked{rig, find_findings(rig, dependencies, find_facts(rig, dependencies, options))};
    EXPECT_EQ(found("deform-lost-in-state", looked), "");
    EXPECT_NE(found("deform-orphaned", looked), "");
}

}  // namespace ligament::testing
