"""Where is a cycle cut most cheaply? The cheapest set of makers by trying every set, or by trying every maker of a cycle that is left."""
from collections import namedtuple
from itertools import combinations

from attachment import find_attachment
from makers import COSTS, makers_of

SMALL = 12  # up to so many makers every set of them is tried
WORK = 20_000  # so many graphs are looked at before a larger component is given up
Cut = namedtuple("Cut", "makers cost")  # makers in file order


class Component:
    """The edges of one component as numbers, and by which of its makers (in file order, as bits) each is removed."""

    def __init__(self, rig, edges, places):
        removers = {}
        for e in edges:
            removers.setdefault((e.source, e.target), []).append(makers_of(rig, e))
        self.makers = sorted({m for lists in removers.values() for makers in lists for m in makers}, key=lambda m: places[m])
        number = {m: i for i, m in enumerate(self.makers)}
        self.costs = [COSTS[m.kind] for m in self.makers]
        vertices = {v: i for i, v in enumerate(dict.fromkeys(v for ends in removers for v in ends))}
        self.size = len(vertices)
        self.edges = [(vertices[a], vertices[b], [sum(1 << number[m] for m in makers) for makers in lists])
                      for (a, b), lists in removers.items()]

    def left(self, removed):
        """The pairs of vertices of which an edge is left."""
        return [(a, b) for a, b, masks in self.edges if not all(mask & removed for mask in masks)]

    def cost(self, numbers):
        return sum(self.costs[i] for i in numbers)


def is_acyclic(size, pairs):
    """Kahn's method: every vertex can be taken once all that it needs is."""
    needed, out = [0] * size, [[] for _ in range(size)]
    for a, b in pairs:
        needed[b] += 1
        out[a].append(b)
    ready, taken = [v for v in range(size) if not needed[v]], 0
    while ready:
        taken += 1
        for b in out[ready.pop()]:
            needed[b] -= 1
            if not needed[b]:
                ready.append(b)
    return taken == size


def bits(numbers):
    return sum(1 << i for i in numbers)


def cheapest_of_all(component):
    """Every set of makers, cheapest first, of equal cost the one whose makers come first: the first that leaves no cycle."""
    every = range(len(component.makers))
    sets = sorted((component.cost(chosen), chosen) for count in range(len(every) + 1) for chosen in combinations(every, count))
    return next(chosen for _, chosen in sets if is_acyclic(component.size, component.left(bits(chosen))))


def shortest_cycle_of(size, pairs):
    """The edges of a shortest cycle, or None."""
    out, best = [[] for _ in range(size)], None
    for a, b in pairs:
        out[a].append(b)
    for start in range(size):
        before, queue = {}, [start]
        for v in queue:
            for w in out[v]:
                if w not in before:
                    before[w] = v
                    queue.append(w)
            if start in before:
                break
        if start not in before:
            continue
        cycle, v = [(before[start], start)], before[start]
        while v != start:
            cycle.append((before[v], v))
            v = before[v]
        if best is None or len(cycle) < len(best):
            best = cycle
    return best


def cheapest_by_branching(component, work=WORK):
    """The same set: one of the makers of any cycle that is left has to go. None where that takes more work than is allowed."""
    best, waiting, seen = None, [frozenset()], {frozenset()}
    masks = {(a, b): lists for a, b, lists in component.edges}
    while waiting:
        chosen = waiting.pop()
        work -= 1
        if work < 0:
            return None
        removed = bits(chosen)
        if best is not None and component.cost(chosen) > best[0]:
            continue
        cycle = shortest_cycle_of(component.size, component.left(removed))
        if cycle is None:
            found = (component.cost(chosen), tuple(sorted(chosen)))
            best = found if best is None else min(best, found)
            continue
        for pair in cycle:
            hitting = [mask for mask in masks[pair] if not mask & removed]
            ways = {i for mask in hitting for i in range(len(component.makers)) if mask >> i & 1}
            for more in (chosen | {i} for i in sorted(ways, reverse=True)):
                if more not in seen:
                    seen.add(more)
                    waiting.append(more)
    return best[1]


def edges_within(graph, vertices):
    return [e for e in graph.live() if e.source in vertices and e.target in vertices]


def find_cut(rig, edges, places):
    """The cheapest cut of the edges of a component and the number of makers in it; no cut where it takes too much work to tell."""
    component = Component(rig, edges, places)
    chosen = cheapest_of_all(component) if len(component.makers) <= SMALL else cheapest_by_branching(component)
    cut = None if chosen is None else Cut([component.makers[i] for i in chosen], component.cost(chosen))
    return cut, component


def cut_faults(component, makers, is_exact=True):
    """What is wrong with a claimed cut: a list of sentences, empty when it is one and, if exact, no maker of it is too many."""
    unknown = [m for m in makers if m not in component.makers]
    if unknown:
        return [f"{m} makes no edge of the component" for m in unknown]
    chosen = [component.makers.index(m) for m in makers]
    faults = [] if chosen == sorted(set(chosen)) else ["its makers are not in file order"]
    faults += [] if is_acyclic(component.size, component.left(bits(chosen))) else ["a cycle is left"]
    return faults + [f"{component.makers[i]} need not go" for i in chosen
                     if is_exact and is_acyclic(component.size, component.left(bits(x for x in chosen if x != i)))]


def controls_lost(rig, graph, makers, setting=None):
    """What a cut costs: deform bone -> the controls that reach it in a state with the makers and not without them."""
    before = find_attachment(rig, graph, setting)
    after = find_attachment(rig, graph, setting, removed=frozenset(makers))
    lost = {b: [c for c in controls if c not in after[b][1]] for b, (_, controls) in before.items()}
    return {b: controls for b, controls in lost.items() if controls}
