"""What rigs are there to disagree about? Seeded random rigs that use everything the rig description has.

Every bone has a rank; what refers to lower ranks only can never be circular. A rig's flavour says whether, and at which grain, it
may be. Run as a program it prints one rig, or with --distribution what a range of seeds holds.
"""
import argparse
import json
import random

from limb_rigs import LimbMaker
from rig import CHANNELS
from tangle_rigs import TangleMaker

FLAVOURS = ["clean"] * 9 + ["bone"] * 3 + ["step"] * 3 + ["wild"] * 3 + ["property", "wide", "chain"]
WORDS = ["wing", "neck", "shin", "toe", "beak", "crest", "plume", "lid", "tail", "reed", "ripple", "schilf_ü", 'egg "blue"', "nest/rim"]
KINDS = ["transform"] * 4 + ["position", "rotation", "scale", "aim", "roll", "stretch", "distance", "space", "limit", "surface",
                             "custom", "rotation", "space"]
NO_INPUT = ["0", "1", "0.5", "1 - 1", "min(1, 2)", "clamp(3, 0, 1)"]
ONE_INPUT = ["{a}", "{a}", "{a}", "1 - {a}", "1 - {a}", "{a} * 2", "{a} > 0.5", "clamp({a}, 0, 1)", "{a} == 1", "abs({a}) / 2",
             "-{a} + 1", "1 / {a}", "{a} / {a}", "({a} < 0.5) * 0.5", "{a} * 0", "{a} != 0", "max({a}, 1e0)", "+{a} - -.5", "{a} <= 0",
             "1 / {a} > 0.5", "min(1 / {a}, 1)", "1 / (1 / {a})", "clamp({a} / 0, 0, 1)", "(({a}))"]
TWO_INPUTS = ["{a} * {b}", "min({a}, {b})", "max({a}, 1 - {b})", "({a} > {b}) * {b}", "{a} - {b}", "{a} / {b}", "({a} + {b}) / 2",
              "{a}", "clamp({a}, 0, {b})", "{a} >= {b}", "2 - {a} - {b}", "min({a}, {b}, 1 - {a})"]
NUMBERS = [0, 1, 0.5, 0.25, 1.0, 1e-10, 0.9999999999, 0.75]


