"""Where is it circular, and in which order can it be evaluated? Cycles, witnesses, order, levels and longest chains."""
import heapq
from collections import deque

import networkx as nx

from graph import bone_of

FINEST_FIRST = ("channel", "step", "bone")


def digraph(edges, vertices=()):
    result = nx.DiGraph()
    result.add_nodes_from(vertices)
    result.add_edges_from((e.source, e.target) for e in edges)
    return result


def cyclic_components(graph):
    """The strongly connected components (sets of vertices) that have a cycle, over live edges."""
    g = digraph(graph.live(), graph.vertices)
    return [c for c in nx.strongly_connected_components(g) if len(c) > 1 or any(g.has_edge(v, v) for v in c)]


def bones_in(rig, vertices):
    found = {bone_of(rig, v) for v in vertices}
    return [b for b in rig.bones if b in found]


def component_owner(rig, vertex):
    """What stands for a vertex at bone grain."""
    bone = bone_of(rig, vertex)
    return ("bone", bone) if bone is not None else (vertex.kind, vertex.element)


def find_cycles(rig, graphs):
    """One dict a cycle: bones, grain, cores, and the edges of its components at that grain."""
    fine = {grain: cyclic_components(graphs[grain]) for grain in FINEST_FIRST}
    cycles = []
    for component in fine["bone"]:
        owners = {component_owner(rig, v) for v in component}
        for grain in FINEST_FIRST:
            # a pose that a driver and a solver pass through is on a finer cycle, while its bone need not be on the one at bone grain
            inside = [c for c in fine[grain] if not owners.isdisjoint(component_owner(rig, v) for v in c if v.kind != "pose")]
            if inside:
                break
        cores = [[b for b in bones_in(rig, c) if ("bone", b) in owners] for c in inside]
        properties = {v.element for v in component if v.kind == "property"}
        cycles.append({"bones": bones_in(rig, component), "grain": grain, "cores": cores, "inside": inside, "component": component,
                       "properties": [p for p in rig.properties if p in properties]})
    places = list(rig.bones)
    cycles.sort(key=lambda c: (bool(c["bones"]), places.index(c["bones"][0]) if c["bones"] else
                               list(rig.properties).index(c["properties"][0])))
    return cycles


def leaves_owner(rig, edge, kind):
    """Does the edge count as one between bones (kind bone), or between properties (kind property)?"""
    return edge.source.kind == "property" if kind == "property" else bone_of(rig, edge.source) is not None and edge.kind != "order"


def shortest_cycle(rig, graph, vertices, kind):
    """The least number of edges that leave a bone (or a property) of any cycle within the vertices; None without one."""
    edges = [e for e in graph.live() if e.source in vertices and e.target in vertices]
    out, leaving = {}, {}
    for e in edges:
        cost = int(leaves_owner(rig, e, kind))
        out.setdefault(e.source, []).append((e.target, cost))
        if cost:
            leaving.setdefault(e.target, set()).add(e.source)
    best = None
    for start, goals in leaving.items():
        distance, queue = {start: 0}, deque([start])
        while queue:
            v = queue.popleft()
            if best is not None and distance[v] + 1 >= best:
                break
            if v in goals:
                best = distance[v] + 1
                break
            for w, cost in out.get(v, ()):
                if distance[v] + cost < distance.get(w, 1 << 30):
                    distance[w] = distance[v] + cost
                    queue.append(w) if cost else queue.appendleft(w)
    return best


def witness_lengths(rig, graphs, cycle):
    """The lengths that a shortest witness may have: through bones, or of a loop of properties where there is one."""
    graph, lengths = graphs[cycle["grain"]], set()
    for component in cycle["inside"]:
        if bones_in(rig, component):
            lengths.add(shortest_cycle(rig, graph, component, "bone"))
    through_bones = min(lengths - {None}, default=None)
    loops = {v for component in cycle["inside"] for v in component if v.kind in ("property", "driver")}
    through_properties = shortest_cycle(rig, graph, loops, "property")
    return through_bones, through_properties


def folded_edges(rig, graph, edges):
    """All (from, to, kind, by) with bones (or, between properties only, properties) as ends and what is between folded in."""
    out, folded = {}, set()
    for e in edges:
        out.setdefault(e.source, []).append(e)

    def ends_at(vertex, stop):
        seen, queue, ends = set(), [vertex], set()
        while queue:
            v = queue.pop()
            if stop(v):
                ends.add(v)
            elif v not in seen:
                seen.add(v)
                queue += [e.target for e in out.get(v, ())]
        return ends

    for e in edges:
        if bone_of(rig, e.source) is not None and e.kind != "order":
            for end in ends_at(e.target, lambda v: bone_of(rig, v) is not None):
                folded.add((bone_of(rig, e.source), bone_of(rig, end), e.kind, e.by))
        if e.source.kind == "property":
            for end in ends_at(e.target, lambda v: bone_of(rig, v) is not None or v.kind == "property"):
                if end.kind == "property":
                    folded.add((e.source.element, end.element, e.kind, e.by))
    return folded


