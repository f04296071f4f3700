"""What moves what, in the default state? Values of drivers, attachment of deform bones, driver fan-out, and findings."""
import math

import networkx as nx

from expressions import UNKNOWN, evaluate_curve, evaluate_expression, names_in
from graph import Vertex, bone_of, written_parts
from rig import CHANNELS, PARTS, part_of, snap
from verdicts import digraph

REPLACING = ("transform", "position", "rotation", "scale", "space", "surface")
FAN_OUT_LIMIT = 64


class Evaluation:
    """What driven values come to with every undriven property at its default; NaN is unknown."""

    def __init__(self, rig):
        self.rig, self.known = rig, {}
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
            return float(p.default)
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


def live_edges(rig, graph, evaluation):
    """The channel-grain edges that are live in the state, weight edges included."""
    gone = {Vertex("constraint", c.key, p) for c in rig.constraints.values() if not c.is_solver()
            for p in replaced_parts(c, evaluation)}

    def is_live(e):
        if e.inert or (e.use == "stack" and e.target in gone):
            return False
        if e.constraint is None:
            return True
        c = rig.constraints[e.constraint]
        gates = [c.weight] + ([c.sources[e.weight_of].weight] if e.weight_of is not None else [])
        return all(evaluation.weight(w) != 0 for w in gates)

    return [e for e in graph.edges if is_live(e)]


def ends_of(bone):
    """The vertices in which what moves a bone has to arrive."""
    return [Vertex("final", bone.name, p) for p in PARTS] + ([Vertex("curve", bone.name, "")] if bone.curve_handles is not None else [])


def starts_of(rig, control):
    own = [p.name for p in rig.properties.values() if p.on == control and not p.driver]
    return [Vertex("pose", control, c) for c in CHANNELS] + [Vertex("property", p, "") for p in own]


def reached_from(g, starts):
    return set(starts).union(*(nx.descendants(g, s) for s in starts if s in g))


def find_attachment(rig, graph):
    """deform bone -> (verdict, controls that reach it) in the default state."""
    edges = [e for e in live_edges(rig, graph, Evaluation(rig)) if e.use != "weight"]
    g = digraph(edges, graph.vertices)
    reach = {}  # control -> vertices it reaches
    for c in (b.name for b in rig.bones.values() if b.control):
        hub = ("start", c)
        g.add_edges_from((hub, s) for s in starts_of(rig, c))
        reach[c] = nx.descendants(g, hub)
        g.remove_node(hub)
    deform = [b for b in rig.bones.values() if b.deform]
    controls = {b.name: [c for c in reach if not reach[c].isdisjoint(ends_of(b))] for b in deform}
    moved = [b for b in controls if controls[b]]
    roots = rig.roots if rig.roots is not None else [c for c in reach if all(c in controls[b] for b in moved)]
    others = any(c not in roots for b in controls for c in controls[b])
    moving = set().union(*reach.values()) if reach else set()
    result = {}
    for b in deform:
        if not controls[b.name]:
            verdict = "orphaned"
        elif others and all(c in roots for c in controls[b.name]):
            verdict = "root-only"
        else:
            verdict = "attached" if is_attached(rig, b, edges, moving) else "carried"
        result[b.name] = (verdict, controls[b.name])
    return result


def is_attached(rig, bone, edges, moving):
    """Does a control come in by a way of the bone's own, not only by a parent that is nothing but a deform bone?"""
    if bone.control:
        return True
    inside = digraph([e for e in edges if e.use in ("stack", "own") and bone_of(rig, e.target) == bone.name])
    parent = rig.bones.get(bone.parent)
    for e in edges:
        if bone_of(rig, e.target) != bone.name or e.use in ("stack", "own") or e.source not in moving:
            continue
        if e.use == "parent" and parent.deform and not parent.control:
            continue
        if not ({e.target} | (nx.descendants(inside, e.target) if e.target in inside else set())).isdisjoint(ends_of(bone)):
            return True
    return False


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
