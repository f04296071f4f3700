"""Times drawings: medians of five runs of whole processes, and how often the time of `check --format json` they take.

drawings.py PROGRAM
"""

import json
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

import make_rig

RUNS = 5
# Bones, what is drawn, the arguments before the output, the name of the output.
CASES = [
    (500, "all pages", ["draw", "--view", "all"], "pages/"),
    (500, "page to explore", ["report"], "rig.html"),
    (2_000, "all pages", ["draw", "--view", "all"], "pages/"),
    (2_000, "page to explore", ["report"], "rig.html"),
    (100_000, "plan", ["draw"], "plan.svg"),
]


def median_time(command):
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        subprocess.run(command, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main():
    program = sys.argv[1]
    print(f"{'bones':>7}  {'groups':>6}  {'what':<16}  {'seconds':>7}  {'times a check':>13}")
    with tempfile.TemporaryDirectory() as folder:
        for bones, what, arguments, output in CASES:
            rig = make_rig.rig(bones)
            path = pathlib.Path(folder) / f"{bones}.rig.json"
            path.write_text(json.dumps(rig, indent=1), encoding="utf-8")
            check = median_time([program, "check", "--format", "json", path])
            drawn = median_time([program, *arguments, path, "-o", f"{folder}/{output}"])
            groups = len({bone.get("group", "") for bone in rig["bones"]})
            print(f"{len(rig['bones']):>7}  {groups:>6}  {what:<16}  {drawn:>7.2f}  {drawn / check:>13.1f}")


if __name__ == "__main__":
    main()
