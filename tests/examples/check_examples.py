"""Are the example rigs what their programs write, do they get the verdicts they were made for, and are their drawings current?

check_examples.py CASE --root DIR --make-heron PROGRAM --make-warden PROGRAM --ligament PROGRAM --first-look PROGRAM [--update]
With --update the files in the repository are rewritten instead of compared.
"""

import argparse
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

# What make_heron writes, and how it is asked for.
HERONS = {"heron.rig.json": [], "heron-faulty.rig.json": ["--faulty"], "heron-before.rig.json": ["--before"], "heron.gltf": ["--gltf"]}
WARDEN = "warden.vrm"
# Drawings: file name, rig, what to ask for. Further pages come beside it.
DRAWINGS = [
    ("heron-plan.svg", "heron.rig.json", []),
    ("heron-leg.svg", "heron.rig.json", ["--group", "leg_l"]),
    ("heron-forearm.svg", "heron.rig.json", ["--around", "wing_forearm_mech_l", "--hops", "1"]),
    ("heron-order.svg", "heron.rig.json", ["--view", "order"]),
    ("heron-reach.svg", "heron.rig.json", ["--view", "reach"]),
    ("heron-switch.svg", "heron.rig.json", ["--property", "wing_mode_l"]),
    ("heron-body.svg", "heron.rig.json", ["--view", "body"]),
    ("heron-matrix.svg", "heron.rig.json", ["--view", "matrix"]),
    ("heron-faulty-plan.svg", "heron-faulty.rig.json", []),
    ("heron-faulty-wing.svg", "heron-faulty.rig.json", ["--group", "wing_r"]),
    ("heron-faulty-order.svg", "heron-faulty.rig.json", ["--view", "order"]),
    ("heron-faulty-cycle.svg", "heron-faulty.rig.json", ["--cycle", "4"]),
    ("heron-faulty-reach.svg", "heron-faulty.rig.json", ["--view", "reach"]),
    ("heron-faulty-switch.svg", "heron-faulty.rig.json", ["--property", "wing_mode_r"]),
    ("heron-faulty-body.svg", "heron-faulty.rig.json", ["--view", "body"]),
    ("heron-faulty-matrix.svg", "heron-faulty.rig.json", ["--view", "matrix"]),
]

# Drawings of what changed: file name, the rig before, the rig after.
CHANGES = [("heron-change.svg", "heron-before.rig.json", "heron.rig.json")]


def run(*command, status=0):
    result = subprocess.run([str(word) for word in command], capture_output=True, text=True, encoding="utf-8", check=False)
    if result.returncode != status:
        raise SystemExit(f"{command}: status {result.returncode}, expected {status}\n{result.stdout[-2000:]}{result.stderr[-4000:]}")
    return result.stdout


def compare_or_update(made, kept, update):
    """Yields a fault when the file in the repository is not, byte by byte, the one just made."""
    if update:
        kept.write_bytes(made)
    elif not kept.exists() or kept.read_bytes() != made:
        yield f"{kept} is not what is made now: look at the difference, then run this test with --update"


def check_rigs(options):
    with tempfile.TemporaryDirectory() as folder:
        made = pathlib.Path(folder)
        for name, arguments in HERONS.items():
            run(options.make_heron, *arguments, made / name)
        run(options.make_warden, made / WARDEN)
        for name in (*HERONS, WARDEN):
            yield from compare_or_update((made / name).read_bytes(), options.root / "examples" / name, options.update)


