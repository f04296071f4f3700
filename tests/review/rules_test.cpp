// Do rules files say what they say, together with what they extend, and is all that is wrong with them told?
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "ligament/review.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

namespace {

/// A folder of its own for each test, taken away after it.
class RulesFiles : public ::testing::Test {
  protected:
    RulesFiles() : folder_(std::filesystem::temp_directory_path() / ("ligament_rules_" + std::to_string(getpid()))) {
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_ / "show" / "birds");
    }
    ~RulesFiles() override { std::filesystem::remove_all(folder_); }

    /// Writes a rules file with these keys, single quotes for double ones; gives its path.
    std::string write(const std::string& name, std::string keys) {
        for (char& c : keys)
            if (c == '\'') c = '"';
        const std::string path = (folder_ / name).string();
        std::ofstream(path) << "{\"format\": \"rig-rules\", \"version\": 1" << (keys.empty() ? "" : ",\n") << keys << "}";
        return path;
    }
    std::string path(const std::string& name) const { return (folder_ / name).string(); }

    std::string faults(const std::string& file) {
        std::string text;
        for (const FaultyFile& faulty : read_rules(file).faulty)
            for (const Fault& fault : faulty.faults)
                text += std::filesystem::path(faulty.file).filename().string() + ":" + std::to_string(fault.place.line) + ":" +
                        std::to_string(fault.place.column) + ": " + fault.message + "\n";
        return text;
    }

    std::filesystem::path folder_;
};

}  // namespace

TEST_F(RulesFiles, EmptyOnesLayDownNothing) {
    const RulesResult result = read_rules(write("a.json", ""));
    ASSERT_TRUE(result.rules);
    EXPECT_TRUE(result.rules->severities.empty());
    EXPECT_EQ(result.rules->thresholds.fan_out, 64U);
    EXPECT_EQ(result.rules->costs.parent_link, 8U);
    EXPECT_FALSE(result.rules->roots);
}

TEST_F(RulesFiles, SayAllThatTheyCanSay) {
    const RulesResult result =
        read_rules(write("a.json",
                         "'severities': {'cycle': 'warning', 'switch-gap': 'off'},"
                         "'thresholds': {'fan_out': 3, 'pole_angle': 2.5}, 'costs': {'driver': 7},"
                         "'roots': 'world*', 'names': [{'of': {'role': ['control', 'deform'], 'group': "
                         "'wing*'}, 'names': ['*_ctl'], 'why': 'w'}],"
                         "'layers': [{'from': {'name': 'a'}, 'to': {}, 'allow': true},"
                         "{'from': {}, 'to': {'role': 'mechanism'}, 'require': true, 'extras': 1}],"
                         "'accepted': [{'check': 'cycle', 'rig': 'heron*', 'bones': ['b*'], 'maker': 'b/*', "
                         "'reason': 'r', 'until': '2028-02-29'}]"));
    ASSERT_TRUE(result.rules) << faults(path("a.json"));
    const Rules& rules = *result.rules;
    ASSERT_EQ(rules.severities.size(), 2U);
    EXPECT_EQ(rules.severities[0].second, Severity::warning);
    EXPECT_FALSE(rules.severities[1].second);
    EXPECT_EQ(rules.thresholds.fan_out, 3U);
    EXPECT_EQ(rules.thresholds.pole_angle, 2.5);
    EXPECT_EQ(rules.costs.driver, 7U);
    EXPECT_EQ(rules.costs.constraint, 2U);
    EXPECT_EQ(*rules.roots, std::vector<std::string>{"world*"});
    ASSERT_EQ(rules.names.size(), 1U);
    EXPECT_EQ(rules.names[0].of.roles, (std::vector{Role::control, Role::deform}));
    EXPECT_EQ(rules.names[0].of.groups, std::vector<std::string>{"wing*"});
    ASSERT_EQ(rules.layers.size(), 2U);
    EXPECT_EQ(rules.layers[0].says, LayerRule::Says::allowed);
    EXPECT_EQ(rules.layers[1].says, LayerRule::Says::required);
    ASSERT_EQ(rules.accepted.size(), 1U);
    EXPECT_EQ(rules.accepted[0].until, (Day{2028, 2, 29}));
}

