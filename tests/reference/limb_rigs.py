"""What do switches do to limbs? Seeded random rigs of limbs whose stacks blend chains, with drivers forgotten, doubled and crossed.

A limb has a chain of controls, a chain that a solver or a control moves, a chain that blends the two, and deform bones on that. What
goes wrong in them is what goes wrong at people's desks: a bone without its driver, a blend to a chain that nothing moves, a weight that
only two switches together open, a control that follows the chain it steers when a switch says so.
"""
import random

ONE = ["{a}", "{a}", "1 - {a}", "{a} > 0.5", "{a} == 1", "{a} / 2", "clamp({a}, 0, 1)", "{a} * {a}"]
TWO = ["{a} * {b}", "{a} * {b}", "{a} * (1 - {b})", "min({a}, {b})", "{a} > {b}", "max({a}, {b})", "{a} - {b}", "1 - {a} * {b}"]
THREE = ["{a} * {b} * {c}", "min({a}, {b}, {c})", "{a} * {b} * (1 - {c})", "({a} + {b} + {c}) / 3 == 1"]
STOPS = [None, None, {"ik": 0, "fk": 1}, {"fk": 1, "ik": 0}, {"ik": 0, "half": 0.5, "fk": 1}, {"on": 1}, {"off": 0, "rest": 0, "on": 1}]