def check_drawings(options):
    graphs = options.root / "graphs"
    with tempfile.TemporaryDirectory() as folder:
        for name, rig, arguments in DRAWINGS:
            drawing = pathlib.Path(folder) / name
            run(options.ligament, "draw", options.root / "examples" / rig, *arguments, "--time-limit", "300", "-o", drawing)
        report = pathlib.Path(folder) / "report.txt"
        for name, before, after in CHANGES:
            examples = options.root / "examples"
            run(options.ligament, "compare", examples / before, examples / after, "--draw", pathlib.Path(folder) / name, "-o", report)
        report.unlink()
        made = {path.name: path.read_bytes() for path in pathlib.Path(folder).iterdir()}
    for name in sorted({path.name for path in graphs.iterdir()} - made.keys()):
        if options.update:
            (graphs / name).unlink()
        else:
            yield f"graphs/{name}: nothing draws it"
    for name, data in sorted(made.items()):
        yield from compare_or_update(data, graphs / name, options.update)


def report_on(options, name, status):
    rig = options.root / "examples" / name
    return json.loads(run(options.ligament, "check", "--format", "json", rig, status=status))


def check_clean(options):
    report = report_on(options, "heron.rig.json", 0)
    for finding in report["findings"]:
        yield f"the clean heron has a finding: {finding['check']}: {finding['message']}"
    for bone in report["attachment"]:
        if bone["verdict"] != "attached":
            yield f"{bone['bone']} is {bone['verdict']}"
    if report["cycles"]:
        yield "the clean heron has cycles"
    counts = report["counts"]
    if not 150 <= counts["bones"] <= 250:
        yield f"{counts['bones']} bones, not 150 to 250"
    if counts["deform"] != len(report["attachment"]) or min(counts["deform"], counts["controls"], counts["mechanism"]) < 40:
        yield f"this is no whole heron: {counts}"


def without_places(value):
    if isinstance(value, list):
        return [without_places(inner) for inner in value]
    if isinstance(value, dict):
        return {key: without_places(inner) for key, inner in value.items() if key not in ("line", "column", "pointer", "source")}
    return value


def check_gltf(options):
    """A heron that travelled in a glTF file is the same heron, with its faults if it has some."""
    with tempfile.TemporaryDirectory() as folder:
        for rig, arguments, status in (("heron.rig.json", [], 0), ("heron-faulty.rig.json", ["--faulty"], 1)):
            travelled = pathlib.Path(folder) / rig.replace(".rig.json", ".gltf")
            run(options.make_heron, *arguments, "--gltf", travelled)
            report = without_places(report_on(options, rig, status))
            other = without_places(report_on(options, travelled, status))
            for key in sorted(report.keys() | other.keys()):
                if report.get(key) != other.get(key):
                    yield f"{key} of {rig} and of {travelled.name} differ:\n  {report.get(key)}\n  {other.get(key)}"


def check_warden(options):
    """Every deform bone of the warden is attached or rides on one that is; only end tips are unweighted."""
    report = report_on(options, WARDEN, 0)
    counts = report["counts"]
    if report["cycles"]:
        yield "the warden has cycles"
    if not 55 <= counts["bones"] <= 70 or counts["deform"] < 40 or counts["controls"] < 30 or counts["constraints"] < 6:
        yield f"this is no whole warden: {counts}"
    for bone in report["attachment"]:
        if bone["verdict"] not in ("attached", "carried"):
            yield f"{bone['bone']} is {bone['verdict']}"
    for finding in report["findings"]:
        unweighted = finding["check"] == "joint-unweighted"
        if finding["severity"] != "note" or (unweighted and not all("_tip" in bone for bone in finding["bones"])):
            yield f"the warden has a finding: {finding['check']}: {finding['message']}"
    size = (options.root / "examples" / WARDEN).stat().st_size
    if size > 60_000:
        yield f"{WARDEN} has {size} bytes"


def table_rows(text):
    """(line number, cells) of each row of the one table, without its head."""
    lines = text.splitlines()
    head = next(i for i, line in enumerate(lines) if line.startswith("| ---"))
    for number in range(head + 1, len(lines)):
        if lines[number].startswith("|"):
            yield number, [cell.strip() for cell in re.split(r"(?<!\\)\|", lines[number])[1:-1]]


def is_about(finding, check, name):
    return finding["check"] == check and (name in finding["bones"] or name == finding.get("subject"))


