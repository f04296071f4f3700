// Does a person see at once what to cut, what it costs and what is lost?
#include <gtest/gtest.h>

#include "reported.hpp"

namespace ligament::testing {

namespace {

std::string cycle_text(const Reported& reported, std::size_t index = 0, TextStyle style = {}) {
    std::ostringstream out;
    write_cycle_text(out, reported.report, index, style, 2);
    return out.str();
}

/// A tail that follows its feather, which a control lifts: the tail loses the control where it lets go.
constexpr std::string_view tail =
    "{'name': 'chest_ctl', 'roles': ['control']},\n"
    "{'name': 'tail', 'roles': ['deform'], 'constraints': [{'name': 'toward', 'kind': 'rotation', 'from': 'feather'}]},\n"
    "{'name': 'vane', 'roles': ['deform'], 'parent': 'tail'},\n"
    "{'name': 'feather', 'parent': 'tail', 'constraints': [{'name': 'lift', 'kind': 'rotation', 'from': 'chest_ctl', 'weight': "
    "0.5}]}";

}  // namespace

TEST(CycleText, NamesTheCutItsCostAndBonesThatLoseTheSameTogether) {
    EXPECT_EQ(cycle_text(Reported(tail)),
              "  tail -> feather  parent feather  tiny.rig.json:4:1\n"
              "  feather -> tail  constraint tail/toward  tiny.rig.json:2:55\n"
              "  cheapest cut (cost 2):\n"
              "    constraint tail/toward  feather -> tail  tiny.rig.json:2:55\n"
              "    deform bones tail, vane lose chest_ctl\n");
}

TEST(CycleText, GoesOnBelowWhereALineIsTooWide) {
    EXPECT_EQ(cycle_text(Reported(tail), 0, {.width = 50}),
              "  tail -> feather  parent feather\n"
              "      tiny.rig.json:4:1\n"
              "  feather -> tail  constraint tail/toward\n"
              "      tiny.rig.json:2:55\n"
              "  cheapest cut (cost 2):\n"
              "    constraint tail/toward  feather -> tail\n"
              "        tiny.rig.json:2:55\n"
              "    deform bones tail, vane lose chest_ctl\n");
}

TEST(CycleText, SaysWhatIsProvenAndHowFarLossesWereLookedFor) {
    Reported reported(tail);
    Cut& cut = reported.facts.cuts[0].cut;
    cut.is_exact = false;
    cut.at_least = 1;
    cut.deform_behind = 9;
    const std::string text = cycle_text(reported);
    EXPECT_NE(text.find("  cheapest cut that was found (cost 2; none costs less than 1):\n"), std::string::npos) << text;
    EXPECT_NE(text.find("    what is lost was looked at for 2 of 9 deform bones behind the cut\n"), std::string::npos) << text;
}

TEST(CycleText, TellsWhereLessIsEnough) {
    const std::string text = cycle_text(Reported(
        "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'rotation', 'from': 'beak'}, {'name': 'swell', 'kind': "
        "'scale', 'from': 'crop'}]}, {'name': 'beak', 'parent': 'neck'}, {'name': 'crop', 'parent': 'neck', "
        "'from_parent': ['position']}"));
    EXPECT_NE(text.find("  cheapest cut at bone grain (cost 4):\n"), std::string::npos) << text;
    EXPECT_NE(text.find("  cost 2\n"), std::string::npos) << text;
    EXPECT_NE(text.find("  at channel grain less is enough (cost 2):\n    constraint neck/track  beak -> neck"),
              std::string::npos)
        << text;
}

TEST(CycleText, ListsCircuitsAndSaysHowManyThereAre) {
    Reported reported(tail);
    reported.facts.circuits = find_circuits(reported.rig, reported.dependencies, reported.facts.cycles, 5);
    EXPECT_NE(cycle_text(reported).find("  circuits, showing 1 of 1:\n"
                                        "    1: tail -> feather -> tail (parent feather, constraint tail/toward)\n"),
              std::string::npos)
        << cycle_text(reported);
    reported.facts.circuits[0].is_all_counted = false;
    EXPECT_NE(cycle_text(reported).find("circuits, showing 1 of at least 1:"), std::string::npos);
}

TEST(CycleText, ShowsPartOfALongCircuitAndSaysSo) {
    std::string bones;
    for (int i = 0; i < 50; ++i)
        bones += (i > 0 ? ",{'name': 'b" : "{'name': 'b") + std::to_string(i) +
                 "', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': 'b" + std::to_string((i + 49) % 50) + "'}]}";
    Reported reported(bones);
    reported.facts.circuits = find_circuits(reported.rig, reported.dependencies, reported.facts.cycles, 1);
    const std::string text = cycle_text(reported, 0, {.width = 10'000});
    EXPECT_NE(text.find("b38 -> b39 -> ... -> b0 (constraint b1/c, "), std::string::npos) << text;
    EXPECT_NE(text.find("constraint b40/c; showing 40 of 50 edges)\n"), std::string::npos) << text;
}

TEST(CycleText, ShowsPartOfLongListsAndSaysSo) {
    // Thirty feathers that the wing follows, and fifteen deform bones on the wing.
    std::string feathers, on_wing, constraints;
    for (int i = 0; i < 30; ++i) {
        const std::string number = std::to_string(i);
        constraints +=
            (i > 0 ? ", " : "") + std::string("{'name': 'c") + number + "', 'kind': 'rotation', 'from': 'f" + number + "'}";
        feathers += ", {'name': 'f" + number +
                    "', 'parent': 'wing', 'constraints': [{'kind': 'rotation', 'from': 'ctl', 'weight': 0.5}]}";
    }
    for (int i = 0; i < 15; ++i) on_wing += ", {'name': 'd" + std::to_string(i) + "', 'roles': ['deform'], 'parent': 'wing'}";
    const std::string text = cycle_text(Reported("{'name': 'ctl', 'roles': ['control']}, {'name': 'wing', 'constraints': [" +
                                                 constraints + "]}" + feathers + on_wing));
    EXPECT_NE(text.find("    showing 20 of 30 makers\n"), std::string::npos) << text;
    EXPECT_NE(text.find("(showing 12 of\n    15) lose ctl\n"), std::string::npos) << text;
}

}  // namespace ligament::testing
