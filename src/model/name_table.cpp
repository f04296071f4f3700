#include "name_table.hpp"

#include <array>
#include <cstring>
#include <random>
#include <utility>

namespace ligament {

namespace {

__extension__ using Wide = unsigned __int128;

/// Two words that nobody outside the process knows, and that are odd.
const std::array<std::uint64_t, 2>& secret() {
    static const std::array<std::uint64_t, 2> words = [] {
        std::random_device source;
        const auto word = [&] { return (std::uint64_t{source()} << 32 | source()) | 1U; };
        return std::array<std::uint64_t, 2>{word(), word()};
    }();
    return words;
}

/// Both halves of the product, so that every bit of what comes in moves every bit of what goes out.
std::uint64_t fold(std::uint64_t a, std::uint64_t b) {
    const Wide product = Wide{a} * b;
    return static_cast<std::uint64_t>(product) ^ static_cast<std::uint64_t>(product >> 64);
}

}  // namespace

std::uint32_t hash_of_name(std::string_view name) {
    constexpr std::size_t width = sizeof(std::uint64_t);
    const auto [multiplier, start] = secret();
    std::uint64_t hash = fold(start ^ name.size(), multiplier), word = 0;
    for (; name.size() >= width; name.remove_prefix(width)) {
        std::memcpy(&word, name.data(), width);
        hash = fold(hash ^ word, multiplier);
    }
    word = 0;
    for (std::size_t i = 0; i < name.size(); ++i) word |= std::uint64_t{static_cast<unsigned char>(name[i])} << 8 * i;
    hash = fold(hash ^ word, multiplier);
    return static_cast<std::uint32_t>(hash ^ hash >> 32);
}

void NameTable::grow() {
    const std::vector<Slot> old = std::exchange(slots_, {});
    slots_.assign(old.empty() ? 64 : old.size() * 2, {});
    const std::size_t mask = slots_.size() - 1;
    for (const Slot& slot : old) {
        if (slot.id == none) continue;
        std::size_t at = slot.hash & mask;
        while (slots_[at].id != none) at = (at + 1) & mask;
        slots_[at] = slot;
    }
}

}  // namespace ligament