class LimbMaker:
    """One rig in the making; bones are added after what they look at, but for what goes back on purpose."""

    def __init__(self, seed):
        self.random = random.Random(f"limbs {seed}")
        self.bones, self.by_name, self.properties, self.objects, self.dials = [], {}, [], [], []

    def chance(self, p):
        return self.random.random() < p

    def pick(self, things):
        return self.random.choice(things)

    def add(self, name, roles=(), parent=None, constraints=(), **more):
        bone = {"name": name} | ({"roles": list(roles)} if roles else {}) | ({"parent": parent} if parent else {}) | more
        self.bones.append(bone | ({"constraints": list(constraints)} if constraints else {}))
        self.by_name[name] = self.bones[-1]
        return name

    # -- switches and weights

    def make_switches(self):
        for i in range(9 if self.chance(0.025) else self.pick([1, 1, 2, 2, 3, 3, 4, 5])):
            p = {"name": f"mode_{i}"}
            if self.chance(0.8):
                p["on"] = self.pick(["nest", "perch"])
            if self.chance(0.7):
                p["default"] = self.pick([0, 0, 0, 1, 1, 0.5])
            if self.chance(0.4):
                p |= {"min": 0, "max": self.pick([1, 1, 2])}
            stops = self.pick(STOPS)
            self.properties.append(p | ({"stops": stops} if stops else {}))
            self.dials.append(p["name"])
        for i in range(self.pick([0, 0, 0, 1, 2])):
            value = self.driver()
            self.properties.append({"name": f"mix_{i}", "value": value} | ({"min": 0, "max": 1} if self.chance(0.5) else {}))
            self.dials.append(f"mix_{i}")

    def driver(self, dial=None):
        """A weight: of the limb's switch mostly, at times of two or three."""
        names = [dial or self.pick(self.dials)] + [self.pick(self.dials), self.pick(self.dials)]
        if dial is None or self.chance(0.15):
            names[0] = self.pick(self.dials)
        if self.chance(0.05):
            return {"curve": [[0, 0], [1, 1]], "input": {"property": names[0]}}
        expressions = ONE if self.chance(0.65) else TWO if self.chance(0.75) else THREE
        count = {id(ONE): 1, id(TWO): 2, id(THREE): 3}[id(expressions)]
        letters = "abc"[:count]
        text = self.pick(expressions).format(**dict(zip(letters, letters)))
        inputs = {letter: {"property": name} for letter, name in zip(letters, names)}
        if self.chance(0.03):
            inputs["a"] = {"bone": "nest", "channel": "rotation.x"}
        return {"expression": text, "inputs": inputs}

    def blend(self, dial):
        return {"expression": "s", "inputs": {"s": {"property": dial}}} if self.chance(0.7) else self.driver(dial)

    # -- limbs

    def make_ground(self):
        self.add("nest", ["control"])
        self.add("perch", ["control"] if self.chance(0.8) else [], "nest" if self.chance(0.8) else None)
        self.add("stone")
        self.add("reed", (), "nest")

    def make_limb(self, number):
        length, dial = self.pick([1, 2, 2, 3, 3, 4]), self.pick(self.dials)
        fk, ik = self.fk_chain(number, length), self.ik_chain(number, length, dial)
        mech, shape = [], self.pick(["stack", "stack", "stack", "space", "parts", "reverse"])
        forgotten = self.random.randrange(length) if self.chance(0.45) else None
        for i in range(length):
            stack = self.stack(shape, ik[i], fk[i], dial, i == forgotten)
            parent = mech[-1] if mech else self.pick(["nest", "perch", "reed", None])
            mech.append(self.add(f"mech_{number}_{i}", (), parent, stack))
        self.make_deform(number, mech, fk, dial)
        if self.chance(0.3):
            self.go_back(number, mech, fk, ik, dial)

    def fk_chain(self, number, length):
        roles = [] if self.chance(0.12) else ["control"]  # a chain that nothing poses
        chain = []
        for i in range(length):
            chain.append(self.add(f"fk_{number}_{i}", roles, chain[-1] if chain else self.pick(["perch", "nest", None])))
        return chain

    def ik_chain(self, number, length, dial):
        hand = self.add(f"hand_{number}", ["control"] if self.chance(0.85) else [], self.pick(["nest", "perch", None]))
        solved, chain = self.chance(0.5), []
        for i in range(length):
            parent = chain[-1] if chain else self.pick(["nest", "perch", "reed", None])
            stack = [] if solved else [{"kind": self.pick(["transform", "rotation"]), "from": hand}]
            chain.append(self.add(f"ik_{number}_{i}", (), parent, stack))
        if solved:
            solver = {"kind": "ik", "target": hand, "chain": length}
            if self.chance(0.3):
                solver = {"kind": "path", "from": [hand, "perch"], "chain": length}
            if self.chance(0.4):
                solver["weight"] = self.blend(dial)
            self.by_name[chain[-1]]["constraints"] = [solver]
            if length > 1 and self.chance(0.25):
                self.by_name[chain[-2]]["constraints"] = [{"kind": "ik", "target": "perch", "chain": 1, "weight": self.driver(dial)}]
        return chain

    def stack(self, shape, ik, fk, dial, forgotten):
        weight = {} if forgotten and self.chance(0.7) else {"weight": self.pick([0, 1, 0.5]) if forgotten else self.blend(dial)}
        if shape == "space":
            sources = [{"bone": ik, "weight": {"expression": "1 - s", "inputs": {"s": {"property": dial}}}}, {"bone": fk} | weight]
            return [{"kind": "space", "from": sources}]
        if shape == "parts":
            return [{"kind": "transform", "from": ik}, {"kind": "rotation", "from": fk} | weight,
                    {"kind": "position", "from": fk} | weight, {"kind": "scale", "from": fk} | weight]
        first, second = ({"kind": "transform", "from": fk}, {"kind": "transform", "from": ik} | weight) if shape == "reverse" else (
            {"kind": "transform", "from": ik}, {"kind": "transform", "from": fk} | weight)
        return [first, second] + ([self.step(dial)] if self.chance(0.15) else [])

    def step(self, dial):
        """One step more, of any sort."""
        kind = self.pick(["transform", "transform", "rotation", "aim", "limit", "space", "position", "stretch"])
        c = {"kind": kind} | ({"channels": ["rotation"]} if kind == "limit" else {"from": self.pick(self.bones)["name"]})
        if self.chance(0.7):
            c["weight"] = self.driver(dial)
        if self.chance(0.08):
            c |= self.pick([{"enabled": False}, {"weight": 0}, {"additive": True}, {"axes": "xy"}])
        return c | ({"space": "local"} if self.chance(0.2) else {})

    def skin_stack(self, bone, fk, dial):
        stack = [] if self.chance(0.2) else [{"kind": "transform", "from": bone if self.chance(0.85) else self.pick(fk)}]
        if stack and self.chance(0.12):
            stack[0]["weight"] = self.driver(dial)
        if self.chance(0.3):
            lost = {"kind": "transform", "from": self.pick(["stone", "stone", "reed", "nest"]), "weight": self.driver(dial)}
            stack.append(lost)
        return stack + ([self.step(dial)] if self.chance(0.12) else [])

    def all_on(self):
        """A weight that only all switches together open: more combinations than are looked at."""
        inputs = {f"s{n}": {"property": name} for n, name in enumerate(self.dials)}
        return {"expression": " * ".join(inputs), "inputs": inputs}

    def turn(self, source, dial):
        return {"kind": "rotation", "from": source, "space": "local"} | ({"weight": self.driver(dial)} if self.chance(0.6) else {})

    def make_deform(self, number, mech, fk, dial):
        before = None
        for i, bone in enumerate(mech):
            stack, turned = self.skin_stack(bone, fk, dial), self.chance(0.15)
            if turned:  # mostly replaced by what comes after it; then whoever reads the local keeps it alive
                stack.insert(0, self.turn(self.pick(fk), dial))
            if len(self.dials) > 8 and i == 0:
                stack.append({"kind": "transform", "from": "stone", "weight": self.all_on()})
            parent = before if before and self.chance(0.7) else self.pick([None, bone, "reed"])
            roles = ["deform", "control"] if self.chance(0.05) else ["deform"]
            before = self.add(f"skin_{number}_{i}", roles, parent, stack, **({"group": f"limb_{number}"} if self.chance(0.5) else {}))
            if self.chance(0.6 if turned else 0.05):
                self.add(f"twist_{number}_{i}", ["deform"], self.pick([before, None]), [self.turn(before, dial)])
        if self.chance(0.1):
            self.objects.append({"name": f"cloth_{number}", "follows": [before]})
            self.add(f"hem_{number}", ["deform"], None, [{"kind": "surface", "from": {"object": f"cloth_{number}"}} |
                                                         ({"weight": self.driver(dial)} if self.chance(0.6) else {})])
        if self.chance(0.1):
            self.by_name[before]["curve"] = {"start": self.pick(fk), "end": self.pick(mech)}

    def go_back(self, number, mech, fk, ik, dial):
        """A control or a chain that follows what it moves, if a switch says so."""
        for _ in range(self.pick([1, 1, 2, 3])):
            bone, read = self.pick([fk, fk, ik, mech]), self.pick([mech, mech, fk, ik])
            kind = self.pick(["transform", "rotation", "position", "aim"])
            c = {"kind": kind, "from": self.pick(read)} | ({"weight": self.driver(dial)} if self.chance(0.75) else {})
            self.by_name[self.pick(bone)].setdefault("constraints", []).append(c)
        if self.chance(0.3):
            read = {"bone": self.pick(mech), "channel": "rotation.x", "space": "final"}
            self.by_name[self.pick(fk)]["channels"] = {"rotation.y": {"expression": "r", "inputs": {"r": read}}}

    def make(self):
        """The rig description."""
        self.make_ground()
        self.make_switches()
        for number in range(self.pick([1, 1, 1, 2, 2, 3])):
            self.make_limb(number)
        rig = {"format": "rig-description", "version": 1, "name": "heronry", "properties": self.properties, "objects": self.objects,
               "bones": list(self.bones)}
        if self.chance(0.5):
            rig["roots"] = ["nest"] if self.chance(0.8) else []
        if self.chance(0.3):
            self.random.shuffle(rig["bones"])
        return rig
