"""Whole processes on the same bytes: a check of a rig beside those that only read its JSON, and a script with networkx."""

import pathlib
import sys

import process
from tables import Goal, seconds, show, size_word

USUAL_RUNS = {200: 101, 1_000: 51, 10_000: 15, 100_000: 7}
MOST_TIME, MOST_MEMORY, MOST_TIME_SMALL, MOST_GROWTH, LEAST_TIMES_SCRIPT = 0.8, 0.6, 1.2, 11, 25
HERE = pathlib.Path(__file__).resolve().parent


def measure(suite):
    rows, checks = [], {}
    for size in suite.sizes:
        rig = suite.rig(size)
        check = [suite.program, "check", "--format", "json", rig]
        parse = [suite.programs / "perf_parse_only", rig]
        accept = [suite.programs / "perf_accept_only", rig]
        script = [sys.executable, "-B", HERE / "networkx_peer.py", rig]
        costs = dict(zip(("check", "parse", "accept"), process.in_turn(suite.programs, suite.runs(USUAL_RUNS.get(size, 5)), [check, parse, accept])))
        checks[size] = costs["check"]
        add_parse_goals(suite, size, costs["check"], costs["parse"])
        if size <= 100_000:
            beside, costs["networkx"] = process.in_turn(suite.programs, suite.runs(5), [check, script])
            add_script_goal(suite, size, beside, costs["networkx"])
        megabytes = rig.stat().st_size / 1e6
        rows.append({"bones": size, "file_megabytes": megabytes, **{name: cost.row() for name, cost in costs.items()}})
        if size > 100_000:
            rig.unlink()  # some 300 MB
    add_growth_goals(suite, checks)
    suite.raw["whole"] = rows
    show_rows(rows)


def show_rows(rows):
    cells = []
    for row in rows:
        for name in ("check", "parse", "accept", "networkx"):
            if name not in row:
                continue
            cost, parse = row[name], row["parse"]
            cells.append([name, size_word(row["bones"]), f"{row['file_megabytes']:.2f}", seconds(cost["seconds"]), seconds(cost["cpu_seconds"]),
                          f"{cost['megabytes']:.1f}", f"{cost['seconds'] / parse['seconds']:.2f}", f"{cost['megabytes'] / parse['megabytes']:.2f}", cost["runs"]])
    show("Whole processes: check --format json, json::parse, json::accept, a script with networkx",
         ["process", "bones", "file MB", "wall", "processor", "peak MB", "time/parse", "memory/parse", "runs"], cells)


def add(suite, number, what, size, ours, peer, of, text, **bounds):
    suite.goals.append(Goal(number, what, size_word(size), text(getattr(ours, of)), text(getattr(peer, of)), getattr(ours, of) / getattr(peer, of),
                            runs=min(ours.runs, peer.runs), medians={"ours": ours.row(), "peer": peer.row()}, **bounds))


def megabytes(value):
    return f"{value:.1f} MB"


def add_parse_goals(suite, size, check, parse):
    time_bound = MOST_TIME if size >= 100_000 else MOST_TIME_SMALL if size <= 200 else None
    add(suite, "1", "check: time beside json::parse", size, check, parse, "seconds", seconds, most=time_bound)
    add(suite, "1", "check: memory beside json::parse", size, check, parse, "megabytes", megabytes, most=MOST_MEMORY if size >= 100_000 else None)


def add_script_goal(suite, size, check, script):
    ratio = script.seconds / check.seconds
    suite.goals.append(Goal("2", "check: times as fast as networkx", size_word(size), seconds(check.seconds), seconds(script.seconds), ratio,
                            least=LEAST_TIMES_SCRIPT if size >= 10_000 else None, runs=check.runs, medians={"ours": check.row(), "peer": script.row()}))


def add_growth_goals(suite, checks):
    if 100_000 not in checks or 1_000_000 not in checks:
        return
    small, large = checks[100_000], checks[1_000_000]
    for what, of, text in (("time", "seconds", seconds), ("memory", "megabytes", megabytes)):
        suite.goals.append(Goal("3", f"check: growth of {what}", "100k-1M", text(getattr(large, of)), text(getattr(small, of)),
                                getattr(large, of) / getattr(small, of), most=MOST_GROWTH, runs=min(small.runs, large.runs),
                                medians={"ours": large.row(), "peer": small.row()}))
