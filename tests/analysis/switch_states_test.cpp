// Does a state looked at for what it changes come out as one found from scratch? Every state of 500 random rigs, by brute force.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "attachment.hpp"
#include "ligament/switches.hpp"
#include "motion.hpp"
#include "random_rig.hpp"

namespace ligament {
namespace {

using testing::random_rig;

/// All settings of one switch, then all combinations of two or more off their default.
std::vector<Settings> all_settings(const Rig& rig, const std::vector<Switch>& switches) {
    std::vector<Settings> all{{}};
    for (std::uint32_t s = 0; s < switches.size(); ++s)
        for (std::size_t i = all.size(); i-- > 0;)
            for (std::uint32_t stop = 0; stop < switches[s].stops.size(); ++stop) {
                all.push_back(all[i]);
                all.back().push_back({s, stop});
            }
    std::erase_if(all, [&](const Settings& settings) {
        if (settings.size() < 2) return settings.empty();
        return std::any_of(settings.begin(), settings.end(), [&](Setting setting) {
            const Switch& of = switches[setting.switch_index];
            return of.stops[setting.stop].value == rig.properties[of.property].initial;
        });
    });
    std::stable_sort(all.begin(), all.end(), [](const Settings& a, const Settings& b) { return a.size() < b.size(); });
    return all;
}

std::vector<Verdict> verdicts_from_scratch(const Rig& rig, const Dependencies& dependencies, const State& state) {
    std::vector<Verdict> verdicts;
    for (const Attachment& attachment : find_attachment(rig, dependencies, state).deform) verdicts.push_back(attachment.verdict);
    return verdicts;
}

std::string words_for(const Rig& rig, const std::vector<Switch>& switches, const std::vector<Worse>& worse) {
    std::string words;
    for (const Worse& each : worse)
        words += name_of(rig, switches, each.settings) + " " + std::string(name_of(each.verdict)) + "; ";
    return words;
}

bool is_within(const Settings& part, const Settings& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

bool is_in_a_set(const SwitchFacts& facts, const Settings& settings) {
    return std::any_of(facts.sets.begin(), facts.sets.end(), [&](const InteractingSet& set) {
        return std::all_of(settings.begin(), settings.end(), [&](Setting setting) {
            return std::binary_search(set.switches.begin(), set.switches.end(), setting.switch_index);
        });
    });
}

struct Expected {
    std::vector<std::string> worse, worse_yet;  // by deform bone
};

/// What find_switch_facts should say of bones that get worse: every state from scratch, combinations within a set only.
Expected expected_of(const Rig& rig, const Dependencies& dependencies, const SwitchFacts& facts) {
    const std::vector<Verdict> by_default = verdicts_from_scratch(rig, dependencies, default_state(rig));
    std::vector<std::vector<Worse>> worse(by_default.size()), worse_yet(by_default.size());
    for (const Settings& settings : all_settings(rig, facts.switches)) {
        if (settings.size() > 1 && !is_in_a_set(facts, settings)) continue;
        const auto verdicts = verdicts_from_scratch(rig, dependencies, state_of(rig, facts.switches, settings));
        for (std::size_t i = 0; i < verdicts.size(); ++i) {
            Verdict worst = by_default[i];
            if (settings.size() > 1)
                for (const auto* list : {&worse[i], &worse_yet[i]})
                    for (const Worse& each : *list)
                        if (is_within(each.settings, settings)) worst = std::max(worst, each.verdict);
            if (verdicts[i] > worst)
                (settings.size() == 1 ? worse : worse_yet)[i].push_back({settings, verdicts[i], false, false, none, {}});
        }
    }
    // Reports list by switch and stop, and combinations in the order in which they are looked at; compared is what, not when.
    Expected expected;
    for (std::size_t i = 0; i < by_default.size(); ++i) {
        const auto by_settings = [](const Worse& a, const Worse& b) { return a.settings < b.settings; };
        std::sort(worse[i].begin(), worse[i].end(), by_settings);
        std::sort(worse_yet[i].begin(), worse_yet[i].end(), by_settings);
        expected.worse.push_back(words_for(rig, facts.switches, worse[i]));
        expected.worse_yet.push_back(words_for(rig, facts.switches, worse_yet[i]));
    }
    return expected;
}

TEST(SwitchStates, AllStatesOfRandomRigsAgreeWithBruteForce) {
    std::size_t with_worse = 0, with_worse_yet = 0, by_no_roots = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const Dependencies dependencies = build_dependencies(rig);
        SwitchFacts facts = find_switch_facts(rig, dependencies, find_cycles(rig, dependencies));
        for (const InteractingSet& set : facts.sets) ASSERT_EQ(set.combinations, set.looked_at) << rig.name;
        const Expected expected = expected_of(rig, dependencies, facts);
        for (std::size_t i = 0; i < facts.worse.size(); ++i) {
            std::sort(facts.worse_yet[i].begin(), facts.worse_yet[i].end(),
                      [](const Worse& a, const Worse& b) { return a.settings < b.settings; });
            EXPECT_EQ(words_for(rig, facts.switches, facts.worse[i]), expected.worse[i]) << rig.name << " deform bone " << i;
            EXPECT_EQ(words_for(rig, facts.switches, facts.worse_yet[i]), expected.worse_yet[i])
                << rig.name << " deform bone " << i;
            with_worse += !facts.worse[i].empty();
            with_worse_yet += !facts.worse_yet[i].empty();
            by_no_roots += !facts.worse[i].empty() && !rig.roots;
        }
    }
    // The rigs have to have something to be wrong about.
    EXPECT_GT(with_worse, 100u);
    EXPECT_GT(with_worse_yet, 20u);
    EXPECT_GT(by_no_roots, 30u);
}

/// The verdict of a deform bone, from scratch, in a state in which one constraint is as in the default state.
Verdict verdict_with(const Rig& rig, const Dependencies& dependencies, const State& state, ConstraintId restored,
                     std::size_t place) {
    const Evaluation by_default = evaluate(rig, dependencies, default_state(rig));
    Liveness liveness = find_liveness(rig, dependencies, evaluate(rig, dependencies, state));
    for (std::size_t g = 0; g < dependencies.gates.size(); ++g)
        if (dependencies.gates[g].constraint == restored)
            liveness.gate_is_off[g] = is_off(rig, dependencies, dependencies.gates[g], by_default) ? 1 : 0;
    liveness.replaced[restored] = replaced_by(rig, dependencies, restored, by_default);
    return find_attachment(rig, dependencies, liveness, /*list_them=*/false).deform[place].verdict;
}

TEST(SwitchStates, TheBlamedConstraintMakesTheDifference) {
    std::size_t blamed = 0, by_others = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const Dependencies dependencies = build_dependencies(rig);
        const SwitchFacts facts = find_switch_facts(rig, dependencies, {});
        const AttachmentFacts by_default = find_attachment(rig, dependencies, default_state(rig));
        for (std::size_t place = 0; place < facts.worse.size(); ++place)
            for (const auto* list : {&facts.worse[place], &facts.worse_yet[place]})
                for (const Worse& worse : *list) {
                    const State state = state_of(rig, facts.switches, worse.settings);
                    const AttachmentFacts there = find_attachment(rig, dependencies, state);
                    if (worse.by_others) {
                        ++by_others;
                        EXPECT_EQ(there.deform[place].controls, by_default.deform[place].controls) << rig.name;
                    }
                    if (worse.blamed == none) continue;
                    ++blamed;
                    EXPECT_LE(verdict_with(rig, dependencies, state, worse.blamed, place), by_default.deform[place].verdict)
                        << rig.name;
                    const Evaluation evaluation = evaluate(rig, dependencies, state);
                    EXPECT_EQ(worse.blamed_is_off, is_off(rig, dependencies, dependencies.gates[worse.blamed + 1], evaluation));
                    for (BoneId other : worse.right) {
                        EXPECT_NE(other, dependencies.constraints[worse.blamed].bone);
                    }
                }
    }
    EXPECT_GT(blamed, 100u);
    EXPECT_GT(by_others, 2u);
}

// Where a rig lists its roots, no combination that was left out as independent makes a bone worse than its parts do.
TEST(SwitchStates, SwitchesThatTouchNoCommonBoneAreIndependent) {
    std::size_t left_out = 0;
    for (unsigned seed = 0; seed < 500; ++seed) {
        Rig rig = random_rig(seed);
        if (!rig.roots) rig.roots.emplace();
        const Dependencies dependencies = build_dependencies(rig);
        const SwitchFacts facts = find_switch_facts(rig, dependencies, {});
        for (const Settings& settings : all_settings(rig, facts.switches)) {
            if (settings.size() != 2 || is_in_a_set(facts, settings)) continue;
            ++left_out;
            const auto verdicts = verdicts_from_scratch(rig, dependencies, state_of(rig, facts.switches, settings));
            const auto first = verdicts_from_scratch(rig, dependencies, state_of(rig, facts.switches, {settings[0]}));
            const auto second = verdicts_from_scratch(rig, dependencies, state_of(rig, facts.switches, {settings[1]}));
            for (std::size_t i = 0; i < verdicts.size(); ++i)
                if (verdicts[i] != Verdict::root_only) {
                    EXPECT_LE(verdicts[i], std::max(first[i], second[i])) << rig.name;
                }
        }
    }
    EXPECT_GT(left_out, 100u);
}

TEST(SwitchStates, CyclesAreLiveWhereTheirEdgesAre) {
    std::map<std::size_t, std::size_t> states;
    for (unsigned seed = 0; seed < 500; ++seed) {
        const Rig rig = random_rig(seed);
        const Dependencies dependencies = build_dependencies(rig);
        const std::vector<Cycle> cycles = find_cycles(rig, dependencies);
        const SwitchFacts facts = find_switch_facts(rig, dependencies, cycles);
        std::vector<Settings> settings{{}};
        for (std::uint32_t s = 0; s < facts.switches.size(); ++s)
            for (std::uint32_t stop = 0; stop < facts.switches[s].stops.size(); ++stop) settings.push_back({{s, stop}});
        for (std::size_t c = 0; c < cycles.size(); ++c) {
            std::vector<Settings> live;
            for (const Settings& setting : settings) {
                const Dependencies in_state =
                    dependencies_in(rig, dependencies, state_of(rig, facts.switches, setting), /*overrides=*/false);
                const std::vector<Cycle> left = find_cycles(rig, in_state);
                // At the reported grain or a finer one, some cycle of the state lies in this component.
                const bool is_left = std::any_of(left.begin(), left.end(), [&](const Cycle& cycle) {
                    const bool same = cycle.bones.empty()
                                          ? std::includes(cycles[c].properties.begin(), cycles[c].properties.end(),
                                                          cycle.properties.begin(), cycle.properties.end())
                                          : std::includes(cycles[c].bones.begin(), cycles[c].bones.end(), cycle.bones.begin(),
                                                          cycle.bones.end());
                    return same && cycle.grain >= cycles[c].grain;
                });
                if (is_left) live.push_back(setting);
            }
            EXPECT_EQ(facts.live_in[c], live) << rig.name << " cycle " << c;
            ++states[live.size() == settings.size() ? 2 : live.empty() ? 0 : 1];
        }
    }
    EXPECT_GT(states[0], 2u);
    EXPECT_GT(states[1], 10u);
    EXPECT_GT(states[2], 10u);
}

}  // namespace
}  // namespace ligament
