#!/usr/bin/env python3
"""Do `ligament cycles --circuits` and networkx find the same elementary circuits? Seeded random rigs of constraints between bones."""
import argparse
import json
import pathlib
import random
import subprocess
import tempfile

import networkx


def rig_of(graph):
    """Bones with one transform constraint for each arc into them."""
    bones = [{"name": f"feather_{v}", "constraints": [{"name": f"from_{u}", "kind": "transform", "from": f"feather_{u}"}
                                                     for u in sorted(graph.predecessors(v))]} for v in sorted(graph)]
    return {"format": "rig-description", "version": 1, "name": "plumage", "bones": bones}


def circuits_of_networkx(graph):
    """Each from its first bone, by length, then by bones."""
    circuits = []
    for circuit in networkx.simple_cycles(graph):
        start = circuit.index(min(circuit))
        circuits.append(circuit[start:] + circuit[:start])
    return sorted(circuits, key=lambda circuit: (len(circuit), circuit))


def circuits_of_program(program, rig, wanted):
    """Per cycle its bones, circuits, the number of circuits and whether all were counted."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "plumage.rig.json"
        path.write_text(json.dumps(rig), encoding="utf-8")
        call = [program, "cycles", path, "--circuits", str(wanted), "--format", "json"]
        report = json.loads(subprocess.run(call, check=True, capture_output=True).stdout)
    number = lambda name: int(name.removeprefix("feather_"))
    for cycle in report["cycles"]:
        circuits = [[number(edge["from"]) for edge in circuit] for circuit in cycle["circuits"]]
        yield [number(bone) for bone in cycle["bones"]], circuits, cycle["circuits_at_least"], cycle["circuits_counted"]


def compare(program, seed):
    rng = random.Random(seed)
    size = rng.randint(3, 10)
    graph = networkx.DiGraph()
    graph.add_nodes_from(range(size))
    graph.add_edges_from((rng.randrange(size), rng.randrange(size)) for _ in range(rng.randint(size, 5 * size)))
    expected = circuits_of_networkx(graph)
    wanted = rng.choice([1, 5, 10_000])
    seen = 0
    for bones, circuits, count, counted in circuits_of_program(program, rig_of(graph), wanted):
        inside = [circuit for circuit in expected if circuit[0] in bones]
        assert circuits == inside[:wanted], f"seed {seed}: {circuits[:5]} instead of {inside[:5]}"
        assert counted and count == len(inside), f"seed {seed}: {count} circuits instead of {len(inside)}"
        seen += len(inside)
    assert seen == len(expected), f"seed {seed}: circuits in {seen} instead of {len(expected)}"
    return seen


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True)
    parser.add_argument("--rigs", type=int, default=100)
    arguments = parser.parse_args()
    circuits = sum(compare(arguments.program, seed) for seed in range(arguments.rigs))
    assert circuits > 1000, f"only {circuits} circuits in {arguments.rigs} rigs"
    print(f"{arguments.rigs} rigs, {circuits} circuits: all agree with networkx {networkx.__version__}")


if __name__ == "__main__":
    main()
