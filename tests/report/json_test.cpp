// Does the JSON report keep its contract: keys, their order, and what stands in them?
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "reported.hpp"

namespace ligament::testing {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view wing =
    "{'name': 'root', 'roles': ['control']},\n"
    "{'name': 'ik', 'roles': ['control'], 'parent': 'root'},\n"
    "{'name': 'mech', 'parent': 'root', 'constraints': [\n"
    "  {'name': 'follow', 'kind': 'transform', 'from': 'ik',\n"
    "   'weight': {'expression': 's', 'inputs': {'s': {'property': 'mode'}}}}]},\n"
    "{'name': 'arm', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': 'transform', 'from': 'mech'}]}";
constexpr std::string_view mode =
    "'properties': [{'name': 'mode', 'on': 'ik', 'default': 1}], 'objects': [{'name': 'skin', 'follows': ['arm']}]";

std::vector<std::string> keys_of(const Json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key);
    return keys;
}

using Keys = std::vector<std::string>;

}  // namespace

TEST(JsonReport, HasTheKeysOfTheContractInOrder) {
    const Json report = Json::parse(Reported(wing, mode).json());
    EXPECT_EQ(keys_of(report), (Keys{"format", "version", "rig", "source", "state", "counts", "cycles", "order", "attachment",
                                     "states", "fan_out", "findings"}));
    EXPECT_EQ(report["state"], "default");
    EXPECT_EQ(report["format"], "rig-report");
    EXPECT_EQ(report["version"], 1);
    EXPECT_EQ(report["rig"], "tiny");
    EXPECT_EQ(report["source"], "tiny.rig.json");
}

TEST(JsonReport, CountsElementsAndGraphs) {
    const Reported reported(wing, mode);
    const Json counts = Json::parse(reported.json())["counts"];
    EXPECT_EQ(keys_of(counts), (Keys{"bones", "deform", "controls", "mechanism", "constraints", "drivers", "properties",
                                     "objects", "vertices", "edges"}));
    EXPECT_EQ(counts["bones"], 4);
    EXPECT_EQ(counts["deform"], 1);
    EXPECT_EQ(counts["controls"], 2);
    EXPECT_EQ(counts["mechanism"], 1);
    EXPECT_EQ(counts["constraints"], 2);
    EXPECT_EQ(counts["drivers"], 1);
    EXPECT_EQ(counts["properties"], 1);
    EXPECT_EQ(counts["objects"], 1);
    // Bone grain: 4 bones, a property, a driver, an object.
    EXPECT_EQ(counts["vertices"]["bone"], 7);
    EXPECT_EQ(counts["edges"]["channel"], reported.dependencies.at(reported.rig, Grain::channel).edges.size());
    EXPECT_EQ(keys_of(counts["vertices"]), (Keys{"bone", "step", "channel"}));
}

TEST(JsonReport, ABoneOfBothRolesCountsAsBoth) {
    const Json counts = Json::parse(Reported("{'name': 'a', 'roles': ['control', 'deform']}").json())["counts"];
    EXPECT_EQ(counts["deform"], 1);
    EXPECT_EQ(counts["controls"], 1);
    EXPECT_EQ(counts["mechanism"], 0);
}

TEST(JsonReport, OrderHasBonesLevelsAndLongestChain) {
    const Json order = Json::parse(Reported(wing, mode).json())["order"];
    EXPECT_EQ(keys_of(order), (Keys{"bones", "levels", "longest_chain", "slack", "widths", "blocked", "schedule", "grain"}));
    EXPECT_EQ(order["bones"], (Json{"root", "ik", "mech", "arm"}));
    EXPECT_EQ(order["levels"], Json::parse(R"([["root"], ["ik"], ["mech"], ["arm"]])"));
    EXPECT_EQ(order["longest_chain"], (Json{"root", "ik", "mech", "arm"}));
    EXPECT_EQ(order["grain"], "bone");
}

TEST(JsonReport, AttachmentAndFanOut) {
    const Json report = Json::parse(Reported(wing, mode).json());
    EXPECT_EQ(report["attachment"], Json::parse(R"([{"bone": "arm", "verdict": "attached", "controls": ["root", "ik"],
                                                  "worse_in": []}])"));
    EXPECT_EQ(report["fan_out"][0]["property"], "mode");
    EXPECT_EQ(keys_of(report["fan_out"][0]),
              (Keys{"property", "weights", "channels", "properties", "constraints", "bones_moved"}));
    EXPECT_EQ(report["fan_out"][0]["weights"], 1);
    EXPECT_EQ(report["fan_out"][0]["constraints"], (Json{"mech/follow"}));
    EXPECT_EQ(report["fan_out"][0]["bones_moved"], 2);
}

TEST(JsonReport, ControlsAreLeftOutWhereTheyWereNotListed) {
    Reported reported(wing, mode);
    reported.facts.attachment.controls_listed = false;
    const Json row = Json::parse(reported.json())["attachment"][0];
    EXPECT_EQ(keys_of(row), (Keys{"bone", "verdict", "worse_in"}));
}

