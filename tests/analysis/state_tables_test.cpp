// Does the table of states say of each limb who moves it at each stop?
#include <gtest/gtest.h>

#include <algorithm>

#include "ligament/switches.hpp"
#include "random_rig.hpp"
#include "tiny_rig.hpp"

namespace ligament {
namespace {

using testing::random_rig;
using testing::tiny_rig;

std::string names(const Rig& rig, const std::vector<BoneId>& bones) {
    std::string text;
    for (BoneId b : bones) text += (text.empty() ? "" : " ") + rig.bones[b].name;
    return text;
}

std::string table_words(const Rig& rig) {
    const Dependencies dependencies = build_dependencies(rig);
    const std::vector<Switch> switches = find_switches(rig, dependencies);
    std::string words;
    for (const StateTable& table : find_state_tables(rig, dependencies)) {
        words += "group " + table.group + " by " + names(rig, table.shared);
        for (std::uint32_t index : table.without_effect) words += " not " + rig.properties[switches[index].property].name;
        words += "\n";
        for (const StateRow& row : table.rows)
            words += name_of(rig, switches, row.settings) + ": " + std::string(name_of(row.verdict)) + " " +
                     names(rig, row.bones) + " by " + names(rig, row.controls) + "\n";
    }
    return words;
}

TEST(StateTables, TellEachStopOfASwitchThatChangesALimb) {
    EXPECT_EQ(
        table_words(tiny_rig(
            "{'name': 'root', 'roles': ['control']}, {'name': 'ik', 'roles': ['control'], 'parent': 'root'}, {'name': 'fk', "
            "'roles': ['control'], 'parent': 'root'},"
            "{'name': 'arm', 'roles': ['deform'], 'group': 'wing', 'constraints': [{'kind': 'transform', 'from': 'ik'},"
            "{'kind': 'transform', 'from': 'fk', 'weight': {'expression': 's', 'inputs': {'s': {'property': 'mode'}}}},"
            "{'kind': 'rotation', 'from': 'fk', 'weight': {'expression': 's', 'inputs': {'s': {'property': 'lean'}}}, "
            "'additive': true}]},"
            "{'name': 'tip', 'roles': ['deform'], 'group': 'wing', 'parent': 'root'}, {'name': 'eye', 'roles': ['deform'], "
            "'parent': 'root'}",
            "'roots': ['root'], 'properties': [{'name': 'mode', 'stops': {'ik': 0, 'fk': 1}}, {'name': 'lean'}]")),
        "group wing by root\n"
        "mode=ik: attached arm by ik\n"
        "mode=fk: attached arm by fk\n"
        "lean=0: attached arm by ik\n"
        "lean=1: attached arm by ik fk\n"
        "default: root-only tip by \n"
        "group  by root\n"
        "default: root-only eye by \n");
}

TEST(StateTables, NameTheSwitchesThatChangeNothing) {
    EXPECT_EQ(table_words(tiny_rig(
                  "{'name': 'a', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], 'parent': 'a', 'constraints': "
                  "[{'kind': 'rotation', 'from': 'a', 'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]}",
                  "'properties': [{'name': 'p'}]")),
              "group  by a not p\ndefault: attached d by \n");
}

TEST(StateTables, ShowTheDefaultWhereItIsNoStop) {
    EXPECT_EQ(
        table_words(tiny_rig("{'name': 'a', 'roles': ['control']}, {'name': 'b', 'roles': ['control']}, {'name': 'd', 'roles': "
                             "['deform'], 'constraints': [{'kind': 'transform', 'from': 'a'}, {'kind': 'transform', 'from': 'b', "
                             "'weight': {'expression': 's', 'inputs': {'s': {'property': 'p'}}}}]}",
                             "'roots': [], 'properties': [{'name': 'p', 'default': 0.5}]")),
        "group  by \np=0.5: attached d by a b\np=0: attached d by a\np=1: attached d by b\n");
}

// Brute force: each row must be what attachment from scratch says of that state.
TEST(StateTables, AgreeWithAttachmentInEachState) {
    std::size_t rows = 0;
    for (unsigned seed = 0; seed < 200; ++seed) {
        const Rig rig = random_rig(seed);
        const Dependencies dependencies = build_dependencies(rig);
        const std::vector<Switch> switches = find_switches(rig, dependencies);
        for (const StateTable& table : find_state_tables(rig, dependencies))
            for (const StateRow& row : table.rows) {
                ++rows;
                // A row without a setting speaks of every state with one switch set.
                std::vector<Settings> states{row.settings};
                if (row.settings.empty())
                    for (std::uint32_t s = 0; s < switches.size(); ++s)
                        for (std::uint32_t stop = 0; stop < switches[s].stops.size(); ++stop) states.push_back({{s, stop}});
                std::vector<BoneId> controls(table.shared);
                controls.insert(controls.end(), row.controls.begin(), row.controls.end());
                std::sort(controls.begin(), controls.end());
                for (const Settings& settings : states)
                    for (const Attachment& attachment :
                         find_attachment(rig, dependencies, state_of(rig, switches, settings)).deform)
                        if (std::find(row.bones.begin(), row.bones.end(), attachment.bone) != row.bones.end()) {
                            EXPECT_EQ(attachment.verdict, row.verdict) << rig.name << name_of(rig, switches, settings);
                            EXPECT_EQ(attachment.controls, controls) << rig.name << name_of(rig, switches, settings);
                        }
            }
    }
    EXPECT_GT(rows, 400u);
}

}  // namespace
}  // namespace ligament
