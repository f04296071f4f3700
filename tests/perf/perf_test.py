"""Is what the suite measures what it says? Rigs as promised, and the same numbers by all ways of walking their graphs. Nothing is timed.

perf_test.py --program LIGAMENT --programs FOLDER. The outside sources are networkx (Debian python3-networkx 2.8.8) and igraph
(Debian libigraph-dev 0.10.2); the shares, sizes and planted cycles are counted here in the JSON itself.
"""

import argparse
import collections
import json
import pathlib
import subprocess
import sys
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
OPTIONS = None


def output_of(*command, statuses=(0,)):
    done = subprocess.run([str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    assert done.returncode in statuses, f"status {done.returncode}: {command}"
    return done.stdout


def rig_of(bones, **options):
    words = [word for name, value in options.items() for word in (f"--{name}", value)]
    return output_of(OPTIONS.programs / "perf_generate", bones, *words)


def written(folder, text):
    path = pathlib.Path(folder) / "a.rig.json"
    path.write_bytes(text)
    return path


def report_of(path):
    return json.loads(output_of(OPTIONS.program, "check", "--format", "json", path, statuses=(0, 1)))


def readers_of(rig):
    """By property: how many weights read it."""
    return collections.Counter(read["property"] for bone in rig["bones"] for constraint in bone.get("constraints", ())
                               if isinstance(constraint.get("weight"), dict) for read in constraint["weight"]["inputs"].values())


class RigsTest(unittest.TestCase):
    def test_the_same_shape_gives_the_same_bytes(self):
        self.assertEqual(rig_of(300, seed=3, cycles=2), rig_of(300, seed=3, cycles=2))
        self.assertNotEqual(rig_of(3_000, seed=3), rig_of(3_000, seed=4))

    def test_a_rig_has_what_is_promised(self):
        for bones in (300, 5_001, 20_000):
            rig = json.loads(rig_of(bones))
            stacks = [len(bone.get("constraints", ())) for bone in rig["bones"]]
            self.assertEqual(len(rig["bones"]), bones)
            self.assertAlmostEqual(sum(count > 0 for count in stacks) / bones, 0.6, delta=0.05)
            self.assertAlmostEqual(sum(stacks) / bones, 1.2, delta=0.15)  # a small rig has one pair of limbs
            self.assertLessEqual(max(stacks), 3)
            limbs = collections.Counter(bone["group"] for bone in rig["bones"] if bone["group"].startswith("limb"))
            self.assertTrue(all(30 <= size <= 200 for size in limbs.values()), limbs)
            self.assertTrue(all(limbs[group[:-1] + "r"] == size for group, size in limbs.items() if group.endswith("_l")), limbs)
            readers = readers_of(rig)
            hubs = {name: count for name, count in readers.items() if name.startswith("sway_on")}
            self.assertEqual(set(readers), {prop["name"] for prop in rig["properties"]})
            self.assertEqual(len(readers) - len(hubs), len(limbs))
            self.assertTrue(all(count <= 500 for count in hubs.values()), hubs)
            self.assertGreater(max(hubs.values()), 300 if bones > 5_000 else 0)

    def test_a_rig_is_well_built(self):
        with tempfile.TemporaryDirectory() as folder:
            report = report_of(written(folder, rig_of(5_000)))
        self.assertEqual({finding["check"] for finding in report["findings"]}, {"fan-out-high"})
        self.assertEqual(report["cycles"], [])

    def test_fewer_switches_and_hubs_are_left_where_asked_for(self):
        rig = json.loads(rig_of(5_000, switches=10, hubs=0))
        self.assertEqual(len(rig["properties"]), 10)

    def test_too_few_bones_are_refused(self):
        output_of(OPTIONS.programs / "perf_generate", 61, statuses=(2,))
        output_of(OPTIONS.programs / "perf_generate", 62)


class WalksTest(unittest.TestCase):
    def hold(self, bones, cycles, orphans):
        with tempfile.TemporaryDirectory() as folder:
            path = written(folder, rig_of(bones, cycles=cycles, orphans=orphans))
            report = report_of(path)
            script = output_of(sys.executable, "-B", HERE / "networkx_peer.py", path).decode().split()
            found = collections.defaultdict(dict)
            for line in output_of(OPTIONS.programs / "perf_numbers", path).decode().splitlines():
                grain, way, *numbers = line.split()
                found[grain][way] = [int(number) for number in numbers]
        self.assertEqual(len(report["cycles"]), cycles)
        self.assertEqual(sum(row["verdict"] == "orphaned" for row in report["attachment"]), orphans)
        self.assertEqual([int(number) for number in script], found["step"]["ours"])
        for grain in ("bone", "step", "channel"):
            ways = found[grain]
            self.assertEqual(set(ways), {"ours", "hand", "hand_kahn_first", "igraph"})
            for way, numbers in ways.items():
                self.assertEqual(numbers, ways["ours"], f"{grain} {way}")
            self.assertEqual(ways["ours"][2], orphans)
            if not cycles:
                self.assertEqual(ways["ours"][0], report["counts"]["vertices"][grain])
        return report

    def test_all_ways_find_the_same_without_cycles(self):
        self.hold(300, 0, 0)
        self.hold(2_000, 0, 5)

    def test_all_ways_find_the_same_with_cycles(self):
        report = self.hold(300, 8, 3)
        grains = collections.Counter(cycle["grain"] for cycle in report["cycles"])
        self.assertEqual(grains, {"channel": 6, "step": 2})  # every fourth reads crosswise: a cycle of whole transforms alone

    def test_each_planted_cycle_is_one_component(self):
        with tempfile.TemporaryDirectory() as folder:
            report = report_of(written(folder, rig_of(400, cycles=20)))
        self.assertEqual(len({bone.rsplit("_", 1)[0] for cycle in report["cycles"] for bone in cycle["bones"]}), 20)
        self.assertTrue(all(len({bone.rsplit("_", 1)[0] for bone in cycle["bones"]}) == 1 for cycle in report["cycles"]))


class RunInTurnTest(unittest.TestCase):
    def test_commands_take_turns_and_the_limit_ends_what_takes_too_long(self):
        lines = output_of(OPTIONS.programs / "perf_run_in_turn", 2, 1, "true", "--", "sleep", "30", "--", "false").decode().splitlines()
        rows = [json.loads(line) for line in lines]
        self.assertEqual([row[0] for row in rows], [0, 1, 2, 0, 1, 2])
        self.assertEqual([row[4] for row in rows], [0, -9, 1, 0, -9, 1])
        self.assertTrue(all(1 <= row[1] < 30 for row in rows if row[0] == 1))


def main():
    global OPTIONS
    options = argparse.ArgumentParser()
    options.add_argument("--program", type=pathlib.Path, required=True)
    options.add_argument("--programs", type=pathlib.Path, required=True)
    OPTIONS, rest = options.parse_known_args()
    unittest.main(argv=[sys.argv[0], *rest])


main()
