// Do all formats say what was set aside, and what is gone?
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "reviewed.hpp"

namespace ligament::testing {

namespace {

Reported without_review() { return {"{'name': 'plume', 'roles': ['deform']}"}; }

}  // namespace

TEST(Review, TextCountsWhatIsSetAsideAndListsWhatIsGone) {
    const std::string text = written("text", Reviewed().report, {.width = 200});
    EXPECT_TRUE(
        text.ends_with("\n"
                       "1 finding accepted by rules, 1 known by the baseline\n"
                       "1 finding of the baseline is gone:\n"
                       "  cycle of \"neck\", \"head\" (neck/track)\n"
                       "tiny (tiny.rig.json): 3 bones (3 deform, 0 control, 0 mechanism), 1 error, no warnings, no notes\n"))
        << text;
    EXPECT_EQ(text.find("crest"), std::string::npos);
}

TEST(Review, TextSaysOfEachKindAloneHowMany) {
    Reviewed reviewed;
    reviewed.review.gone.clear();
    reviewed.review.set_aside.erase(reviewed.review.set_aside.begin());
    std::string text = written("text", reviewed.report);
    EXPECT_NE(text.find("\n1 finding known by the baseline\ntiny "), std::string::npos) << text;
    reviewed.review.set_aside[0].by = SetAside::By::rules;
    text = written("text", reviewed.report);
    EXPECT_NE(text.find("\n1 finding accepted by rules\ntiny "), std::string::npos) << text;
    reviewed.review.set_aside.clear();
    EXPECT_EQ(written("text", reviewed.report), written("text", {"tiny.rig.json", reviewed.found.rig, reviewed.found.dependencies,
                                                                 reviewed.found.facts, reviewed.review.findings}));
}

TEST(Review, LongListsOfBonesThatAreGoneAreShownInPart) {
    Reviewed reviewed;
    reviewed.review.gone[0].bones.assign(40, "x\x1b");
    const std::string text = written("text", reviewed.report, {.width = 400});
    EXPECT_NE(text.find("(showing 12 of 40)"), std::string::npos) << text;
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_EQ(nlohmann::json::parse(written("json", reviewed.report))["review"]["gone"][0]["bones"].size(), 40U);
}

TEST(Review, JsonHasAllThreeLists) {
    const auto report = nlohmann::json::parse(written("json", Reviewed().report));
    ASSERT_EQ(report["findings"].size(), 1U);
    const auto& review = report["review"];
    ASSERT_EQ(review["accepted"].size(), 1U);
    EXPECT_EQ(review["accepted"][0]["bones"], (nlohmann::json{"crest"}));
    EXPECT_EQ(review["accepted"][0]["reason"], "moult");
    EXPECT_EQ(review["accepted"][0]["line"], 2);
    ASSERT_EQ(review["known"].size(), 1U);
    EXPECT_EQ(review["known"][0]["bones"], (nlohmann::json{"tuft"}));
    EXPECT_EQ(review["known"][0].count("reason"), 0U);
    EXPECT_EQ(review["gone"],
              nlohmann::json::parse(R"([{"check": "cycle", "bones": ["neck", "head"], "subject": "", "maker": "neck/track"}])"));
    EXPECT_EQ(review["has_baseline"], true);
}

TEST(Review, NobodySpeaksOfItWhereThereIsNone) {
    const Reported reported = without_review();
    EXPECT_EQ(nlohmann::json::parse(reported.json()).count("review"), 0U);
    for (const char* format : {"text", "sarif", "junit", "markdown"})
        for (const char* word : {"accepted", "baseline", "suppressions", "skipped message", "gone"})
            EXPECT_EQ(written(format, reported.report).find(word), std::string::npos) << format << ' ' << word;
}

TEST(Review, JUnitSkipsOnlyWhatDoesNotFail) {
    Reviewed reviewed;
    std::string text = written("junit", reviewed.report);
    EXPECT_NE(text.find("failures=\"1\" errors=\"0\" skipped=\"0\""), std::string::npos) << text;
    reviewed.review.findings.clear();
    text = written("junit", reviewed.report);
    EXPECT_NE(text.find("failures=\"0\" errors=\"0\" skipped=\"1\""), std::string::npos) << text;
    EXPECT_NE(text.find("<skipped message=\"1 accepted by rules, 1 known by the baseline\"/>"), std::string::npos) << text;
}

}  // namespace ligament::testing
