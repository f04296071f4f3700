// Does the scanner of JSON agree with nlohmann/json, another reader of RFC 8259: what is a text, and with which values?
#include "json_scanner.hpp"

#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "json_agreement.hpp"
#include "mutate.hpp"

namespace ligament::testing {
namespace {

void expect_agreement(const std::string& text) { ASSERT_EQ(json_disagreement(text), "") << text; }

std::string content_of(const std::filesystem::path& path) {
    std::stringstream content;
    content << std::ifstream(path, std::ios::binary).rdbuf();
    return content.str();
}

// The literals, numbers and strings that mutations start from. Numbers: the grammar of RFC 8259, section 6; the largest and the
// smallest double and their halves (IEEE 754), integers on both sides of 2^53, 2^63 and 2^64, where readers change their ways.
constexpr std::array<std::string_view, 40> scalars{"null",
                                                   "true",
                                                   "false",
                                                   "0",
                                                   "-0",
                                                   "-0.0",
                                                   "0e1",
                                                   "7",
                                                   "-12",
                                                   "0.5",
                                                   "-1.25e2",
                                                   "1E+2",
                                                   "1e-2",
                                                   "123456789012345",
                                                   "1234567890123456",
                                                   "9007199254740993",
                                                   "9223372036854775807",
                                                   "-9223372036854775808",
                                                   "9223372036854775808",
                                                   "18446744073709551615",
                                                   "18446744073709551616",
                                                   "100000000000000000000000",
                                                   "1.7976931348623157e308",
                                                   "1.7976931348623159e308",
                                                   "2.2250738585072014e-308",
                                                   "4.9406564584124654e-324",
                                                   "2.4703282292062327e-324",
                                                   "-1e-400",
                                                   "-1e400",
                                                   "0.1412",
                                                   "3.141592653589793",
                                                   "\"\"",
                                                   "\"name\"",
                                                   "\"a long text of many words\"",
                                                   R"("\"\\\/\b\f\n\r\t")",
                                                   R"("\u0041\u00e9\u20AC")",
                                                   R"("\ud83e\udebf")",
                                                   "\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\xAA\xBF\"",
                                                   R"("\u0000")",
                                                   "\"\x7F\""};

std::string text_of_scalars(std::mt19937& random) {
    const auto scalar = [&] { return std::string(scalars[random() % scalars.size()]); };
    return "{\"a\": [" + scalar() + ",\n " + scalar() + "], \"b\\u00e9\": {\"c\": " + scalar() +
           "}, \"\": [], \"d\":" + scalar() + "}";
}

TEST(json_scanner, agrees_on_every_scalar) {
    for (const std::string_view scalar : scalars) {
        expect_agreement(std::string(scalar));
        for (std::size_t size = 0; size < scalar.size(); ++size) expect_agreement("[" + std::string(scalar.substr(0, size)));
        for (const std::string_view behind : {"", " ", "\n", ",", "]", "}", "e", ".", "1", "x", "\"", "-"})
            expect_agreement("[" + std::string(scalar) + std::string(behind));
    }
}

// Every string of one and two bytes, and of three and four that begin a sequence of UTF-8.
TEST(json_scanner, agrees_on_utf8) {
    const auto text = [](std::initializer_list<unsigned> bytes) {
        std::string string = "\"";
        for (const unsigned byte : bytes) string += static_cast<char>(byte);
        return string + "\"";
    };
    static constexpr std::array<unsigned, 10> edges{0x00, 0x22, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0};
    for (unsigned a = 0; a < 256; ++a) {
        expect_agreement(text({a}));
        for (unsigned b = 0; b < 256; ++b) expect_agreement(text({a, b}));
        if (a < 0xC0) continue;
        for (const unsigned b : edges)
            for (const unsigned c : edges) {
                expect_agreement(text({a, b, c}));
                for (const unsigned d : edges) expect_agreement(text({a, b, c, d}));
            }
    }
}

// Runs of plain bytes are passed eight at a time: what ends them, at every distance from the start and from the end of the text.
TEST(json_scanner, agrees_on_what_ends_a_run) {
    for (unsigned byte = 0; byte < 256; ++byte)
        for (std::size_t before = 0; before < 18; ++before)
            for (const std::size_t behind : {std::size_t{0}, std::size_t{3}, std::size_t{12}})
                expect_agreement("\"" + std::string(before, 'a') + static_cast<char>(byte) + std::string(behind, '!') + "\"");
    for (std::size_t spaces = 0; spaces < 40; ++spaces)
        for (const std::string_view next : {"", "1", "\n2", "\t3", "\r\n 4", "\v5"})
            expect_agreement("[\n" + std::string(spaces, ' ') + std::string(next) + "]");
}

TEST(json_scanner, agrees_on_random_numbers) {
    std::mt19937 random(5);
    for (int i = 0; i < 20'000; ++i) {
        std::string digits;
        for (std::size_t count = random() % 25; count > 0; --count) digits += static_cast<char>('0' + random() % 10);
        if (random() % 2 == 0) digits.insert(random() % (digits.size() + 1), ".");
        if (random() % 2 == 0) digits += "e" + std::string(random() % 2 == 0 ? "-" : "") + std::to_string(random() % 330);
        expect_agreement((random() % 2 == 0 ? "-" : "") + digits);
    }
}

TEST(json_scanner, agrees_on_the_texts_at_hand) {
    std::size_t count = 0;
    for (const char* folder : {"/tests", "/examples", "/src"})
        for (const auto& entry : std::filesystem::recursive_directory_iterator(LIGAMENT_SOURCE_DIR + std::string(folder))) {
            const std::string ending = entry.path().extension().string();
            if (ending != ".json" && ending != ".gltf") continue;
            EXPECT_EQ(json_disagreement(content_of(entry.path())), "") << entry.path();
            ++count;
        }
    EXPECT_GE(count, 100) << "the texts are still there";
}

TEST(json_scanner, agrees_on_mutations) {
    std::mt19937 random(6);
    std::size_t good = 0;
    for (int i = 0; i < 20'000; ++i) {
        std::string text = text_of_scalars(random);
        expect_agreement(text);
        text = mutate(text, random);
        expect_agreement(text);
        expect_agreement(text.substr(0, random() % (text.size() + 1)));
        good += nlohmann::json::accept(text);
    }
    EXPECT_GE(good, 1'000) << "not all mutations break the text";
}

}  // namespace
}  // namespace ligament::testing
