// How long do the parts of a check take, and walking a graph beside others on the same edges? Google Benchmark, on one rig.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <fstream>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "hand_csr.hpp"
#include "igraph_walk.hpp"
#include "ligament/checks.hpp"
#include "ligament/read.hpp"
#include "ligament/report.hpp"
#include "our_walk.hpp"

namespace {

using namespace ligament;

/// igraph is left out above so many edges: it takes its time, and no goal hangs on it there.
constexpr std::size_t most_for_igraph = 5'000'000;

struct Subject {
    std::string text;
    Rig rig;
    Dependencies dependencies;
    Facts facts;
    std::vector<Finding> findings;
};

template <class Work>
void measure(const std::string& name, Work work) {
    benchmark::RegisterBenchmark(name.c_str(),
                                 [work](benchmark::State& state) {
                                     for (auto _ : state) benchmark::DoNotOptimize(work());
                                 })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
}

void measure_steps(const Subject& on) {
    measure("parse", [&] { return nlohmann::json::parse(on.text).size(); });
    measure("read", [&] { return read_rig(on.text).rig->bones.size(); });
    measure("build_dependencies", [&] { return build_dependencies(on.rig).makers.size(); });
    measure("cycles", [&] { return find_cycles(on.rig, on.dependencies).size(); });
    measure("order", [&] { return find_order(on.rig, on.dependencies).bones.size(); });
    measure("schedule", [&] { return find_schedule(on.rig, on.dependencies, {}, usual_workers).work; });
    measure("attachment", [&] { return find_attachment(on.rig, on.dependencies, default_state(on.rig)).deform.size(); });
    measure("fan_out", [&] { return find_fan_out(on.rig, on.dependencies).size(); });
    measure("switch_facts", [&] { return find_switch_facts(on.rig, on.dependencies, on.facts.cycles).looked_at; });
    measure("findings", [&] { return find_findings(on.rig, on.dependencies, on.facts).size(); });
    measure("write_json", [&] {
        std::ostringstream out;
        write_json(out, {"rig.json", on.rig, on.dependencies, on.facts, on.findings});
        return out.str().size();
    });
}

template <perf::Found (*walk)(const perf::EdgeList&)>
void measure_walk(const std::string& name, const perf::EdgeList& list, perf::IndexBytes bytes) {
    benchmark::RegisterBenchmark(name.c_str(),
                                 [&list, bytes](benchmark::State& state) {
                                     perf::Found found;
                                     for (auto _ : state) benchmark::DoNotOptimize(found = walk(list));
                                     state.counters["vertices"] = list.vertices;
                                     state.counters["edges"] = static_cast<double>(list.arcs.size());
                                     state.counters["components"] = found.components;
                                     state.counters["levels"] = found.levels;
                                     state.counters["unreached"] = found.unreached;
                                     state.counters["index_bytes"] = bytes.rows_and_edges;
                                     state.counters["index_bytes_with_vertices"] = bytes.with_vertices;
                                 })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
}

void measure_walks(const perf::EdgeList& list, const std::string& grain, perf::IndexBytes bytes) {
    measure_walk<perf::walk_by_ours>("walk/" + grain + "/ours", list, bytes);
    measure_walk<perf::walk_by_hand>("walk/" + grain + "/hand", list, {});
    measure_walk<perf::walk_by_hand_kahn_first>("walk/" + grain + "/hand_kahn_first", list, {});
    if (list.arcs.size() <= most_for_igraph) measure_walk<perf::walk_by_igraph>("walk/" + grain + "/igraph", list, {});
}

bool load(const char* path, Subject& subject) {
    std::ifstream in(path, std::ios::binary);
    subject.text.assign(std::istreambuf_iterator<char>(in), {});
    ReadResult read = read_rig(subject.text);
    if (!read.rig) return false;
    subject.rig = *std::move(read.rig);
    subject.dependencies = build_dependencies(subject.rig);
    subject.facts = find_facts(subject.rig, subject.dependencies);
    subject.findings = find_findings(subject.rig, subject.dependencies, subject.facts);
    return true;
}

}  // namespace

// parts RIG [OPTION OF GOOGLE BENCHMARK]...
int main(int count, char** words) {
    benchmark::Initialize(&count, words);
    Subject subject;
    if (count != 2 || !load(words[1], subject)) {
        std::fputs("usage: perf_parts RIG [--benchmark_...]\n", stderr);
        return 2;
    }
    measure_steps(subject);
    std::vector<perf::EdgeList> lists;
    for (const Grain grain : {Grain::bone, Grain::step, Grain::channel})
        lists.push_back(perf::edge_list_of(subject.rig, subject.dependencies, grain));
    for (const Grain grain : {Grain::bone, Grain::step, Grain::channel})
        measure_walks(lists[static_cast<std::size_t>(grain)], std::string(name_of(grain)),
                      perf::index_bytes(subject.rig, subject.dependencies, grain));
    benchmark::RunSpecifiedBenchmarks();
}
