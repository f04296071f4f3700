// Is every fault of the content of a rig description found, with its place, its values and the nearest known name?
#include <gtest/gtest.h>

#include "faults.hpp"

namespace ligament::testing {
namespace {

TEST(faults, of_a_rig) {
    EXPECT_EQ(faults_of_text("[]"), "1:1: the text wants a rig description (an object), found a list\n");
    EXPECT_EQ(faults_of_text("null"), "1:1: the text wants a rig description (an object), found null\n");
    EXPECT_EQ(
        faults_of_text("{}"),
        "1:1: a rig needs \"format\"\n1:1: a rig needs \"version\"\n1:1: a rig needs \"name\"\n1:1: a rig needs \"bones\"\n");
    EXPECT_EQ(faults_of_text(R"({"format": "rig", "version": 2, "name": "x", "bones": []})"),
              "1:12: \"format\" wants \"rig-description\", found \"rig\"\n1:30: version 2 is not known, known is 1\n");
    EXPECT_EQ(faults_of_text(R"({"format": "rig-description", "version": 1.0, "name": "x", "bones": []})"), "");
    EXPECT_EQ(faults_of_text(R"({"format": "rig-description", "version": "1", "name": "x", "bones": []})"),
              "1:42: \"version\" wants the number 1, found the string \"1\"\n");
}

TEST(faults, unknown_keys_with_the_nearest_known_one) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parnt': 'b'}"), "1:85: unknown key \"parnt\" in a bone, nearest is \"parent\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'colour': {'name': 5}}"), "1:85: unknown key \"colour\" in a bone\n");
    EXPECT_EQ(faults_of_bones("", "'extra': 1"), "2:1: unknown key \"extra\" in a rig, nearest is \"extras\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'rest': {'position': [0, 0, 0]}}"), "1:94: unknown key \"position\" in a rest\n");
}

TEST(faults, extras_in_every_object_but_in_no_map) {
    const std::string extras = "'extras': {'any': [1, null, {'thing': true}]}";
    EXPECT_EQ(
        faults_of_bones("{'name': 'a', 'rest': {" + extras + "}, 'curve': {" + extras +
                            "}, 'constraints': [{'kind': "
                            "'transform', 'from': {'bone': 'a', " +
                            extras +
                            ", 'weight': {'expression': 's', 'inputs': {'s': "
                            "{'property': 'p', " +
                            extras + "}}, " + extras + "}}, " + extras + "}], " + extras + "}",
                        "'properties': [{'name': 'p', " + extras + "}], 'objects': [{'name': 'o', " + extras + "}], " + extras),
        "");
    EXPECT_EQ(faults_of_bones("", "'extras': null"), "2:11: \"extras\" wants any value, found null\n");
    EXPECT_EQ(faults_of_bones("", "'extras': [null]"), "");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'stops': {'extras': {}}}]"),
              "2:50: each stop wants a number, found an object\n");
}

TEST(faults, wrong_types_with_what_was_wanted_and_found) {
    EXPECT_EQ(faults_of_bones("{'name': 5}"), "1:80: \"name\" wants a string, found the number 5\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parent': true}"), "1:95: \"parent\" wants the name of a bone, found true\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parent': null}"), "1:95: \"parent\" wants the name of a bone, found null\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'constraints': {}}"),
              "1:100: \"constraints\" wants a list of constraints, found an object\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'channels': []}"),
              "1:97: \"channels\" wants an object of numbers and drivers, found a list\n");
    EXPECT_EQ(
        faults_of_bones("5, [], {'name': 'a'}"),
        "1:71: each bone wants a bone (an object), found the number 5\n1:74: each bone wants a bone (an object), found a list\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'enabled': 1}"),
              "2:47: \"enabled\" wants true or false, found the number 1\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'weight': '1'}"),
              "2:46: \"weight\" wants a number or a driver (an object), found the string \"1\"\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'value': 1}]"),
              "2:39: \"value\" wants a driver (an object), found the number 1\n");
}

