"""Do two readings of the rules agree? Seeded random rigs through the program and through the reference, everything compared.

Prints the rig and both values at the first differences, counts all of them, and fails when there are any.
"""
import argparse
import collections
import json
import multiprocessing
import pathlib
import random
import subprocess
import sys
import tempfile

from attachment import find_attachment, find_fan_out, find_findings
from compare_states import compare_cuts, compare_points, compare_states
from differences import Differences
from graph import Edge, Graph, Vertex, build_graphs
from places import places_of_makers
from random_rigs import random_rig
from rig import read_rig
from states import find_switches, graphs_in, setting_of
from verdicts import FINEST_FIRST, find_cycles, find_order, longest_chain_faults, witness_faults

SHOWN = 8
CHECKS = {"cycle", "cycle-by-bone", "deform-orphaned", "deform-root-only", "deform-carried", "property-unused", "driver-constant",
          "fan-out-high"}
EXPECTED = {"no cycle"} | {f"cycle at {g} grain" for g in FINEST_FIRST} | {"attached", "carried", "root-only", "orphaned"} | {
    "worse in a state", "a state that was asked for", "worse only in a combination", "a cycle live in no state",
    "a cycle live in some states", "gap", "dead though not inert", "more combinations than are looked at", "a cut that loses controls",
    "a cut that loses nothing", "a cut with ties", "a finer cut", "a single point of control", "a point that is not the only mover",
    "a bone without one"}


def read_dump(text):
    """path -> its graph per grain, their sizes as printed, the places of makers, and the faults that the reader found."""
    rigs, grain = {}, None
    for line in text.splitlines():
        word, *cells = line.split("\t")
        if word == "rig":
            rigs[cells[0]] = rig = {"faults": [], "sizes": {}, "places": {}}
        elif word == "fault":
            rig["faults"].append(cells)
        elif word == "grain":
            grain = cells[0]
            rig[grain], rig["sizes"][grain] = Graph([], []), [0, 0]
        elif word == "v":
            rig[grain].vertices.add(Vertex(*cells))
            rig["sizes"][grain][0] += 1
        else:
            source, target, (kind, by, inert, _, weight, place) = Vertex(*cells[:3]), Vertex(*cells[3:6]), cells[6:]
            rig[grain].edges.append(Edge(source, target, kind, by, inert == "inert", weight, None, None, None))
            rig["sizes"][grain][1] += 1
            rig["places"].setdefault((kind, by), set()).add(place)
    return rigs


def entries(graph):
    """The edges by which a driven weight enters; what the weight's driver reads does not tell."""
    return {(e.source, e.target) for e in graph.edges if e.use == "weight" and e.target.kind != "driver"}


def compare_graphs(differences, name, text, graphs, dumped, report):
    for grain in FINEST_FIRST:
        mine, theirs = graphs[grain], dumped[grain]
        differences.expect(name, text, f"{grain} vertices", mine.vertices, theirs.vertices)
        differences.expect(name, text, f"{grain} edges", mine.rows(), theirs.rows())
        differences.expect(name, text, f"{grain} weight edges", entries(mine), entries(theirs))
        differences.expect(name, text, f"number of {grain} vertices", len(mine.vertices), dumped["sizes"][grain][0])
        if report:
            told = [report["counts"][what][grain] for what in ("vertices", "edges")]
            differences.expect(name, text, f"told numbers of {grain} vertices and edges", dumped["sizes"][grain], told)


def compare_places(differences, name, text, rig, dumped):
    """Every constraint's edges stand at one place, and that is where its braces open in the file."""
    lines = text.splitlines()
    for (kind, by), places in dumped["places"].items():
        if kind in ("constraint", "solver") and by in rig.constraints:
            at = sorted(places)
            line, column = map(int, at[0].split(":"))
            written = rig.constraints[by].kind
            rest = "\n".join([lines[line - 1][column - 1:]] + lines[line:]) if 0 < line <= len(lines) else ""
            found = json.JSONDecoder().raw_decode(rest)[0] if rest.startswith("{") else {}
            differences.expect(name, text, "place of a constraint", (1, written), (len(at), found.get("kind")))


def compare_counts(differences, name, text, rig, counts):
    bones = rig.bones.values()
    mine = {"bones": len(bones), "deform": sum(b.deform for b in bones), "controls": sum(b.control for b in bones),
            "mechanism": sum(not b.deform and not b.control for b in bones), "constraints": len(rig.constraints),
            "drivers": len(rig.drivers), "properties": len(rig.properties), "objects": len(rig.objects)}
    differences.expect(name, text, "counts", mine, {k: counts[k] for k in mine})


