"""What is hard to cut? Seeded random rigs of few bones that look at each other in many ways, some of them only when a switch says so."""
import random

KINDS = ["transform", "transform", "position", "rotation", "scale", "aim", "roll", "stretch", "distance", "space"]


class TangleMaker:
    """One rig in the making: anything may look at anything, but for parents."""

    def __init__(self, seed):
        self.random = random.Random(f"tangle {seed}")
        self.names = [f"twig_{n}" for n in range(self.pick([2, 3, 3, 4, 4, 5, 6, 7]))]
        self.much = self.pick([0.15, 0.25, 0.4, 0.6])

    def chance(self, p):
        return self.random.random() < p

    def pick(self, things):
        return self.random.choice(things)

    def driver(self):
        reads = [{"bone": self.pick(self.names), "channel": self.pick(["rotation.x", "position.y", "scale.z"]),
                  "space": self.pick(["local", "final", "final"])}, {"property": "breeze"}, {"property": "gust"}]
        if self.chance(0.5):
            return {"expression": "a", "inputs": {"a": self.pick(reads)}}
        return {"expression": self.pick(["a * b", "1 - a", "a + b"]), "inputs": {"a": self.pick(reads), "b": self.pick(reads)}}

    def source(self):
        if self.chance(0.08):
            return {"object": "nest"}
        weight = {"weight": self.pick([0.5, 1, 0, self.driver(), self.driver()])} if self.chance(0.3) else {}
        return {"bone": self.pick(self.names)} | weight | ({"at": 0.5} if self.chance(0.1) else {})

    def constraint(self):
        c = {"kind": self.pick(KINDS), "from": [self.source() for _ in range(self.pick([1, 1, 1, 2, 3]))]}
        if self.chance(0.12):
            c = {"kind": "ik", "target": self.pick(self.names), "chain": self.pick([1, 2, 3])}
        if c["kind"] == "aim" and self.chance(0.3):
            c["up"] = self.source()
        if self.chance(0.35):
            c["weight"] = self.pick([self.driver(), self.driver(), 0.5, 0])
        return c | ({"space": "local"} if self.chance(0.15) else {})

    def make(self):
        """The rig description."""
        bones = []
        for n, name in enumerate(self.names):
            bone = {"name": name, "roles": self.pick([["control"], ["deform"], ["deform"], []])}
            if n and self.chance(0.6):
                bone["parent"] = self.pick(self.names[:n])
            if self.chance(0.2):
                bone["from_parent"] = self.random.sample(["position", "rotation", "scale"], self.pick([0, 1, 2]))
            if self.chance(0.12):
                bone["curve"] = {"end": self.pick(self.names)}
            if self.chance(0.25):
                bone["channels"] = {self.pick(["rotation.x", "rotation.y", "position.y"]): self.driver()}
            count = sum(self.chance(self.much) for _ in self.names)
            bones.append(bone | ({"constraints": [self.constraint() for _ in range(count)]} if count else {}))
        properties = [{"name": "breeze"} | ({"value": self.driver()} if self.chance(0.4) else {"on": self.pick(self.names)}),
                      {"name": "gust", "default": self.pick([0, 1]), "stops": {"still": 0, "blowing": 1}}]
        self.random.shuffle(bones)
        return {"format": "rig-description", "version": 1, "name": "tangle", "properties": properties,
                "objects": [{"name": "nest", "follows": [self.pick(self.names)]}], "bones": bones}
