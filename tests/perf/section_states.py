"""What one further state of the switches costs, as a share of the default state alone."""

import json
import subprocess

from tables import Goal, seconds, show, size_word

MOST_SHARE = 0.02
# Bones, options, what it is.
RIGS = [(4_400, {"hubs": 0}, "about 50 switches, one a limb"), (20_000, {"hubs": 0}, "a switch a limb"),
        (100_000, {"hubs": 0}, "a switch a limb"), (100_000, {}, "a switch a limb, and hubs")]


def measure(suite):
    rigs = [suite.rig(bones, **options) for bones, options, _ in RIGS]
    done = subprocess.run([suite.programs / "perf_states", str(suite.runs(7)), *rigs], stdout=subprocess.PIPE, check=True)
    rows = [{"what": what, **json.loads(line)} for (_, _, what), line in zip(RIGS, done.stdout.decode().splitlines())]
    cells = []
    for row in rows:
        further = row["states"] - 1
        row["all"] = row["prepared"] + row["states_alone"]
        each = row["states_alone"] / further  # what is prepared is needed for the first of them as for all
        share = each / row["verdicts"]
        cells.append([row["what"], size_word(row["bones"]), row["switches"], row["states"], seconds(row["verdicts"]), seconds(row["default"]), seconds(row["prepared"]), seconds(row["states_alone"]),
                      f"{row['all'] / row['verdicts']:.2f}", f"{100 * share:.2f} %", row["runs"]])
        suite.goals.append(Goal("5", f"a further state ({row['what']})", size_word(row["bones"]), seconds(each),
                                seconds(row["verdicts"]), share, most=MOST_SHARE, runs=row["runs"], medians=row))
    suite.raw["states"] = rows
    show("States: the verdicts of the default state, with a list of controls up to 20,000 bones, and find_switch_facts in all of them, in one thread",
         ["rig", "bones", "switches", "states", "verdicts", "with lists", "prepared once", "states", "all/verdicts", "a further one", "runs"], cells)
