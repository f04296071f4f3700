// Do two driven values come to the same on either side?
#pragma once

#include "expression.hpp"
#include "side_mirror.hpp"

namespace ligament {

/// Compares values of partners. Not for use by two threads at once.
class SideValues {
  public:
    explicit SideValues(const SideMirror& mirror) : mirror_(mirror) {}

    /// Whether they come to the same for mirrored inputs; with `may_turn` also where one is the negative of the other. Drivers
    /// whose inputs do not mirror each other are never the same.
    bool are_alike(const Value& left, const Value& right, bool may_turn);

  private:
    bool are_alike(const Driver& left, const Driver& right, bool may_turn);
    bool is_input(const Input& left, const Input& right) const;
    /// For each input of the left driver the one of the right; empty where one is left over.
    std::vector<std::uint32_t> match_inputs(const Driver& left, const Driver& right) const;

    const SideMirror& mirror_;
    ExpressionEvaluator evaluator_;
};

}  // namespace ligament
