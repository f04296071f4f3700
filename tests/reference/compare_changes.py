"""Is what the program says changed what changed? Random rigs with random edits, the difference worked out from the two texts.

Elements: a comparison of the two JSON documents by Python's own equality of dicts. Dependences between bones: the difference of two
sets, each found by the second implementation of the graph (graph.py) with reachability by networkx. Renames that were not made
with the edits are differences too.
"""
import argparse
import collections
import copy
import json
import pathlib
import random
import subprocess
import sys
import tempfile

from graph import build_graphs
from random_rigs import random_rig
from rig import read_rig
from verdicts import bone_dependences

KINDS = ("bone", "constraint", "property", "object")


def name_all(rig):
    """Gives every constraint a name of its own, so that names alone tell which is which."""
    count = 0
    for bone in rig["bones"]:
        for constraint in bone.get("constraints", []):
            constraint["name"] = f"step_{count}"
            count += 1


def renamed(value, old, new):
    """The document with a name exchanged wherever it stands as a value."""
    if isinstance(value, dict):
        return {key: renamed(inner, old, new) for key, inner in value.items()}
    if isinstance(value, list):
        return [renamed(inner, old, new) for inner in value]
    return new if value == old else value


def strings_in(value):
    if isinstance(value, dict):
        return [s for inner in value.values() for s in strings_in(inner)]
    if isinstance(value, list):
        return [s for inner in value for s in strings_in(inner)]
    return [value] if isinstance(value, str) else []


def edit(rig, rng, number):
    """One edit; gives back the rig and what was done."""
    bone = rng.choice(rig["bones"])
    stack = bone.get("constraints", [])
    choice = rng.randrange(9)
    if choice == 0 and stack:
        stack.pop(rng.randrange(len(stack)))
        return rig, "constraint gone"
    if choice == 1 and stack:
        constraint = rng.choice(stack)
        constraint["enabled"] = not constraint.get("enabled", True)
        return rig, "constraint switched"
    if choice == 2 and stack:
        rng.choice(stack)["weight"] = rng.choice([0, 0.125, 1])
        return rig, "weight"
    if choice == 3 and bone.get("channels"):
        bone["channels"].pop(rng.choice(list(bone["channels"])))
        return rig, "channel gone"
    if choice == 4:
        rig["bones"].append({"name": f"fresh_{number}", "parent": bone["name"], "rest": {"translation": [number + 1, 9, 0]}})
        return rig, "bone new"
    if choice == 5 and len(stack) > 1:
        stack.reverse()
        return rig, "stack in another order"
    if choice == 6:
        bone["tip"] = [number, 1.5, 2.5]
        return rig, "tip"
    if choice == 7 and rig.get("properties"):
        rng.choice(rig["properties"])["on"] = bone["name"]
        return rig, "property"
    stack = bone.setdefault("constraints", [])
    stack.append({"name": f"added_{number}", "kind": "rotation", "from": rig["bones"][0]["name"], "weight": 0.5})
    return rig, "constraint new"


def with_edits(before, rng):
    after, done = copy.deepcopy(before), []
    for number in range(rng.randrange(4)):
        after, what = edit(after, rng, number)
        done.append(what)
    renames = {}
    if rng.random() < 0.3:
        strings = collections.Counter(strings_in(before))
        # A bone that others refer to, so that there is something to know it by; a name that nothing else has.
        bones = [b["name"] for b in before["bones"] if strings[b["name"]] > 2 and b.get("parent")]
        others = {x["name"] for key in ("properties", "objects") for x in before.get(key, [])} | {b.get("group") for b in before["bones"]}
        bones = [name for name in bones if name not in others]
        if bones:
            old = rng.choice(bones)
            after, renames[old] = renamed(after, old, "another_name"), "another_name"
            done.append("rename")
    return after, renames, done


def as_set(names):
    return sorted(names)


def elements_of(rig):
    """Every element by kind and name, without what only says where it stands."""
    found = {kind: {} for kind in KINDS}
    for bone in rig["bones"]:
        own = {key: value for key, value in bone.items() if key != "constraints"}
        found["bone"][bone["name"]] = own
        for constraint in bone.get("constraints", []):
            found["constraint"][bone["name"] + "/" + constraint["name"]] = constraint
    for thing in rig.get("properties", []):
        found["property"][thing["name"]] = thing
    for thing in rig.get("objects", []):
        found["object"][thing["name"]] = {**thing, "follows": as_set(thing.get("follows", []))}
    return found


def stack_orders(rig):
    return {bone["name"]: [c["name"] for c in bone.get("constraints", [])] for bone in rig["bones"]}


