// Is a value of a glTF file what the standard wants in its place?
#pragma once

#include <span>

#include "gltf.hpp"

namespace ligament {

/// Takes values of the JSON, and says what is wrong where one is not what the standard wants: as a fault where nothing can be
/// read without it, else as a remark.
struct GltfTaker {
    const JsonDocument& json;
    FaultList& faults;
    Remarks& remarks;
    bool is_strict = true;  ///< faults, not remarks

    GltfTaker lenient() const { return {json, faults, remarks, false}; }

    void complain(std::uint32_t item, std::string message) const;
    void fault(std::uint32_t item, std::string message) const;
    void remark(std::uint32_t item, std::string message, std::vector<BoneId> bones = {}) const;
    /// Most remarks of a kind that a rig has in the end.
    static constexpr std::size_t remark_limit = 10'000;

    /// The value at a key, none where there is none or, after a complaint, where it is of another type. `wanted`: "a list".
    std::uint32_t member(std::uint32_t object, std::string_view key, Token::Type type, std::string_view wanted) const;
    std::uint32_t list(std::uint32_t object, std::string_view key) const {
        return member(object, key, Token::Type::list, "a list");
    }
    std::uint32_t object(std::uint32_t object, std::string_view key) const {
        return member(object, key, Token::Type::object, "an object");
    }
    std::string_view text(std::uint32_t object, std::string_view key) const;
    /// Whether an item is an object; complains where it is not. `noun`: "a node".
    bool is_object(std::uint32_t item, std::string_view noun) const;

    /// A whole number from 0 to 2^53, also written as 1e2 or 100.0.
    std::uint64_t whole(std::uint32_t object, std::string_view key, std::uint64_t otherwise) const;
    /// An index below `size`, of what messages call `noun`; not given where it is complained of.
    GltfIndex index(std::uint32_t item, std::size_t size, std::string_view noun) const;
    /// The same of a member, not given where there is none.
    GltfIndex index(std::uint32_t object, std::string_view key, std::size_t size, std::string_view noun) const;
    /// All entries of a list of indices; those complained of are left out.
    std::vector<GltfIndex> indices(std::uint32_t list, std::size_t size, std::string_view noun) const;
    /// Numbers of a list of exactly that many; false where there is no list, or after a complaint.
    bool numbers(std::uint32_t object, std::string_view key, std::span<double> to) const;
};

}  // namespace ligament
