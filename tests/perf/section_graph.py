"""Parts of a check, and walking each grain beside a hand-written walk and igraph on the same list of edges."""

import json
import subprocess

from tables import Goal, seconds, show, size_word

MOST_TIMES_HAND, MOST_BYTES = 2, 16
GRAINS, WAYS = ("bone", "step", "channel"), ("ours", "hand", "hand_kahn_first", "igraph")
STEPS = ("parse", "read", "build_dependencies", "cycles", "order", "schedule", "attachment", "fan_out", "switch_facts", "findings", "write_json")


def measure(suite):
    suite.raw["graph"] = []
    for size in suite.sizes:
        parts = run(suite, size)
        steps = {name: parts[name] for name in STEPS}
        show(f"Parts of a check, {size_word(size)} bones", ["part", "time", "times parse", "runs"],
             [[name, seconds(part["seconds"]), f"{part['seconds'] / steps['parse']['seconds']:.3f}", part["runs"]] for name, part in steps.items()])
        show_walks(size, parts)
        for grain in GRAINS:
            add_goals(suite, size, grain, parts)
        suite.raw["graph"].append({"bones": size, "parts": parts})


def run(suite, size):
    """The parts by name: median wall time, number of runs, counters. Runs are mixed, so that no part has the machine to itself."""
    rig = suite.rig(size)
    done = subprocess.run([suite.programs / "perf_parts", rig, f"--benchmark_repetitions={suite.runs(9 if size <= 10_000 else 5)}",
                           "--benchmark_enable_random_interleaving=true", "--benchmark_min_time=0.02", "--benchmark_format=json",
                           "--benchmark_report_aggregates_only=true"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=True)
    if size > 100_000:
        rig.unlink()
    counters = ("vertices", "edges", "components", "levels", "unreached", "index_bytes", "index_bytes_with_vertices")
    return {row["run_name"].removesuffix("/real_time"): {"seconds": row["real_time"] / 1000, "runs": row["repetitions"],
                                                         **{name: row[name] for name in counters if name in row}}
            for row in json.loads(done.stdout)["benchmarks"] if row["aggregate_name"] == "median"}


def show_walks(size, parts):
    rows = []
    for grain, way in ((grain, way) for grain in GRAINS for way in WAYS if f"walk/{grain}/{way}" in parts):
        part, hand = parts[f"walk/{grain}/{way}"], parts[f"walk/{grain}/hand"]["seconds"]
        rows.append([f"{grain} {way}", int(part["vertices"]), int(part["edges"]), int(part["components"]), int(part["levels"]), int(part["unreached"]),
                     seconds(part["seconds"]), f"{part['seconds'] / hand:.2f}", part["runs"]])
    show(f"Walks (rows, components, order, levels, reach) from one list of edges, {size_word(size)} bones",
         ["grain and way", "vertices", "edges", "components", "levels", "unreached", "time", "times hand", "runs"], rows)


def add_goals(suite, size, grain, parts):
    ours = parts[f"walk/{grain}/ours"]
    # The one that looks for components only where Kahn's method leaves something over is a lower floor than the one asked for.
    for way, what, most in (("hand", "hand CSR", MOST_TIMES_HAND), ("hand_kahn_first", "hand CSR, Kahn first", None)):
        hand = parts[f"walk/{grain}/{way}"]
        suite.goals.append(Goal("4", f"graph, {grain}: time beside {what}", size_word(size), seconds(ours["seconds"]), seconds(hand["seconds"]),
                                ours["seconds"] / hand["seconds"], most=most, runs=ours["runs"], medians={"ours": ours, "peer": hand}))
    suite.goals.append(Goal("4", f"graph, {grain}: index bytes an edge", size_word(size), f"{ours['index_bytes']:.1f} B",
                            f"({ours['index_bytes_with_vertices']:.1f} B with vertices)", ours["index_bytes"], most=MOST_BYTES, runs=1,
                            medians={"ours": ours}))
