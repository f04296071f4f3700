"""What needs what? Every edge of the channel grain from the rules, one by one; the coarser grains are the same with steps merged."""
from collections import Counter, namedtuple

from rig import CHANNELS, PARTS, part_of, parts_of

Vertex = namedtuple("Vertex", "kind element channel")  # channel: "" where the step is whole
# use: stack (the value before), own (the owner reads itself), parent, weight, or read. weight_of: index of the source that gates too.
# mention: tells apart what the rig description names twice (an input, a handle, a chain bone), so that it is two edges.
Edge = namedtuple("Edge", "source target kind by inert use constraint weight_of mention")

BONE_STEPS = ("pose", "solved", "local", "base", "final", "curve")
WRITES = {"position": "T", "rotation": "R", "scale": "S", "aim": "R", "roll": "R", "stretch": "RS", "distance": "T", "space": "TRS"}
READS = {"position": "T", "rotation": "R", "scale": "S", "aim": "T", "roll": "R", "stretch": "T", "distance": "T", "space": "TRS",
         "surface": "T", "path": "T"}
CHANNEL_BY_CHANNEL = ("transform", "position", "rotation", "scale")


def written_parts(c):
    if c.kind in ("transform", "limit"):
        return parts_of(c.channels)
    if c.kind == "surface":
        return "TR" if c.align else "T"
    if c.kind == "custom":
        return parts_of(c.writes)
    return WRITES[c.kind]


def read_parts(c, source):
    """What the constraint reads of a source, before `at` is looked at."""
    if source.use == "target":
        return "TR" if c.orient else "T"
    if source.use in ("up", "pole"):
        return "T"
    if c.kind == "transform":
        return parts_of(c.channels)
    return parts_of(c.reads) if c.kind == "custom" else READS[c.kind]


def of_parent(bone, part):
    """The parts of the parent's final that a part of the bone's base takes."""
    word = {"T": "position", "R": "rotation", "S": "scale"}[part]
    return "" if word not in bone.from_parent else "TRS" if part == "T" else part


