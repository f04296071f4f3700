"""What would a rigger script today? The step graph of a rig with networkx: its components, levels and unreached deform bones.

networkx_peer.py RIG: prints the numbers of components, of levels, and of deform bones that no control reaches. It knows what the
rigs of the suite have: parents, stacks, drivers, ik solvers.
"""

import json
import sys

import networkx


def as_list(value):
    return value if isinstance(value, list) else [value]


def inputs_of(value):
    return value["inputs"].values() if isinstance(value, dict) else ()


class StepGraph:
    """One node a step: (name of the bone, step), (name, "property"), and drivers by what they drive."""

    def __init__(self, rig):
        self.edges = []
        self.nodes = []
        self.bones = {bone["name"]: bone for bone in rig["bones"]}
        self.solvers_on = {}
        self.shaped = set()  # bones whose local channels are not their pose
        for bone in rig["bones"]:
            for index, constraint in enumerate(bone.get("constraints", ())):
                if constraint["kind"] == "ik":
                    for name in self.chain_of(bone["name"], constraint["chain"]):
                        self.solvers_on.setdefault(name, []).append((bone["name"], index))
                        self.shaped.add(name)
                elif constraint.get("space") == "local":
                    self.shaped.add(bone["name"])
        for prop in rig.get("properties", ()):
            self.nodes.append((prop["name"], "property"))
        for bone in rig["bones"]:
            self.add_bone(bone)

    def chain_of(self, name, length):
        chain = []
        while name is not None and len(chain) < length:
            chain.append(name)
            name = self.bones[name].get("parent")
        return chain

    def add_bone(self, bone):
        name = bone["name"]
        parent = bone.get("parent")
        for channel, value in bone.get("channels", {}).items():
            self.add_driver(value, (name, "driver", channel), (name, "pose"))
        self.edges.append(((name, "pose"), (name, "solved")))
        for owner, index in self.solvers_on.get(name, ()):
            self.edges.append(((owner, "solver", index), (name, "solved")))
        constraints = list(enumerate(bone.get("constraints", ())))
        steps = [(i, c) for i, c in constraints if c["kind"] != "ik"]
        leading = 0
        while leading < len(steps) and steps[leading][1].get("space") == "local":
            leading += 1
        self.add_stack(name, steps[:leading], (name, "solved"), (name, "local"))
        self.edges.append(((name, "local"), (name, "base")))
        if parent is not None:
            self.edges.append(((parent, "final"), (name, "base")))
        self.add_stack(name, steps[leading:], (name, "base"), (name, "final"))
        for index, constraint in constraints:
            if constraint["kind"] == "ik":
                self.add_solver(name, index, constraint)

    def add_stack(self, name, steps, before, after):
        for index, constraint in steps:
            step = (name, "constraint", index)
            self.edges.append((before, step))
            for source in as_list(constraint.get("from", [])):
                self.edges.append(((source if isinstance(source, str) else source["bone"], "final"), step))
            if constraint["kind"] == "space":
                self.edges.append(((name, "local"), step))
            self.add_driver(constraint.get("weight"), (name, "driver", index), step)
            before = step
        self.edges.append((before, after))

    def add_solver(self, name, index, constraint):
        solver = (name, "solver", index)
        chain = self.chain_of(name, constraint["chain"])
        for bone in chain:
            before = None  # the solver before this one on the bone
            for other in self.solvers_on[bone]:
                if other == (name, index):
                    break
                before = other
            self.edges.append((((before[0], "solver", before[1]) if before else (bone, "pose")), solver))
        parent = self.bones[chain[-1]].get("parent")
        if parent is not None:
            self.edges.append(((parent, "final"), solver))
        for key in ("target", "pole"):
            if key in constraint:
                self.edges.append(((constraint[key], "final"), solver))
        self.add_driver(constraint.get("weight"), (name, "driver", index), solver)

    def add_driver(self, value, driver, target):
        if not isinstance(value, dict):
            return
        self.edges.append((driver, target))
        for read in inputs_of(value):
            if "property" in read:
                self.edges.append(((read["property"], "property"), driver))
            elif read.get("space") == "final":
                self.edges.append(((read["bone"], "final"), driver))
            else:
                self.edges.append(((read["bone"], "local" if read["bone"] in self.shaped else "pose"), driver))


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        rig = json.load(file)
    steps = StepGraph(rig)
    graph = networkx.DiGraph()
    graph.add_nodes_from(steps.nodes)
    graph.add_edges_from(steps.edges)

    components = list(networkx.strongly_connected_components(graph))
    acyclic = graph if len(components) == len(graph) else networkx.condensation(graph, components)
    levels = sum(1 for _ in networkx.topological_generations(acyclic))

    controls = [(bone["name"], "pose") for bone in rig["bones"] if "control" in bone.get("roles", ())]
    reached = {node for layer in networkx.bfs_layers(graph, controls) for node in layer}
    deform = [bone["name"] for bone in rig["bones"] if "deform" in bone.get("roles", ())]
    unreached = [name for name in deform if (name, "final") not in reached]
    print(len(components), levels, len(unreached))


main()
