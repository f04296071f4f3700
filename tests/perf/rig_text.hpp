// What is a rig of N bones that is built as rigs in production are? Written as text, piece by piece, from plain numbers.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <string_view>

namespace ligament::perf {

/// What a rig is to have. The same shape gives the same bytes.
///
/// Limbs of 30 to 200 bones in mirrored pairs, each a group that hangs on another one's control and reaches along with two more:
/// a chain of controls (fk), one that a solver bends (ik), one that follows either (mech), and deform bones (skin). 60 % of the
/// bones have one to three constraints, 1.2 a bone in all. A switch a limb chooses between the chains, by the weights `s` and `1
/// - s`. In every other pair of limbs a constraint more a joint adds the sway of a control, which hub switches turn on and off:
/// each up to 500 of them, over several limbs.
struct RigShape {
    static constexpr std::uint64_t all = std::numeric_limits<std::uint64_t>::max();
    static constexpr std::uint64_t most_on_hub = 500;
    std::uint64_t bones = 200;  ///< the rig has exactly so many
    std::uint64_t seed = 1;
    std::uint64_t cycles = 0;   ///< two bones that follow each other; drivers that read each other's bone; bones that read each
                                ///< other crosswise, a cycle at step grain only; a solver that reaches for its own chain
    std::uint64_t orphans = 0;  ///< deform bones that no control reaches
    std::uint64_t switches = all;
    std::uint64_t hubs = all;
};

using Write = std::function<void(std::string_view)>;

/// False, and nothing written, where there are too few bones for the shape.
bool write_rig_text(const RigShape& shape, const Write& write);

}  // namespace ligament::perf
