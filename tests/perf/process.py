"""What do whole processes cost, run in turn? Medians of wall time, processor time and peak memory."""

import dataclasses
import json
import statistics
import subprocess
import sys


@dataclasses.dataclass
class Cost:
    """Medians over `runs` runs. Where `ended` is true the time limit ended each of them: they would have taken longer."""

    seconds: float
    cpu_seconds: float
    megabytes: float
    runs: int
    ended: bool = False

    def row(self):
        return dataclasses.asdict(self)


def in_turn(programs, runs, commands, limit=600, ended_is_fine=()):
    """One Cost a command, run as first, second, ..., first, second, ...; `ended_is_fine` are places of commands that the limit may end."""
    words = []
    for command in commands:
        words += ["--"] * bool(words) + [str(word) for word in command]
    samples = [[] for _ in commands]
    for line in output_of([programs / "perf_run_in_turn", str(runs), str(max(1, round(limit))), *words]).splitlines():
        place, *sample = json.loads(line)
        samples[place].append(sample)
    return [cost_of(commands[place], taken, place in ended_is_fine) for place, taken in enumerate(samples)]


def output_of(command):
    with subprocess.Popen(command, stdout=subprocess.PIPE) as process:
        try:
            output, _ = process.communicate()
        except BaseException:
            process.terminate()  # it ends what it runs; killed, it could not
            raise
    if process.returncode != 0:
        sys.exit(f"{command[0]} failed, status {process.returncode}")
    return output.decode()


def cost_of(command, samples, ended_is_fine):
    ended = [status < 0 for *_, status in samples]
    if (any(ended) and not ended_is_fine) or any(status > 1 for *_, status in samples):
        sys.exit(f"failed, status {[status for *_, status in samples]}: {' '.join(map(str, command))}")
    seconds, cpu_seconds, kilobytes = (statistics.median(sample[i] for sample in samples) for i in range(3))
    # Where the limit ended some runs and not others, the median is the time of one that ran on, or the limit.
    return Cost(seconds, cpu_seconds, kilobytes / 1024, len(samples), ended=sum(ended) * 2 > len(ended))
