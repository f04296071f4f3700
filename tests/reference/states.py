"""What changes when a switch is set? Every state on its own: each switch at each stop, and the combinations in which switches meet."""
from collections import namedtuple
from itertools import combinations, islice, product

import networkx as nx

from attachment import (VERDICTS, Evaluation, closed_gates, constraint_of_driver, ends_of, judge_attachment, live_edges,
                        reached_over)
from graph import Graph, Vertex, bone_of, written_parts
from rig import PARTS
from verdicts import digraph

COMBINATION_LIMIT = 256
Switch = namedtuple("Switch", "property stops constraints")  # stops: {name of the state: value}; keys of constraints, live ones
States = namedtuple("States", "switches sets singles combos verdicts")  # singles, combos: in order; verdicts by settings


def number_text(value):
    return repr(float(value)).removesuffix(".0")


def driven_by(rig, name):
    """The drivers that a property reaches, straight or through driven properties."""
    found, waiting = [], [name]
    while waiting:
        read = waiting.pop()
        for d in rig.drivers.values():
            if d not in found and any(i.property == read for i in d.inputs.values()):
                found.append(d)
                waiting += [d.by] if d.element.startswith("property ") else []
    return found


def find_switches(rig):
    """The undriven properties that reach the weight of a constraint that is not inert, or of one of its sources."""
    switches = []
    for p in rig.properties.values():
        gated = [] if p.driver else [constraint_of_driver(rig, d) for d in driven_by(rig, p.name)]
        gated = {c.key for c in gated if c is not None and not c.is_inert()}
        ends = (0 if p.low is None else p.low, 1 if p.high is None else p.high)
        stops = p.stops or {number_text(v): v for v in ends}
        if gated:
            switches.append(Switch(p.name, {f"{p.name}={stop}": value for stop, value in stops.items()}, gated))
    return switches


def setting_of(switches, settings):
    """property -> value, for a tuple of names of single states."""
    return {s.property: s.stops[name] for name in settings for s in switches if name in s.stops}


def touching(rig, graph, switches):
    """deform bone -> the switches over whose constraints something can come to it in some state, whether a control moves that or not."""
    through = {}
    for number, s in enumerate(switches):
        for key in s.constraints:
            for vertex in [Vertex("constraint", key, p) for p in PARTS] + [Vertex("solver", key, "")]:
                through[vertex] = through.get(vertex, 0) | 1 << number
    marks = reached_over([(e.source, e.target) for e in graph.live() if e.use != "weight"], through)
    return {b.name: [s for number, s in enumerate(switches) if any(marks.get(end, 0) >> number & 1 for end in ends_of(b))]
            for b in rig.bones.values() if b.deform}


def interacting_sets(touched, order):
    """The sets of two or more switches that touch a common deform bone and are not inside another one, in file order."""
    sets = {tuple(order.index(s.property) for s in switches) for switches in touched.values() if len(switches) > 1}
    return [[order[n] for n in numbers] for numbers in sorted(sets) if not any(set(numbers) < set(other) for other in sets)]


def combinations_of(rig, switches):
    """All settings of two or more switches off their default, fewest first, then in file order."""
    off = [[name for name, value in s.stops.items() if value != rig.properties[s.property].default] for s in switches]
    for count in range(2, len(switches) + 1):
        for chosen in combinations(off, count):
            yield from product(*chosen)


def find_states(rig, graph):
    """Every state that is looked at, with what it says of the deform bones."""
    switches = find_switches(rig)
    by_name = {s.property: s for s in switches}
    sets, combos = [], {}
    for names in interacting_sets(touching(rig, graph, switches), list(by_name)):
        every = list(combinations_of(rig, [by_name[n] for n in names]))
        looked_at = list(islice(every, COMBINATION_LIMIT))
        sets.append({"switches": names, "combinations": len(every), "looked_at": len(looked_at)})
        combos.update(dict.fromkeys(looked_at))
    singles = [(name,) for s in switches for name in s.stops]
    return States(switches, sets, singles, list(combos), {})


def judge_states(rig, graph):
    """The states with the verdicts in each, and the constraints that are dead in all of them."""
    states = find_states(rig, graph)
    alive = set()
    for settings in [()] + states.singles + states.combos:
        evaluation = Evaluation(rig, setting_of(states.switches, settings))
        edges = live_edges(rig, graph, evaluation)
        states.verdicts[settings] = {b: v for b, (v, _) in judge_attachment(rig, edges).items()}
        alive |= getting_on(rig, edges, evaluation)
    return states, [c for c in rig.constraints if c not in alive]


