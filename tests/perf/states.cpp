// What do all states of a rig cost beside the default state alone, what is prepared for them once, and what do they cost
// themselves? In turn, in one process; one line of JSON a rig.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <optional>
#include <vector>

#include "ligament/facts.hpp"
#include "ligament/read.hpp"
#include "our_walk.hpp"
#include "switch_facts.hpp"

namespace {

double seconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

}  // namespace

// states RUNS RIG...
int main(int count, char** words) {
    if (count < 3) return 2;
    const unsigned long runs = std::strtoul(words[1], nullptr, 10);
    for (int i = 2; i < count; ++i) {
        const ligament::ReadResult read = ligament::read_rig_file(words[i]);
        if (!read.rig) return 2;
        const ligament::Rig& rig = *read.rig;
        const ligament::Dependencies dependencies = ligament::build_dependencies(rig);
        std::vector<double> verdicts, alone, prepared, gone_through;
        const std::vector<ligament::Cycle> cycles;
        ligament::SwitchFacts facts;
        for (unsigned long run = 0; run < runs; ++run) {
            verdicts.push_back(seconds([&] { ligament::perf::judge_default_state(rig, dependencies); }));
            alone.push_back(seconds([&] { find_attachment(rig, dependencies, ligament::default_state(rig)); }));
            ligament::LiveMotion live;
            std::optional<ligament::SwitchSearch> search;
            prepared.push_back(seconds([&] {
                live = ligament::find_live_motion(dependencies);
                search.emplace(rig, dependencies, cycles, live);
                search->lay_ground();
                search->set_out();
            }));
            gone_through.push_back(seconds([&] { facts = search->find(1); }));
        }
        std::printf(
            R"({"bones": %zu, "switches": %zu, "states": %llu, "runs": %lu, "verdicts": %.6f, "default": %.6f, "prepared": %.6f, )"
            R"("states_alone": %.6f})"
            "\n",
            rig.bones.size(), facts.switches.size(), static_cast<unsigned long long>(facts.looked_at), runs, median(verdicts),
            median(alone), median(prepared), median(gone_through));
        std::fflush(stdout);
    }
}
