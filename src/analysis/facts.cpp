// What is so, all in all? The facts that checks and reports read.
#include "ligament/facts.hpp"

#include <functional>
#include <optional>
#include <vector>

#include "fan_out.hpp"
#include "motion.hpp"
#include "side_by_side.hpp"
#include "switch_facts.hpp"

namespace ligament {

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

namespace {

/// Where the rig lists its roots and no list of controls is wanted, verdicts are all that is to be found.
AttachmentFacts attachment_of(const Rig& rig, const std::vector<Verdict>& verdicts) {
    AttachmentFacts facts;
    facts.root_controls = *rig.roots;
    facts.controls_listed = false;
    facts.deform.reserve(verdicts.size());
    for (BoneId b = 0; b < rig.bones.size(); ++b)
        if (rig.bones[b].deform) facts.deform.push_back({b, verdicts[facts.deform.size()], {}});
    return facts;
}

/// In the default state the walk over states, which takes longest, is prepared first. The works are many, so that the threads end
/// at about the same time; attachment and the schedule, which take most memory, are one, so that they are not done at once.
void find_side_by_side(const Rig& rig, const Dependencies& dependencies, const Dependencies& told, const State& state,
                       const FactOptions& options, Facts& facts) {
    const unsigned workers = workers_that_pay(rig.bones.size(), options.workers);
    std::optional<LiveMotion> live;  // what moves along live edges is the same in every state
    std::optional<SwitchSearch> search;
    if (facts.is_default_state) {
        live = find_live_motion(dependencies, workers);
        search.emplace(rig, dependencies, facts.cycles, *live);
    }
    const bool walk_judges = search && rig.roots && rig.bones.size() > controls_limit;
    std::vector<std::function<void()>> works;
    if (search) works.emplace_back([&] { search->set_out(); });
    works.emplace_back([&] {
        if (!walk_judges) facts.attachment = find_attachment(rig, dependencies, state);
        facts.schedule = find_schedule(rig, told, {}, usual_workers);
        facts.cuts = find_cuts(rig, told, facts.cycles, options.costs, state);
        if (options.circuits > 0) facts.circuits = find_circuits(rig, told, facts.cycles, options.circuits);
        facts.after_cut = find_order_after_cuts(rig, told, facts.cuts);
    });
    if (search) works.emplace_back([&] { search->lay_ground(); });
    works.emplace_back([&] {
        facts.fan_out = live ? find_fan_out(rig, dependencies, live->needed_by)
                             : find_fan_out(rig, dependencies_in(rig, dependencies, state, /*overrides=*/true));
    });
    works.emplace_back([&] { facts.order = find_order(rig, told); });
    do_side_by_side(works, workers);
    if (walk_judges) facts.attachment = attachment_of(rig, search->default_verdicts());
    facts.switches = search ? search->find(workers) : find_switch_facts(rig, dependencies, {});
}

}  // namespace

Facts find_facts(const Rig& rig, const Dependencies& dependencies, const FactOptions& options) {
    const State state = options.state ? *options.state : default_state(rig);
    std::optional<Dependencies> of_state;
    if (options.state) of_state = dependencies_in(rig, dependencies, state, /*overrides=*/false);
    const Dependencies& told = of_state ? *of_state : dependencies;
    Facts facts;
    facts.is_default_state = !options.state;
    facts.state_name = options.state_name;
    facts.cycles = find_cycles(rig, told);
    find_side_by_side(rig, dependencies, told, state, options, facts);
    if (facts.is_default_state) tell_losses_where_closed(rig, dependencies, facts);
    return facts;
}

}  // namespace ligament