TEST(faults, names_empty_or_too_long) {
    EXPECT_EQ(faults_of_bones("{'name': ''}"), "1:80: name is empty\n");
    std::string bird;
    for (int i = 0; i < 1000; ++i) bird += "\xF0\x9F\x90\xA6";  // four bytes, one code point
    EXPECT_EQ(faults_of_bones("{'name': '" + bird + "'}"), "");
    EXPECT_EQ(faults_of_bones("{'name': '" + bird + "s'}"), "1:80: name of 1001 characters, at most 1000 are taken\n");
    EXPECT_EQ(faults_of_constraints("{'name': '', 'kind': 'transform', 'from': 'a'}"), "2:10: name is empty\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'stops': {'': 1}}]"), "2:40: name is empty\n");
}

TEST(faults, unknown_names_with_the_nearest_known_one) {
    EXPECT_EQ(faults_of_bones("{'name': 'spine', 'parent': 'spnie'}, {'name': 'spine_tip'}"),
              "1:99: unknown bone \"spnie\", nearest is \"spine\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parent': 'x'}"), "1:95: unknown bone \"x\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'curve': {'start': 'x', 'end': 'y'}}"),
              "1:104: unknown bone \"x\"\n1:116: unknown bone \"y\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a'}", "'roots': ['a', 'z'], 'objects': [{'name': 'o', 'follows': ['q']}]"),
              "2:16: unknown bone \"z\"\n2:60: unknown bone \"q\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a'}", "'properties': [{'name': 'p', 'on': 'b'}]"), "2:36: unknown bone \"b\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': {'object': 'water'}, 'up': {'bone': 'q'}}",
                                    "'objects': [{'name': 'watr'}]"),
              "2:36: unknown object \"water\", nearest is \"watr\"\n2:61: unknown bone \"q\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'property': 'q'}}}"), "2:50: unknown property \"q\"\n");
    EXPECT_EQ(faults_of_driver("{'curve': [[0, 0]], 'input': {'distance': ['a', 'q']}}"), "2:49: unknown bone \"q\"\n");
}

TEST(faults, names_of_another_kind_of_element) {
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'o'}", "'objects': [{'name': 'o'}]"),
              "2:31: unknown bone \"o\", an object has that name\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': {'object': 'a'}}"),
              "2:42: unknown object \"a\", a bone has that name\n");
}

TEST(faults, names_that_stand_twice) {
    EXPECT_EQ(faults_of_bones("{'name': 'a'},\n{'name': 'b'},\n{'name': 'a'}"), "3:10: bone \"a\" stands twice, first at 1:71\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p'}, {'name': 'p'}]"),
              "2:40: property \"p\" stands twice, first at 2:16\n");
    EXPECT_EQ(faults_of_bones("", "'objects': [{'name': 'o'}, {'name': 'o'}]"),
              "2:37: object \"o\" stands twice, first at 2:13\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a'}", "'properties': [{'name': 'a'}], 'objects': [{'name': 'a'}]"), "")
        << "elements of different kinds may share a name";
    EXPECT_EQ(
        faults_of_constraints("{'name': 'c', 'kind': 'transform', 'from': 'a'},\n{'name': 'c', 'kind': 'aim', 'from': 'a'}"),
        "3:1: constraint \"c\" stands twice on bone \"b\", first at 2:1\n");
    EXPECT_EQ(faults_of_constraints("{'name': 'aim2', 'kind': 'aim', 'from': 'a'},\n{'kind': 'aim', 'from': 'a'}"),
              "3:1: constraint \"aim2\" stands twice on bone \"b\", first at 2:1\n")
        << "a name that was left out is filled in, and may not be taken";
}

