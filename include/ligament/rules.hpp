// What has a project laid down for its rigs? Severities, thresholds, names, costs, roots, layers, and findings that it accepts.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ligament/cycles.hpp"

namespace ligament {

/// From where on something is found. Lengths are in the rig's own unit of length (metres, as glTF 2.0 has it), angles in degrees.
struct Thresholds {
    std::size_t fan_out = 64;        ///< a property may reach so many targets
    double rest_distance = 0.0001;   ///< places at rest that differ by at most this are one
    double rest_angle = 0.1;         ///< directions and rotations at rest that differ by at most this are one
    double mirror_distance = 0.001;  ///< as rest_distance, for a bone and the mirror image of its partner
    double straight_angle = 0.5;     ///< a chain whose bones turn less than this against each other at rest is straight
    double pole_angle = 1.0;         ///< a pole may lie so far beside the plane of its chain at rest
};

/// The role of a bone for patterns and layers.
enum class Role : std::uint8_t { control, deform, mechanism };

/// Bones chosen by what they are: those that fit all that is given. Patterns are shell patterns (* ? [a-z]); one of several is
/// enough.
struct BonePattern {
    std::vector<std::string> names;
    std::vector<std::string> groups;
    std::vector<Role> roles;  ///< a bone that is control and deform fits both
};

/// Bones that the pattern of whom fits have names that fit one of `names`.
struct NamePattern {
    BonePattern of;
    std::vector<std::string> names;
    std::string why;  ///< may be empty
    Place place;      ///< in the rules file
};

/// What may or must need what. Data flows from `from` to `to`: a bone that fits `to` needs one that fits `from`, straight or
/// through properties, drivers, objects and solvers.
struct LayerRule {
    enum class Says : std::uint8_t {
        allowed,    ///< such a dependence is fine, whatever later rules say
        forbidden,  ///< such a dependence is found fault with, unless an earlier rule allows it
        required    ///< a bone that fits `to` without any such dependence is found fault with
    };
    BonePattern from, to;
    Says says = Says::forbidden;
    std::string why;
    Place place;  ///< in the rules file
};

/// A day of the calendar (Gregorian, as in "2026-11-27").
struct Day {
    int year = 0, month = 0, day = 0;

    friend auto operator<=>(const Day&, const Day&) = default;
};

/// A finding that is known and may stay.
struct Acceptance {
    std::string check;
    std::vector<std::string> rigs;   ///< patterns of names of rigs; none: all
    std::vector<std::string> bones;  ///< patterns; all bones of the finding fit one of them; none: whatever it is about
    std::string subject;             ///< pattern of Finding::subject; empty: any
    std::string maker;               ///< pattern of Finding::maker; empty: any
    std::string reason;
    std::optional<Day> until = {};  ///< the last day on which it does not count
    Place place = {};               ///< in the rules file
    std::string file = {};          ///< the rules file that it stands in
};

/// What is laid down. The default: nothing is.
struct Rules {
    std::string file;  ///< where it was read from; empty for the default
    std::vector<std::pair<std::string, std::optional<Severity>>>
        severities;  ///< by name of the check, the last one holds; none: it is off
    Thresholds thresholds;
    CutCosts costs;
    std::optional<std::vector<std::string>> roots;  ///< patterns of the names of root controls, in the place of the rig's own
    std::vector<NamePattern> names;                 ///< by `name-pattern`
    std::vector<LayerRule> layers;                  ///< by `layer-rule`
    std::vector<Acceptance> accepted;
};

}  // namespace ligament
