// Is what goes out piece by piece what nlohmann/json would have written whole?
#include "json_rows.hpp"

#include <gtest/gtest.h>

#include <initializer_list>
#include <random>
#include <sstream>
#include <streambuf>

namespace ligament::json_rows {
namespace {

std::string written(const std::string& text) {
    std::ostringstream stream;
    JsonOut out(stream);
    out.write_string(text);
    out.finish();
    return stream.str();
}

// The outside source is the writer of nlohmann/json.
TEST(JsonOut, WritesStringsAsNlohmannDoes) {
    const std::vector<std::string> texts{"",     "wing_l",  "egg \"blue\"", "nest\\rim",       "schilf_\xc3\xbc",
                                         "\x7f", "a\tb\nc", "\x01\x1f",     "\xff\xfe broken", "\xe2\x82",
                                         "/",    " ~"};
    for (const std::string& text : texts) EXPECT_EQ(written(text), text_of(Row(text)));
    for (unsigned c = 0; c < 256; ++c) {
        const std::string text(1, static_cast<char>(c));
        EXPECT_EQ(written(text), text_of(Row(text))) << c;
    }
    for (std::size_t size : std::initializer_list<std::size_t>{32766, 32767, 32768, 65533, 65534, 65535, 65536, 65537, 200'000}) {
        EXPECT_EQ(written(std::string(size, 'x')), text_of(Row(std::string(size, 'x')))) << size;
        EXPECT_EQ(written(std::string(size, '"')), text_of(Row(std::string(size, '"')))) << size;
    }
}

TEST(JsonOut, LosesNothingBetweenPieces) {
    std::mt19937 random(7);
    std::ostringstream stream;
    std::string expected;
    JsonOut out(stream);
    for (unsigned i = 0; i < 30'000; ++i) {
        const std::string text(random() % 40, i % 50 == 0 ? '\n' : 'a');
        out.write_string(text);
        out << ',' << i << std::string_view(text);
        expected += text_of(Row(text)) + "," + std::to_string(i) + text;
    }
    out.finish();
    EXPECT_TRUE(stream.str() == expected);
}

TEST(JsonOut, WritesTimesAsReportsDo) {
    for (double time : {0.0, -0.0, 1.0, 7.0, 0.5, 0.1 + 0.2, 123456.0, 999999999999.0, 1e12, 1e15, 123456789012.5, -3.0, 1e-20}) {
        std::ostringstream stream;
        JsonOut out(stream);
        out.write_time(time);
        out.finish();
        EXPECT_EQ(stream.str(), time_text(time));
    }
}

TEST(Fields, WriteWhatARowWouldBe) {
    Rig rig;
    for (const char* name : {"root", "egg \"blue\""}) rig.bones.emplace_back().name = name;
    const std::vector<BoneId> bones{1, 0};
    std::ostringstream stream;
    JsonOut out(stream);
    {
        Fields row(out);
        row.text("what", "a\\b");
        row.number("count", std::size_t{12});
        row.truth("moved", true);
        row.names("bones", rig, bones);
        row.list("none", std::vector<int>{}, [](int) {});
        row.list("inner", bones, [&](BoneId bone) { Fields(out).number("id", bone); });
    }
    { const Fields empty(out); }
    out.finish();
    const Row whole{{"what", "a\\b"},       {"count", 12},
                    {"moved", true},        {"bones", names_of(rig, bones)},
                    {"none", Row::array()}, {"inner", Row::array({Row{{"id", 1}}, Row{{"id", 0}}})}};
    EXPECT_EQ(stream.str(), text_of(whole) + "{}");
}

struct Full : std::streambuf {};  // takes nothing

TEST(JsonOut, TellsOfAStreamThatTakesNothing) {
    Full full;
    std::ostream quiet(&full), loud(&full);
    JsonOut out(quiet);
    out << std::string_view("reed");
    out.finish();
    EXPECT_FALSE(quiet.good());

    loud.exceptions(std::ios_base::badbit);
    EXPECT_THROW(
        {
            JsonOut to_loud(loud);
            const std::string much(100'000, 'x');
            to_loud << std::string_view(much);
            to_loud.finish();
        },
        std::ios_base::failure);
    EXPECT_EQ(loud.exceptions(), std::ios_base::badbit);
}

}  // namespace
}  // namespace ligament::json_rows