def witness_faults(rig, graphs, cycle, witness):
    """What is wrong with a witness: a list of sentences, empty when it holds."""
    rows = [(w["from"], w["to"], w["kind"], w["by"]) for w in witness]
    if not rows:
        return ["there is no witness"]
    faults = [f"{a[1]} is followed by {b[0]}" for a, b in zip(rows, rows[1:] + rows[:1]) if a[1] != b[0]]
    known = folded_edges(rig, graphs[cycle["grain"]], graphs[cycle["grain"]].live())
    faults += [f"there is no edge {row} at {cycle['grain']} grain" for row in rows if row not in known]
    through_bones, through_properties = witness_lengths(rig, graphs, cycle)
    if all(row[0] in rig.bones for row in rows):
        on_it = bones_in(rig, set().union(*cycle["inside"]))
        faults += [f"{row[0]} is not on the cycle" for row in rows if row[0] not in on_it]
        if len(rows) != through_bones:
            faults.append(f"it has {len(rows)} edges, the shortest has {through_bones}")
        places = [list(rig.bones).index(row[0]) for row in rows if row[0] in rig.bones]
        if places and places[0] != min(places):
            faults.append("it does not start at its first bone")
    elif len(rows) != through_properties:
        faults.append(f"it has {len(rows)} edges, the shortest loop of properties has {through_properties}")
    return faults


def bone_dependences(rig, edges):
    """All (needed, needing) pairs of bones over the edges, straight or through what is not a bone."""
    return {(a, b) for a, b, _, _ in folded_edges(rig, None, edges) if a in rig.bones and b in rig.bones}


def bone_components(rig, graph, edges):
    """bone -> number of its strongly connected component over the edges."""
    components = nx.strongly_connected_components(digraph(edges, graph.vertices))
    return {bone_of(rig, v): i for i, c in enumerate(components) for v in c if bone_of(rig, v) is not None}


def find_order(rig, graph):
    """The bones in order, their levels, and the live dependences and components that a longest chain is held against."""
    live, every = bone_components(rig, graph, graph.live()), bone_components(rig, graph, graph.edges)
    live_needs = {(a, b) for a, b in bone_dependences(rig, graph.live()) if live[a] != live[b]}
    needs = live_needs | {(a, b) for a, b in bone_dependences(rig, graph.edges) if every[a] != every[b]}
    members, place = {}, {b: i for i, b in enumerate(rig.bones)}
    for b in rig.bones:
        members.setdefault(live[b], []).append(b)
    blocked_by = {c: {live[a] for a, b in needs if live[b] == c} for c in members}
    bones, placed, waiting = [], set(), set(members)
    ready = [(place[members[c][0]], c) for c in members if not blocked_by[c]]
    heapq.heapify(ready)
    while ready:
        _, c = heapq.heappop(ready)
        waiting.discard(c)
        placed.add(c)
        bones += members[c]
        for other in waiting:
            if c in blocked_by[other] and blocked_by[other] <= placed:
                heapq.heappush(ready, (place[members[other][0]], other))
    assert len(bones) == len(rig.bones)
    level = {}
    for b in bones:
        if live[b] not in level:
            level[live[b]] = 1 + max((level[live[x]] for x, y in live_needs if live[y] == live[b]), default=0)
    depth = max(level.values(), default=0)
    levels = [[b for b in rig.bones if level[live[b]] == n] for n in range(1, depth + 1)]
    return {"bones": bones, "levels": levels, "components": live, "needs": live_needs}


def longest_chain_faults(order, chain):
    """What is wrong with a longest chain: one bone a level, each needing the one before (a cycle stands together)."""
    faults = [] if len(chain) == len(order["levels"]) else [f"{len(chain)} bones on {len(order['levels'])} levels"]
    faults += [f"{b} is not on level {i + 1}" for i, (b, level) in enumerate(zip(chain, order["levels"])) if b not in level]
    component = order["components"]
    for a, b in zip(chain, chain[1:]):
        if not any(x == a and component[y] == component.get(b) for x, y in order["needs"]):
            faults.append(f"{b} does not need {a}")
    return faults