class Maker:
    """One rig in the making. `limit` always is the rank below which the thing being made may look."""

    def __init__(self, seed):
        self.random = random.Random(seed)
        self.flavour = self.random.choice(FLAVOURS)
        self.back = 0.03 if self.flavour == "wild" else 0.0
        count = self.random.choice([self.random.randint(3, 8), self.random.randint(6, 25), self.random.randint(20, 60)])
        self.bones = [{"name": f"{self.random.choice(WORDS)}_{i}"} for i in range(count)]
        self.rank = {b["name"]: i for i, b in enumerate(self.bones)}
        self.properties, self.property_rank = [], {}
        self.objects, self.object_rank = [], {}
        self.solver_limit = {}

    def chance(self, p):
        return self.random.random() < p

    def lower(self, limit):
        """A bone below the limit (any bone in a wild rig at times); None when there is none."""
        if self.chance(self.back):
            return self.random.choice(self.bones)["name"]
        return self.bones[self.random.randrange(limit)]["name"] if limit > 0 else None

    # -- values

    def input(self, limit, bones=0.3):
        known = [p for p, r in self.property_rank.items() if r < limit or self.chance(self.back)]
        bone = self.lower(limit)
        if known and (bone is None or not self.chance(bones)):
            return {"property": self.random.choice(known)}
        if bone is None:
            return None
        kind = self.random.choice(["local", "local", "final", "default", "distance", "angle"])
        if kind in ("distance", "angle"):
            other = self.lower(limit)
            return {kind: [bone, other]} if other not in (None, bone) else {"bone": bone, "channel": "rotation.z"}
        channel = {"bone": bone, "channel": self.random.choice(CHANNELS)}
        return channel if kind == "default" else channel | {"space": kind}

    def driver(self, limit, bones=0.3):
        first, second = self.input(limit, bones), self.input(limit, bones)
        if first is None or self.chance(0.06):
            return {"expression": self.random.choice(NO_INPUT), "inputs": {"unused": first} if first else {}}
        if self.chance(0.15):
            low, high = self.random.choice([(0, 1), (1, 0), (0, 0), (1, 1), (0, 0.5)])
            return {"curve": [[0, low], [0.5, high], [1, high]], "input": first}
        a, b = self.random.choice(["s", "x", "_in", "lambda", "e", "min"]), self.random.choice(["t", "y2", "or_", "B"])
        if self.chance(0.3) and second:
            return {"expression": self.random.choice(TWO_INPUTS).format(a=a, b=b), "inputs": {a: first, b: second}}
        return {"expression": self.random.choice(ONE_INPUT).format(a=a), "inputs": {a: first}}

    def value(self, limit, driven=0.6):
        return self.driver(limit) if self.chance(driven) else self.random.choice(NUMBERS)

    # -- what carries values

    def make_properties(self):
        for i in range(self.random.randint(1 if self.flavour in ("property", "wide") else 0, 6)):
            p = {"name": f"dial_{i}"}
            if self.chance(0.7):
                p["on"] = self.lower(max(1, len(self.bones) // 2))
            if self.chance(0.8):
                p["default"] = self.random.choice([0, 0, 1, 1, 0.5, 2, -1])
            if self.chance(0.5):
                p |= {"min": 0, "max": 1}
            if self.chance(0.3):
                p["stops"] = {"ik": 0, "fk": 1}
            limit = self.random.choice([0, len(self.bones) // 3, len(self.bones) // 2])
            if self.chance(0.35):
                p["value"] = self.driver(limit, bones=0.2)
            self.properties.append(p)
            self.property_rank[p["name"]] = max([-1] + self.ranks_in(p.get("value")))
        if self.flavour == "property" or (self.flavour == "wild" and self.chance(0.2) and self.properties):
            loop = self.random.sample(self.properties, self.random.randint(1, min(3, len(self.properties))))
            for p, q in zip(loop, loop[1:] + loop[:1]):
                p["value"] = {"expression": self.random.choice(["a", "1 - a", "0.5"]), "inputs": {"a": {"property": q["name"]}}}

    def ranks_in(self, thing):
        """The ranks of everything that a piece of JSON names."""
        if isinstance(thing, str):
            return [r for known in (self.rank, self.property_rank, self.object_rank) for r in [known.get(thing)] if r is not None]
        values = thing.values() if isinstance(thing, dict) else thing if isinstance(thing, list) else []
        return [r for v in values for r in self.ranks_in(v)]

    def make_objects(self):
        for i in range(self.random.randint(0, 2)):
            limit = self.random.randint(1, len(self.bones))
            follows = {self.lower(limit) for _ in range(self.random.randint(1, 3))}
            self.objects.append({"name": f"skin_{i}", "follows": sorted(follows)})
            self.object_rank[f"skin_{i}"] = max(self.rank[b] for b in follows)

    # -- bones

    def make_bone(self, i, bone):
        share = i / len(self.bones)
        likely = ["control"] if share < 0.35 else [] if share < 0.6 else ["deform"]
        roles = self.random.choice([likely] * 8 + [["control", "deform"], ["deform"], [], ["control"]])
        if roles or self.chance(0.2):
            bone["roles"] = roles
        if i and self.chance(0.85):
            bone["parent"] = self.bones[self.random.randrange(max(0, i - 5) if self.chance(0.7) else 0, i)]["name"]
        if self.chance(0.15):
            bone["from_parent"] = self.random.sample(["position", "rotation", "scale"], self.random.randint(0, 3))
        if self.chance(0.4):
            bone["group"] = self.random.choice(["wing_l", "leg_r", "head"])
        if self.chance(0.08) and i:
            bone["curve"] = {"segments": 4}
            for end in ("start", "end"):
                if self.chance(0.8):
                    bone["curve"][end] = self.lower(i)

    def chain(self, bone, length):
        names, by_name = [bone["name"]], {b["name"]: b for b in self.bones}
        while len(names) < length and by_name[names[-1]].get("parent"):
            names.append(by_name[names[-1]]["parent"])
        return names

    def make_solvers(self):
        """Chains first: solvers that share bones may only look below the lowest of all of them, and so may what drives the bones."""
        chains = []
        for i, bone in enumerate(self.bones):
            while i and self.chance(0.07):
                length = self.random.choice([1, 2, 2, 3, 3, 4, 90, 2.0])
                solver = {"kind": self.random.choice(["ik", "ik", "path"]), "chain": length}
                bone.setdefault("constraints", []).append(solver)
                chains.append((solver, set(self.chain(bone, length))))
        for solver, chain in chains:
            group = set(chain)
            while any(group & c and not c <= group for _, c in chains):
                group |= set().union(*(c for _, c in chains if group & c))
            limit = min(self.rank[b] for b in group)
            self.solver_limit.update((b, limit) for b in group)
            self.fill_solver(solver, limit)

    def fill_solver(self, solver, limit):
        target, second = self.source(limit, weight=0.1), self.source(limit, weight=0.1)
        if target is None or second is None:  # nothing is below: a chain that starts at the first bone steers by a fixed place
            solver |= {"kind": "limit", "channels": ["rotation.x"]}
            del solver["chain"]
        elif solver["kind"] == "path":
            solver["from"] = [target, second] if self.chance(0.6) else target
        else:
            solver["target"] = target
            if self.chance(0.6):
                solver["pole"] = second
            if self.chance(0.3):
                solver["orient"] = True
        self.gate(solver, limit)

    def source(self, limit, weight=0.25, objects=0.08):
        known = [o for o, r in self.object_rank.items() if r < limit or self.chance(self.back)]
        bone = self.lower(limit)
        if known and (bone is None or self.chance(objects)):
            return {"object": self.random.choice(known)} | ({"weight": self.value(limit, 0.4)} if self.chance(weight) else {})
        if bone is None:
            return None
        source = {"bone": bone}
        if "curve" in self.bones[self.rank[bone]] and self.chance(0.6):
            source["curved"] = True
        if self.chance(0.15):
            source["at"] = self.random.choice([0, 0.5, 1])
        if self.chance(weight):
            source["weight"] = self.value(limit, 0.4)
        return source if len(source) > 1 or self.chance(0.2) else bone

    def gate(self, c, limit):
        """What may stand on a constraint of any kind."""
        if self.chance(0.6):
            c["weight"] = self.value(limit)
        if self.chance(0.06):
            c["enabled"] = self.chance(0.2)
        if self.chance(0.2):
            c["space"] = self.random.choice(["local", "local", "final"])
        if self.chance(0.12):
            c["axes"] = "".join(self.random.sample("xyz", self.random.randint(1, 3)))
        if self.chance(0.1):
            c["additive"] = self.chance(0.8)

    def some_channels(self):
        word = self.random.choice(["position", "rotation", "scale"])
        return self.random.choice([["position"], ["rotation"], ["scale"], ["rotation", "position"], [f"{word}.x", f"{word}.y"],
                                   ["position.z", "scale"], [f"{word}.x", f"{word}.y", f"{word}.z"]])

    def sources(self, limit):
        a, b = self.source(limit), self.source(limit)
        if self.chance(0.6):
            return a if self.chance(0.7) else [a]
        if self.chance(0.4) and isinstance(a, dict) and isinstance(b, dict):
            share = self.driver(limit, bones=0) if self.chance(0.3) else self.random.choice([0.5, 0.3, 0.1])
            a["weight"], b["weight"] = share, self.random.choice([0.7, 0.9]) if isinstance(share, dict) else 1 - share
        return [a, b] + ([self.source(limit)] if self.chance(0.2) else [])

    def make_constraint(self, limit):
        known = [o for o, r in self.object_rank.items() if r < limit]
        kind = self.random.choice([k for k in KINDS if k != "surface" or known])
        c = {"kind": kind}
        if limit == 0:
            c = {"kind": "limit", "channels": self.some_channels(), "range": [-1, 1]}
        elif kind == "limit":
            c["channels"] = self.some_channels()
        elif kind == "surface":
            c |= {"from": {"object": self.random.choice(known)}, "align": self.chance(0.5)}
        else:
            c["from"] = self.sources(limit)
        if c["kind"] == "transform" and self.chance(0.35):
            c["channels"] = self.some_channels()
        if c["kind"] == "custom":
            c |= {"reads": self.some_channels(), "writes": self.some_channels(), "label": "ruffle"}
        if c["kind"] in ("aim", "roll", "stretch") and self.chance(0.5):
            c["axis"] = self.random.choice(["x", "-y", "+z"])
        if c["kind"] == "aim" and self.chance(0.5):
            c["up"] = self.source(limit)
        if c["kind"] == "distance" and self.chance(0.3):
            c["range"] = [0, 2.5]
        self.gate(c, limit)
        return c

    def make_stack(self, i, bone):
        stack = bone.setdefault("constraints", [])
        for _ in range(self.random.choice([0, 0, 0, 1, 1, 1, 2, 3, 4])):
            c = self.make_constraint(i)
            if self.chance(0.04):  # an inert look back
                c = {"kind": "transform", "from": self.random.choice(self.bones)["name"]} | self.random.choice(
                    [{"enabled": False}, {"weight": 0}, {"enabled": False, "weight": self.driver(len(self.bones))}])
            stack.insert(self.random.randint(0, len(stack)), c)
        if not stack:
            del bone["constraints"]
        for n, c in enumerate(stack):
            if self.chance(0.6):
                c["name"] = f"step {n}"
        if self.chance(0.18):
            limit = self.solver_limit.get(bone["name"], i)
            bone["channels"] = {c: self.value(limit, 0.7) for c in self.random.sample(CHANNELS, self.random.randint(1, 3))}

    # -- cycles by intent

    def spice_bone(self):
        """A bone's own dial gates its own constraint: circular only where a bone is taken as one."""
        bone = self.random.choice(self.bones[1:])
        dial = self.random.choice([bone["name"], bone["name"], bone.get("parent", bone["name"])])
        by_name = {b["name"]: b for b in self.bones}
        driver = {"expression": "r", "inputs": {"r": {"bone": bone["name"], "channel": "rotation.x"}}}
        by_name[dial].setdefault("constraints", []).append({"kind": "rotation", "from": self.bones[0]["name"], "weight": driver})

    def spice_step(self):
        """Two bones that take different parts of each other, or one channel that drives another of the same bone."""
        a, b = self.random.sample(self.bones, 2)
        if self.chance(0.5):
            a.setdefault("channels", {})["position.y"] = {"curve": [[0, 0], [1, 2]], "input": {"bone": a["name"], "channel": "rotation.x"}}
        else:
            a.setdefault("constraints", []).append({"kind": "position", "from": b["name"]})
            b.setdefault("constraints", [])
            b["constraints"].append({"kind": "scale", "from": a["name"], "name": f"way back {len(b['constraints'])}"})

    def spice_chain(self):
        """A bone of a chain is driven by what the chain ends in: it is the solver that closes the loop."""
        by_name = {b["name"]: b for b in self.bones}
        solvers = [(b, c) for b in self.bones for c in b.get("constraints", ()) if c["kind"] in ("ik", "path")]
        if not solvers:
            return self.spice_step()
        bone, solver = self.random.choice(solvers)
        driven = by_name[self.random.choice(self.chain(bone, solver["chain"]))]
        read = {"bone": bone["name"], "channel": self.random.choice(CHANNELS), "space": self.random.choice(["final", "local"])}
        driven.setdefault("channels", {})["rotation.y"] = {"expression": "r * 2", "inputs": {"r": read}}
        if self.chance(0.5):
            bone["from_parent"] = []

    def spice_wide(self):
        dial = self.random.choice(self.properties)["name"]
        for n in range(self.random.choice([60, 64, 65, 80])):
            bone = self.random.choice(self.bones)
            bone.setdefault("channels", {})[self.random.choice(CHANNELS)] = {"expression": "d", "inputs": {"d": {"property": dial}}}

    def make(self):
        """The rig description."""
        self.make_objects()
        self.make_properties()
        for i, bone in enumerate(self.bones):
            self.make_bone(i, bone)
        self.make_solvers()
        for i, bone in enumerate(self.bones):
            self.make_stack(i, bone)
        spices = {"bone": self.spice_bone, "step": self.spice_step, "chain": self.spice_chain, "wide": self.spice_wide}
        for _ in range(1 if self.flavour == "wide" else self.random.randint(1, 2)):
            spices.get(self.flavour, lambda: None)()
        rig = {"format": "rig-description", "version": 1, "name": "marsh", "sides": [["_l", "_r"]], "properties": self.properties,
               "objects": self.objects, "bones": list(self.bones)}
        if self.chance(0.4):
            rig["roots"] = [self.bones[0]["name"]] if self.chance(0.8) else []
        if self.chance(0.5):
            self.random.shuffle(rig["bones"])
        return rig


def random_rig(seed):
    """The rig description of a seed, always the same: mostly limbs with switches and rigs of everything in turn, some tangles."""
    return (TangleMaker if seed % 8 == 7 else LimbMaker if seed % 2 else Maker)(seed).make()


def print_distribution(count):
    from collections import Counter

    from attachment import find_attachment
    from graph import build_graphs
    from rig import read_rig
    from verdicts import find_cycles

    finest, verdicts, attached, kinds = Counter(), Counter(), Counter(), Counter()
    for seed in range(count):
        rig = read_rig(random_rig(seed))
        graphs = build_graphs(rig)
        grains = {c["grain"] for c in find_cycles(rig, graphs)}
        finest.update(grains or {"none"})
        verdicts.update({v for v, _ in find_attachment(rig, graphs["channel"]).values()})
        attached.update(v for v, _ in find_attachment(rig, graphs["channel"]).values())
        kinds.update(c.kind for c in rig.constraints.values())
    print(f"of {count} rigs, with cycles at grain: {dict(finest)}")
    print(f"rigs that have the verdict: {dict(verdicts)}; deform bones: {dict(attached)}")
    print(f"constraints: {dict(kinds)}")


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("seed", type=int, nargs="?", default=0)
    parser.add_argument("--distribution", type=int, metavar="COUNT")
    arguments = parser.parse_args()
    if arguments.distribution:
        print_distribution(arguments.distribution)
    else:
        print(json.dumps(random_rig(arguments.seed), indent=1, ensure_ascii=False))


if __name__ == "__main__":
    main()
