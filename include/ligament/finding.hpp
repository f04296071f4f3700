// What can be said about a rig or about its file: places, input faults and findings, as values.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ligament {

/// A place in the file a rig was read from. Lines and columns count from 1, columns in Unicode code points;
/// line 0 means that the element did not come from a file.
struct Place {
    std::uint32_t line = 0;
    std::uint32_t column = 0;

    /// In the order of the text.
    friend auto operator<=>(const Place&, const Place&) = default;
};

/// A fault of the input: the rig cannot be used until it is mended.
struct Fault {
    Place place;
    std::string message;       ///< lower case, no period at the end, names the thing and both values
    std::string pointer = {};  ///< where in the JSON of a glTF file, as a JSON Pointer (RFC 6901); else empty
};

/// How bad a finding is, mildest first.
enum class Severity : std::uint8_t { note, warning, error };

/// "note", "warning" or "error".
std::string_view name_of(Severity severity);

/// What is not the same about two things, side by side.
struct Difference {
    std::string what;         ///< "weight of fk", "rest position"
    std::string left, right;  ///< what it is on either side; empty where it is missing there
};

/// One thing that a check says about a rig.
struct Finding {
    std::string check;  ///< the name of the check, as in the table of checks
    Severity severity = Severity::note;
    std::string message;               ///< what is so
    std::string hint;                  ///< what to do about it; may be empty
    std::vector<std::uint32_t> bones;  ///< ids of the bones it is about, in file order
    std::string subject;               ///< what it is about where that is no bone (the name of a property); else empty
    Place place;
    std::string pointer = {};  ///< where in the JSON of a glTF file, as a JSON Pointer (RFC 6901); else empty
    /// The maker that it is about, as reports name makers ("bone/constraint"), or what else tells apart the findings that one
    /// check makes about the same bones; empty where these say it all. Holds no number that changes when something else does.
    std::string maker = {};
    std::vector<Difference> differences = {};  ///< where two things ought to be alike
};

}  // namespace ligament
