#include "review_text.hpp"

#include <algorithm>

namespace ligament {

namespace {

// Longer lists are shown in part; JSON has all of them.
constexpr std::size_t bones_shown = 12;

std::string quoted(const std::string& name) { return '"' + name + '"'; }

}  // namespace

std::string gone_text(const Identity& identity) {
    std::string text = identity.check;
    const std::size_t shown = std::min(identity.bones.size(), bones_shown);
    for (std::size_t i = 0; i < shown; ++i) text += (i == 0 ? " of " : ", ") + quoted(identity.bones[i]);
    if (shown < identity.bones.size())
        text += " (showing " + std::to_string(shown) + " of " + std::to_string(identity.bones.size()) + ")";
    if (!identity.subject.empty()) text += (shown == 0 ? " of " : ", about ") + quoted(identity.subject);
    if (!identity.maker.empty()) text += " (" + identity.maker + ")";
    return text;
}

std::string set_aside_text(const Review& review) {
    const auto count = [&](SetAside::By by) {
        return static_cast<std::size_t>(
            std::count_if(review.set_aside.begin(), review.set_aside.end(), [&](const SetAside& one) { return one.by == by; }));
    };
    const std::size_t accepted = count(SetAside::By::rules), known = count(SetAside::By::baseline);
    if (accepted + known == 0) return {};
    if (accepted == 0) return counted_text(known, "finding") + " known by the baseline";
    return counted_text(accepted, "finding") + " accepted by rules" +
           (known == 0 ? "" : ", " + std::to_string(known) + " known by the baseline");
}

}  // namespace ligament