TEST(faults, keys_that_stand_twice) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'name': 'b'}"), "1:85: key \"name\" stands twice in a bone\n");
    EXPECT_EQ(faults_of_text(
                  "{\"format\": \"rig-description\", \"version\": 1, \"name\": \"x\", \"n\\u0061me\": \"y\", \"bones\": []}"),
              "1:58: key \"name\" stands twice in a rig\n");
    EXPECT_EQ(faults_of_bones("", "'extras': {'a': {'b': 1, 'c': {}, 'b': 2}, 'b': 3, 'a': 4}"),
              "2:35: key \"b\" stands twice in an object\n2:52: key \"a\" stands twice in an object\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'channels': {'scale.x': 1, 'scale.x': 2}}"),
              "1:112: channel \"scale.x\" stands twice\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'stops': {'a': 1, 'a': 2}}]"), "2:48: stop \"a\" stands twice\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'property': 'p'}, 's': {'property': 'p'}}}"),
              "2:56: input \"s\" stands twice\n");
}

TEST(faults, words_that_stand_twice_in_a_list) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'roles': ['deform', 'deform']}"), "1:105: \"deform\" stands twice in a list\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'from_parent': ['scale', 'scale']}"), "1:110: \"scale\" stands twice in a list\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a'}", "'roots': ['a', 'a']"), "2:16: \"a\" stands twice in a list\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a'}", "'objects': [{'name': 'o', 'follows': ['a', 'a']}]"),
              "2:44: \"a\" stands twice in a list\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'limit', 'channels': ['rotation', 'rotation']}"),
              "2:44: \"rotation\" stands twice in a list\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'limit', 'channels': ['rotation', 'rotation.x']}"), "");
}

TEST(faults, parent_loops_by_their_names) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parent': 'c'}, {'name': 'b', 'parent': 'a'}, {'name': 'c', 'parent': 'b'},\n"
                              "{'name': 'd', 'parent': 'a'}, {'name': 'e', 'parent': 'e'}"),
              "1:95: parent loop a -> c -> b -> a\n2:55: parent loop e -> e\n");
}

TEST(faults, words_that_are_not_known) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'roles': ['contrl']}"), "1:95: unknown role \"contrl\", nearest is \"control\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'from_parent': ['shear']}"),
              "1:101: unknown part of a transform \"shear\", known are \"position\" \"rotation\" \"scale\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transfrom', 'from': 'a', 'pole': 'a'}"),
              "2:10: unknown kind of constraint \"transfrom\", nearest is \"transform\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'space': 'world'}"),
              "2:45: unknown space \"world\", known are \"final\" \"local\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'channels': {'rotation.w': 1}}"),
              "1:98: unknown channel \"rotation.w\", nearest is \"rotation.x\"\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'channels': {'rotation': 1}}").substr(0, 33), "1:98: unknown channel \"rotation\",")
        << "a driven channel is one number";
    EXPECT_EQ(faults_of_constraints("{'kind': 'limit', 'channels': ['rotation.y', 'spin']}").substr(0, 29),
              "2:46: unknown channel \"spin\",");
}

TEST(faults, axes_and_axis) {
    for (const char* axes : {"x", "zy", "xyz"})
        EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'axes': '" + std::string(axes) + "'}"), "");
    for (const char* axes : {"", "xx", "w", "xyzx", "X"})
        EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'axes': '" + std::string(axes) + "'}"),
                  "2:44: \"axes\" wants some of the letters x, y and z, each once, found \"" + std::string(axes) + "\"\n");
    for (const char* axis : {"x", "+y", "-z"})
        EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': 'a', 'axis': '" + std::string(axis) + "'}"), "");
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': 'a', 'axis': 'xy'}"),
              "2:38: \"axis\" wants x, y or z, with \"-\" or \"+\" before it or not, found \"xy\"\n");
}