def finding_words(finding):
    return f"{finding['severity']}: {finding['message']}".replace("|", r"\|").replace("<", "&lt;")


def check_faulty(options):
    report = report_on(options, "heron-faulty.rig.json", 1)
    path = options.root / "examples" / "heron-faulty.md"
    lines = path.read_text(encoding="utf-8").splitlines()
    listed = []
    for number, cells in list(table_rows("\n".join(lines))):
        check, name = cells[2].strip("`"), cells[3].strip("`")
        found = [finding for finding in report["findings"] if is_about(finding, check, name)]
        if len(found) != 1:
            yield f"line {number + 1}: {len(found)} findings of {check} about {name}, expected one"
            continue
        listed.append(found[0])
        words = finding_words(found[0])
        if options.update:
            lines[number] = "| " + " | ".join([*cells[:4], words]) + " |"
        elif cells[4] != words:
            yield f"line {number + 1}: the tool says\n    {words}\n  and the list\n    {cells[4]}"
    if options.update:
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    if len(listed) < 10:
        yield f"only {len(listed)} planted faults are found"
    for finding in report["findings"]:
        if finding["severity"] != "note" and finding not in listed:
            yield f"not in the list: {finding['check']}: {finding['message']}"
    grains = [cycle["grain"] for cycle in report["cycles"]]
    if {*grains} != {"channel", "step", "bone"}:
        yield f"the planted cycles stand at the grains {grains}, expected some at each"
    verdicts = {bone["verdict"] for bone in report["attachment"]}
    if verdicts != {"attached", "carried", "root-only", "orphaned"}:
        yield f"verdicts {sorted(verdicts)}, expected one of each at least"


def compared(options, before, after, status):
    examples = options.root / "examples"
    return json.loads(run(options.ligament, "compare", examples / before, examples / after, "--format", "json", status=status))


def check_change(options):
    """The week before the heron: what examples/heron/before.cpp takes back is what changed since, and nothing got worse."""
    report = compared(options, "heron-before.rig.json", "heron.rig.json", 0)
    told = {(c["element"], c["change"], c["after"] or c["before"]) for c in report["changes"] if c["change"] != "renamed"}
    wanted = {("bone", "added", "toe_back_ctl_r"), ("bone", "added", "toe_back_mech_r"), ("bone", "added", "toe_back_r"),
              ("bone", "removed", "breast_plume"), ("bone", "changed", "hock_ctl_l"), ("object", "changed", "body_skin"),
              ("constraint", "changed", "crest_2_mech/lag"), ("constraint", "changed", "wing_forearm_mech_r/fk")}
    if told != wanted:
        yield f"the heron changed otherwise: {sorted(told ^ wanted)}"
    names = {b["name"] for b in json.loads((options.root / "examples" / "heron.rig.json").read_text(encoding="utf-8"))["bones"]}
    renamed = {(c["before"], c["after"]) for c in report["changes"] if c["element"] == "bone" and c["change"] == "renamed"}
    expected = {(name.replace("wing_", "pinion_", 1), name) for name in names if name.startswith("wing_") and name.endswith("_l")}
    if renamed != expected:
        yield f"other bones were renamed: {sorted(renamed ^ expected)}"
    if [finding["check"] for finding in report["findings"]["new"]] or report["worse"]["any"]:
        yield f"the heron got worse: {report['findings']['new']}"
    worse = compared(options, "heron.rig.json", "heron-faulty.rig.json", 1)
    if len([cycle for cycle in worse["cycles"] if cycle["change"] == "new"]) != 7 or worse["worse"]["verdicts"] < 4:
        yield f"the faulty heron is not told as worse: {worse['worse']}"


def product(a, b):
    ax, ay, az, aw = a
    bx, by, bz, bw = b
    return (aw * bx + ax * bw + ay * bz - az * by, aw * by - ax * bz + ay * bw + az * bx, aw * bz + ax * by - ay * bx + az * bw,
            aw * bw - ax * bx - ay * by - az * bz)


