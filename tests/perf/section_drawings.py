"""Drawings beside plain dot on the same boxes and arrows, all of them laid out at once, and beside a check of the same rig."""

import subprocess

import process
from tables import Goal, seconds, show, size_word

VIEWS = ("plan", "group", "cycle", "order", "reach", "switch", "body", "matrix")
SIZES, SIZES_OF_PLAN = (200, 500, 2_000), (10_000, 100_000)
CYCLES = 4
MOST_SECONDS = {("all pages", 500): 3, ("all pages", 2_000): 10, ("plan", 100_000): 5}
LEAST_LIMIT, LONGEST_DOT = 10, 60  # seconds
AHEAD = 3  # dot is ended where it takes so many times as long as the slowest of our views: that is shown, and dot may take hours


def measure(suite):
    suite.raw["drawings"] = []
    for size in SIZES:
        measure_views(suite, size, VIEWS)
        measure_beside_check(suite, size, ("all pages", "page to explore"))
    for size in SIZES_OF_PLAN:
        measure_views(suite, size, ("plan",))
        measure_beside_check(suite, size, ("plan",))
    show_rows(suite.raw["drawings"])


def dot_of(suite, rig, what):
    path = suite.folder / f"{rig.name}.{what}.dot"
    with open(path, "wb") as file:
        subprocess.run([suite.programs / "perf_boxes", what, rig], stdout=file, check=True)
    return ["dot", "-Tsvg", path, "-o", path.with_suffix(".svg")]


def measure_views(suite, size, views):
    rig = suite.rig(size, cycles=CYCLES)
    runs = suite.runs(5)
    commands = [[suite.program, "draw", "--view", view, rig, "-o", f"{suite.folder}/{size}_{view}/"] for view in views]
    once = process.in_turn(suite.programs, 1, commands)
    for what, some in (("groups", ("plan",)), ("bones", tuple(view for view in views if view != "plan"))):
        places = [views.index(view) for view in some]
        if not places:
            continue
        limit = min(LONGEST_DOT, LEAST_LIMIT + AHEAD * max(once[place].seconds for place in places))
        *ours, dot = in_turn_with_dot(suite, runs, [commands[place] for place in places], dot_of(suite, rig, what), limit)
        for view, cost in zip(some, ours):
            suite.raw["drawings"].append({"bones": size, "what": view, "ours": cost.row(), "peer": f"dot, {what}", "dot": dot.row()})
            suite.goals.append(Goal("6", f"view {view} beside dot on all {what}", size_word(size), seconds(cost.seconds),
                                    ("> " if dot.ended else "") + seconds(dot.seconds), cost.seconds / dot.seconds, most=1, runs=cost.runs,
                                    ratio_is_bound=dot.ended, medians={"ours": cost.row(), "peer": dot.row()}))


def in_turn_with_dot(suite, runs, commands, dot, limit):
    """`limit` bounds our own commands too, so it is above what they take."""
    return process.in_turn(suite.programs, runs, [*commands, dot], limit=limit, ended_is_fine={len(commands)})


def measure_beside_check(suite, size, names):
    """Every page of a rig in one call, the page to explore, the plan: how many times a check they take."""
    rig = suite.rig(size, cycles=CYCLES)
    draw = [suite.program, "draw", rig, "--view"]
    calls = {"all pages": [*draw, "all", "-o", f"{suite.folder}/{size}_all/"], "page to explore": [suite.program, "report", rig, "-o", suite.folder / f"{size}.html"],
             "plan": [*draw, "plan", "-o", f"{suite.folder}/{size}_plan/"]}
    check, *costs = process.in_turn(suite.programs, suite.runs(5), [[suite.program, "check", "--format", "json", rig], *(calls[name] for name in names)])
    for what, cost in zip(names, costs):
        suite.raw["drawings"].append({"bones": size, "what": what, "ours": cost.row(), "peer": "check", "check": check.row()})
        suite.goals.append(Goal("6", f"{what} beside a check", size_word(size), seconds(cost.seconds), seconds(check.seconds),
                                cost.seconds / check.seconds, runs=cost.runs, medians={"ours": cost.row(), "peer": check.row()}))
        if (what, size) in MOST_SECONDS:
            wanted = MOST_SECONDS[what, size]
            suite.goals.append(Goal("6", f"{what} in so many seconds", size_word(size), seconds(cost.seconds), seconds(wanted), cost.seconds / wanted,
                                    most=1, runs=cost.runs, medians={"ours": cost.row()}))


def show_rows(rows):
    cells = []
    for row in rows:
        peer = row.get("dot") or row["check"]
        cells.append([row["what"], size_word(row["bones"]), seconds(row["ours"]["seconds"]), f"{row['ours']['megabytes']:.1f}", row["peer"],
                      ("> " if peer["ended"] else "") + seconds(peer["seconds"]), row["ours"]["runs"]])
    show("Drawings", ["what", "bones", "wall", "peak MB", "beside", "wall", "runs"], cells)
