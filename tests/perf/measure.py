"""Times `ligament check --format json` against a process that only builds the JSON document tree, on the same files, in turn, in one
run; prints medians of wall seconds and peak memory, and the ratios."""

import os
import statistics
import subprocess
import sys
import tempfile
import time

import make_rig
import json


def run(command):
    with open(os.devnull, "wb") as sink:
        start = time.perf_counter()
        process = subprocess.Popen(command, stdout=sink)
        _, status, usage = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - start
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        sys.exit(f"{command} failed")
    return seconds, usage.ru_maxrss / 1024


def main():
    program, yardstick = sys.argv[1:3]
    sizes = [int(size) for size in sys.argv[3:]] or [200, 1000, 10_000, 100_000]
    print(f"{'bones':>9} {'MB':>7} {'check s':>8} {'parse s':>8} {'ratio':>6} {'check MB':>9} {'parse MB':>9} {'ratio':>6}")
    for size in sizes:
        with tempfile.NamedTemporaryFile("w", suffix=".rig.json") as file:
            json.dump(make_rig.rig(size), file, indent=1)
            file.flush()
            pairs = [(run([program, "check", "--format", "json", file.name]), run([yardstick, file.name])) for _ in range(6)][1:]
            (check, parse), (check_mb, parse_mb) = [[statistics.median(p[i][k] for p in pairs) for i in (0, 1)] for k in (0, 1)]
            print(f"{size:>9} {os.path.getsize(file.name) / 1e6:>7.1f} {check:>8.4f} {parse:>8.4f} {check / parse:>6.2f} "
                  f"{check_mb:>9.1f} {parse_mb:>9.1f} {check_mb / parse_mb:>6.2f}", flush=True)


main()
