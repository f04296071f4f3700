"""Measures the program beside its peers, all in one run, and holds it against the goals: tests/perf/run says how to call it."""

import argparse
import importlib
import importlib.metadata
import json
import os
import pathlib
import platform
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

import suite as suites
import tables

SECTIONS = ("whole", "graph", "states", "jobs", "drawings")


def size(word):
    factor = {"k": 1_000, "M": 1_000_000}.get(word[-1:])
    return int(word[:-1]) * factor if factor else int(word)


def sections(words):
    chosen = words.split(",")
    if unknown := set(chosen) - set(SECTIONS):
        raise argparse.ArgumentTypeError(f"no section {', '.join(sorted(unknown))}: there are {', '.join(SECTIONS)}")
    return chosen


def read_options():
    options = argparse.ArgumentParser(prog="tests/perf/run", description="measures the program beside its peers")
    options.add_argument("--build", type=pathlib.Path, help=argparse.SUPPRESS)  # without it the options are only looked at
    options.add_argument("--sizes", nargs="+", type=size, default=[200, 1_000, 10_000, 100_000, 1_000_000], metavar="BONES",
                         help="bones of the rigs of whole and graph (200 1k 10k 100k 1M)")
    options.add_argument("--runs", type=int, help="runs behind each median, at least 5 (as many as time allows)")
    options.add_argument("--only", type=sections, default=SECTIONS, metavar="SECTION,...", help=f"of {', '.join(SECTIONS)}")
    options.add_argument("--json", type=pathlib.Path, metavar="FILE", help="writes all figures there")
    return options.parse_args()


def first_line(*command):
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=True)
    return done.stdout.decode().splitlines()[0].strip()


def machine(build):
    """What figures depend on, and nothing that names the machine."""
    told = next(build.glob("CMakeFiles/*/CMakeCXXCompiler.cmake")).read_text(encoding="utf-8")
    compiler = " ".join(re.search(rf'set\(CMAKE_CXX_COMPILER_{key} "([^"]*)"\)', told)[1] for key in ("ID", "VERSION"))
    return {"cores": os.cpu_count(), "compiler": compiler, "build type": cached(build, "CMAKE_BUILD_TYPE"), "igraph": first_line("pkg-config", "--modversion", "igraph"),
            "networkx": importlib.metadata.version("networkx"), "python": platform.python_version(), "dot": first_line("dot", "-V").split()[4]}


def cached(build, key):
    return re.search(rf"^{key}:\w+=(.*)$", (build / "CMakeCache.txt").read_text(encoding="utf-8"), re.MULTILINE)[1]


def main():
    options = read_options()
    if options.build is None:
        return
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))  # so that the folder of rigs goes
    sys.stdout.reconfigure(line_buffering=True)  # into a log, too, a table stands there as soon as it is known
    where = machine(options.build)
    print(", ".join(f"{name} {value}" for name, value in where.items()))
    start = time.monotonic()
    folder = pathlib.Path(tempfile.mkdtemp(prefix="ligament-perf-"))
    suite = suites.Suite(options.build, folder, options.sizes, options.runs)
    try:
        for name in SECTIONS:
            if name in options.only:
                importlib.import_module(f"section_{name}").measure(suite)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        conclude(suite, where, time.monotonic() - start, options.json)  # also where it was ended: what was measured by then


def conclude(suite, where, took, file):
    tables.show_goals(sorted(suite.goals, key=lambda goal: goal.number))
    held = [goal for goal in suite.goals if goal.wanted]
    print(f"\n{sum(goal.reached for goal in held)} of {len(held)} reached, {took:.0f} s")
    if file:
        text = json.dumps({"machine": where, "goals": [goal.row() for goal in suite.goals], **suite.raw}, indent=1)
        file.write_text(text + "\n", encoding="utf-8")


main()
