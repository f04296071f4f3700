"""Many rigs in one call: two at a time beside one after the other."""

import process
from tables import Goal, seconds, show, size_word

RIGS, BONES, LEAST_TIMES = 64, 2_000, 1.8


def measure(suite):
    rigs = [suite.rig(BONES, seed=seed) for seed in range(1, RIGS + 1)]
    one, two = process.in_turn(suite.programs, suite.runs(9), [[suite.program, "check", "--format", "json", "--jobs", jobs, *rigs] for jobs in (1, 2)])
    suite.raw["jobs"] = {"rigs": RIGS, "bones": BONES, "one": one.row(), "two": two.row()}
    show(f"{RIGS} rigs of {size_word(BONES)} bones", ["jobs", "wall", "processor", "peak MB", "runs"],
         [[jobs, seconds(cost.seconds), seconds(cost.cpu_seconds), f"{cost.megabytes:.1f}", cost.runs] for jobs, cost in ((1, one), (2, two))])
    suite.goals.append(Goal("5", f"{RIGS} rigs, --jobs 2: times as fast as 1", size_word(BONES), seconds(two.seconds), seconds(one.seconds),
                            one.seconds / two.seconds, least=LEAST_TIMES, runs=one.runs, medians={"ours": two.row(), "peer": one.row()}))
