"""Which control is the only way in? Single points of control of deform bones, by taking out one control after the other."""
from attachment import Evaluation, ends_of, live_edges, motion_over, reached_over, starts_of
from graph import bone_of


def arrivals(rig, edges, without=None):
    """The deform bones that motion from any control reaches over the edges, with all vertices of one control taken out."""

    out = set() if without is None else vertices_of(rig, edges, without)
    starts = {s: 1 for b in rig.bones.values() if b.control for s in starts_of(rig, b.name) if s not in out}
    moving = reached_over([(e.source, e.target) for e in edges if e.source not in out and e.target not in out], starts)
    return {b.name for b in rig.bones.values() if b.deform and any(end in moving for end in ends_of(b))}


def vertices_of(rig, edges, control):
    """All vertices of a control: its steps, and the undriven properties on it."""
    own = {v for e in edges for v in (e.source, e.target) if bone_of(rig, v) == control}
    return own | set(starts_of(rig, control))


def motion_edges(rig, graph):
    return [e for e in live_edges(rig, graph, Evaluation(rig)) if e.use != "weight"]


def find_points(rig, graph):
    """deform bone -> its single points of control in the default state, in file order; only bones that a control reaches."""
    edges = motion_edges(rig, graph)
    left = {c: arrivals(rig, edges, c) for c in (b.name for b in rig.bones.values() if b.control)}
    reached = arrivals(rig, edges)
    return {b: [c for c in left if b not in left[c]] for b in rig.bones if b in reached}


def find_only_movers(rig, graph):
    """control -> the deform bones that it moves and no other control does."""
    moving = motion_over(rig, motion_edges(rig, graph))
    controls = [b.name for b in rig.bones.values() if b.control]
    found = {c: [] for c in controls}
    for b in (b for b in rig.bones.values() if b.deform):
        bits = 0
        for end in ends_of(b):
            bits |= moving.get(end, 0)
        if bits and not bits & (bits - 1):
            found[controls[bits.bit_length() - 1]].append(b.name)
    return found
