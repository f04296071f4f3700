"""What moves what, in a state? Values of drivers, attachment of deform bones, driver fan-out, and findings.

Every state is judged from nothing: values, live edges, motion and root controls anew.
"""
import math

import networkx as nx

from expressions import UNKNOWN, evaluate_curve, evaluate_expression, names_in
from graph import Vertex, bone_of, written_parts
from makers import makers_of
from rig import CHANNELS, PARTS, part_of, snap
from verdicts import digraph

REPLACING = ("transform", "position", "rotation", "scale", "space", "surface")
VERDICTS = ("attached", "carried", "root-only", "orphaned")  # best first
FAN_OUT_LIMIT = 64


class Evaluation:
    """What driven values come to with some undriven properties set and all others at their default; NaN is unknown."""

    def __init__(self, rig, setting=None):
        self.rig, self.setting, self.known = rig, setting or {}, {}
        needs = nx.DiGraph()
        needs.add_nodes_from(rig.properties)
        for p in rig.properties.values():
            needs.add_edges_from((i.property, p.name) for i in (p.driver.inputs.values() if p.driver else ()) if i.property)
        self.looping = {p for c in nx.strongly_connected_components(needs) for p in c if len(c) > 1 or needs.has_edge(p, p)}

    def of_property(self, name):
        p = self.rig.properties[name]
        if name in self.looping:
            return UNKNOWN
        if not p.driver:
            return float(self.setting.get(name, p.default))
        value = self.of_driver(p.driver)
        if math.isnan(value):
            return value
        value = value if p.low is None else max(p.low, value)
        return value if p.high is None else min(p.high, value)

    def of_driver(self, driver):
        if driver.element not in self.known:
            inputs = {n: self.of_property(i.property) if i.kind == "property" else UNKNOWN for n, i in driver.inputs.items()}
            self.known[driver.element] = (evaluate_curve(driver.curve, inputs[""]) if driver.curve is not None
                                          else evaluate_expression(driver.expression, inputs))
        return self.known[driver.element]

    def weight(self, value):
        return snap(self.of_driver(value.driver) if value.driver else value.number)


def replaced_parts(c, evaluation):
    """The parts whose earlier value the step throws away."""
    plain = [evaluation.weight(s.weight) for s in c.sources if s.use == "from"]
    if c.kind not in REPLACING or c.is_inert() or c.additive or c.axes != set("xyz") or evaluation.weight(c.weight) != 1:
        return ""
    if not abs(sum(plain) - 1) <= 1e-9:  # NaN, too, is not 1
        return ""
    if c.kind == "transform":
        return "".join(p for p in PARTS if all(x in c.channels for x in CHANNELS if part_of(x) == p))
    return written_parts(c)


def closed_gates(rig, evaluation):
    """The pairs of constraint and source (None: all of the constraint) that a weight of 0 closes in the state."""
    closed = set()
    for c in rig.constraints.values():
        off = evaluation.weight(c.weight) == 0
        closed |= {(c.key, index) for index, s in enumerate(c.sources) if off or evaluation.weight(s.weight) == 0}
        closed |= {(c.key, None)} if off else set()
    return closed


def live_edges(rig, graph, evaluation, overrides=True, removed=frozenset()):
    """The edges that are live in the state, weight edges included, without those of removed makers."""
    gone = {Vertex("constraint", c.key, p) for c in rig.constraints.values() if overrides and not c.is_solver()
            and ("constraint", c.key) not in removed for p in replaced_parts(c, evaluation)}
    closed = closed_gates(rig, evaluation)
    return [e for e in graph.edges if not e.inert and (e.constraint, e.weight_of) not in closed
            and not (e.use == "stack" and e.target in gone) and not (removed and removed.intersection(makers_of(rig, e)))]


def ends_of(bone):
    """The vertices in which what moves a bone has to arrive."""
    return [Vertex("final", bone.name, p) for p in PARTS] + ([Vertex("curve", bone.name, "")] if bone.curve_handles is not None else [])


def starts_of(rig, control):
    own = [p.name for p in rig.properties.values() if p.on == control and not p.driver]
    return [Vertex("pose", control, c) for c in CHANNELS] + [Vertex("property", p, "") for p in own]


def reached_over(pairs, marks):
    """Hands marks (vertex -> bits) on along pairs of vertices, from the first to the second, until nothing changes."""
    out, marks = {}, dict(marks)
    for source, target in pairs:
        out.setdefault(source, []).append(target)
    waiting = list(marks)
    while waiting:
        vertex = waiting.pop()
        mark = marks[vertex]
        for target in out.get(vertex, ()):
            there = marks.get(target, 0)
            if mark & ~there:
                marks[target] = there | mark
                waiting.append(target)
    return marks


def motion_over(rig, edges):
    """vertex -> the controls that reach it, as bits: the first control of the file is 1."""
    marks = {}
    for number, control in enumerate(b.name for b in rig.bones.values() if b.control):
        marks.update((s, 1 << number) for s in starts_of(rig, control))
    return reached_over([(e.source, e.target) for e in edges if e.use != "weight"], marks)