def distinct_cores(rig, cycle):
    """Each list of bones once, none empty, in file order."""
    place = {name: number for number, name in enumerate(rig.bones)}
    return [list(core) for core in sorted({tuple(c) for c in cycle["cores"] if c}, key=lambda core: [place[b] for b in core])]


def compare_cycles(differences, name, text, rig, graphs, cycles, told):
    differences.expect(name, text, "bones of cycles", [c["bones"] for c in cycles], [t["bones"] for t in told])
    for cycle, t in zip(cycles, told) if len(cycles) == len(told) else ():
        differences.expect(name, text, "grain of a cycle", cycle["grain"], t["grain"])
        differences.expect(name, text, "cores of a cycle", distinct_cores(rig, cycle), t["cores"])
        if cycle["grain"] == t["grain"]:
            faults = witness_faults(rig, graphs, cycle, t["witness"])
            differences.expect(name, text, "witness", [], faults and faults + [t["witness"]])


def compare_verdicts(differences, name, text, rig, graphs, attachment, report):
    """What holds in the state that the graphs and the attachment are of; gives back the cycles."""
    cycles, order = find_cycles(rig, graphs), find_order(rig, graphs["bone"])
    compare_cycles(differences, name, text, rig, graphs, cycles, report["cycles"])
    told = report["order"]
    differences.expect(name, text, "order", order["bones"], told["bones"])
    differences.expect(name, text, "levels", order["levels"], told["levels"])
    differences.expect(name, text, "longest chain", [], longest_chain_faults(order, told["longest_chain"]))
    differences.expect(name, text, "attachment", set((b, v, tuple(c)) for b, (v, c) in attachment.items()),
                       set((a["bone"], a["verdict"], tuple(a["controls"])) for a in report["attachment"]))
    differences.expect(name, text, "order of attachment", list(attachment), [a["bone"] for a in report["attachment"]])
    return cycles


def compare_report(differences, name, text, rig, graphs, report):
    compare_counts(differences, name, text, rig, report["counts"])
    attachment, fan_out = find_attachment(rig, graphs["channel"]), find_fan_out(rig, graphs["channel"])
    cycles = compare_verdicts(differences, name, text, rig, graphs, attachment, report)
    rows = [{k: row[k] for k in ("property", "weights", "channels", "properties", "constraints", "bones_moved")}
            for row in report["fan_out"]]
    differences.expect(name, text, "fan-out", [str(r) for r in fan_out], [str(r) for r in rows])
    found = {(f["check"], tuple(f["bones"]), f.get("subject", "") if not (f["check"] == "cycle" and not f["bones"]) else "")
             for f in report["findings"] if f["check"] in CHECKS}
    differences.expect(name, text, "findings", find_findings(rig, cycles, attachment, fan_out), found)
    return cycles, attachment


def compare_in_a_state(differences, name, text, rig, graphs, program, path):
    """The verdicts of one state, as --state tells them: some setting of one to all switches at their stops."""
    choose, switches = random.Random(name), find_switches(rig)
    chosen = [choose.choice(list(s.stops)) for s in switches if choose.random() < 0.6]
    if not chosen:
        return set()
    setting = setting_of(switches, chosen)
    report, _, said = run_check(program, path, False, [word for state in chosen for word in ("--state", state)])
    differences.expect(name, text, "whether there is a report of a state", True, report is not None or (chosen, said))
    if report:
        told = f"{name} in {' + '.join(chosen)}"
        attachment = find_attachment(rig, graphs["channel"], setting)
        compare_verdicts(differences, told, text, rig, graphs_in(rig, graphs, setting), attachment, report)
    return {"a state that was asked for"} if report else set()


def run_check(program, path, by_input, more=()):
    """The report and the exit status of one call of the program, its rig named or piped."""
    text = pathlib.Path(path).read_bytes() if by_input else None
    call = [program, "check", "--format", "json", "-" if by_input else path, *more]
    run = subprocess.run(call, input=text, capture_output=True, timeout=60)
    try:
        return json.loads(run.stdout), run.returncode, run.stderr.decode()
    except json.JSONDecodeError:
        return None, run.returncode, run.stderr.decode()


