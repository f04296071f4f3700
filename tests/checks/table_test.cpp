// Is every check named once, explained, tested, and listed worst first?
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "found.hpp"

namespace ligament::testing {

TEST(CheckTable, EveryCheckHasATestAndAnExplanation) {
    ASSERT_GE(all_checks().size(), 8U);
    for (const Check& check : all_checks()) {
        std::string file(check.name);
        std::replace(file.begin(), file.end(), '-', '_');
        EXPECT_TRUE(std::filesystem::exists(std::string(LIGAMENT_SOURCE_DIR) + "/tests/checks/" + file + "_test.cpp"))
            << check.name;
        EXPECT_TRUE(std::filesystem::exists(std::string(LIGAMENT_SOURCE_DIR) + "/src/checks/" + file + ".cpp")) << check.name;
        EXPECT_FALSE(check.summary.empty()) << check.name;
        for (std::string_view text : {check.what, check.harm, check.mend}) EXPECT_FALSE(text.empty()) << check.name;
        EXPECT_NE(check.find, nullptr) << check.name;
    }
}

TEST(CheckTable, NamesAreUnique) {
    std::set<std::string_view> names;
    for (const Check& check : all_checks()) EXPECT_TRUE(names.insert(check.name).second) << check.name;
}

TEST(CheckTable, FindingsComeWorstFirstThenByTableThenByFile) {
    const Looked looked = look_at(
        "{'name': 'ctl', 'roles': ['control']}, {'name': 'a', 'roles': ['deform'], 'parent': 'ctl'},"
        "{'name': 'b', 'roles': ['deform'], 'parent': 'a'}, {'name': 'lost', 'roles': ['deform']}, {'name': 'lost2', 'roles': "
        "['deform']},"
        "{'name': 'x', 'constraints': [{'kind': 'transform', 'from': 'y'}]}, {'name': 'y', 'parent': 'x'}",
        "'properties': [{'name': 'p'}]");
    std::vector<std::string> order;
    for (const Finding& finding : looked.findings)
        order.push_back(finding.check + (finding.bones.empty() ? "" : " " + looked.rig.bones[finding.bones[0]].name));
    EXPECT_EQ(order, (std::vector<std::string>{"cycle x", "deform-orphaned lost", "deform-orphaned lost2", "property-unused",
                                               "mechanism-idle x", "mechanism-idle y", "deform-carried b"}));
}

TEST(CheckTable, EveryFindingNamesACheckOfTheTableAndItsSeverity) {
    const Looked looked = look_at("{'name': 'd', 'roles': ['deform']}", "'properties': [{'name': 'p'}]");
    ASSERT_FALSE(looked.findings.empty());
    for (const Finding& finding : looked.findings) {
        const auto check =
            std::find_if(all_checks().begin(), all_checks().end(), [&](const Check& c) { return c.name == finding.check; });
        ASSERT_NE(check, all_checks().end()) << finding.check;
        EXPECT_EQ(check->severity, finding.severity);
        EXPECT_FALSE(finding.message.empty());
        EXPECT_NE(finding.message.back(), '.');
        EXPECT_GT(finding.place.line, 0U);
    }
}

}  // namespace ligament::testing