TEST(JsonReport, NamesTheStatesInWhichABoneIsWorse) {
    const std::string_view bones =
        "{'name': 'a', 'roles': ['control']}, {'name': 'b', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], "
        "'constraints': ["
        "{'kind': 'aim', 'from': 'a', 'weight': {'expression': '1 - s', 'inputs': {'s': {'property': 'p'}}}},"
        "{'kind': 'aim', 'from': 'b', 'weight': {'expression': '1 - s', 'inputs': {'s': {'property': 'q'}}}}]},"
        "{'name': 'e', 'roles': ['deform'], 'constraints': [{'kind': 'transform', 'from': 'a', 'weight': {'expression': '1 - s', "
        "'inputs': {'s': {'property': 'p'}}}}]}";
    const Json report =
        Json::parse(Reported(bones, "'properties': [{'name': 'p', 'stops': {'on': 0, 'off': 1}}, {'name': 'q'}]").json());
    EXPECT_EQ(report["attachment"][0]["worse_in"], Json::array());
    EXPECT_EQ(report["attachment"][0]["worse_in_combinations"],
              Json::parse(R"([{"state": "p=off + q=1", "switches": ["p=off", "q=1"], "verdict": "orphaned"}])"));
    EXPECT_EQ(report["attachment"][1]["worse_in"], Json::parse(R"([{"state": "p=off", "verdict": "orphaned"}])"));
    EXPECT_FALSE(report["attachment"][1].contains("worse_in_combinations"));
    EXPECT_EQ(report["states"], Json::parse(R"({"switches": [
        {"property": "p", "stops": [{"state": "p=on", "value": 0.0}, {"state": "p=off", "value": 1.0}]},
        {"property": "q", "stops": [{"state": "q=0", "value": 0.0}, {"state": "q=1", "value": 1.0}]}],
        "looked_at": 6, "sets": [{"switches": ["p", "q"], "combinations": 1, "looked_at": 1}]})"));
}

TEST(JsonReport, CycleWithWitnessAndCores) {
    const Json report =
        Json::parse(Reported("{'name': 'neck', 'constraints': [{'name': 'track', 'kind': 'rotation', 'from': 'head'}]},\n"
                             "{'name': 'head', 'parent': 'neck'}")
                        .json());
    EXPECT_EQ(report["cycles"], Json::parse(R"([{"bones": ["neck", "head"], "grain": "channel",
        "witness": [{"from": "neck", "to": "head", "kind": "parent", "by": "head", "line": 2, "column": 1},
                    {"from": "head", "to": "neck", "kind": "constraint", "by": "neck/track", "line": 1, "column": 104}],
        "cut": [{"from": "head", "to": "neck", "kind": "constraint", "by": "neck/track", "cost": 2, "line": 1, "column": 104}],
        "cut_cost": 2, "cut_exact": true, "cut_loses": [],
        "cores": [["neck", "head"]], "live_in": ["default"]}])"));
}

TEST(JsonReport, CutsSayWhatTheyLose) {
    Reported reported(
        "{'name': 'c', 'roles': ['control']}, {'name': 'd', 'roles': ['deform'], 'constraints': [{'name': 'x', 'kind': "
        "'rotation', 'from': 'e'}]}, {'name': 'e', 'parent': 'd', 'constraints': [{'name': 'y', 'kind': "
        "'rotation', 'from': 'c', 'weight': 0.5}]}");
    Json cycle = Json::parse(reported.json())["cycles"][0];
    EXPECT_EQ(cycle["cut_loses"], Json::parse(R"([{"bone": "d", "controls": ["c"]}])"));
    for (const char* key : {"cut_at_least", "cut_first", "cut_loses_looked_at", "cut_loses_of", "finer_cut", "circuits"})
        EXPECT_EQ(cycle.count(key), 0U) << key;
    Cut& cut = reported.facts.cuts[0].cut;
    cut.is_exact = false;
    cut.at_least = 1;
    cut.deform_behind = 5;
    cut.deform_looked_at = 3;
    cycle = Json::parse(reported.json())["cycles"][0];
    EXPECT_EQ(cycle["cut_exact"], false);
    EXPECT_EQ(cycle["cut_at_least"], 1);
    EXPECT_EQ(cycle["cut_loses_looked_at"], 3);
    EXPECT_EQ(cycle["cut_loses_of"], 5);
    cut.is_exact = true;
    cut.is_first = false;
    EXPECT_EQ(Json::parse(reported.json())["cycles"][0]["cut_first"], false);
}