TEST_F(RulesFiles, GoBeforeWhatTheyExtend) {
    write("base.json",
          "'severities': {'cycle': 'note', 'switch-gap': 'note'}, 'thresholds': {'fan_out': 3, 'rest_angle': 9},"
          "'layers': [{'from': {}, 'to': {}, 'allow': false, 'why': 'base'}], 'roots': ['x']");
    write("other.json", "'thresholds': {'rest_angle': 5}, 'extends': 'base.json'");
    const RulesResult result = read_rules(write("a.json",
                                                "'extends': ['base.json', 'other.json'], 'severities': {'cycle': 'error'},"
                                                "'thresholds': {'fan_out': 64}, 'roots': [],"
                                                "'layers': [{'from': {}, 'to': {}, 'allow': true, 'why': 'own'}]"));
    ASSERT_TRUE(result.rules);
    EXPECT_EQ(result.files.size(), 3U) << "each is read once";
    EXPECT_EQ(result.rules->severities.back(), (std::pair<std::string, std::optional<Severity>>{"cycle", Severity::error}));
    EXPECT_EQ(result.rules->thresholds.fan_out, 64U) << "back to the usual";
    EXPECT_EQ(result.rules->thresholds.rest_angle, 5);
    EXPECT_TRUE(result.rules->roots->empty());
    ASSERT_EQ(result.rules->layers.size(), 2U);
    EXPECT_EQ(result.rules->layers[0].why, "own");
}

TEST_F(RulesFiles, TellAllThatIsWrongInAllOfThem) {
    write("base.json", "'extends': 'a.json'");
    const std::string file =
        write("a.json",
              "'extends': ['base.json', 'missing.json'],\n'severities': {'cycel': 'off', 'cycle': 'bad'},\n"
              "'thresholds': {'fan_out': 1.5, 'pole': 1, 'rest_angle': -1},\n'costs': {'drivers': 1, 'solver': 0},\n"
              "'layers': [{'from': {'rol': 1}, 'to': {'role': 'defrom'}}, 4],\n"
              "'accepted': [{'check': 'cycle', 'reason': ' ', 'until': '2027-02-29'}], 'acepted': []");
    EXPECT_EQ(faults(file),
              "a.json:3:16: unknown check \"cycel\", nearest is \"cycle\"\n"
              "a.json:3:41: the severity of a check is \"error\", \"warning\", \"note\" or \"off\", found \"bad\"\n"
              "a.json:4:27: \"fan_out\" wants a whole number, found 1.5\n"
              "a.json:4:32: unknown threshold \"pole\"\n"
              "a.json:4:57: \"rest_angle\" wants a number from 0 to 180, found the number -1\n"
              "a.json:5:11: unknown kind of maker \"drivers\", nearest is \"driver\"\n"
              "a.json:5:35: \"solver\" wants a number from 1 to 1e+06, found the number 0\n"
              "a.json:6:12: a layer rule has either \"allow\" (true or false) or \"require\" (true)\n"
              "a.json:6:22: unknown key \"rol\" in the bones of a layer rule, nearest is \"role\"\n"
              "a.json:6:40: unknown role \"defrom\", nearest is \"deform\"\n"
              "a.json:6:60: a layer rule is an object, found the number 4\n"
              "a.json:7:43: an accepted finding wants a reason, found none in it\n"
              "a.json:7:57: \"until\" wants a day such as \"2027-01-31\", found \"2027-02-29\"\n"
              "a.json:7:73: unknown key \"acepted\" in a rules file, nearest is \"accepted\"\n"
              "base.json:2:12: \"extends\" goes in a circle: \"" +
                  path("a.json") + "\" extends this file\nmissing.json:0:0: No such file or directory\n");
    EXPECT_FALSE(read_rules(file).rules);
}

TEST_F(RulesFiles, AreFoundInTheNearestFolderAbove) {
    write("ligament.rules.json", "");
    EXPECT_EQ(find_rules_file(path("show/birds/heron.rig.json")), path("ligament.rules.json"));
    write("show/ligament.rules.json", "");
    EXPECT_EQ(find_rules_file(path("show/birds/heron.rig.json")), path("show/ligament.rules.json"));
    EXPECT_EQ(find_rules_file(path("show/birds/../../x.json")), path("ligament.rules.json"));
}

TEST(RulesRoots, TakeThePlaceOfTheRigsOwn) {
    Rig rig = tiny_rig("{'name': 'world'}, {'name': 'world_2'}, {'name': 'hip'}", "'roots': ['hip']");
    Rules rules;
    apply_roots(rig, rules);
    EXPECT_EQ(*rig.roots, std::vector<BoneId>{2});
    rules.roots = {"world*", "nobody"};
    apply_roots(rig, rules);
    EXPECT_EQ(*rig.roots, (std::vector<BoneId>{0, 1}));
}

}  // namespace ligament::testing
