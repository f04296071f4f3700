"""What is a rig? The rig description as plain values, defaults filled in. Input that is not well-formed is not expected here."""
from dataclasses import dataclass, field
from typing import Optional

PARTS = "TRS"
PART_OF_WORD = {"position": "T", "rotation": "R", "scale": "S"}
CHANNELS = [f"{word}.{axis}" for word in PART_OF_WORD for axis in "xyz"]
SOLVERS = ("ik", "path")


def part_of(channel):
    return PART_OF_WORD[channel.split(".")[0]]


def parts_of(channels):
    """The parts of which at least one scalar channel is there, in the order T R S."""
    return "".join(p for p in PARTS if any(part_of(c) == p for c in channels))


def expand(channels):
    """`position` stands for its three scalars."""
    return {c for c in CHANNELS for wanted in channels if c == wanted or c.split(".")[0] == wanted}


def snap(weight):
    """Clamped to 0..1; within 1e-9 of 0 or 1 it is 0 or 1. NaN stays."""
    if weight != weight:
        return weight
    weight = min(1.0, max(0.0, weight))
    return 0.0 if weight <= 1e-9 else 1.0 if weight >= 1 - 1e-9 else weight


@dataclass
class Input:
    kind: str  # property, channel, distance, angle
    property: str = ""
    bones: list = field(default_factory=list)
    channel: str = ""
    space: str = "local"


@dataclass
class Driver:
    element: str  # unique: "weight b/c", "source0 b/c", "channel b/rotation.x", "property p"
    by: str
    inputs: dict  # name -> Input; a curve's one input is called ""
    expression: Optional[str] = None
    curve: Optional[list] = None


@dataclass
class Value:
    number: float = 1.0
    driver: Optional[Driver] = None

    def is_number_zero(self):
        return self.driver is None and snap(self.number) == 0


@dataclass
class Source:
    use: str  # from, up, target, pole
    weight: Value
    bone: Optional[str] = None
    object: Optional[str] = None
    at: float = 0.0
    curved: bool = False


@dataclass
class Constraint:
    key: str  # bone/name
    bone: str
    kind: str
    weight: Value
    enabled: bool
    space: str
    axes: set
    additive: bool
    align: bool
    orient: bool
    chain: int
    channels: set
    reads: set
    writes: set
    sources: list = field(default_factory=list)  # from in file order, then up, target, pole

    def is_inert(self):
        return not self.enabled or self.weight.is_number_zero()

    def is_solver(self):
        return self.kind in SOLVERS


@dataclass
class Bone:
    name: str
    control: bool
    deform: bool
    parent: Optional[str]
    from_parent: list
    curve_handles: Optional[list]  # None without a curve
    channels: dict  # channel -> Value
    constraints: list


@dataclass
class Property:
    name: str
    on: Optional[str]
    default: float
    low: Optional[float]
    high: Optional[float]
    driver: Optional[Driver]
    stops: dict  # name -> value


@dataclass
class Rig:
    name: str
    roots: Optional[list]
    bones: dict  # name -> Bone, in file order; so are all the others
    properties: dict
    objects: dict  # name -> list of bones followed
    constraints: dict  # key -> Constraint
    drivers: dict  # element -> Driver

    def chain(self, solver):
        """The owner and its next `chain` - 1 ancestors, as many as there are."""
        chain = [solver.bone]
        while len(chain) < solver.chain and self.bones[chain[-1]].parent:
            chain.append(self.bones[chain[-1]].parent)
        return chain


def read_input(j):
    if "property" in j:
        return Input("property", property=j["property"])
    if "bone" in j:
        return Input("channel", bones=[j["bone"]], channel=j["channel"], space=j.get("space", "local"))
    kind = "distance" if "distance" in j else "angle"
    return Input(kind, bones=list(j[kind]))


def read_value(j, element, by, drivers):
    if not isinstance(j, dict):
        return Value(number=float(j))
    if "curve" in j:
        driver = Driver(element, by, {"": read_input(j["input"])}, curve=j["curve"])
    else:
        driver = Driver(element, by, {n: read_input(i) for n, i in j.get("inputs", {}).items()}, expression=j["expression"])
    drivers[element] = driver
    return Value(number=float("nan"), driver=driver)


def read_source(j, use, key, index, drivers):
    if isinstance(j, str):
        j = {"bone": j}
    weight = read_value(j.get("weight", 1), f"source{index} {key}", key, drivers)
    return Source(use, weight, j.get("bone"), j.get("object"), j.get("at", 0.0), j.get("curved", False))


def read_constraint(j, bone, position, drivers):
    key = f"{bone}/{j.get('name', j['kind'] + str(position))}"
    weight = read_value(j.get("weight", 1), f"weight {key}", key, drivers)
    result = Constraint(key, bone, j["kind"], weight, j.get("enabled", True), j.get("space", "final"), set(j.get("axes", "xyz")),
                        j.get("additive", False), j.get("align", False), j.get("orient", False), int(j.get("chain", 0)),
                        expand(j.get("channels", PART_OF_WORD)), expand(j.get("reads", [])), expand(j.get("writes", [])))
    listed = j.get("from", [])
    plain = [("from", s) for s in (listed if isinstance(listed, list) else [listed])]
    for use, s in plain + [(u, j[u]) for u in ("up", "target", "pole") if u in j]:
        result.sources.append(read_source(s, use, key, len(result.sources), drivers))
    return result


def read_bone(j, drivers):
    name, roles = j["name"], j.get("roles", [])
    channels = {c: read_value(v, f"channel {name}/{c}", f"{name}/{c}", drivers) for c, v in j.get("channels", {}).items()}
    constraints = [read_constraint(c, name, i + 1, drivers) for i, c in enumerate(j.get("constraints", []))]
    handles = [j["curve"][end] for end in ("start", "end") if end in j["curve"]] if "curve" in j else None
    return Bone(name, "control" in roles, "deform" in roles, j.get("parent"), j.get("from_parent", list(PART_OF_WORD)), handles,
                channels, constraints)


def read_property(j, drivers):
    driver = read_value(j["value"], f"property {j['name']}", j["name"], drivers).driver if "value" in j else None
    return Property(j["name"], j.get("on"), j.get("default", 0), j.get("min"), j.get("max"), driver,
                    j.get("stops", {}))


def read_rig(j):
    """A rig from a rig description, as json.load gives it."""
    drivers = {}
    properties = {p["name"]: read_property(p, drivers) for p in j.get("properties", [])}
    bones = {b["name"]: read_bone(b, drivers) for b in j["bones"]}
    return Rig(j["name"], j.get("roots"), bones, properties, {o["name"]: o.get("follows", []) for o in j.get("objects", [])},
               {c.key: c for b in bones.values() for c in b.constraints}, drivers)