TEST(faults, numbers_out_of_range) {
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': 'a', 'weight': 1.5}"),
              "2:46: \"weight\" lies in 0 to 1, found 1.5\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': {'bone': 'a', 'at': -0.1, 'weight': 2}}"),
              "2:51: \"at\" lies in 0 to 1, found -0.1\n2:67: \"weight\" lies in 0 to 1, found 2\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'path', 'from': 'a', 'chain': 0}"),
              "2:40: \"chain\" wants a whole number from 1 to 4294967294, found 0\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'path', 'from': 'a', 'chain': 1.5}"),
              "2:40: \"chain\" wants a whole number from 1 to 4294967294, found 1.5\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'path', 'from': 'a', 'chain': 2e0}"), "");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'curve': {'segments': 1e10}}"),
              "1:107: \"segments\" wants a whole number from 1 to 4294967294, found 1e+10\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'min': 2, 'max': 1}]"), "2:30: \"min\" 2 lies above \"max\" 1\n");
    EXPECT_EQ(faults_of_bones("", "'properties': [{'name': 'p', 'min': 1, 'max': 1, 'default': 7, 'stops': {'far': 9}}]"), "")
        << "a default or stop outside the range is for a check to find";
    EXPECT_EQ(faults_of_constraints("{'kind': 'distance', 'from': 'a', 'range': [2, 1]}"),
              "2:44: \"range\" is low, then high, found 2 above 1\n");
}

TEST(faults, numbers_too_large_for_a_double_without_losing_the_rest) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'tip': [1e999, 0, -1e400]}, {'name': 5}", "'extras': 1e999"),
              "1:93: number is too large, numbers are at most 1.7976931348623157e+308\n"
              "1:103: number is too large, numbers are at most 1.7976931348623157e+308\n"
              "1:122: \"name\" wants a string, found the number 5\n"
              "2:11: number is too large, numbers are at most 1.7976931348623157e+308\n");
    EXPECT_EQ(faults_of_bones("{'name': '1e999', 'tip': [1e-999, 0, 1.7976931348623157e308]}"), "");
}

TEST(faults, lists_of_the_wrong_length) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'tip': [1, 2]}"), "1:92: \"tip\" wants a list of three numbers, found 2\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'rest': {'rotation': [0, 0, 0, 1, 0]}}"),
              "1:106: \"rotation\" wants a list of four numbers, found 5\n");
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'tip': [1, 2, 'x']}"), "1:99: each number wants a number, found the string \"x\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'transform', 'from': []}"), "2:31: \"from\" wants at least 1 source, found 0\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'limit', 'channels': []}"),
              "2:31: \"channels\" wants at least 1 channel, found 0\n");
    EXPECT_EQ(faults_of_bones("", "'sides': [['_l', '_r', '_m'], ['x']]"),
              "2:11: each pair of sides wants a list of two strings, found 3\n"
              "2:31: each pair of sides wants a list of two strings, found 1\n");
    EXPECT_EQ(faults_of_bones("", "'sides': [['_l', '_l'], ['', 'r']]"),
              "2:11: two sides want two different tokens, found \"_l\" twice\n2:26: name is empty\n");
    EXPECT_EQ(faults_of_driver("{'curve': [[0, 0]], 'input': {'distance': ['a']}}"),
              "2:43: \"distance\" wants a list of two names of bones, found 1\n");
}

TEST(faults, sources) {
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': ['a', {'bone': 'a', 'at': 1}, {'object': 'o'}], 'up': 'a'}",
                                    "'objects': [{'name': 'o'}]"),
              "");
    EXPECT_EQ(
        faults_of_constraints("{'kind': 'aim', 'from': [{}, 5, {'bone': 'a', 'object': 'o'}]}", "'objects': [{'name': 'o'}]"),
        "2:26: a source needs \"bone\" or \"object\"\n"
        "2:30: each source wants the name of a bone or a source (an object), found the number 5\n"
        "2:47: a source is a \"bone\" or an \"object\", found both\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': {'object': 'o', 'at': 0.5}}", "'objects': [{'name': 'o'}]"),
              "2:41: \"at\" goes with \"bone\", not with \"object\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': {'curved': true, 'bone': 'a'}}"),
              "2:50: bone \"a\" is read \"curved\", but has no \"curve\"\n");
    EXPECT_EQ(faults_of_constraints("{'kind': 'aim', 'from': {'curved': false, 'bone': 'a'}}"), "");
    EXPECT_EQ(
        faults_of_bones("{'name': 'a', 'curve': {}, 'constraints': [{'kind': 'aim', 'from': {'bone': 'a', 'curved': true}}]}"),
        "");
    EXPECT_EQ(faults_of_constraints("{'kind': 'surface', 'from': ['a', {'object': 'o'}]}", "'objects': [{'name': 'o'}]"),
              "2:30: a constraint of kind \"surface\" reads objects only, found bone \"a\"\n");
    EXPECT_EQ(faults_of_constraints("{'from': {'object': 'o'}, 'align': true, 'kind': 'surface'}", "'objects': [{'name': 'o'}]"),
              "");
}

