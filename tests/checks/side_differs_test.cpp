// Does `side-differs` tell what two partners have unlike, side by side?
#include <gtest/gtest.h>

#include "found.hpp"

namespace ligament::testing {

namespace {

const std::string sides = "'sides': [['_l', '_r']]";

/// "what: left | right" a line.
std::string rows(const Looked& looked) {
    std::string text;
    for (const Difference& difference : first_found("side-differs", looked).differences)
        text += difference.what + ": " + difference.left + " | " + difference.right + "\n";
    return text;
}

std::string arm(const std::string& side, const std::string& weight, const std::string& more) {
    return "{'name': 'arm" + side + "', 'parent': 'root', " + more +
           "'constraints': [{'name': 'fk', 'kind': 'rotation', 'from': 'root', 'weight': " + weight + "}]}";
}

const std::string root = "{'name': 'root', 'roles': ['control'], 'rest': {}}, ";
const std::string driven = "{'expression': '1 - m', 'inputs': {'m': {'property': 'mode'}}}";
const std::string mode = ", 'properties': [{'name': 'mode'}]";

}  // namespace

// Common practice, no source: the driver was put on one side only.
TEST(CheckSideDiffers, TellsEveryThingOfAPairOnce) {
    const Looked looked = look_at(root + arm("_r", "1", "'rest': {'translation': [-0.1, 0.25, 0]}, ") + ", " +
                                      arm("_l", driven, "'rest': {'translation': [0.1, 0.2, 0]}, "),
                                  sides + mode);
    EXPECT_EQ(found("side-differs", looked),
              "warning \"arm_r\" and \"arm_l\" differ in 2 things: rest position, weight of \"fk\" [arm_r arm_l]\n");
    EXPECT_EQ(rows(looked),
              "rest position: -0.1, 0.25, 0 | 0.1, 0.2, 0\n"
              "weight of \"fk\": 1 | 1 - m, m = property mode\n");
    EXPECT_EQ(first_found("side-differs", looked).hint, "find out which one is right, and mirror it; places are mirrored in x");
}

TEST(CheckSideDiffers, MirrorDistanceIsAThreshold) {
    const Rig rig = tiny_rig(root + arm("_r", "1", "'rest': {'translation': [-0.1, 0.205, 0]}, ") + ", " +
                                 arm("_l", "1", "'rest': {'translation': [0.1, 0.2, 0]}, "),
                             sides);
    const Dependencies dependencies = build_dependencies(rig);
    const auto count = [&](double distance) {
        Rules rules;
        rules.thresholds.mirror_distance = distance;
        const std::vector<Finding> findings = find_findings(rig, dependencies, find_facts(rig, dependencies), rules);
        return std::count_if(findings.begin(), findings.end(), [](const Finding& f) { return f.check == "side-differs"; });
    };
    EXPECT_EQ(count(0.004), 1);
    EXPECT_EQ(count(0.006), 0);
}

TEST(CheckSideDiffers, MirroredPartnersAreSilent) {
    EXPECT_EQ(found("side-differs", root + arm("_r", driven, "") + ", " + arm("_l", driven, ""), sides + mode), "");
    EXPECT_EQ(found("side-differs", root + arm("_r", "1", "") + ", " + arm("_l", driven, ""), mode.substr(2)), "")
        << "no sides are declared";
}

TEST(CheckSideDiffers, WordsEveryAspect) {
    const std::string left =
        "{'name': 'a_l', 'roles': ['control'], 'parent': 'root', 'group': 'wing_l', 'from_parent': ['position'], 'curve': "
        "{'segments': 4, 'start': 'root'}, 'channels': {'scale.x': 2, 'scale.y': {'curve': [[0, 0], [1, 0.5]], 'input': {'bone': "
        "'root', 'channel': 'rotation.x', 'space': 'final'}}}, 'constraints': ["
        "{'name': 'i', 'kind': 'ik', 'target': 'root', 'chain': 1},"
        "{'name': 't', 'kind': 'transform', 'from': [{'bone': 'root', 'at': 0.5, 'curved': true, 'weight': 0.25}, 'tail'], "
        "'channels': ['position', 'rotation.x']},"
        "{'name': 'd', 'kind': 'distance', 'from': 'root', 'range': [0, 1], 'axes': 'xz', 'enabled': false}]}";
    const std::string right =
        "{'name': 'a_r', 'group': 'wing', 'curve': {'segments': 5, 'end': 'root'}, 'channels': {'scale.x': 3, 'scale.y': 1}, "
        "'constraints': ["
        "{'name': 'd', 'kind': 'distance', 'from': 'root'},"
        "{'name': 'i', 'kind': 'ik', 'target': 'tail', 'pole': 'root', 'chain': 2, 'orient': true},"
        "{'name': 't', 'kind': 'transform', 'from': 'root', 'space': 'local', 'additive': true}]}";
    EXPECT_EQ(rows(look_at("{'name': 'root', 'curve': {}}, {'name': 'tail'}, " + left + ", " + right, sides)),
              "roles: control | mechanism\n"
              "parent: root | none\n"
              "group: wing_l | wing\n"
              "taken from the parent: position | position rotation scale\n"
              "segments of the curve: 4 | 5\n"
              "start handle of the curve: root | none\n"
              "end handle of the curve: none | root\n"
              "scale.x: 2 | 3\n"
              "scale.y: curve 0:0 1:0.5 over bone root final rotation.x | 1\n"
              "order of the constraints: i, t, d | d, i, t\n"
              "orient of \"i\": no | yes\n"
              "chain of \"i\": 1 bone | 2 bones\n"
              "target of \"i\": root | tail\n"
              "pole of \"i\":  | root\n"
              "space of \"t\": final | local\n"
              "additive of \"t\": no | yes\n"
              "channels of \"t\": position rotation.x | position rotation scale\n"
              "place along the source 1 of \"t\": 0.5 | 0\n"
              "curved reading of the source 1 of \"t\": yes | no\n"
              "weight of the source 1 of \"t\": 0.25 | 1\n"
              "source 2 of \"t\": tail | \n"
              "enabled of \"d\": no | yes\n"
              "axes of \"d\": xz | xyz\n"
              "range of \"d\": 0 to 1 | \n");
}

TEST(CheckSideDiffers, PropertiesAreSubjects) {
    const Looked looked = look_at("{'name': 'root'}", sides +
                                                          ", 'properties': [{'name': 'mode_l', 'on': 'root', 'max': 1, 'stops': "
                                                          "{'ik': 0, 'fk': 1}}, {'name': 'mode_r', 'default': 1, 'max': 2, "
                                                          "'value': {'expression': '1'}}]");
    EXPECT_EQ(found("side-differs", looked),
              "warning \"mode_l\" and \"mode_r\" differ in 5 things: default, max, stops, on (showing 4 of 5) [root] mode_l\n");
    EXPECT_EQ(rows(looked), "default: 0 | 1\nmax: 1 | 2\nstops: ik = 0, fk = 1 | \non: root | none\ndriver:  | 1\n");
}

}  // namespace ligament::testing
