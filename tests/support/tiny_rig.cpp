#include "tiny_rig.hpp"

#include <algorithm>
#include <stdexcept>

#include "ligament/read.hpp"

namespace ligament::testing {

std::string rig_text(std::string_view bones, std::string_view rest) {
    std::string text = "{'format': 'rig-description', 'version': 1, 'name': 'tiny', 'bones': [";
    text += bones;
    text += "]";
    if (!rest.empty()) text.append(",\n").append(rest);
    text += "}\n";
    std::replace(text.begin(), text.end(), '\'', '"');
    return text;
}

Rig tiny_rig(std::string_view bones, std::string_view rest) {
    ReadResult result = read_rig(rig_text(bones, rest));
    if (result.rig) return *std::move(result.rig);
    std::string message = "tiny rig is faulty";
    for (const Fault& fault : result.faults)
        message += "\n" + std::to_string(fault.place.line) + ":" + std::to_string(fault.place.column) + ": " + fault.message;
    throw std::runtime_error(message);
}

}  // namespace ligament::testing