TEST(faults, drivers) {
    EXPECT_EQ(faults_of_driver("{'expression': '1 - s', 'inputs': {'s': {'property': 'p'}}}"), "");
    EXPECT_EQ(faults_of_driver("{'expression': '1'}"), "");
    EXPECT_EQ(faults_of_driver("{}"), "2:1: a driver needs \"expression\" or \"curve\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': '1', 'curve': [[0, 0]], 'input': {'property': 'p'}}"),
              "2:21: a driver has an \"expression\" or a \"curve\", found both\n");
    EXPECT_EQ(faults_of_driver("{'expression': '1', 'input': {'property': 'p'}}"),
              "2:21: \"input\" goes with \"curve\", an expression has \"inputs\"\n");
    EXPECT_EQ(
        faults_of_driver("{'curve': [[0, 0]], 'inputs': {}}"),
        "2:1: a driver with a \"curve\" needs \"input\"\n2:21: \"inputs\" goes with \"expression\", a curve has one \"input\"\n");
    EXPECT_EQ(faults_of_driver("{'curve': [], 'input': {'property': 'p'}}"), "2:11: \"curve\" wants at least 1 point, found 0\n");
    EXPECT_EQ(faults_of_driver("{'curve': [[0, 0], [1, 1], [1, 2], [0.5, 3]], 'input': {'property': 'p'}}"),
              "2:28: points of a curve rise in x, found 1 after 1\n2:36: points of a curve rise in x, found 0.5 after 1\n");
    EXPECT_EQ(faults_of_driver("{'curve': [[0, 0], [1]], 'input': {'property': 'p'}}"),
              "2:20: each point wants a list of two numbers, found 1\n");
}

TEST(faults, inputs) {
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'bone': 'a', 'channel': 'scale.x', 'space': 'final'}}}"),
              "");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {}}}"),
              "2:37: an input needs \"property\", \"bone\", \"distance\" or \"angle\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'bone': 'a'}}}"),
              "2:37: an input that reads a bone needs \"channel\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'property': 'p', 'angle': ['a', 'b']}}}"),
              "2:55: an input reads one thing, found \"property\" and \"angle\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': {'property': 'p', 'space': 'local'}}}"),
              "2:55: \"space\" goes with \"bone\", not with \"property\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': {'s': 'p'}}"),
              "2:37: each input wants an input (an object), found the string \"p\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': 's', 'inputs': []}"),
              "2:31: \"inputs\" wants an object of inputs, found a list\n");
}