def differences_of(before, after):
    """{(kind, change, name)}: names of `after`, which `before` has been told in."""
    old, new = elements_of(before), elements_of(after)
    found = set()
    for kind in KINDS:
        found |= {(kind, "added", name) for name in new[kind].keys() - old[kind].keys()}
        found |= {(kind, "removed", name) for name in old[kind].keys() - new[kind].keys()}
        found |= {(kind, "changed", name) for name in new[kind].keys() & old[kind].keys() if new[kind][name] != old[kind][name]}
    gone = {name for kind, change, name in found if kind == "bone" and change in ("added", "removed")}
    found = {row for row in found if row[0] != "constraint" or not any(row[2].startswith(name + "/") for name in gone)}
    before_orders = stack_orders(before)
    for name, order in stack_orders(after).items():
        if name in before_orders:
            was = [c for c in before_orders[name] if c in order]
            if was != [c for c in order if c in before_orders[name]]:
                found.add(("bone", "changed", name))
    return found


def told_in(report, now):
    found = set()
    for change in report["changes"]:
        if change["element"] in KINDS and change["change"] != "renamed":
            what = change["change"].replace("renamed and ", "")
            name = change["after"] if change["after"] is not None else change["before"]
            if change["element"] == "constraint" and change["after"] is None:
                bone, constraint = name.rsplit("/", 1)
                name = now(bone) + "/" + constraint
            found.add((change["element"], what, name))
    return found


def links_of(rig_json):
    rig = read_rig(rig_json)
    graph = build_graphs(rig)["bone"]
    return {(a, b) for a, b in bone_dependences(rig, graph.live()) if a != b}  # on another bone; a bone that needs itself is a cycle


def run(program, *words):
    result = subprocess.run([program, *map(str, words)], capture_output=True, check=False, text=True)
    if result.returncode:
        raise SystemExit(f"{words}: status {result.returncode}\n{result.stderr}")
    return result.stdout


def look_at(program, folder, seed):
    """What is told otherwise of one pair of rigs, and what was done to it."""
    rng = random.Random(seed)
    before = json.loads(random_rig(seed)) if isinstance(random_rig(seed), str) else random_rig(seed)
    name_all(before)
    after, renames, done = with_edits(before, rng)
    paths = [folder / "before.rig.json", folder / "after.rig.json"]
    for path, rig in zip(paths, (before, after)):
        path.write_text(json.dumps(rig), encoding="utf-8")
    report = json.loads(run(program, "compare", *paths, "--format", "json", "--fail-on", "never"))
    written = [json.loads(run(program, "convert", path)) for path in paths]
    told_renames = {c["before"]: c["after"] for c in report["changes"] if c["element"] == "bone" and c["change"].startswith("renamed")}
    if renames and not told_renames:  # too little was left to know it by: then it is one bone gone and one new
        renames = {}
        done.append("rename not told")
    for old, new in renames.items():
        written[0], before = renamed(written[0], old, new), renamed(before, old, new)
    faults = []

    def expect(what, wanted, told):
        if wanted != told:
            faults.append(f"{what}: only worked out {sorted(wanted - told)}, only told {sorted(told - wanted)}")

    # Names told of the rig before, in words of the one after.
    def now(name):
        return renames.get(name, name)

    expect("renames", set(renames.items()), set(told_renames.items()))
    expect("changes", differences_of(*written), told_in(report, now))
    old_links, new_links = links_of(before), links_of(after)
    expect("dependences added", new_links - old_links, {(e["from"], e["to"]) for e in report["dependences"]["added"]})
    expect("dependences removed", old_links - new_links, {(now(e["from"]), now(e["to"])) for e in report["dependences"]["removed"]})
    return faults, done


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--program", required=True)
    parser.add_argument("--rigs", type=int, default=200)
    parser.add_argument("--first", type=int, default=0)
    arguments = parser.parse_args()
    count, done = 0, collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(arguments.first, arguments.first + arguments.rigs):
            faults, edits = look_at(arguments.program, pathlib.Path(folder), seed)
            done.update(edits or ["nothing"])
            for fault in faults:
                count += 1
                print(f"seed {seed} ({', '.join(edits)}): {fault}")
    print(f"{arguments.rigs} pairs: " + ", ".join(f"{n} {what}" for what, n in sorted(done.items())))
    print(f"{count} differences")
    missing = {"nothing", "rename", "bone new", "constraint gone", "constraint new", "weight", "property", "stack in another order"} - set(done)
    if 10 * done["rename not told"] > done["rename"]:
        print("too many renames are not told")
        count += 1
    if missing:
        print(f"never done: {', '.join(sorted(missing))}")
    return 1 if count or missing else 0


if __name__ == "__main__":
    sys.exit(main())