class Builder:
    """Collects the channel grain. Edges are a list without exact repetition, in no order that matters."""

    def __init__(self, rig):
        self.rig, self.edges, self.vertices = rig, {}, set()
        self.split_stacks()
        self.solvers_of = {b: [c for c in rig.constraints.values() if c.is_solver() and b in rig.chain(c)] for b in rig.bones}
        for bone in rig.bones.values():
            self.add_vertices(bone)
        self.vertices |= {Vertex("property", p, "") for p in rig.properties} | {Vertex("driver", d, "") for d in rig.drivers}
        self.vertices |= {Vertex("object", o, "") for o in rig.objects}
        self.vertices |= {Vertex("solver", c.key, "") for c in rig.constraints.values() if c.is_solver()}
        for bone in rig.bones.values():
            self.add_bone(bone)
        for c in rig.constraints.values():
            self.add_solver(c) if c.is_solver() else None
        for d in rig.drivers.values():
            self.add_inputs(d)
        for p in rig.properties.values():
            if p.driver:
                self.add(Vertex("driver", p.driver.element, ""), Vertex("property", p.name, ""), "driver", p.name)
        for o, follows in rig.objects.items():
            for b in follows:
                for part in PARTS:
                    self.add(Vertex("final", b, part), Vertex("object", o, ""), "parent", o)

    def split_stacks(self):
        """Leading local-space steps, the others, and the last live local-space step that comes too late (or None)."""
        self.leading, self.later, self.late = {}, {}, {}
        for bone in self.rig.bones.values():
            leading, later, late, final_seen = [], [], None, False
            for c in bone.constraints:
                if c.is_solver():
                    continue
                if c.space == "local" and not final_seen:
                    leading.append(c)
                    continue
                later.append(c)
                if c.space == "final":
                    final_seen = final_seen or not c.is_inert()
                elif not c.is_inert():
                    late = c
            self.leading[bone.name], self.later[bone.name], self.late[bone.name] = leading, later, late

    def add_vertices(self, bone):
        self.vertices |= {Vertex("pose", bone.name, c) for c in CHANNELS}
        self.vertices |= {Vertex(step, bone.name, p) for step in ("solved", "local", "base", "final") for p in PARTS}
        self.vertices |= {Vertex("constraint", c.key, p) for c in bone.constraints if not c.is_solver() for p in PARTS}
        if bone.curve_handles is not None:
            self.vertices.add(Vertex("curve", bone.name, ""))

    def add(self, source, target, kind, by, use="read", constraint=None, weight_of=None, mention=None):
        inert = constraint is not None and (constraint.is_inert() or (
            weight_of is not None and constraint.sources[weight_of].weight.is_number_zero()))
        assert source in self.vertices and target in self.vertices, (source, target)
        edge = Edge(source, target, kind, by, inert, use, constraint.key if constraint else None, weight_of, mention)
        self.edges[edge] = None

    def add_bone(self, bone):
        name = bone.name
        for channel, value in bone.channels.items():
            if value.driver:
                self.add(Vertex("driver", value.driver.element, ""), Vertex("pose", name, channel), "driver", value.driver.by)
        for c in CHANNELS:
            self.add(Vertex("pose", name, c), Vertex("solved", name, part_of(c)), "order", name, "stack")
        before = self.add_stack(bone, ("solved", name), self.leading[name], late=False)
        self.pass_on(name, before, ("local", name))
        self.pass_on(name, ("local", name), ("base", name))
        self.add_parent(bone, ("base", name), PARTS)
        before = self.add_stack(bone, ("base", name), self.later[name], late=True)
        self.pass_on(name, before, ("final", name))
        if bone.curve_handles is not None:
            for p in PARTS:
                self.add(Vertex("final", name, p), Vertex("curve", name, ""), "order", name, "stack")
                for index, handle in enumerate(bone.curve_handles):
                    self.add(Vertex("final", handle, p), Vertex("curve", name, ""), "curve", name, mention=index)

    def pass_on(self, b, before, after):
        for p in PARTS:
            self.add(Vertex(*before, p), Vertex(*after, p), "order", b, "stack")

    def add_parent(self, bone, step, parts, constraint=None):
        """What a step takes of the parent; where a constraint takes it, that is the maker."""
        kind, by = ("constraint", constraint.key) if constraint else ("parent", bone.name)
        for part in parts if bone.parent else "":
            for p in of_parent(bone, part):
                self.add(Vertex("final", bone.parent, p), Vertex(*step, part), kind, by, "parent", constraint)

    def add_stack(self, bone, before, constraints, late):
        """Adds the steps one after the other; gives back the last one."""
        for c in constraints:
            step = ("constraint", c.key)
            self.pass_on(bone.name, before, step)
            written = written_parts(c)
            if c.kind in ("aim", "stretch"):
                for w in written:
                    self.add(Vertex(*before, "T"), Vertex(*step, w), "order", c.key, "own", c)
            if c.kind == "space" and c.space == "final":
                for w in written:
                    for p in PARTS:
                        self.add(Vertex("local", bone.name, p), Vertex(*step, w), "order", c.key, "own", c)
            if late and c.space == "local":
                self.add_parent(bone, step, written, c)
            for index, source in enumerate(c.sources):
                for read, into in self.joined(c, source, written):
                    for vertex in self.seen(source, c.space, read):
                        for w in into:
                            self.add(vertex, Vertex(*step, w), "constraint", c.key, "read", c, index)
            self.add_weights(c, [Vertex(*step, w) for w in written])
            before = step
        return before

    def joined(self, c, source, written):
        """Pairs of a part read and the parts that it is joined into."""
        if source.at > 0:
            return [(p, written) for p in PARTS]
        if c.kind in CHANNEL_BY_CHANNEL:
            return [(p, p) for p in read_parts(c, source)]
        return [(p, written) for p in read_parts(c, source)]

    def seen(self, source, space, part):
        """The vertices behind one part of a source."""
        if source.object is not None:
            return [Vertex("object", source.object, "")]
        if source.curved:
            return [Vertex("curve", source.bone, "")]
        return [Vertex("final", source.bone, part)] if space == "final" else self.seen_locally(source.bone, part)

    def seen_locally(self, b, part):
        late, bone = self.late[b], self.rig.bones[b]
        if late is None:
            return [Vertex("local", b, part)]
        parent = [Vertex("final", bone.parent, p) for p in of_parent(bone, part)] if bone.parent else []
        return [Vertex("constraint", late.key, part)] + parent

    def add_weights(self, c, targets):
        for index, value in [(None, c.weight)] + [(i, s.weight) for i, s in enumerate(c.sources)]:
            if value.driver:
                for target in targets:
                    self.add(Vertex("driver", value.driver.element, ""), target, "driver", c.key, "weight", c, index)

    def add_solver(self, c):
        solver, chain = Vertex("solver", c.key, ""), self.rig.chain(c)
        for b in chain:
            earlier = [s for s in self.solvers_of[b][:self.solvers_of[b].index(c)] if not s.is_inert()]
            shaped = [Vertex("solver", earlier[-1].key, "")] if earlier else [Vertex("pose", b, x) for x in CHANNELS]
            for vertex in shaped:
                self.add(vertex, solver, "solver", c.key, "read", c, mention=b)
            for part in "R" if c.kind == "ik" else PARTS:
                self.add(solver, Vertex("solved", b, part), "solver", c.key, "read", c)
        root = self.rig.bones[chain[-1]]
        for p in (PARTS if root.parent else ""):
            if any(p in of_parent(root, part) for part in PARTS):
                self.add(Vertex("final", root.parent, p), solver, "solver", c.key, "read", c)
        for index, source in enumerate(c.sources):
            for read in PARTS if source.at > 0 else read_parts(c, source):
                for vertex in self.seen(source, "final", read):
                    self.add(vertex, solver, "solver", c.key, "read", c, index)
        self.add_weights(c, [solver])

    def add_inputs(self, driver):
        target = Vertex("driver", driver.element, "")
        for name, i in driver.inputs.items():
            if i.kind == "property":
                seen = [Vertex("property", i.property, "")]
            elif i.kind in ("distance", "angle"):
                seen = [Vertex("final", b, "T" if i.kind == "distance" else "R") for b in i.bones]
            elif i.space == "final":
                seen = [Vertex("final", i.bones[0], part_of(i.channel))]
            elif self.is_shaped_locally(i.bones[0]):
                seen = self.seen_locally(i.bones[0], part_of(i.channel))
            else:
                seen = [Vertex("pose", i.bones[0], i.channel)]
            for vertex in seen:
                self.add(vertex, target, "driver", driver.by, mention=name)

    def is_shaped_locally(self, b):
        steps = self.leading[b] + self.later[b]
        return any(c.space == "local" and not c.is_inert() for c in steps) or any(not s.is_inert() for s in self.solvers_of[b])


