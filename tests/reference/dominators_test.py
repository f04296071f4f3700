"""Are single points of control the dominators that networkx finds?

Seeded digraphs are told as rigs in which every bone is a control whose own motion is thrown away: a transform constraint reads all bones
from which arcs come, with weights that sum to 1. Motion then starts at the root alone, and the controls that every path to a bone passes
through are its dominators. networkx computes these after K. D. Cooper, T. J. Harvey and K. Kennedy, A simple, fast dominance algorithm (2001).
"""
import argparse
import json
import random
import subprocess

import networkx


def random_flowgraph(seed):
    """A digraph of which all is reached from vertex 0."""
    chance = random.Random(seed)
    size = chance.choice([chance.randint(1, 8), chance.randint(5, 30), chance.randint(20, 80)])
    graph = networkx.DiGraph()
    graph.add_node(0)
    for _ in range(chance.randint(size, 3 * size)):
        graph.add_edge(chance.randrange(size), chance.randrange(size))
    reached = {0} | networkx.descendants(graph, 0)
    return graph.subgraph(sorted(reached)).copy()


def rig_of(graph):
    def bone(v):
        needs = sorted(graph.predecessors(v))
        result = {"name": f"b{v}", "roles": ["control", "deform"]}
        if needs:
            sources = [{"bone": f"b{u}", "weight": 1 / len(needs)} for u in needs]
            # The root's own motion stays: half of it.
            result["constraints"] = [{"kind": "transform", "from": sources, "weight": 0.5 if v == 0 else 1}]
        return result

    return {"format": "rig-description", "version": 1, "name": "flowgraph", "bones": [bone(v) for v in sorted(graph)]}


def dominators_by_networkx(graph):
    above = networkx.immediate_dominators(graph, 0)
    result = {}
    for v in graph:
        chain, u = {v}, v
        while u != 0:
            u = above[u]
            chain.add(u)
        result[f"b{v}"] = sorted(f"b{u}" for u in chain)
    return result


def dominators_by_program(program, rig):
    run = subprocess.run([program, "controls", "--format", "json", "-"], input=json.dumps(rig), capture_output=True, text=True, check=True)
    return {row["bone"]: sorted(row["single_points"]) for row in json.loads(run.stdout)["deform"]}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--graphs", type=int, default=200)
    parser.add_argument("--first", type=int, default=1)
    arguments = parser.parse_args()
    deepest = 0
    for seed in range(arguments.first, arguments.first + arguments.graphs):
        graph = random_flowgraph(seed)
        theirs, ours = dominators_by_networkx(graph), dominators_by_program(arguments.program, rig_of(graph))
        for bone in sorted(theirs.keys() | ours.keys()):
            if theirs.get(bone) != ours.get(bone):
                raise SystemExit(f"seed {seed}: {bone} has dominators {theirs.get(bone)}, single points {ours.get(bone)}")
        deepest = max(deepest, max(map(len, theirs.values())))
    if arguments.graphs >= 100 and deepest < 5:
        raise SystemExit(f"no digraph has a bone with five dominators, the most is {deepest}")
    print(f"{arguments.graphs} digraphs agree; the most dominators of one bone are {deepest}")


if __name__ == "__main__":
    main()
