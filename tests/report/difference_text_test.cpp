// Do things that ought to be alike stand side by side, within the width?
#include "difference_text.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "reported.hpp"

namespace ligament::testing {

namespace {

std::string table(const std::vector<Difference>& differences, unsigned width, std::vector<BoneId> bones = {0, 1}) {
    Finding finding;
    finding.bones = std::move(bones);
    finding.differences = differences;
    std::ostringstream out;
    write_differences(out, tiny_rig("{'name': 'eel_l'}, {'name': 'eel_r'}"), finding, {.width = width}, 2);
    return out.str();
}

constexpr std::string_view two_eels =
    "{'name': 'eel_l', 'roles': ['control'], 'parent': 'pond'}, {'name': 'eel_r', 'roles': ['control']}, {'name': 'pond'}";
constexpr std::string_view sides = "'sides': [['_l', '_r']]";

}  // namespace

TEST(Differences, AreHeadedByTheTwoBones) {
    EXPECT_EQ(table({{"parent", "pond", ""}, {"weight of \"fk\"", "1", "0.5"}}, 80),
              "                  eel_l  eel_r\n"
              "  parent          pond   -\n"
              "  weight of \"fk\"  1      0.5\n");
    EXPECT_EQ(table({{"parent", "pond", "reed"}}, 80, {0}), "  parent  pond  reed\n");
    EXPECT_EQ(table({}, 80), "");
}

TEST(Differences, BreakWithinTheirColumns) {
    EXPECT_EQ(table({{"rest position", "0.125, 0.25, 0.5", "a_name_without_any_space"}}, 40),
              "               eel_l        eel_r\n"
              "  rest         0.125,       a_name_witho\n"
              "  position     0.25, 0.5    ut_any_space\n");
}

TEST(Differences, NoCharacterIsTornAndNothingUnsafeIsPrinted) {
    const std::string text = table(
        {{"name", "\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba\xe9\xb7\xba",
          "\x1b[31m"}},
        38);
    EXPECT_NE(text.find("\\x1b[31m"), std::string::npos);
    EXPECT_EQ(printable(text.substr(0, text.find('\n'))), text.substr(0, text.find('\n')));
    EXPECT_EQ(text.find("\\xe9"), std::string::npos);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(columns_of(line), 38U) << line;
}

TEST(Differences, StandInTheTextReportBeforeTheHint) {
    const std::string text = Reported(two_eels, sides).text();
    EXPECT_NE(text.find("    \"eel_l\" and \"eel_r\" differ in 1 thing: parent\n"
                        "              eel_l  eel_r\n"
                        "      parent  pond   none\n"
                        "    hint: "),
              std::string::npos)
        << text;
}

TEST(Differences, StandInTheJsonReportWhereThereAreSome) {
    using Json = nlohmann::ordered_json;
    const Json report = Json::parse(Reported(std::string(two_eels) + ", {'name': 'frog_r', 'parent': 'eel_l'}", sides).json());
    std::size_t with_differences = 0, with_maker = 0;
    for (const Json& finding : report["findings"]) {
        if (finding["check"] == "side-differs") {
            ++with_differences;
            EXPECT_EQ(finding["differences"].dump(), R"([{"what":"parent","left":"pond","right":"none"}])");
            EXPECT_FALSE(finding.contains("maker"));
        } else {
            EXPECT_FALSE(finding.contains("differences")) << finding;
        }
        if (finding["check"] == "side-crossed") {
            ++with_maker;
            EXPECT_EQ(finding["maker"], "frog_r");
        }
    }
    EXPECT_EQ(with_differences, 1U);
    EXPECT_EQ(with_maker, 1U);
}

}  // namespace ligament::testing