def judge_attachment(rig, edges):
    """deform bone -> (verdict, controls that reach it) over the live edges of a state."""
    edges = [e for e in edges if e.use != "weight"]
    moving, names = motion_over(rig, edges), [b.name for b in rig.bones.values() if b.control]
    controls = {}
    for b in (b for b in rig.bones.values() if b.deform):
        bits = [moving.get(end, 0) for end in ends_of(b)]
        controls[b.name] = [c for number, c in enumerate(names) if any(x >> number & 1 for x in bits)]
    moved = [b for b in controls if controls[b]]
    roots = rig.roots if rig.roots is not None else [c for c in names if all(c in controls[b] for b in moved)]
    others = any(c not in roots for b in controls for c in controls[b])
    own = own_ways_in(rig, edges, moving)
    result = {}
    for b in controls:
        if not controls[b]:
            verdict = "orphaned"
        elif others and all(c in roots for c in controls[b]):
            verdict = "root-only"
        else:
            verdict = "attached" if b in own or rig.bones[b].control else "carried"
        result[b] = (verdict, controls[b])
    return result


def own_ways_in(rig, edges, moving):
    """The bones that a control enters by a way of their own, not only by a parent that is nothing but a deform bone."""
    inside = [(e.target, e.source) for e in edges if e.use in ("stack", "own")]
    arriving = reached_over(inside, {end: 1 for b in rig.bones.values() for end in ends_of(b)})
    found = set()
    for e in edges:
        if e.use in ("stack", "own") or e.source not in moving or e.target not in arriving:
            continue
        bone = bone_of(rig, e.target)
        parent = rig.bones.get(rig.bones[bone].parent)
        if e.use != "parent" or not parent.deform or parent.control:
            found.add(bone)
    return found


def find_attachment(rig, graph, setting=None, removed=frozenset()):
    """deform bone -> (verdict, controls that reach it) in a state; where makers are removed, weights stay as they were."""
    return judge_attachment(rig, live_edges(rig, graph, Evaluation(rig, setting), removed=removed))


def constraint_of_driver(rig, driver):
    """The constraint whose weight, or a source's weight, the driver drives."""
    where, name = driver.element.split(" ", 1)
    return rig.constraints[name] if where == "weight" or where.startswith("source") else None


def find_fan_out(rig, graph):
    """One row a property, as the report has it."""
    g, rows = digraph(graph.live(), graph.vertices), []
    counting = [d for d in rig.drivers.values() if not (constraint_of_driver(rig, d) and constraint_of_driver(rig, d).is_inert())]
    for p in rig.properties:
        drivers, properties, waiting = set(), set(), [p]
        while waiting:
            name = waiting.pop()
            for d in counting:
                if d.element not in drivers and any(i.property == name for i in d.inputs.values()):
                    drivers.add(d.element)
                    if d.element.startswith("property "):
                        properties.add(d.by)
                        waiting.append(d.by)
        gated = {constraint_of_driver(rig, rig.drivers[d]).key for d in drivers if constraint_of_driver(rig, rig.drivers[d])}
        reached = nx.descendants(g, Vertex("property", p, ""))
        rows.append({"property": p, "weights": sum(constraint_of_driver(rig, rig.drivers[d]) is not None for d in drivers),
                     "channels": sum(d.startswith("channel ") for d in drivers), "properties": len(properties - {p}),
                     "constraints": [c for c in rig.constraints if c in gated],
                     "bones_moved": sum(not reached.isdisjoint(ends_of(b)) for b in rig.bones.values())})
    return rows


def bone_of_driver(rig, driver):
    """The bone that a driven value is about: that of the constraint or channel, or the one the property is on."""
    if driver.element.startswith("property "):
        on = rig.properties[driver.by].on
        return [on] if on else []
    c = constraint_of_driver(rig, driver)
    return [c.bone] if c else [next(b.name for b in rig.bones.values() for v in b.channels.values() if v.driver is driver)]


def is_constant(driver):
    """Its value cannot change: the expression names no input, or the curve is flat."""
    if driver.curve is not None:
        return len({y for _, y in driver.curve}) == 1
    return not names_in(driver.expression)


def find_findings(rig, cycles, attachment, fan_out):
    """The set of (check, bones, subject) of the checks that the reference knows."""
    found = set()
    for cycle in cycles:
        found.add(("cycle-by-bone" if cycle["grain"] == "bone" else "cycle", tuple(cycle["bones"]), ""))
    for bone, (verdict, _) in attachment.items():
        if verdict != "attached":
            found.add((f"deform-{verdict}", (bone,), ""))
    used = {i.property for d in rig.drivers.values() for i in d.inputs.values()}
    for p in rig.properties.values():
        if p.name not in used:
            found.add(("property-unused", (p.on,) if p.on else (), p.name))
    for d in rig.drivers.values():
        if is_constant(d):
            found.add(("driver-constant", tuple(bone_of_driver(rig, d)), d.by if d.element.startswith("property ") else ""))
    for row in fan_out:
        if row["weights"] + row["channels"] + row["properties"] > FAN_OUT_LIMIT:
            on = rig.properties[row["property"]].on
            found.add(("fan-out-high", (on,) if on else (), row["property"]))
    return found
