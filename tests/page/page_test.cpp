// Does a page hold what it is given, and nothing that could be run?
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "assets.hpp"
#include "html.hpp"
#include "ligament/page.hpp"
#include "tiny_rig.hpp"
#include "weight_tables.hpp"

namespace ligament::testing {
namespace {

/// A rig with its facts and a drawing of one page.
struct Paged {
    Rig rig;
    Dependencies dependencies = build_dependencies(rig);
    Facts facts = find_facts(rig, dependencies);
    std::vector<Finding> findings = find_findings(rig, dependencies, facts);
    Report report{"tiny.rig.json", rig, dependencies, facts, findings};
    State state = default_state(rig);
    std::vector<StateTable> tables = find_state_tables(rig, dependencies);
    Drawing drawing{{{View::plan, "plan", "tiny", none, "<svg></svg>"}}, "", ""};

    explicit Paged(std::string_view bones, std::string_view rest = {}) : rig(tiny_rig(bones, rest)) {}
    Paged(const Paged&) = delete;
    Paged& operator=(const Paged&) = delete;

    std::string html() const {
        std::ostringstream out;
        write_page(out, {report, state, drawing, tables});
        return out.str();
    }
    std::vector<WeightTable> weights() const {
        const std::vector<Switch>& switches = facts.switches.switches;
        return find_weight_tables(rig, dependencies, switches, find_choices(rig, switches, state), state);
    }
};

constexpr std::string_view blended =
    "{'name': 'ctl', 'roles': ['control']}, {'name': 'skin', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': "
    "'transform', "
    "'from': 'ctl', 'weight': {'expression': 'a * b', 'inputs': {'a': {'property': 'a'}, 'b': {'property': 'b'}}}}]}";

TEST(WeightTables, EveryCombinationOfTheSwitchesThatAWeightHangsOn) {
    const Paged paged(blended,
                      "'properties': [{'name': 'a', 'default': 0, 'stops': {'low': 0, 'half': 0.5, 'high': 1}}, "
                      "{'name': 'b', 'default': 0.25}]");
    const std::vector<WeightTable> tables = paged.weights();
    ASSERT_EQ(tables.size(), 1U);
    EXPECT_TRUE(tables[0].is_whole);
    EXPECT_EQ(tables[0].switches, (std::vector<std::uint32_t>{0, 1}));
    // a turns slowest; b stands at 0, at 1, and at its default, which is none of them.
    std::vector<double> weights;
    for (std::uint32_t row : tables[0].row_of) weights.push_back(tables[0].rows[row].weights[0]);
    EXPECT_EQ(weights, (std::vector<double>{0, 0, 0, 0, 0.5, 0.125, 0, 1, 0.25}));
    EXPECT_EQ(tables[0].rows[tables[0].row_of[7]].replaced, all_parts);
    EXPECT_EQ(tables[0].rows[tables[0].row_of[4]].replaced, 0);
}

TEST(WeightTables, OneSwitchAtATimeWhereThereAreTooManyCombinations) {
    std::string sum, inputs, properties;
    for (int i = 0; i < 9; ++i) {  // 2^9 is above the limit of 256
        const std::string name = "p" + std::to_string(i);
        sum += (i > 0 ? " + " : "") + name;
        inputs += (i > 0 ? ", '" : "'") + name + "': {'property': '" + name + "'}";
        properties += (i > 0 ? ", " : "") + ("{'name': '" + name + "', 'default': 0}");
    }
    const Paged paged(
        "{'name': 'ctl', 'roles': ['control']}, {'name': 'skin', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': "
        "'transform', 'from': 'ctl', 'weight': {'expression': '(" +
            sum + ") / 4', 'inputs': {" + inputs + "}}}]}",
        "'properties': [" + properties + "]");
    const std::vector<WeightTable> tables = paged.weights();
    ASSERT_EQ(tables.size(), 1U);
    EXPECT_FALSE(tables[0].is_whole);
    ASSERT_EQ(tables[0].row_of.size(), 1U + 9 * 2);
    for (std::size_t i = 0; i < tables[0].row_of.size(); ++i)
        EXPECT_EQ(tables[0].rows[tables[0].row_of[i]].weights[0], i > 0 && i % 2 == 0 ? 0.25 : 0.0) << i;
}

TEST(WeightTables, UnknownWeightsAreTheSameRow) {
    const Paged paged(
        "{'name': 'ctl', 'roles': ['control']}, {'name': 'skin', 'roles': ['deform'], 'constraints': [{'name': 'seat', 'kind': "
        "'transform', 'from': "
        "'ctl', 'weight': {'expression': 'a + x', 'inputs': {'a': {'property': 'a'}, 'x': {'bone': 'ctl', 'channel': "
        "'position.x'}}}}]}",
        "'properties': [{'name': 'a', 'default': 0}]");
    const std::vector<WeightTable> tables = paged.weights();
    ASSERT_EQ(tables.size(), 1U);
    ASSERT_EQ(tables[0].rows.size(), 1U);
    EXPECT_TRUE(std::isnan(tables[0].rows[0].weights[0]));
}

TEST(Page, NamesNeverBecomeMarkup) {
    Paged paged("{'name': '</script><img src=x onerror=harm()>', 'group': '<!--', 'roles': ['control', 'deform']}");
    paged.rig.name = "<b>{{data}}</b>";
    const std::string html = paged.html();
    EXPECT_EQ(html.find("<img"), std::string::npos);
    EXPECT_EQ(html.find("<b>{{"), std::string::npos);
    EXPECT_NE(html.find("\\u003c/script>\\u003cimg src=x"), std::string::npos);
    EXPECT_NE(html.find("<h1>&lt;b&gt;{{data}}&lt;/b&gt;</h1>"), std::string::npos) << "values are not looked through again";
}

TEST(Page, SameBytes) {
    const Paged one(blended, "'properties': [{'name': 'a'}, {'name': 'b'}]"),
        other(blended, "'properties': [{'name': 'a'}, {'name': 'b'}]");
    EXPECT_EQ(one.html(), other.html());
}

TEST(Page, PolicyNamesTheScriptByItsHash) {
    // SHA-256 of "abc", as in FIPS 180-2 appendix B.1 (from memory); its Base64 by coreutils' base64.
    EXPECT_EQ(page_policy("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
              "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; script-src "
              "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='");
    EXPECT_EQ(page_policy("").find("script-src"), std::string::npos);
}

TEST(Page, ScriptEndsNowhereButAtItsEnd) {
    EXPECT_EQ(page_script().find("</script"), std::string_view::npos);
    EXPECT_EQ(page_script().find("<!--"), std::string_view::npos);
    EXPECT_EQ(page_script().find('\r'), std::string_view::npos) << "a browser would hash another text";
}

TEST(PageIndex, ARowARig) {
    Paged paged("{'name': 'skin', 'roles': ['deform']}");
    paged.rig.name = "marsh & reed";
    std::ostringstream out;
    std::vector<IndexEntry> entries{index_entry(paged.report, "a b\"c.html"), {}};
    entries[1].source = "<bad>";
    entries[1].unreadable = "1 fault";
    write_page_index(out, entries);
    EXPECT_NE(out.str().find("<a href=\"a%20b%22c.html\">marsh &amp; reed</a>"), std::string::npos) << out.str();
    EXPECT_NE(out.str().find("&lt;bad&gt;</th><td colspan=\"8\">no page: 1 fault"), std::string::npos);
    EXPECT_NE(out.str().find("error: "), std::string::npos);
}

TEST(Page, HoldsDifferencesSideBySide) {
    const std::string html =
        Paged("{'name': 'eel_l', 'parent': 'pond'}, {'name': 'eel_r'}, {'name': 'pond'}", "'sides': [['_l', '_r']]").html();
    EXPECT_NE(html.find(R"("differences":[["parent","pond","none"]])"), std::string::npos);
    EXPECT_EQ(Paged(blended, "'properties': [{'name': 'a'}, {'name': 'b'}]").html().find(R"("differences":[[)"),
              std::string::npos);
}

}  // namespace
}  // namespace ligament::testing
