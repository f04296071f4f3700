// Is the schema that the library prints the one that is published?
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "ligament/read.hpp"

namespace ligament {
namespace {

TEST(schema, is_the_published_file) {
    std::ifstream file(LIGAMENT_SOURCE_DIR "/src/read/rig_description.schema.json", std::ios::binary);
    std::stringstream content;
    content << file.rdbuf();
    ASSERT_FALSE(content.str().empty());
    EXPECT_EQ(rig_description_schema(), content.str());
}

}  // namespace
}  // namespace ligament
