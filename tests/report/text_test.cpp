// Does the text report group, sort, wrap and escape what it says?
#include <gtest/gtest.h>

#include "reported.hpp"

namespace ligament::testing {

namespace {

constexpr std::string_view three_groups =
    "{'name': 'ctl', 'roles': ['control']},\n"
    "{'name': 'bill', 'roles': ['deform'], 'parent': 'ctl', 'group': 'head'},\n"
    "{'name': 'tip', 'roles': ['deform'], 'parent': 'bill', 'group': 'head'},\n"
    "{'name': 'plume', 'roles': ['deform'], 'group': 'crest'},\n"
    "{'name': 'stray', 'roles': ['deform']}";

// Of messages and hints alone: places and the last line stay whole.
std::size_t longest_message_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with("    ")) longest = std::max(longest, line.size());
    return longest;
}

}  // namespace

TEST(TextReport, GroupsWithTheWorstFirstAndOneLineAtTheEnd) {
    EXPECT_EQ(Reported(three_groups).text({.width = 200}),
              "group crest\n"
              "  tiny.rig.json:4:1: error: deform-orphaned\n"
              "    no control reaches deform bone \"plume\": it takes nothing from a parent and has no live constraint or driver "
              "of its own\n"
              "    hint: seat it on the mechanism bone that it belongs to, or take the role deform from it\n"
              "\n"
              "no group\n"
              "  tiny.rig.json:5:1: error: deform-orphaned\n"
              "    no control reaches deform bone \"stray\": it takes nothing from a parent and has no live constraint or driver "
              "of its own\n"
              "    hint: seat it on the mechanism bone that it belongs to, or take the role deform from it\n"
              "\n"
              "group head\n"
              "  tiny.rig.json:3:1: note: deform-carried\n"
              "    deform bone \"tip\" only rides on its deform parent \"bill\"\n"
              "    hint: if it should bend by itself, give it a constraint of its own; a tip or helper bone may stay so\n"
              "\n"
              "tiny (tiny.rig.json): 5 bones (4 deform, 1 control, 0 mechanism), 2 errors, no warnings, 1 note\n");
}

TEST(TextReport, CleanRigIsOneLine) {
    EXPECT_EQ(Reported("{'name': 'a', 'roles': ['control', 'deform']}").text(),
              "tiny (tiny.rig.json): 1 bone (1 deform, 1 control, 0 mechanism), no findings\n");
}

TEST(TextReport, PrintsACycleEdgeByEdgeWithPlaces) {
    const std::string text = Reported(
                                 "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', 'from': 'head'}]},\n"
                                 "{'name': 'head', 'parent': 'neck'}")
                                 .text();
    EXPECT_NE(text.find("    neck -> head -> neck at channel grain (parent head, constraint neck/track)\n"
                        "      neck -> head  parent head  tiny.rig.json:2:1\n"
                        "      head -> neck  constraint neck/track  tiny.rig.json:1:104\n"
                        "      cheapest cut (cost 2):\n"
                        "        constraint neck/track  head -> neck  tiny.rig.json:1:104\n"
                        "        no deform bone loses a control by it\n"
                        "    hint: "),
              std::string::npos)
        << text;
}

TEST(TextReport, ShowsPartOfALongWitnessAndSaysSo) {
    std::string bones;
    for (int i = 0; i < 50; ++i)
        bones += (i > 0 ? ",{'name': 'b" : "{'name': 'b") + std::to_string(i) +
                 "', 'constraints': [{'name': 'c', 'kind': 'transform', 'from': 'b" + std::to_string((i + 49) % 50) + "'}]}";
    const std::string text = Reported(bones).text();
    EXPECT_NE(text.find("      b39 -> b40"), std::string::npos);
    EXPECT_EQ(text.find("      b40 -> b41"), std::string::npos);
    EXPECT_NE(text.find("      showing 40 of 50 edges\n"), std::string::npos);
}

TEST(TextReport, WrapsAtTheWidth) {
    for (unsigned width : {40U, 60U, 100U}) EXPECT_LE(longest_message_line(Reported(three_groups).text({.width = width})), width);
    EXPECT_GT(longest_message_line(Reported(three_groups).text({.width = 100})), 90U);
    const std::string narrow = Reported(three_groups).text({.width = 40});
    EXPECT_NE(narrow.find("    no control reaches deform bone\n    \"plume\": it takes nothing from a\n"), std::string::npos)
        << narrow;
}

TEST(TextReport, ColoursOnlyWhenAsked) {
    EXPECT_EQ(Reported(three_groups).text().find('\x1b'), std::string::npos);
    const std::string coloured = Reported(three_groups).text({.width = 80, .colour = true});
    EXPECT_NE(coloured.find("\x1b[1;31merror\x1b[0m"), std::string::npos);
    EXPECT_NE(coloured.find("\x1b[1mgroup crest\x1b[0m"), std::string::npos);
}

TEST(TextReport, NamesCannotReachTheTerminalRaw) {
    Rig rig;
    rig.name = "\x1b]0;title\x07";
    Bone& bone = rig.bones.emplace_back();
    bone.name = "evil\x1b[2J\xe2\x80\xae\n";
    bone.group = "g\r";
    bone.deform = true;
    const std::string text = Reported(std::move(rig)).text({.width = 200});
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_EQ(text.find('\r'), std::string::npos);
    EXPECT_NE(text.find("\"evil\\x1b[2J\\u202e\\x0a\""), std::string::npos) << text;
    EXPECT_NE(text.find("group g\\x0d\n"), std::string::npos) << text;
}

TEST(Totals, AddUpOverReports) {
    Totals totals;
    totals.add(Reported(three_groups).report);
    totals.add(Reported("{'name': 'a'}", "'properties': [{'name': 'p'}]").report);
    EXPECT_EQ(totals.rigs, 2U);
    EXPECT_EQ(totals.bones, 6U);
    EXPECT_EQ(totals.errors, 2U);
    EXPECT_EQ(totals.warnings, 2U);
    EXPECT_EQ(totals.notes, 1U);
}

TEST(ReportFormats, TableHasTextFirstAndUniqueNames) {
    const auto formats = all_report_formats();
    std::vector<std::string_view> names;
    for (const ReportFormat& format : formats) names.push_back(format.name);
    EXPECT_EQ(names, (std::vector<std::string_view>{"text", "json", "sarif", "junit", "markdown"}));
    for (const ReportFormat& format : formats) EXPECT_FALSE(format.summary.empty());
}

}  // namespace ligament::testing
