// What do all states of a rig cost beside the default state alone? In turn, in one process; one line of JSON a rig.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <vector>

#include "ligament/facts.hpp"
#include "ligament/read.hpp"
#include "our_walk.hpp"

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
        std::vector<double> verdicts, alone, all;
        ligament::SwitchFacts facts;
        for (unsigned long run = 0; run < runs; ++run) {
            verdicts.push_back(seconds([&] { ligament::perf::judge_default_state(rig, dependencies); }));
            alone.push_back(seconds([&] { find_attachment(rig, dependencies, ligament::default_state(rig)); }));
            all.push_back(seconds([&] { facts = find_switch_facts(rig, dependencies, {}); }));
        }
        std::printf(
            R"({"bones": %zu, "switches": %zu, "states": %llu, "runs": %lu, "verdicts": %.6f, "default": %.6f, "all": %.6f})"
            "\n",
            rig.bones.size(), facts.switches.size(), static_cast<unsigned long long>(facts.looked_at), runs, median(verdicts),
            median(alone), median(all));
        std::fflush(stdout);
    }
}
