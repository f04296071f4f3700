// Which number does a run of digits stand for?
#include "number.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <string>

namespace ligament {
namespace {

TEST(number, reads_decimal_numbers) {
    EXPECT_EQ(number_of("0"), 0);
    EXPECT_EQ(number_of("12.5e-1"), 1.25);
    EXPECT_EQ(number_of(".5"), 0.5);
    EXPECT_EQ(number_of("5."), 5);
    // The largest double and the smallest one above 0 (IEEE 754, binary64).
    EXPECT_EQ(number_of("1.7976931348623157e308"), std::numeric_limits<double>::max());
    EXPECT_EQ(number_of("4.9406564584124654e-324"), std::numeric_limits<double>::denorm_min());
}

TEST(number, tells_too_large_from_too_small) {
    const std::string nines(400, '9'), zeros(400, '0');
    for (const std::string& large : {std::string("1e999"), std::string("1E+309"), nines, nines + ".5", std::string("0.001e400"),
                                     nines + "e-10", "0." + zeros + "1e800", std::string("1e99999999999999999999")})
        EXPECT_EQ(number_of(large), std::numeric_limits<double>::infinity()) << large;
    for (const std::string& small : {std::string("1e-999"), "0." + zeros + "1", "." + zeros + "1e10", nines + "e-900",
                                     std::string("1e-99999999999999999999"), std::string("0e999")})
        EXPECT_EQ(number_of(small), 0.0) << small;
}

TEST(number, agrees_with_the_c_library) {
    for (const char* text : {"0.1", "3.14159265358979", "123456789012345678", "2.2250738585072011e-308", "9007199254740993"})
        EXPECT_EQ(number_of(text), std::strtod(text, nullptr)) << text;
}

TEST(number, is_not_a_number_for_any_other_text) {
    for (const char* text : {"", "x", "1x", "-1", "+1", " 1", "1e", "inf", "nan", "0x10", "."})
        EXPECT_TRUE(std::isnan(number_of(text))) << text;
}

}  // namespace
}  // namespace ligament
