// Does the Markdown report have its tables, its paths and its escapes?
#include <gtest/gtest.h>

#include "markdown_text.hpp"
#include "reviewed.hpp"

namespace ligament::testing {

TEST(Markdown, AWholeReport) {
    Reported reported("{'name': 'a', 'roles': ['control']},\n{'name': 'plume', 'roles': ['deform']}");
    reported.findings[0].differences = {{"weight of fk", "1", ""}, {"a|b", "*", "2"}};
    EXPECT_EQ(written("markdown", reported.report),
              "## tiny\n\n"
              "`tiny.rig.json`: 2 bones, 1 error, 1 warning, no notes\n\n"
              "| severity | check | where | about | what | hint |\n"
              "| --- | --- | --- | --- | --- | --- |\n"
              "| error | `deform-orphaned` | `tiny.rig.json:2:1` | `plume` | no control reaches deform bone \"plume\": it takes "
              "nothing from a "
              "parent and has no live constraint or driver of its own | seat it on the mechanism bone that it belongs to, or "
              "take the role "
              "deform from it |\n"
              "| warning | `control-idle` | `tiny.rig.json:1:71` | `a` | control \"a\" moves nothing: its pose reaches no other "
              "bone and no "
              "object | connect it to what it should move, or take it away |\n\n"
              "Where `deform-orphaned` at `tiny.rig.json:2:1` differs:\n\n"
              "| what | left | right |\n"
              "| --- | --- | --- |\n"
              "| weight of fk | 1 |  |\n"
              "| a&#124;b | &#42; | 2 |\n");
}

TEST(Markdown, CleanRigIsOneLine) {
    EXPECT_EQ(written("markdown", Reported("{'name': 'a', 'roles': ['control', 'deform']}").report),
              "## tiny\n\n`tiny.rig.json`: 1 bone, no findings\n");
}

TEST(Markdown, CyclesAreToldEdgeByEdge) {
    const std::string text =
        written("markdown", Reported("{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'transform', "
                                     "'from': 'head'}]},\n{'name': 'head', 'parent': 'neck'}")
                                .report);
    EXPECT_NE(text.find("\nCycle 1, at channel grain:\n\n"
                        "- `neck` → `head`: parent head, `tiny.rig.json:2:1`\n"
                        "- `head` → `neck`: constraint neck/track, `tiny.rig.json:1:104`\n"),
              std::string::npos)
        << text;
}

TEST(Markdown, WhatIsSetAsideIsFolded) {
    const std::string text = written("markdown", Reviewed().report);
    EXPECT_NE(text.find("\n<details><summary>1 finding accepted by rules, 1 known by the baseline</summary>\n\n| check |"),
              std::string::npos)
        << text;
    EXPECT_NE(text.find(" | moult |\n"), std::string::npos) << text;
    EXPECT_TRUE(
        text.ends_with("</details>\n\n1 finding of the baseline is gone:\n\n- cycle of \"neck\", \"head\" (neck/track)\n"))
        << text;
}

TEST(MarkdownText, LeavesOrdinaryNamesReadable) {
    EXPECT_EQ(markdown_text("no control reaches \"wing_arm_l\": 1.5 > 1"), "no control reaches \"wing_arm_l\": 1.5 &gt; 1");
    EXPECT_EQ(markdown_code("wing_arm_l"), "`wing_arm_l`");
    EXPECT_EQ(markdown_code("a|b"), "<code>a&#124;b</code>");
    EXPECT_EQ(markdown_code(""), "<code></code>");
}

}  // namespace ligament::testing