class Graph:
    """One grain: a set of vertices and the edges between them."""

    def __init__(self, vertices, edges):
        self.vertices, self.edges = set(vertices), list(dict.fromkeys(edges))

    def rows(self):
        """What two readers of the rules should agree on, with how often it is there."""
        counted = Counter((e.source, e.target, e.kind, e.by, e.inert) for e in self.edges)
        return {row + (times,) for row, times in counted.items()}

    def live(self):
        return [e for e in self.edges if not e.inert]


def bone_of(rig, vertex):
    """The bone whose step (or whole) a vertex is, or None."""
    if vertex.kind == "constraint":
        return rig.constraints[vertex.element].bone
    return vertex.element if vertex.kind in BONE_STEPS or vertex.kind == "bone" else None


def whole(vertex):
    return vertex._replace(channel="")


def build_graphs(rig):
    """The three grains, {"channel": Graph, "step": Graph, "bone": Graph}."""
    built = Builder(rig)
    channel = Graph(built.vertices, built.edges)
    edges = [e._replace(source=whole(e.source), target=whole(e.target)) for e in channel.edges]
    stacked = {(e.source, e.target) for e in edges if e.use == "stack"}  # an own read of the step before says nothing new here
    step = Graph(map(whole, channel.vertices), (e for e in edges if e.use != "own" or (e.source, e.target) not in stacked))

    def merged(vertex):
        bone = bone_of(rig, vertex)
        return Vertex("bone", bone, "") if bone is not None else vertex

    edges = []
    for e in step.edges:
        if e.source.kind == "pose" and e.target.kind == "solver":  # the poses make no edge; what drives them does
            drivers = [v.driver for v in rig.bones[e.source.element].channels.values() if v.driver]
            edges += [e._replace(source=Vertex("driver", d.element, ""), kind="driver", by=d.by) for d in drivers]
        elif e.kind != "order":
            edges.append(e._replace(source=merged(e.source), target=merged(e.target)))
    return {"channel": channel, "step": step, "bone": Graph(map(merged, step.vertices), edges)}
