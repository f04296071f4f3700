// What do all states of a rig cost beside the default state alone? Medians of five, in turn, in one process.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <functional>

#include "ligament/facts.hpp"
#include "ligament/read.hpp"

namespace {

double seconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(std::array<double, 5> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

}  // namespace

int main(int count, char** words) {
    std::printf("%9s %8s %8s %10s %10s %6s\n", "bones", "switches", "states", "default s", "all s", "ratio");
    for (int i = 1; i < count; ++i) {
        const ligament::ReadResult read = ligament::read_rig_file(words[i]);
        if (!read.rig) return 2;
        const ligament::Rig& rig = *read.rig;
        const ligament::Dependencies dependencies = ligament::build_dependencies(rig);
        std::array<double, 5> alone{}, all{};
        ligament::SwitchFacts facts;
        for (std::size_t run = 0; run < alone.size(); ++run) {
            alone[run] = seconds([&] { find_attachment(rig, dependencies, ligament::default_state(rig)); });
            all[run] = seconds([&] { facts = find_switch_facts(rig, dependencies, {}); });
        }
        std::printf("%9zu %8zu %8llu %10.4f %10.4f %6.2f\n", rig.bones.size(), facts.switches.size(),
                    static_cast<unsigned long long>(facts.looked_at), median(alone), median(all), median(all) / median(alone));
    }
}
