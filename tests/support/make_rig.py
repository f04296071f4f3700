"""Writes a rig description of about N bones, shaped like production rigs: limbs of 30 to 200 bones in a group each, FK, IK and
mechanism chains under a switch, deform bones as a leaf layer. Seeded: the same N gives the same bytes. Invented data."""

import json
import random
import sys


def limb(index, bones, rng):
    """One limb: per joint an FK control, an IK bone, a mechanism bone that blends them, and a deform bone."""
    tag = f"{index:05d}"
    switch = f"limb_mode_{tag}"
    rows = []
    top = f"limb_ctl_{tag}"
    rows.append({"name": top, "roles": ["control"], "parent": "root"})
    target = f"reach_ctl_{tag}"
    rows.append({"name": target, "roles": ["control"], "parent": "root"})
    pole = f"pole_ctl_{tag}"
    rows.append({"name": pole, "roles": ["control"], "parent": "root"})
    joints = max(2, (bones - 3) // 4)
    for j in range(joints):
        under = lambda what: f"{what}_{tag}_{j - 1}" if j else top
        rest = {"translation": [0, round(rng.uniform(0.05, 0.4), 4), 0], "rotation": [0, 0, 0, 1], "scale": [1, 1, 1]}
        rows.append({"name": f"fk_{tag}_{j}", "roles": ["control"], "parent": under("fk"), "rest": rest})
        ik = {"name": f"ik_{tag}_{j}", "parent": under("ik"), "rest": rest}
        if j == 1:
            ik["constraints"] = [{"name": "reach", "kind": "ik", "target": target, "pole": pole, "chain": 2}]
        rows.append(ik)
        driven = {"expression": "mode", "inputs": {"mode": {"property": switch}}}
        rows.append({"name": f"mech_{tag}_{j}", "parent": under("mech"), "rest": rest, "constraints": [
            {"name": "ik", "kind": "transform", "from": f"ik_{tag}_{j}"},
            {"name": "fk", "kind": "transform", "from": f"fk_{tag}_{j}", "weight": driven}]})
        rows.append({"name": f"skin_{tag}_{j}", "roles": ["deform"], "parent": f"mech_{tag}_{j}", "rest": rest,
                     "constraints": [{"name": "seat", "kind": "transform", "from": f"mech_{tag}_{j}"}]})
    for row in rows:
        row["group"] = f"limb_{tag}"
    return rows, {"name": switch, "on": top, "default": 0, "min": 0, "max": 1, "stops": {"ik": 0, "fk": 1}}


def rig(count):
    rng = random.Random(count)
    bones = [{"name": "root", "roles": ["control"]}]
    properties = []
    while len(bones) < count:
        size = min(rng.choice((30, 30, 60, 60, 120, 200)), max(11, count - len(bones)))
        rows, switch = limb(len(properties), size, rng)
        bones += rows
        properties.append(switch)
    return {"format": "rig-description", "version": 1, "name": f"perf_{count}", "roots": ["root"], "properties": properties,
            "bones": bones}


if __name__ == "__main__":
    json.dump(rig(int(sys.argv[1])), sys.stdout, indent=1)
