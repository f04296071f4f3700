// What is so, all in all? The facts that checks and reports read.
#include "ligament/facts.hpp"

#include "fan_out.hpp"
#include "motion.hpp"
#include "switch_facts.hpp"

namespace ligament {

namespace {

Facts find_default_facts(const Rig& rig, const Dependencies& dependencies, const FactOptions& options) {
    Facts facts;
    facts.cycles = find_cycles(rig, dependencies);
    facts.cuts = find_cuts(rig, dependencies, facts.cycles, options.costs, default_state(rig));
    if (options.circuits > 0) facts.circuits = find_circuits(rig, dependencies, facts.cycles, options.circuits);
    facts.order = find_order(rig, dependencies);
    facts.after_cut = find_order_after_cuts(rig, dependencies, facts.cuts);
    facts.schedule = find_schedule(rig, dependencies, {}, usual_workers);
    facts.attachment = find_attachment(rig, dependencies, default_state(rig));
    {
        const LiveMotion live = find_live_motion(dependencies);
        facts.fan_out = find_fan_out(rig, dependencies, live.needed_by);
        facts.switches = find_switch_facts(rig, dependencies, facts.cycles, live, facts.attachment);
    }
    tell_losses_where_closed(rig, dependencies, facts);
    return facts;
}

Facts find_facts_in(const Rig& rig, const Dependencies& dependencies, const State& state, const FactOptions& options) {
    const Dependencies in_state = dependencies_in(rig, dependencies, state, /*overrides=*/false);
    Facts facts;
    facts.cycles = find_cycles(rig, in_state);
    facts.cuts = find_cuts(rig, in_state, facts.cycles, options.costs, state);
    if (options.circuits > 0) facts.circuits = find_circuits(rig, in_state, facts.cycles, options.circuits);
    facts.order = find_order(rig, in_state);
    facts.after_cut = find_order_after_cuts(rig, in_state, facts.cuts);
    facts.schedule = find_schedule(rig, in_state, {}, usual_workers);
    facts.attachment = find_attachment(rig, dependencies, state);
    facts.fan_out = find_fan_out(rig, dependencies_in(rig, dependencies, state, /*overrides=*/true));
    facts.switches = find_switch_facts(rig, dependencies, {});
    facts.is_default_state = false;
    return facts;
}

}  // namespace

void tell_losses_where_closed(const Rig& rig, const Dependencies& dependencies, Facts& facts) {
    constexpr std::size_t most_told_anew = 100;
    std::size_t told_anew = 0;
    facts.losses_in.assign(facts.cycles.size(), {});
    for (std::size_t c = 0; c < facts.cuts.size() && told_anew < most_told_anew; ++c) {
        const std::vector<Settings>& live_in = facts.switches.live_in[c];
        if (live_in.empty() || live_in.front().empty()) continue;
        facts.losses_in[c] = live_in.front();
        tell_losses(rig, dependencies, state_of(rig, facts.switches.switches, live_in.front()), facts.cuts[c]);
        ++told_anew;
    }
}

Facts find_facts(const Rig& rig, const Dependencies& dependencies, const FactOptions& options) {
    Facts facts = options.state ? find_facts_in(rig, dependencies, *options.state, options)
                                : find_default_facts(rig, dependencies, options);
    facts.state_name = options.state_name;
    return facts;
}

}  // namespace ligament
