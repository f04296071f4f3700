// Does SARIF say what its schema cannot ask for: which part of a graph, which text, which fingerprint?
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "fingerprint.hpp"
#include "reported.hpp"
#include "reviewed.hpp"
#include "sarif_graph.hpp"

namespace ligament::testing {

namespace {

constexpr std::string_view chain =
    "{'name': 'a', 'roles': ['control']}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'}, {'name': 'd', 'parent': "
    "'c'},"
    "{'name': 'lost', 'roles': ['deform']}, {'name': 'gone', 'roles': ['deform']}";

std::vector<bool> shown_with(const Report& report, std::vector<BoneId> bones, std::size_t most) {
    Finding finding;
    finding.bones = std::move(bones);
    const std::vector<const Finding*> findings{&finding};
    return sarif::graph_to_show(report, findings, most).is_shown;
}

}  // namespace

// From memory: the test vectors of FNV-1a of 128 bits.
TEST(Fingerprint, IsFnv1a) {
    EXPECT_EQ(fnv1a_128(""), "6c62272e07bb014262b821756295c58d");
    EXPECT_EQ(fnv1a_128("a"), "d228cb696f1a8caf78912b704e4a8964");
    EXPECT_EQ(fnv1a_128("ab"), "08809544bbab1be95aa0733055b69a62");
}

TEST(Fingerprint, TellsApartWhatStandsInOtherParts) {
    const std::vector<Identity> identities{{"x", {"a", "b"}, "", ""}, {"x", {"a\",\"b"}, "", ""}, {"x", {"a,b"}, "", ""},
                                           {"x", {"a"}, "b", ""},     {"x", {"a"}, "", "b"},      {"xa", {}, "b", ""}};
    std::vector<std::string> prints;
    for (const Identity& identity : identities) prints.push_back(fingerprint_of(identity));
    EXPECT_EQ(fingerprint_of(identities[0]), fnv1a_128(R"(["x",["a","b"],"",""])"));
    std::sort(prints.begin(), prints.end());
    EXPECT_EQ(std::unique(prints.begin(), prints.end()), prints.end());
}

TEST(SarifGraph, IsWholeUpToTheLimit) {
    const Reported reported(chain);
    const std::size_t parts = reported.dependencies.bone.vertices.size() + reported.dependencies.bone.edges.size();
    EXPECT_EQ(parts, 9U);
    EXPECT_EQ(shown_with(reported.report, {}, parts), std::vector<bool>(6, true));
    EXPECT_EQ(shown_with(reported.report, {}, parts - 1), std::vector<bool>(6, false));
}

TEST(SarifGraph, ShowsWhatFindingsAreAboutWithItsNeighbours) {
    const Reported reported(chain);
    EXPECT_EQ(shown_with(reported.report, {1}, 8), (std::vector<bool>{true, true, true, false, false, false}));
    EXPECT_EQ(shown_with(reported.report, {4}, 8), (std::vector<bool>{false, false, false, false, true, false}));
}

TEST(SarifGraph, CountsTheFindingsThatFoundRoom) {
    const Reported reported(chain);
    std::vector<const Finding*> findings;
    for (const Finding& finding : reported.findings)
        if (finding.check == "deform-orphaned") findings.push_back(&finding);
    ASSERT_EQ(findings.size(), 2U);  // "lost" and "gone", of one vertex each
    const sarif::ShownGraph one = sarif::graph_to_show(reported.report, findings, 1);
    EXPECT_EQ(one.findings, 1U);
    EXPECT_EQ(one.all_findings, 2U);
    EXPECT_FALSE(one.is_whole);
    EXPECT_EQ(std::count(one.is_shown.begin(), one.is_shown.end(), true), 1);
}

TEST(SarifGraph, ACycleWhoseEdgesAreNotShownHasNoTraversal) {
    const Reported reported(
        "{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'rotation', 'from': 'head'}]},"
        "{'name': 'head', 'parent': 'neck'}");
    sarif::ShownGraph shown = sarif::graph_to_show(reported.report, {});
    const auto traversal = sarif::traversal_of(reported.report, shown, reported.facts.cycles[0]);
    ASSERT_TRUE(traversal);
    EXPECT_EQ((*traversal)["edgeTraversals"].size(), 2U);
    shown.is_shown[1] = false;
    EXPECT_FALSE(sarif::traversal_of(reported.report, shown, reported.facts.cycles[0]));
}

// SARIF 2.1.0, 3.11.5 and 3.11.6 (from memory).
TEST(SarifText, NamesAreNeitherPlaceholdersNorLinks) {
    EXPECT_EQ(sarif::escaped("{0} of a[1]"), "{{0}} of a[1]");
    EXPECT_EQ(sarif::escaped("[a](b)"), "\\[a\\](b)");
    EXPECT_EQ(sarif::escaped("\x1b"), "\\x1b");
}

TEST(SarifText, PathsAreUriReferences) {
    EXPECT_EQ(sarif::uri_of("rigs/heron.rig.json"), "rigs/heron.rig.json");
    EXPECT_EQ(sarif::uri_of("././/x"), "x");
    EXPECT_EQ(sarif::uri_of("../x"), "../x");
    EXPECT_EQ(sarif::uri_of("a:b c\xff"), "a%3Ab%20c%FF");
    EXPECT_EQ(sarif::uri_of("/rigs/x"), "file:///rigs/x");
}

TEST(Sarif, StandardInputIsNoFile) {
    Reported reported("{'name': 'd', 'roles': ['deform']}");
    reported.report.source = "-";
    const auto document = nlohmann::json::parse(written("sarif", reported.report));
    const auto& run = document["runs"][0];
    EXPECT_EQ(run["artifacts"][0]["location"].count("uri"), 0U);
    EXPECT_EQ(run["artifacts"][0]["roles"], (nlohmann::json{"analysisTarget", "standardStream"}));
    EXPECT_EQ(run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"], (nlohmann::json{{"index", 0}}));
}

TEST(Sarif, DifferencesAndPointersStandAmongTheProperties) {
    Reported reported("{'name': 'd', 'roles': ['deform']}");
    reported.findings[0].differences = {{"weight of fk", "1", ""}};
    reported.findings[0].pointer = "/nodes/3";
    const auto document = nlohmann::json::parse(written("sarif", reported.report));
    EXPECT_EQ(document["runs"][0]["results"][0]["properties"],
              nlohmann::json::parse(
                  R"({"jsonPointer": "/nodes/3", "differences": [{"what": "weight of fk", "left": "1", "right": ""}]})"));
}

TEST(Sarif, AcceptedOnesAreSuppressedAndGoneOnesAbsent) {
    const Reviewed reviewed;
    const auto results = nlohmann::json::parse(written("sarif", reviewed.report))["runs"][0]["results"];
    ASSERT_EQ(results.size(), 4U);
    EXPECT_EQ(results[0]["baselineState"], "new");
    EXPECT_EQ(results[1]["suppressions"],
              nlohmann::json::parse(R"([{"kind": "external", "status": "accepted", "justification": "moult"}])"));
    EXPECT_EQ(results[1].count("baselineState"), 0U);
    EXPECT_EQ(results[2]["baselineState"], "unchanged");
    EXPECT_EQ(results[3]["baselineState"], "absent");
    EXPECT_EQ(results[3]["message"]["text"], "not found any more: cycle of \"neck\", \"head\" (neck/track)");
}

}  // namespace ligament::testing
