// Which findings count, once rules and a baseline were looked at?
#include <gtest/gtest.h>

#include "ligament/review.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

const Day day{2026, 11, 27};

Finding finding(std::string check, std::vector<BoneId> bones, std::string maker = {}) {
    Finding made;
    made.check = std::move(check);
    made.bones = std::move(bones);
    made.maker = std::move(maker);
    made.message = "m";
    return made;
}

Rig two_bones() { return tiny_rig("{'name': 'wing'}, {'name': 'leg'}"); }

std::string counted(const Rig& rig, const Review& review) {
    std::string text;
    for (const Finding& one : review.findings) text += one.check + " " + rig.bones[one.bones[0]].name + " " + one.maker + "\n";
    return text;
}

}  // namespace

TEST(Review, NothingIsSetAsideWithoutRulesAndBaseline) {
    const Rig rig = two_bones();
    const Review review = review_findings(rig, {finding("cycle", {0})}, {}, nullptr, day);
    EXPECT_EQ(counted(rig, review), "cycle wing \n");
    EXPECT_TRUE(review.set_aside.empty());
    EXPECT_FALSE(review.has_baseline);
}

TEST(Review, AnAcceptanceFitsByAllThatItSays) {
    const Rig rig = two_bones();
    Rules rules;
    rules.accepted.push_back({.check = "cycle", .rigs = {}, .bones = {"wi*"}, .subject = {}, .maker = "*/fk", .reason = "known"});
    const std::vector<Finding> findings{finding("cycle", {0}, "wing/fk"), finding("cycle", {0}, "wing/ik"),
                                        finding("cycle", {0, 1}, "leg/fk"), finding("switch-gap", {0}, "wing/fk")};
    const Review review = review_findings(rig, findings, rules, nullptr, day);
    EXPECT_EQ(counted(rig, review), "cycle wing wing/ik\ncycle wing leg/fk\nswitch-gap wing wing/fk\n");
    ASSERT_EQ(review.set_aside.size(), 1U);
    EXPECT_EQ(review.set_aside[0].reason, "known");
    rules.accepted[0].rigs = {"some other rig"};
    EXPECT_EQ(review_findings(rig, findings, rules, nullptr, day).findings.size(), 4U);
}

TEST(Review, AnAcceptanceEndsAfterItsDay) {
    const Rig rig = two_bones();
    Rules rules;
    rules.accepted.push_back(
        {.check = "cycle", .rigs = {}, .bones = {}, .subject = {}, .maker = {}, .reason = "known", .until = day});
    EXPECT_TRUE(review_findings(rig, {finding("cycle", {0})}, rules, nullptr, day).findings.empty());
    const Review later = review_findings(rig, {finding("cycle", {0})}, rules, nullptr, {2026, 11, 28});
    ASSERT_EQ(later.findings.size(), 1U);
    EXPECT_EQ(later.findings[0].hint, "it was accepted up to 2026-11-27 (known) and counts again");
}

TEST(Review, ABaselineKnowsByIdentityAndTellsWhatIsGone) {
    const Rig rig = two_bones();
    const KnownFindings known{"x", {{"cycle", {"wing"}, "", "a"}, {"cycle", {"leg"}, "", ""}, {"cycle", {"leg"}, "", ""}}};
    Finding moved = finding("cycle", {0}, "a");
    moved.place = {99, 1};
    moved.message = "said otherwise";
    moved.severity = Severity::error;
    const Review review = review_findings(rig, {moved, finding("cycle", {0}, "b")}, {}, &known, day);
    EXPECT_EQ(counted(rig, review), "cycle wing b\n");
    ASSERT_EQ(review.set_aside.size(), 1U);
    EXPECT_EQ(review.set_aside[0].by, SetAside::By::baseline);
    EXPECT_EQ(review.gone, (std::vector<Identity>{{"cycle", {"leg"}, "", ""}}));
}

TEST(Review, WhatRulesAcceptIsNotGoneFromTheBaseline) {
    const Rig rig = two_bones();
    Rules rules;
    rules.accepted.push_back({.check = "cycle", .rigs = {}, .bones = {}, .subject = {}, .maker = {}, .reason = "known"});
    const KnownFindings known{"x", {{"cycle", {"wing"}, "", ""}}};
    EXPECT_TRUE(review_findings(rig, {finding("cycle", {0})}, rules, &known, day).gone.empty());
}

// Gregorian calendar: 2000 and 2028 are leap years, 2100 is none (common knowledge, ISO 8601 for the form).
TEST(Days, AreThoseOfTheCalendar) {
    EXPECT_EQ(read_day("2026-11-27"), day);
    for (const char* good : {"2000-02-29", "2028-02-29", "0001-01-01", "9999-12-31"}) EXPECT_TRUE(read_day(good)) << good;
    for (const char* bad : {"2100-02-29", "2027-02-29", "2027-13-01", "2027-00-01", "2027-04-31", "27-01-01", "2027-1-01",
                            "2027-01-011", "2027/01/01", "2027-01-0x", "+027-01-01", ""})
        EXPECT_FALSE(read_day(bad)) << bad;
}

TEST(Baselines, ComeBackAsTheyWereWritten) {
    Baseline baseline;
    baseline.put({"b.rig.json", {{"cycle", {"wing", "le\"g"}, "", "leg/fk"}, {"cycle", {}, "mode", ""}}});
    baseline.put({"a.rig.json", {}});
    const std::string text = write_baseline(baseline);
    const BaselineResult again = read_baseline(text);
    ASSERT_TRUE(again.baseline);
    EXPECT_EQ(again.baseline->rigs.front().source, "a.rig.json");
    ASSERT_NE(again.baseline->find("b.rig.json"), nullptr);
    EXPECT_EQ(again.baseline->find("b.rig.json")->findings.size(), 2U);
    EXPECT_EQ(write_baseline(*again.baseline), text);
    EXPECT_EQ(again.baseline->find("c.rig.json"), nullptr);
}

TEST(Baselines, WhatIsNoneIsAFaultAndNeverAnEmptyOne) {
    for (const char* text :
         {"", "{}", "[]", "{\"format\": \"rig-baseline\"}", "{\"format\": \"rig-baseline\", \"version\": 2, \"rigs\": []}",
          "{\"format\": \"rig-report\", \"version\": 1, \"rigs\": []}", "{\"format\": \"rig-baseline\", \"version\": 1}",
          "{\"format\": \"rig-baseline\", \"version\": 1, \"rigs\": [",
          "{\"format\": \"rig-baseline\", \"version\": 1, \"rigs\": {}}",
          "{\"format\": \"rig-baseline\", \"version\": 1, \"rigs\": [{\"source\": \"a\"}]}",
          "{\"format\": \"rig-baseline\", \"version\": 1, \"rigs\": [{\"source\": \"a\", \"findings\": [{\"check\": "
          "\"cycle\"}]}]}",
          "{\"format\": \"rig-baseline\", \"version\": 1, \"rigs\": [{\"source\": \"a\", \"findings\": []}, {\"source\": \"a\", "
          "\"findings\": []}]}"}) {
        const BaselineResult result = read_baseline(text);
        EXPECT_FALSE(result.baseline) << text;
        EXPECT_FALSE(result.faults.empty()) << text;
    }
}

}  // namespace ligament::testing
