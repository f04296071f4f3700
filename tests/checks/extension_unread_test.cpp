// Does `extension-unread` name the extensions that are not looked at? Source: glTF 2.0 (ISO/IEC 12113:2022), section 3.12
// (extensionsUsed lists all extensions that a file uses).
#include <gtest/gtest.h>

#include "found.hpp"
#include "gltf_text.hpp"

namespace ligament::testing {

TEST(CheckExtensionUnread, NamesThem) {
    const Looked looked =
        look_at(gltf_rig("'nodes': [{}], 'extensionsUsed': ['VRMC_vrm', 'KHR_lights_punctual', 'MARSH_reeds']"));
    EXPECT_EQ(found("extension-unread", looked), "note not looked at: \"KHR_lights_punctual\", \"MARSH_reeds\" []\n");
    EXPECT_EQ(first_found("extension-unread", looked).pointer, "/extensionsUsed");
}

TEST(CheckExtensionUnread, NearMissExtensionsThatAreLookedAt) {
    EXPECT_EQ(found("extension-unread", look_at(gltf_rig("'nodes': [{}], 'extensionsUsed': ['VRMC_vrm', 'VRMC_springBone']"))),
              "");
    EXPECT_EQ(found("extension-unread", look_at(gltf_rig("'nodes': [{}]"))), "");
}

TEST(CheckExtensionUnread, CleanRigSaysNothing) { EXPECT_EQ(found("extension-unread", "{'name': 'heron'}"), ""); }

}  // namespace ligament::testing