TEST(faults, expressions_with_the_column_inside_them) {
    EXPECT_EQ(faults_of_driver("{'expression': '1 - t * u', 'inputs': {'s': {'property': 'p'}}}"),
              "2:21: expression: unknown input \"t\"\n2:25: expression: unknown input \"u\"\n");
    EXPECT_EQ(faults_of_driver("{'inputs': {'wing': {'property': 'p'}}, 'expression': '\xC3\xA9 + wnig'}"),
              "2:56: expression: \"\xC3\xA9\" cannot stand in an expression, names in it have letters a to z, digits and \"_\"\n"
              "2:60: expression: unknown input \"wnig\", nearest is \"wing\"\n");
    EXPECT_EQ(faults_of_driver("{'expression': '1 \\u002D t'}"), "2:16: expression: unknown input \"t\"\n")
        << "behind an escape columns of the expression are not those of the file";
    EXPECT_EQ(faults_of_driver("{'expression': 'sin(1'}"),
              "2:17: expression: unknown function \"sin\", nearest is \"min\"\n2:17: expression: parenthesis is not closed\n");
    EXPECT_EQ(faults_of_driver("{'expression': ''}"), "2:17: expression: expression is empty\n");
}

// What was found good once is not looked at again; it is the same only with the same inputs.
TEST(faults, expressions_seen_before_with_other_inputs) {
    const auto faults_after = [](const std::string& first, const std::string& inputs) {
        const auto bone = [](const std::string& driver) {
            return "{'name': 'b" + std::to_string(driver.size()) +
                   "', 'channels': {'scale.x': {'expression': 'b + c', 'inputs': {" + driver + "}}}}";
        };
        return faults_of_bones("{'name': 'a'},\n" + bone(first) + ",\n" + bone(inputs), "'properties': [{'name': 'p'}]");
    };
    const std::string good = "'b': {'property': 'p'}, 'c': {'property': 'p'}";
    EXPECT_EQ(faults_after(good, good + ", 'd': {'property': 'p'}"), "");
    EXPECT_EQ(faults_after(good, "'b': {'property': 'p'}"), "3:61: expression: unknown input \"c\"\n");
    EXPECT_EQ(faults_after(good, "'b\\u0000c': {'property': 'p'}"),
              "3:57: expression: unknown input \"b\"\n3:61: expression: unknown input \"c\"\n");
    EXPECT_EQ(faults_after("'b': {'property': 'p'}", "'b': {'property': 'p'} "),
              "2:61: expression: unknown input \"c\"\n3:61: expression: unknown input \"c\"\n");
}

TEST(faults, long_and_unprintable_texts_shown_in_one_line) {
    EXPECT_EQ(faults_of_bones("{'name': 'a', 'parent': 'b\\n\\u0007'}"), "1:95: unknown bone \"b\\u000a\\u0007\"\n");
    const std::string found = faults_of_bones("{'name': 'a', 'tip': '" + std::string(5000, 'x') + "'}");
    EXPECT_EQ(found, "1:92: \"tip\" wants a list of three numbers, found the string \"" + std::string(400, 'x') +
                         "...\" (5000 characters)\n");
}