def write_rigs(seeds, folder):
    """name -> (path, text): every rig as a file, on one line, indented, or with all that is not ASCII escaped."""
    rigs = {}
    for seed in seeds:
        style = [{"indent": 1, "ensure_ascii": False}, {"ensure_ascii": True}, {"indent": 2, "ensure_ascii": True}][seed % 3]
        text, path = json.dumps(random_rig(seed), **style), f"{folder}/{seed}.rig.json"
        pathlib.Path(path).write_text(text, encoding="utf-8")
        rigs[f"seed {seed}"] = (path, text)
    return rigs


def read_given(paths):
    return {p: (p, pathlib.Path(p).read_text(encoding="utf-8")) for p in paths}


def compare_rig(arguments, differences, name, path, text, dumped, by_input):
    """Everything about one rig; gives back what it has that is worth seeing."""
    described = json.loads(text)
    rig = read_rig(described)
    graphs = build_graphs(rig)
    differences.expect(name, text, "faults", [], dumped["faults"])
    if dumped["faults"]:
        return set()
    report, status, said = run_check(arguments.program, path, by_input) if arguments.program else (None, 0, "")
    compare_graphs(differences, name, text, graphs, dumped, report)
    compare_places(differences, name, text, rig, dumped)
    if not arguments.program:
        return set()
    differences.expect(name, text, "whether there is a report", True, report is not None or (status, said))
    if report is None:
        return set()
    cycles, attachment = compare_report(differences, name, text, rig, graphs, report)
    wrong = any(f["severity"] == "error" for f in report["findings"])
    differences.expect(name, text, "exit status", (int(wrong), ""), (status, said))
    seen = {f"cycle at {c['grain']} grain" for c in cycles} or {"no cycle"}
    places = places_of_makers(described, text)
    seen |= compare_states(differences, name, text, rig, graphs, cycles, report, places)
    seen |= compare_in_a_state(differences, name, text, rig, graphs, arguments.program, path)
    seen |= compare_cuts(differences, name, text, rig, graphs, cycles, report, places)
    seen |= compare_points(differences, name, text, rig, graphs, arguments.program, path)
    return seen | {v for v, _ in attachment.values()}


def compare(job):
    """Part of the rigs, in a process of its own."""
    arguments, rigs = job
    differences, seen = Differences(), collections.Counter()
    dump = subprocess.run([arguments.dump] + [path for path, _ in rigs.values()], capture_output=True, check=True, text=True)
    dumped = read_dump(dump.stdout)
    for number, (name, (path, text)) in enumerate(rigs.items()):
        seen.update(compare_rig(arguments, differences, name, path, text, dumped[path], number % 5 == 0))
    return differences, seen


def compare_all(arguments, rigs):
    """All rigs, shared out among processes; the first differences are the same however many there are."""
    names, share = list(rigs), max(1, -(-len(rigs) // (4 * arguments.processes)))
    jobs = [(arguments, {n: rigs[n] for n in names[i:i + share]}) for i in range(0, len(names), share)]
    differences, seen = Differences(), collections.Counter()
    with multiprocessing.Pool(arguments.processes) as pool:
        for found, there in pool.imap(compare, jobs):
            differences.add(found)
            seen.update(there)
    return differences, seen


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", help="the ligament program; without it only the graphs are compared")
    parser.add_argument("--dump", required=True, help="the dump_graph program")
    parser.add_argument("--rigs", type=int, default=500, help="how many random rigs")
    parser.add_argument("--first", type=int, default=0, help="the first seed")
    parser.add_argument("--processes", type=int, default=2, help="how many rigs are looked at at once")
    parser.add_argument("files", nargs="*", help="rig files to compare in place of random rigs")
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        rigs = read_given(arguments.files) or write_rigs(range(arguments.first, arguments.first + arguments.rigs), folder)
        differences, seen = compare_all(arguments, rigs)
    print(f"{len(rigs)} rigs: " + ", ".join(f"{n} with {what}" for what, n in sorted(seen.items())))
    for text in list(differences.texts.values())[:SHOWN]:
        print(text)
    for what, n in differences.counts.most_common():
        print(f"{n} differences: {what}")
    print(f"rigs that differ: {len(differences.rigs)}")
    for name, whats in sorted(differences.rigs.items(), key=lambda row: len(rigs[row[0].split(" in ")[0]][1]))[:SHOWN]:
        print(f"  {name}: {', '.join(sorted(set(whats)))}")
    missing = EXPECTED - set(seen) if arguments.program and not arguments.files else set()
    if missing:
        print(f"no rig with {', '.join(sorted(missing))}: too few rigs to tell")
    return 1 if differences.counts or missing else 0


if __name__ == "__main__":
    sys.exit(main())
