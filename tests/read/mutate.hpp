// How is a text changed at random, with a fixed seed?
#pragma once

#include <algorithm>
#include <random>
#include <string>
#include <string_view>

namespace ligament::testing {

/// One to four changes: a byte changed, a piece cut out, doubled, or moved in from another place.
inline std::string mutate(std::string text, std::mt19937& random) {
    static constexpr std::string_view bytes = "{}[]\",:0129.eE+-\\un \n\t\xC3\xA9\x80\xFF()<=>*/ab";
    const auto below = [&](std::size_t limit) { return random() % std::max<std::size_t>(limit, 1); };
    for (std::size_t changes = 1 + below(4); changes > 0 && !text.empty(); --changes) {
        const std::size_t at = below(text.size()), length = below(std::min<std::size_t>(text.size() - at, 40));
        switch (below(4)) {
            case 0:
                text[at] = bytes[below(bytes.size())];
                break;
            case 1:
                text.erase(at, length);
                break;
            case 2:
                text.insert(at, text.substr(at, length));
                break;
            default:
                text.insert(below(text.size()), text.substr(at, length));
                break;
        }
    }
    return text;
}

}  // namespace ligament::testing