def turned(q, v):
    return product(product(q, (*v, 0)), (-q[0], -q[1], -q[2], q[3]))[:3]


def world_places(bones):
    """Origin, turn and tip of each bone in the world, as glTF 2.0 (section 3.5.3, "Transformations") composes local transforms."""
    places = {}
    for bone in bones:
        rest = bone.get("rest", {})
        origin, turn = tuple(rest.get("translation", (0, 0, 0))), tuple(rest.get("rotation", (0, 0, 0, 1)))
        if "parent" in bone:
            above, above_turn, _ = places[bone["parent"]]
            origin = tuple(a + b for a, b in zip(above, turned(above_turn, origin)))
            turn = product(above_turn, turn)
        places[bone["name"]] = origin, turn, tuple(a + b for a, b in zip(origin, turned(turn, bone["tip"])))
    return places


def check_rest(options):
    """The rest pose: mirrored sides, each deform bone on its seat, a heron's size, parents before children."""
    rig = json.loads((options.root / "examples" / "heron.rig.json").read_text(encoding="utf-8"))
    places = world_places(rig["bones"])
    near = 1e-5  # ten micrometres: rounding to one, along a chain
    for name, (origin, turn, _) in places.items():
        if not name.endswith("_l"):
            continue
        other, other_turn, _ = places[name[:-2] + "_r"]
        apart = math.dist(origin, (-other[0], other[1], other[2]))
        alike = abs(sum(a * b for a, b in zip(turn, (other_turn[0], -other_turn[1], -other_turn[2], other_turn[3]))))
        if apart > near or alike < 1 - near:
            yield f"{name} is not mirrored: {apart} m apart, {alike} alike"
    for bone in rig["bones"]:
        if "deform" in bone.get("roles", []):
            source = bone["constraints"][0]["from"]
            source = source[0] if isinstance(source, list) else source
            source = source["bone"] if isinstance(source, dict) else source
            if math.dist(places[bone["name"]][0], places[source][0]) > near:
                yield f"{bone['name']} does not stand on {source}"
    skin = [places[bone["name"]] for bone in rig["bones"] if "deform" in bone.get("roles", [])]
    tall = max(max(origin[1], tip[1]) for origin, _, tip in skin) - min(min(origin[1], tip[1]) for origin, _, tip in skin)
    if not 0.8 < tall < 1.0:  # a grey heron stands 0.84 to 1.02 m tall (from memory: field guides)
        yield f"the heron is {tall} m tall"


def check_first_look(options):
    clean = run(options.first_look, options.root / "examples" / "heron.rig.json")
    if clean:
        yield f"first_look says of the clean heron: {clean}"
    faulty = run(options.first_look, options.root / "examples" / "heron-faulty.rig.json")
    for line in ("breast_plume is orphaned", "tail_feather_outer_r is root-only", "wing_forearm_twist_2_r is carried"):
        if line not in faulty.splitlines():
            yield f"first_look does not say: {line}"
    if faulty.count("cycle at ") != 7:
        yield f"first_look does not tell seven cycles: {faulty}"
    run(options.first_look, options.root / "no such rig", status=2)


CASES = {"rigs": check_rigs, "rest": check_rest, "clean": check_clean, "gltf": check_gltf, "warden": check_warden, "faulty": check_faulty, "change": check_change, "drawings": check_drawings,
         "first_look": check_first_look}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("case", choices=[*CASES, "all"])
    parser.add_argument("--update", action="store_true")
    for name in ("root", "make-heron", "make-warden", "ligament", "first-look"):
        parser.add_argument(f"--{name}", type=pathlib.Path, required=True)
    options = parser.parse_args()
    faults = [fault for name, case in CASES.items() if options.case in (name, "all") for fault in case(options)]
    print("\n".join([*faults, f"{options.case}: {len(faults)} faults"]))
    return 1 if faults else 0


sys.exit(main())