TEST(JsonReport, LoopOfPropertiesHasNoBonesAndPropertiesAsEnds) {
    const Json cycle =
        Json::parse(Reported("{'name': 'a'}",
                             "'properties': [{'name': 'p', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'q'}}}},"
                             "{'name': 'q', 'value': {'expression': 'x', 'inputs': {'x': {'property': 'p'}}}}]")
                        .json())["cycles"][0];
    EXPECT_EQ(cycle["bones"], Json::array());
    EXPECT_EQ(cycle["properties"], (Json{"p", "q"}));
    EXPECT_EQ(cycle["witness"][0]["from"], "p");
    EXPECT_EQ(cycle["witness"][0]["to"], "q");
    EXPECT_EQ(cycle["witness"].size(), 2U);
}

TEST(JsonReport, SaysWhenAWitnessMayNotBeTheShortest) {
    Reported reported("{'name': 'a', 'constraints': [{'kind': 'transform', 'from': 'b'}]}, {'name': 'b', 'parent': 'a'}");
    EXPECT_EQ(Json::parse(reported.json())["cycles"][0].count("witness_shortest"), 0U);
    reported.facts.cycles[0].witness_is_shortest = false;
    EXPECT_EQ(Json::parse(reported.json())["cycles"][0]["witness_shortest"], false);
}

TEST(JsonReport, FindingsCarrySubjectOnlyWhereSet) {
    const Json findings = Json::parse(
        Reported("{'name': 'd', 'roles': ['deform']}", "'properties': [{'name': 'p', 'on': 'd'}]").json())["findings"];
    ASSERT_EQ(findings.size(), 2U);
    EXPECT_EQ(keys_of(findings[0]), (Keys{"check", "severity", "message", "hint", "bones", "line", "column"}));
    EXPECT_EQ(findings[0]["check"], "deform-orphaned");
    EXPECT_EQ(findings[0]["severity"], "error");
    EXPECT_EQ(findings[0]["bones"], (Json{"d"}));
    EXPECT_EQ(keys_of(findings[1]), (Keys{"check", "severity", "message", "hint", "bones", "subject", "line", "column"}));
    EXPECT_EQ(findings[1]["subject"], "p");
    EXPECT_EQ(findings[1]["line"], 2);
}

TEST(JsonReport, EmptyListsAreEmptyArrays) {
    const Json report = Json::parse(Reported("").json());
    for (const char* key : {"cycles", "attachment", "fan_out", "findings"}) EXPECT_EQ(report[key], Json::array()) << key;
    EXPECT_EQ(report["order"]["bones"], Json::array());
    EXPECT_EQ(report["order"]["levels"], Json::array());
}

TEST(JsonReport, AwkwardNamesComeBackAsTheyWere) {
    Rig rig;
    rig.name = "quote \" back\\slash";
    for (std::string name : {"tab\tnew\nline", "\x1b[31m", "羽", "\xe2\x80\xae", "</script>"}) {
        rig.bones.emplace_back().name = name;
        rig.bones.back().deform = true;
    }
    const Rig kept = rig;
    const Json report = Json::parse(Reported(std::move(rig)).json());
    EXPECT_EQ(report["rig"], kept.name);
    for (std::size_t i = 0; i < kept.bones.size(); ++i) {
        EXPECT_EQ(report["order"]["bones"][i], kept.bones[i].name);
        EXPECT_EQ(report["attachment"][i]["bone"], kept.bones[i].name);
    }
}

TEST(JsonReport, BytesThatAreNoUtf8ThrowNothing) {
    Rig rig;
    rig.name = "\xff";
    rig.bones.emplace_back().name = "a\xc3";
    EXPECT_EQ(Json::parse(Reported(std::move(rig)).json())["rig"], "\xef\xbf\xbd");
}

TEST(JsonReport, OneElementALineAndANewlineAtTheEnd) {
    const std::string text = Reported("{'name': 'a', 'roles': ['deform']}, {'name': 'b', 'roles': ['deform']}").json();
    EXPECT_NE(text.find("\n    {\"bone\":\"a\",\"verdict\":\"orphaned\",\"controls\":[],\"worse_in\":[]},\n    {\"bone\":\"b\""),
              std::string::npos)
        << text;
    EXPECT_TRUE(text.ends_with("\n}\n"));
}

TEST(JsonReport, SameRigSameBytes) { EXPECT_EQ(Reported(wing, mode).json(), Reported(wing, mode).json()); }

TEST(OrderJson, HasTheChainWithItsEdges) {
    const Json order = Json::parse(Reported(wing, mode).order_json());
    EXPECT_EQ(keys_of(order), (Keys{"format", "version", "rig", "source", "state", "grain", "bones", "levels", "longest_chain",
                                    "longest_chain_edges", "slack", "widths", "blocked", "schedule"}));
    EXPECT_EQ(order["format"], "rig-order");
    ASSERT_EQ(order["longest_chain_edges"].size(), 3U);
    EXPECT_EQ(order["longest_chain_edges"][1],
              Json::parse(R"({"from": "ik", "to": "mech", "kind": "constraint", "by": "mech/follow", "line": 4, "column": 3})"));
}

}  // namespace ligament::testing
