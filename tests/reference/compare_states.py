"""Do two readings of the rules agree on states, cuts and single points of control?"""
import collections
import json
import subprocess

from attachment import find_attachment
from cuts import controls_lost, cut_faults, edges_within, find_cut
from graph import bone_of
from makers import COSTS, maker_of_constraint, makers_of
from points import find_only_movers, find_points
from states import find_gaps, find_switches, is_worse, judge_states, live_in, setting_of, told_of_states, worse_in, worse_in_combinations

EXACT = 40  # up to so many makers in a component a cut has to be exact
KIND_TOLD = {"driver": "driver", "constraint": "constraint", "curve handles": "curve", "solver": "solver", "parent link": "parent",
             "follows": "parent"}
CHECKS = ("deform-lost-in-state", "constraint-dead", "switch-gap")


def compare_states(differences, name, text, rig, graphs, cycles, report, places):
    """Everything that switches change; gives back what was there to see."""
    states, dead = judge_states(rig, graphs["channel"])
    differences.expect(name, text, "states", told_of_states(states), report.get("states"))
    lost, seen = [], set()
    for row in report["attachment"]:
        bone = row["bone"]
        if bone not in states.verdicts[()]:
            continue
        single, several = worse_in(states, bone), worse_in_combinations(states, bone)
        differences.expect(name, text, "worse_in", (bone, single), (bone, row.get("worse_in")))
        differences.expect(name, text, "worse_in_combinations", (bone, several or None), (bone, row.get("worse_in_combinations")))
        lost += [(bone,)] if single or several else []
        seen |= {"worse in a state"} if single else set()
        seen |= {"worse only in a combination"} if several and not single else set()
    for cycle, told in zip(cycles, report["cycles"]):
        names = live_in(rig, graphs[cycle["grain"]], cycle, states.switches)
        differences.expect(name, text, "live_in", names, told.get("live_in"))
        stops = sum(len(s.stops) for s in states.switches)
        seen.add("a cycle live in no state" if not names else "a cycle live in some states" if len(names) <= stops else "cycle")
    gaps = find_gaps(rig, states.switches)
    compare_findings(differences, name, text, rig, lost, dead, gaps, report, places)
    seen |= {"gap"} if gaps else set()
    seen |= {"dead though not inert"} if any(not rig.constraints[c].is_inert() for c in dead) else set()
    seen |= {"more combinations than are looked at"} if any(s["looked_at"] < s["combinations"] for s in states.sets) else set()
    return seen - {"cycle"}


def compare_findings(differences, name, text, rig, lost, dead, gaps, report, places):
    told = {check: [f for f in report["findings"] if f["check"] == check] for check in CHECKS}
    differences.expect(name, text, "deform-lost-in-state", counted(lost), counted(tuple(f["bones"]) for f in told["deform-lost-in-state"]))
    for check, mine in ("constraint-dead", dead), ("switch-gap", [c for _, c in gaps]):
        rows = [(rig.constraints[c].bone,) + places[maker_of_constraint(rig.constraints[c])] for c in mine]
        differences.expect(name, text, check, counted(rows), counted(tuple(f["bones"]) + (f["line"], f["column"]) for f in told[check]))


def counted(rows):
    """What is there how often."""
    return {row + (times,) for row, times in collections.Counter(rows).items()}


def rows_of(makers, places):
    return [(KIND_TOLD[m.kind], m.element if m.kind != "driver" else None, COSTS[m.kind]) + places[m] for m in makers]


def rows_told(cut):
    return [(row["kind"], row["by"] if row["kind"] != "driver" else None, row["cost"], row["line"], row["column"]) for row in cut]


def makers_told(cut, component, places):
    """The makers that a told cut means, by kind and place; what is none stands as it is."""
    known = {(KIND_TOLD[m.kind],) + places[m]: m for m in component.makers}
    return [known.get((row["kind"], row["line"], row["column"]), str(row)) for row in cut]


def compare_cut(differences, name, text, rig, edges, told, what, places):
    """One cut against the cheapest; gives back the component, the cut (where it could be told) and the makers that the program cuts."""
    cut, component = find_cut(rig, edges, places)
    claimed = makers_told(told["cut"], component, places)
    differences.expect(name, text, f"{what} is a cut", [], cut_faults(component, claimed, told["cut_exact"]))
    differences.expect(name, text, f"{what} cost adds up", sum(row["cost"] for row in told["cut"]), told["cut_cost"])
    if len(component.makers) <= EXACT:
        differences.expect(name, text, f"{what} is exact", True, told["cut_exact"])
    if cut and told["cut_exact"]:
        differences.expect(name, text, what, rows_of(cut.makers, places), rows_told(told["cut"]))
        differences.expect(name, text, f"{what} cost", cut.cost, told["cut_cost"])
    elif cut:
        fits = told["cut_at_least"] <= cut.cost <= told["cut_cost"]
        differences.expect(name, text, f"{what} bounds", True, fits or (told["cut_at_least"], cut.cost, told["cut_cost"]))
    return component, cut, [m for m in claimed if not isinstance(m, str)]


