// The faults of a text as a compact dump: "line:column: message" a line.
#pragma once

#include <string>

#include "ligament/read.hpp"
#include "tiny_rig.hpp"

namespace ligament::testing {

inline std::string faults_of_text(std::string_view text) {
    const ReadResult result = read_rig(text);
    EXPECT_EQ(result.rig.has_value(), result.faults.empty());
    std::string dump;
    for (const Fault& fault : result.faults)
        dump += std::to_string(fault.place.line) + ":" + std::to_string(fault.place.column) + ": " + fault.message + "\n";
    return dump;
}

/// Of a whole rig with single quotes for double quotes.
inline std::string faults_of_bones(std::string_view bones, std::string_view rest = {}) {
    return faults_of_text(rig_text(bones, rest));
}

/// Of constraints on the second of two bones, each in a line of its own from line 2 on.
inline std::string faults_of_constraints(std::string_view constraints, std::string_view rest = {}) {
    return faults_of_bones("{'name': 'a'}, {'name': 'b', 'constraints': [\n" + std::string(constraints) + "]}", rest);
}

/// Of one driver as the weight of a constraint: it starts at 2:1.
inline std::string faults_of_driver(std::string_view driver) {
    return faults_of_bones("{'name': 'a'}, {'name': 'b', 'constraints': [{'kind': 'transform', 'from': 'a', 'weight':\n" +
                               std::string(driver) + "}]}",
                           "'properties': [{'name': 'p'}]");
}

}  // namespace ligament::testing
