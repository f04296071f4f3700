// Who is reached from where? Sets of marks that travel side by side, one pass for all of them.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <span>
#include <vector>

#include "sweep.hpp"

namespace ligament {

/// Gives each vertex the marks of all from which it is reached. `order` is a sweep of the rows. `Word` has `|=`. Linear.
template <class Word>
void spread_marks(const Rows& rows, const Sweep& order, std::vector<Word>& marks) {
    for (std::uint32_t c = 0; c < order.size(); ++c) {
        const std::span<const std::uint32_t> members = order.of(c);
        if (members.size() == 1) {
            Word& mark = marks[members.front()];
            for (std::uint32_t from : rows.of(members.front())) mark |= marks[from];
            continue;
        }
        Word all = marks[members.front()];
        for (std::uint32_t v : members) {
            all |= marks[v];
            for (std::uint32_t from : rows.of(v)) all |= marks[from];
        }
        for (std::uint32_t v : members) marks[v] = all;
    }
}

/// A set of the numbers 0 to 255.
struct MarkSet {
    static constexpr std::size_t capacity = 256;
    std::array<std::uint64_t, capacity / 64> words{};

    bool operator==(const MarkSet&) const = default;
    void insert(std::size_t i) { words[i / 64] |= std::uint64_t{1} << i % 64; }
    void erase(std::size_t i) { words[i / 64] &= ~(std::uint64_t{1} << i % 64); }
    bool contains(std::size_t i) const { return words[i / 64] >> i % 64 & 1u; }
    MarkSet& operator|=(const MarkSet& other) {
        for (std::size_t i = 0; i < words.size(); ++i) words[i] |= other.words[i];
        return *this;
    }
    /// Its numbers, ascending.
    template <class Use>
    void for_each(Use use) const {
        for (std::size_t word = 0; word < words.size(); ++word)
            for (std::uint64_t bits = words[word]; bits != 0; bits &= bits - 1)
                use(word * 64 + static_cast<std::size_t>(std::countr_zero(bits)));
    }
};

}  // namespace ligament