def is_worse(verdict, than):
    return VERDICTS.index(verdict) > VERDICTS.index(than)


def worse_in(states, bone):
    """What the report says of a bone: worse than in the default state in a single state."""
    default = states.verdicts[()][bone]
    return [{"state": s[0], "verdict": states.verdicts[s][bone]} for s in states.singles if is_worse(states.verdicts[s][bone], default)]


def worse_in_combinations(states, bone):
    """Worse in a combination than in the default state and in every state that the combination contains."""
    found = []
    for combo in states.combos:
        contained = [part for count in range(len(combo)) for part in combinations(combo, count)]
        verdict = states.verdicts[combo][bone]
        if all(is_worse(verdict, states.verdicts[part][bone]) for part in contained):
            found.append({"state": " + ".join(combo), "switches": list(combo), "verdict": verdict})
    return found


def told_of_states(states):
    """The report's "states"."""
    switches = [{"property": s.property, "stops": [{"state": name, "value": value} for name, value in s.stops.items()]}
                for s in states.switches]
    return {"switches": switches, "looked_at": 1 + len(states.singles) + len(states.combos), "sets": states.sets}


def getting_on(rig, edges, evaluation):
    """The constraints of which something comes over the live edges: what they write arrives, or someone else reads it on the way."""
    left_from = {e.source for e in edges if e.kind != "order" and bone_of(rig, e.source) not in (None, bone_of(rig, e.target))}
    left_from |= {e.source for e in edges if e.source.kind == e.target.kind == "solver"}
    arriving = left_from | {end for b in rig.bones.values() for end in ends_of(b)}
    counting = reached_over([(e.target, e.source) for e in edges if e.kind == "order"], dict.fromkeys(arriving, 1))
    return {c.key for c in rig.constraints.values() if not c.is_inert() and evaluation.weight(c.weight) != 0
            and any(v in counting for v in written_by(rig, c))}


def written_by(rig, c):
    """The vertices that a constraint writes: of its own step, or of its chain's bones; and the solver, which a later one reads."""
    if c.is_solver():
        written = [Vertex("solved", b, p) for b in rig.chain(c) for p in ("R" if c.kind == "ik" else PARTS)]
        return written + [Vertex("solver", c.key, "")]
    return [Vertex("constraint", c.key, p) for p in written_parts(c)]


def graphs_in(rig, graphs, setting):
    """The graphs with what a weight of 0 gates in a state made inert."""
    closed = closed_gates(rig, Evaluation(rig, setting))
    return {grain: Graph(g.vertices, [e._replace(inert=e.inert or (e.constraint, e.weight_of) in closed) for e in g.edges])
            for grain, g in graphs.items()}


def live_in(rig, graph, cycle, switches):
    """The names of the default state and the single ones in which the cycle is left at its grain."""
    within = set().union(*cycle["inside"])
    held = Graph(within, [e for e in graph.live() if e.source in within and e.target in within])
    names = []
    for settings in [()] + [(name,) for s in switches for name in s.stops]:
        left = digraph(live_edges(rig, held, Evaluation(rig, setting_of(switches, settings)), overrides=False))
        if not nx.is_directed_acyclic_graph(left):
            names.append(settings[0] if settings else "default")
    return names


def find_gaps(rig, switches):
    """The pairs of a switch and a constraint that it leaves out, at a place of the stack that it gates on two or more bones of the run."""
    stacks = {b.name: [c for c in b.constraints if not c.is_inert()] for b in rig.bones.values()}
    kinds = {b: [c.kind for c in stack] for b, stack in stacks.items()}
    links = nx.Graph()
    links.add_nodes_from(b for b in kinds if kinds[b])
    links.add_edges_from((b.name, b.parent) for b in rig.bones.values() if b.parent and kinds[b.name] and kinds[b.name] == kinds[b.parent])
    gaps = set()
    for run in nx.connected_components(links):
        for s in switches:
            for place in range(len(kinds[next(iter(run))])):
                reached = {b for b in run if stacks[b][place].key in s.constraints}
                if len(reached) >= 2:
                    gaps |= {(s.property, stacks[b][place].key) for b in run - reached}
    return gaps
