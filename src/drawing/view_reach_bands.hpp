// Who moves which deform bones, limb by limb and stop by stop, as rows that can be drawn?
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "lists.hpp"

namespace ligament {

/// Rigs of more bones than this have controls and deform bones counted, not named.
inline constexpr std::size_t most_bones_joined = 5'000;

/// Deform bones that the same controls move at one stop.
struct ReachRow {
    std::string state;  ///< heading: the stop; empty where no switch changes anything in the limb
    Verdict verdict = Verdict::orphaned;
    std::vector<BoneId> controls;  ///< beyond ReachBand::shared
    std::vector<BoneId> bones;
    std::size_t control_count = 0;  ///< where bones are counted: different controls in all
    bool by_shared_alone = false;
    bool is_moved = false;  ///< by any control
};

/// One limb.
struct ReachBand {
    std::string title;  ///< drawable
    std::uint32_t group = none;
    std::vector<BoneId> shared;    ///< controls that move the bones of every row
    bool shared_by_moved = false;  ///< of every row but those of bones that no control moves
    std::vector<ReachRow> rows;
    std::string note;  ///< drawable: switches that change nothing here; may be empty
};

struct ReachPlan {
    std::vector<ReachBand> bands;
    std::size_t switches = 0;
    bool is_counted = false;
};

/// Of the state that the facts are of where one was asked for, else of all stops.
ReachPlan plan_bands(const Subject& subject);

}  // namespace ligament
