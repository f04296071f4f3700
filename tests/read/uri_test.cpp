// Is a URI of a buffer decoded as the RFCs have it, and does none lead out of the folder?
#include "uri.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace ligament::testing {
namespace {

namespace fs = std::filesystem;

// The data, or why there is none.
std::string decoded(std::string_view uri) {
    std::string data;
    const std::string reason = decode_data_uri(uri, data);
    return reason.empty() ? data : "(" + reason + ")";
}

// RFC 4648, section 10.
TEST(base64, gives_the_test_vectors) {
    EXPECT_EQ(decoded("data:;base64,"), "");
    EXPECT_EQ(decoded("data:;base64,Zg=="), "f");
    EXPECT_EQ(decoded("data:;base64,Zm8="), "fo");
    EXPECT_EQ(decoded("data:;base64,Zm9v"), "foo");
    EXPECT_EQ(decoded("data:;base64,Zm9vYg=="), "foob");
    EXPECT_EQ(decoded("data:;base64,Zm9vYmE="), "fooba");
    EXPECT_EQ(decoded("data:;base64,Zm9vYmFy"), "foobar");
}

// RFC 4648, section 9: the hex values 14fb9c03d97e, and these cut to five and four bytes.
TEST(base64, gives_the_illustrated_bytes) {
    EXPECT_EQ(decoded("data:;base64,FPucA9l+"), "\x14\xfb\x9c\x03\xd9\x7e");
    EXPECT_EQ(decoded("data:;base64,FPucA9k="), "\x14\xfb\x9c\x03\xd9");
    EXPECT_EQ(decoded("data:;base64,FPucAw=="), "\x14\xfb\x9c\x03");
}

// RFC 4648: 3.2 padding is a must, 3.3 nothing from outside of the alphabet, 3.1 no line feeds; section 5 is another encoding.
TEST(base64, is_refused_where_it_is_none) {
    EXPECT_EQ(decoded("data:;base64,Zg"), "(base64 has a multiple of 4 characters, this one 2)");
    EXPECT_EQ(decoded("data:;base64,Zm9v\nZm9"), "(a character that is none of base64, at byte 5 of 8)");
    EXPECT_EQ(decoded("data:;base64,Zm9-"), "(a character that is none of base64, at byte 4 of 4)");
    EXPECT_EQ(decoded("data:;base64,Z==="), "(a character that is none of base64, at byte 2 of 4)");
    EXPECT_EQ(decoded("data:;base64,Zg==Zg=="), "(a character that is none of base64, at byte 3 of 8)");
    EXPECT_EQ(decoded("data:;base64,===="), "(a character that is none of base64, at byte 1 of 4)");
    EXPECT_EQ(decoded("data:;base64,Zm\xc3\xa9"), "(a character that is none of base64, at byte 3 of 4)");
}

// RFC 2397, section 2: [mediatype][";base64"],data. Its example in section 4 is "data:,A%20brief%20note".
TEST(data_uri, has_a_media_type_and_an_encoding) {
    EXPECT_EQ(decoded("data:,A%20brief%20note"), "A brief note");
    EXPECT_EQ(decoded("data:text/plain;charset=iso-8859-7,%be%fa%be"), "\xbe\xfa\xbe");  // after section 4
    EXPECT_EQ(decoded("data:application/octet-stream;base64,Zm9v"), "foo");
    EXPECT_EQ(decoded("data:application/gltf-buffer;a=b;base64,Zm9v"), "foo");
    EXPECT_EQ(decoded("data:application/base64,Zm9v"), "Zm9v");
    EXPECT_EQ(decoded("data:;base64;a=b,Zm9v"), "Zm9v");  // base64 is the last word before the comma or none
    EXPECT_EQ(decoded("data:,a,b"), "a,b");
}

// RFC 3986: 3.1 schemes are of any case, 2.1 so are the digits of percent-encoding; it may stand in base64 too.
TEST(data_uri, is_of_any_case_and_may_be_percent_encoded) {
    EXPECT_EQ(decoded("DATA:;Base64,Zm8%3d"), "fo");
    EXPECT_EQ(decoded("Data:,%4A%4a"), "JJ");
    EXPECT_EQ(decoded("data:;base64,FPucA9l%2B"), "\x14\xfb\x9c\x03\xd9\x7e");
    EXPECT_TRUE(is_data_uri("dAtA:"));
    EXPECT_FALSE(is_data_uri("data"));
    EXPECT_FALSE(is_data_uri("datas:,"));
}

TEST(data_uri, is_refused_where_it_is_broken) {
    EXPECT_EQ(decoded("data:;base64"), "(a data URI has a comma before its data, this one has none)");
    EXPECT_EQ(decoded("data:,12%4"), "(a \"%\" without two hexadecimal digits behind it, at byte 3 of 4)");
    EXPECT_EQ(decoded("data:,%g0"), "(a \"%\" without two hexadecimal digits behind it, at byte 1 of 3)");
    EXPECT_EQ(decoded("data:,%"), "(a \"%\" without two hexadecimal digits behind it, at byte 1 of 1)");
}

// A folder "nest" with files, beside a file that is not to be found.
struct Folder : ::testing::Test {
    fs::path outer = fs::temp_directory_path() / ("ligament_uri_" + std::to_string(::getpid()) + "_" +
                                                  std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::path nest = outer / "nest";

    Folder() {
        fs::remove_all(outer);
        fs::create_directories(nest / "reed bed");
        for (const char* name : {"secret.bin", "nest/egg.bin", "nest/reed bed/sch\xc3\xa4re.bin", "nest/a:b", "nest/50%.bin"})
            std::ofstream(outer / name) << name;
    }
    ~Folder() override { fs::remove_all(outer); }

    // The path below the outer folder, or why there is none.
    std::string found(std::string_view uri) const {
        std::string path;
        const std::string reason = find_file_of_uri(uri, nest.string(), path);
        return reason.empty() ? fs::path(path).lexically_relative(fs::canonical(outer)).string() : "(" + reason + ")";
    }
};

// RFC 3986: 4.2 relative references, 5.2.4 dot segments, 2.1 percent-encoding; glTF 2.0, section 2.8, takes IRIs too.
TEST_F(Folder, holds_the_file_of_a_relative_uri) {
    EXPECT_EQ(found("egg.bin"), "nest/egg.bin");
    EXPECT_EQ(found("./egg.bin"), "nest/egg.bin");
    EXPECT_EQ(found("reed%20bed/sch%C3%A4re.bin"), "nest/reed bed/sch\xc3\xa4re.bin");
    EXPECT_EQ(found("reed bed/sch\xc3\xa4re.bin"), "nest/reed bed/sch\xc3\xa4re.bin");
    EXPECT_EQ(found("reed%20bed/../egg.bin"), "nest/egg.bin");
    EXPECT_EQ(found("%65gg%2Ebin"), "nest/egg.bin");
    EXPECT_EQ(found("50%25.bin"), "nest/50%.bin");
    EXPECT_EQ(found("a%3Ab"), "nest/a:b");
    EXPECT_EQ(found("./a:b"), "nest/a:b");
}

TEST_F(Folder, is_not_left) {
    EXPECT_EQ(found("../secret.bin"), "(it leads out of the folder)");
    EXPECT_EQ(found("reed%20bed/../../secret.bin"), "(it leads out of the folder)");
    EXPECT_EQ(found("../nest/egg.bin"), "(it leads out of the folder)");
    EXPECT_EQ(found("%2e%2e/secret.bin"), "(it leads out of the folder)");
    EXPECT_EQ(found(".%2E/secret.bin"), "(it leads out of the folder)");
    EXPECT_EQ(found("%2e%2e%2fsecret.bin"), "(it has an encoded slash (\"%2F\"))");
    EXPECT_EQ(found("..%5csecret.bin"), "(it has an encoded backslash (\"%5C\"))");
    EXPECT_EQ(found("..\\secret.bin"), "(it has a backslash)");
    // Decoded once, and no further.
    EXPECT_EQ(found("%252e%252e/secret.bin"), "(No such file or directory)");
    EXPECT_EQ(found((outer / "secret.bin").string()), "(its path is absolute)");
    EXPECT_EQ(found("%2fetc/hosts"), "(it has an encoded slash (\"%2F\"))");
}

TEST_F(Folder, is_all_that_is_looked_at) {
    const std::string rest = ", read are relative URIs and \"data\" alone)";
    EXPECT_EQ(found("https://marsh.example/egg.bin"), "(it has the scheme \"https\"" + rest);
    EXPECT_EQ(found("file:egg.bin"), "(it has the scheme \"file\"" + rest);
    EXPECT_EQ(found("file:///etc/hosts"), "(it has the scheme \"file\"" + rest);
    EXPECT_EQ(found("C:/egg.bin"), "(it has the scheme \"C\"" + rest);
    EXPECT_EQ(found("a:b"), "(it has the scheme \"a\"" + rest);
    EXPECT_EQ(found(":b"), "(it has the scheme \"\"" + rest);
    EXPECT_EQ(found("//marsh.example/egg.bin"), "(it names a host)");
}

TEST_F(Folder, refuses_what_names_no_file) {
    EXPECT_EQ(found(""), "(it is empty)");
    EXPECT_EQ(found("reed%20bed/"), "(it names a folder, not a file)");
    EXPECT_EQ(found("reed%20bed/.."), "(it names a folder, not a file)");
    EXPECT_EQ(found("."), "(it names a folder, not a file)");
    EXPECT_EQ(found("reed%20bed//egg.bin"), "(it has an empty part between slashes)");
    EXPECT_EQ(found("egg.bin?x=1"), "(it has a query (\"?\"), a file takes none)");
    EXPECT_EQ(found("egg.bin#x"), "(it has a fragment (\"#\"), a file takes none)");
    EXPECT_EQ(found("egg.bin%00.png"), "(it has a NUL byte)");
    EXPECT_EQ(found(std::string_view("egg.bin\0.png", 12)), "(it has a NUL byte)");
    EXPECT_EQ(found("50%.bin"), "(a \"%\" without two hexadecimal digits behind it, at byte 3 of 7)");
    EXPECT_EQ(found("feather.bin"), "(No such file or directory)");
    EXPECT_EQ(found("egg.bin/yolk"), "(Not a directory)");
    EXPECT_EQ(found(std::string(300, 'a')), "(File name too long)");
}

TEST_F(Folder, is_not_left_by_symbolic_links) {
    fs::create_symlink("../secret.bin", nest / "link.bin");
    fs::create_directory_symlink("..", nest / "up");
    fs::create_symlink("egg.bin", nest / "inside.bin");
    fs::create_symlink("loop.bin", nest / "loop.bin");
    EXPECT_EQ(found("link.bin"), "(a symbolic link leads out of the folder)");
    EXPECT_EQ(found("up/secret.bin"), "(a symbolic link leads out of the folder)");
    EXPECT_EQ(found("up/nest/egg.bin"), "nest/egg.bin");
    EXPECT_EQ(found("inside.bin"), "nest/egg.bin");
    EXPECT_EQ(found("loop.bin"), "(Too many levels of symbolic links)");
    // A neighbour whose name begins with that of the folder is not inside of it.
    fs::create_directory(outer / "nest2");
    std::ofstream(outer / "nest2/egg.bin") << "egg";
    fs::create_directory_symlink("../nest2", nest / "neighbour");
    EXPECT_EQ(found("neighbour/egg.bin"), "(a symbolic link leads out of the folder)");
}

TEST_F(Folder, gives_regular_files_alone) {
    ASSERT_EQ(::mkfifo((nest / "pipe").c_str(), 0600), 0);
    EXPECT_EQ(found("pipe"), "(it is no regular file)");
    EXPECT_EQ(found("reed%20bed"), "(it is no regular file)");
    fs::create_symlink("/dev/zero", nest / "zero");
    EXPECT_EQ(found("zero"), "(a symbolic link leads out of the folder)");
}

TEST_F(Folder, is_needed) {
    std::string path;
    EXPECT_EQ(find_file_of_uri("egg.bin", "", path), "there is no folder to look for it in");
    EXPECT_EQ(find_file_of_uri("egg.bin", "/no/such/folder", path), "the folder \"/no/such/folder\": No such file or directory");
    EXPECT_EQ(path, "");
}

}  // namespace
}  // namespace ligament::testing