TEST(faults, nested_too_deep_once_a_branch) {
    const auto lists = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
    EXPECT_EQ(faults_of_bones("", "'extras': " + lists(999)), "");
    EXPECT_EQ(faults_of_bones("", "'extras': " + lists(1000)), "2:1010: nested deeper than 1000\n");
    EXPECT_EQ(
        faults_of_bones("{'name': 5}", "'extras': [" + lists(100'000) + ",\n" + lists(1000) + "]"),
        "1:80: \"name\" wants a string, found the number 5\n2:1010: nested deeper than 1000\n3:999: nested deeper than 1000\n");
}

// Every kind with the least that it needs, with all that goes with it, and with each key that does not.
struct KindCase {
    std::string_view kind, least, also;
};
constexpr KindCase kind_cases[] = {{"transform", "from", "channels"},
                                   {"position", "from", ""},
                                   {"rotation", "from", ""},
                                   {"scale", "from", ""},
                                   {"aim", "from", "axis up"},
                                   {"roll", "from", "axis"},
                                   {"stretch", "from", "axis"},
                                   {"distance", "from", "range"},
                                   {"space", "from", ""},
                                   {"limit", "channels", "range"},
                                   {"surface", "from", "align"},
                                   {"ik", "target chain", "pole orient"},
                                   {"path", "from chain", ""},
                                   {"custom", "from reads writes", "label"}};
constexpr std::pair<std::string_view, std::string_view> kind_keys[] = {{"from", "{'object': 'o'}"},
                                                                       {"channels", "['position']"},
                                                                       {"range", "[0, 1]"},
                                                                       {"axis", "'x'"},
                                                                       {"up", "'a'"},
                                                                       {"target", "'a'"},
                                                                       {"pole", "'a'"},
                                                                       {"chain", "1"},
                                                                       {"orient", "true"},
                                                                       {"align", "true"},
                                                                       {"reads", "['scale']"},
                                                                       {"writes", "['scale']"},
                                                                       {"label", "'l'"}};

bool has_word(std::string_view words, std::string_view word) {
    return (" " + std::string(words) + " ").find(" " + std::string(word) + " ") != std::string::npos;
}

std::string kind_text(std::string_view kind, std::string_view keys, std::string_view without = {},
                      std::string_view surplus = {}) {
    std::string text = "{'kind': '" + std::string(kind) +
                       "', 'axes': 'xy', 'additive': true, 'space': 'local', 'weight': 0.5, "
                       "'enabled': false, 'name': 'n'";
    for (const auto& [key, value] : kind_keys)
        if ((has_word(keys, key) && key != without) || key == surplus)
            text += ", '" + std::string(key) + "': " + std::string(value);
    return text + "}";
}

TEST(faults, keys_that_do_not_go_with_a_kind_and_keys_that_it_needs) {
    const std::string object = "'objects': [{'name': 'o'}]";
    for (const KindCase& c : kind_cases) {
        const std::string all = std::string(c.least) + " " + std::string(c.also);
        EXPECT_EQ(faults_of_constraints(kind_text(c.kind, c.least), object), "") << c.kind;
        EXPECT_EQ(faults_of_constraints(kind_text(c.kind, all), object), "") << c.kind;
        for (const auto& [key, value] : kind_keys) {
            const std::string quoted = "\"" + std::string(key) + "\"", kind = "\"" + std::string(c.kind) + "\"";
            if (has_word(c.least, key)) {
                EXPECT_EQ(faults_of_constraints(kind_text(c.kind, all, key), object),
                          "2:1: a constraint of kind " + kind + " needs " + quoted + "\n");
            }
            if (has_word(all, key)) continue;
            const std::string faults = faults_of_constraints(kind_text(c.kind, all, {}, key), object);
            EXPECT_NE(faults.find(": " + quoted + " does not go with kind " + kind + "\n"), std::string::npos) << faults;
            EXPECT_EQ(std::count(faults.begin(), faults.end(), '\n'), 1) << faults;
        }
    }
    EXPECT_EQ(faults_of_constraints("{'from': 'a'}"), "2:1: a constraint needs \"kind\"\n");
}

TEST(faults, stand_in_the_order_of_their_places) {
    EXPECT_EQ(
        faults_of_bones("{'parent': 'q', 'constraints': [{'from': 7}], 'tip': []},\n{'name': 'b', 'parent': 'b'}", "'bons': 1"),
        "1:71: a bone needs \"name\"\n1:82: unknown bone \"q\"\n1:103: a constraint needs \"kind\"\n"
        "1:112: \"from\" wants the name of a bone, a source (an object) or a list of them, found the number 7\n"
        "1:124: \"tip\" wants a list of three numbers, found 0\n2:25: parent loop b -> b\n"
        "3:1: unknown key \"bons\" in a rig, nearest is \"bones\"\n");
}

TEST(faults, of_many_unknown_names_are_all_listed) {
    std::string bones = "{'name': 'heron_000'}";
    for (int i = 1; i < 3000; ++i)
        bones += ",\n{'name': 'b" + std::to_string(i) + "', 'parent': 'heorn_" + std::to_string(i) + "'}";
    EXPECT_EQ(read_rig(rig_text(bones)).faults.size(), 2999);
}

}  // namespace
}  // namespace ligament::testing