def compare_cuts(differences, name, text, rig, graphs, cycles, report, places):
    """The cut of every cycle, what is lost by it, and where less is enough at a finer grain."""
    seen = set()
    for cycle, told in zip(cycles, report["cycles"]):
        if "cut" not in told:
            differences.expect(name, text, "whether there is a cut", True, False)
            continue
        edges = edges_within(graphs["bone"], cycle["component"])
        component, cut, makers = compare_cut(differences, name, text, rig, edges, told, "cut", places)
        compare_ends(differences, name, text, rig, edges, told["cut"], component, places)
        told_in = live_in(rig, graphs[cycle["grain"]], cycle, find_switches(rig))[:1]  # a state in which the cycle is closed
        told_in = [name for name in told_in if name != "default"]
        setting = setting_of(find_switches(rig), told_in)
        differences.expect(name, text, "cut_loses_in", told_in, [told["cut_loses_in"]] if "cut_loses_in" in told else [])
        lost = [{"bone": b, "controls": c} for b, c in controls_lost(rig, graphs["channel"], makers, setting).items()]
        differences.expect(name, text, "cut_loses", lost, told.get("cut_loses"))
        seen |= {"a cut that loses controls"} if lost else {"a cut that loses nothing"}
        seen |= {"a cut with ties"} if cut and has_ties(component, cut) else set()
        seen |= compare_finer(differences, name, text, rig, graphs, cycle, told, cut, places)
    return seen


def has_ties(component, cut):
    """Whether another single maker, or another set of as many, costs as little: cheap to tell for single ones, which is enough."""
    others = [i for i, m in enumerate(component.makers) if [m] != cut.makers and component.costs[i] == cut.cost]
    return len(cut.makers) == 1 and any(not cut_faults(component, [component.makers[i]]) for i in others)


def compare_finer(differences, name, text, rig, graphs, cycle, told, cut, places):
    finer, grain = told.get("finer_cut"), cycle["grain"]
    if grain == "bone" or cut is None:
        differences.expect(name, text, "whether there is a finer cut", True, finer is None or grain != "bone")
        return set()
    edges = [e for vertices in cycle["inside"] for e in edges_within(graphs[grain], vertices)]
    mine, _ = find_cut(rig, edges, places)
    if mine is None:
        return set()
    differences.expect(name, text, "whether there is a finer cut", mine.cost < cut.cost, finer is not None)
    if finer is None or mine.cost >= cut.cost:
        return set()
    compare_cut(differences, name, text, rig, edges, finer, "finer cut", places)
    return {"a finer cut"}


def compare_ends(differences, name, text, rig, edges, cut, component, places):
    """`from` and `to` of a cut are bones (properties where there are none) with an edge of the maker between them."""
    out, into = {}, {}
    for e in edges:
        out.setdefault(e.source, []).append(e.target)
        into.setdefault(e.target, []).append(e.source)
    named = "bone" if any(bone_of(rig, v) is not None for e in edges for v in (e.source, e.target)) else "property"

    def nearest(vertex, further):
        found, seen, waiting = set(), set(), [vertex]
        while waiting:
            v = waiting.pop()
            if v.kind == named:
                found.add(v.element)
            elif v not in seen:
                seen.add(v)
                waiting += further.get(v, ())
        return found

    for row, maker in zip(cut, makers_told(cut, component, places)):
        ends = {(a, b) for e in edges if maker in makers_of(rig, e) for a in nearest(e.source, into) for b in nearest(e.target, out)}
        differences.expect(name, text, "ends of a cut", True, (row["from"], row["to"]) in ends or (row, sorted(ends)))


def compare_points(differences, name, text, rig, graphs, program, path):
    """Single points of control, as the controls command tells them."""
    run = subprocess.run([program, "controls", "--format", "json", path], capture_output=True, timeout=60)
    differences.expect(name, text, "status of controls", (0, b""), (run.returncode, run.stderr))
    if run.returncode:
        return set()
    told = json.loads(run.stdout)
    points, only = find_points(rig, graphs["channel"]), find_only_movers(rig, graphs["channel"])
    mover = {b: c for c, bones in only.items() for b in bones}
    mine = [{"bone": b.name, "moved": b.name in points, "single_points": points.get(b.name, []), "only_mover": mover.get(b.name)}
            for b in rig.bones.values() if b.deform]
    differences.expect(name, text, "single points of control", mine, [
        {"bone": row["bone"], "moved": row["moved"], "single_points": row["single_points"], "only_mover": row.get("only_mover")}
        for row in told["deform"]])
    reached = find_attachment(rig, graphs["channel"])
    counts = [(c, sum(c in controls for _, controls in reached.values()), sum(c in p for p in points.values()), len(only[c])) for c in only]
    differences.expect(name, text, "bones of a control", counts, [
        tuple(row[k] for k in ("control", "moves", "only_through", "alone")) for row in told["controls"]])
    seen = {"a single point of control"} if any(points.values()) else set()
    seen |= {"a point that is not the only mover"} if any(p and b not in mover for b, p in points.items()) else set()
    return seen | ({"a bone without one"} if not all(points.values()) else set())
