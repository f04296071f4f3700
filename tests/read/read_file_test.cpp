// Does a rig get in from a file, and is it said why when it does not?
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "faults.hpp"
#include "formats.hpp"

namespace ligament::testing {
namespace {

std::string fault_of_file(const std::string& path) {
    const ReadResult result = read_rig_file(path);
    if (result.rig || result.faults.size() != 1) return "not one fault";
    return std::to_string(result.faults[0].place.line) + ": " + result.faults[0].message;
}

struct TemporaryFile {
    std::string path =
        (std::filesystem::temp_directory_path() /
         ("ligament_read_" +
          std::to_string(std::hash<std::string>{}(::testing::UnitTest::GetInstance()->current_test_info()->name()))))
            .string();
    explicit TemporaryFile(std::string_view content) { std::ofstream(path, std::ios::binary) << content; }
    ~TemporaryFile() { std::remove(path.c_str()); }
};

TEST(file, is_read_whole) {
    // Larger than any buffer on the way, and of a size that is no power of two.
    std::string bones = "{'name': 'b'}";
    for (int i = 0; i < 20'000; ++i) bones += ",{'name': 'bone_" + std::to_string(i) + "'}";
    const TemporaryFile file(rig_text(bones));
    const ReadResult result = read_rig_file(file.path);
    ASSERT_TRUE(result.rig);
    EXPECT_EQ(result.rig->bones.size(), 20'001);
}

TEST(file, that_cannot_be_read_is_a_fault_without_a_place) {
    EXPECT_EQ(fault_of_file("/nonexistent/heron.rig.json"),
              "0: cannot read \"/nonexistent/heron.rig.json\": No such file or directory");
    EXPECT_EQ(fault_of_file(std::filesystem::temp_directory_path().string()),
              "0: cannot read \"" + std::filesystem::temp_directory_path().string() + "\": Is a directory");
}

TEST(file, may_be_empty) {
    const TemporaryFile file("");
    EXPECT_EQ(fault_of_file(file.path), "1: the input is empty, wanted a rig description");
}

// A file with a hole takes no space, and is not read to see that it is too large.
TEST(file, may_not_be_larger_than_the_limit) {
    {
        const TemporaryFile file("{");
        std::filesystem::resize_file(file.path, ReadOptions{}.file_limit + 1);
        EXPECT_EQ(fault_of_file(file.path),
                  "0: cannot read \"" + file.path + "\": it is larger than 1073741824 bytes, the most that is read");
    }
    const std::string text = rig_text("{'name': 'heron'}");
    const TemporaryFile small(text);
    EXPECT_TRUE(read_rig_file(small.path, {.file_limit = text.size()}).rig);
    const ReadResult result = read_rig_file(small.path, {.file_limit = text.size() - 1});
    ASSERT_EQ(result.faults.size(), 1);
    EXPECT_FALSE(result.rig);
}

// What does not end, and does not say how long it is.
TEST(file, without_an_end_is_read_up_to_the_limit) {
    for (const std::size_t limit : {0U, 1U, 65'536U, 1'000'000U}) {
        const ReadResult result = read_rig_file("/dev/zero", {.file_limit = limit});
        ASSERT_EQ(result.faults.size(), 1);
        EXPECT_EQ(result.faults[0].message,
                  "cannot read \"/dev/zero\": it is larger than " + std::to_string(limit) + " bytes, the most that is read");
    }
}

TEST(formats, have_names_and_the_last_one_takes_whatever_is_left) {
    for (const Format& format : all_formats()) EXPECT_FALSE(format.name.empty());
    EXPECT_TRUE(all_formats().back().recognises({"no.such.ending", "\x01\x02"}));
}

}  // namespace
}  // namespace ligament::testing
