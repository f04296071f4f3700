"""Are the brute-force cuts and single points of control right? Tiny rigs worked out by hand, each with the rule that it holds."""
import json
import random
import unittest

from cuts import (Component, cheapest_by_branching, cheapest_of_all, controls_lost, cut_faults, edges_within, find_cut, is_acyclic,
                  shortest_cycle_of)
from graph import build_graphs
from makers import COSTS, Maker
from places import places_of, places_of_makers
from points import find_only_movers, find_points
from reference_test import from_channel, from_property
from rig import read_rig
from verdicts import find_cycles


def read(bones, **more):
    described = {"name": "tiny", "bones": bones} | more
    text = json.dumps(described, indent=1)
    rig = read_rig(described)
    return rig, build_graphs(rig), places_of_makers(described, text)


def cuts_of(bones, **more):
    """Of each cycle the cheapest cut at bone grain, and at its own."""
    rig, graphs, places = read(bones, **more)
    found = []
    for cycle in find_cycles(rig, graphs):
        bone, _ = find_cut(rig, edges_within(graphs["bone"], cycle["component"]), places)
        own, _ = find_cut(rig, [e for c in cycle["inside"] for e in edges_within(graphs[cycle["grain"]], c)], places)
        found.append((bone, own))
    return found


def reading(name, source, kind="transform", **more):
    return {"kind": kind, "name": name, "from": source} | more


class Cuts(unittest.TestCase):
    def test_costs(self):
        self.assertEqual(COSTS, {"driver": 1, "constraint": 2, "curve handles": 2, "solver": 3, "parent link": 8, "follows": 8})
        (cut, _), = cuts_of([{"name": "a", "constraints": [reading("t", "b")]}, {"name": "b", "parent": "a"}])
        self.assertEqual(cut, ([Maker("constraint", "a/t")], 2))  # 2 rather than 8
        (cut, _), = cuts_of([{"name": "t", "parent": "b"}, {"name": "b", "constraints": [{"kind": "ik", "name": "k",
            "target": "t", "chain": 1}]}])
        self.assertEqual(cut, ([Maker("solver", "b/k")], 3))
        (cut, _), = cuts_of([{"name": "a", "channels": {"scale.x": from_channel("b", space="final")}}, {"name": "b", "parent": "a"}])
        self.assertEqual(cut, ([Maker("driver", "channel a/scale.x")], 1))
        (cut, _), = cuts_of([{"name": "a", "constraints": [{"kind": "surface", "name": "s", "from": {"object": "o"}}]}],
                            objects=[{"name": "o", "follows": ["a"]}])
        self.assertEqual(cut, ([Maker("constraint", "a/s")], 2))
        (cut, _), = cuts_of([{"name": "a", "curve": {"start": "b"}}, {"name": "b", "constraints": [reading("t", {"bone": "a",
            "curved": True})]}])
        self.assertEqual(cut, ([Maker("curve handles", "a")], 2))

    def test_ties_go_to_file_order(self):
        two = [{"name": "a", "constraints": [reading("t", "b")]}, {"name": "b", "constraints": [reading("u", "a")]}]
        self.assertEqual(cuts_of(two)[0][0], ([Maker("constraint", "a/t")], 2))
        self.assertEqual(cuts_of(two[::-1])[0][0], ([Maker("constraint", "b/u")], 2))

    def test_one_that_cuts_two_loops(self):
        bones = [{"name": "a", "constraints": [reading("t", "b"), reading("u", "c")]}, {"name": "b", "constraints": [reading("v", "d")]},
                 {"name": "c", "constraints": [reading("w", "d")]}, {"name": "d", "constraints": [reading("x", "a")]}]
        self.assertEqual(cuts_of(bones)[0][0], ([Maker("constraint", "d/x")], 2))

    def test_a_maker_takes_all_its_edges(self):
        # one constraint with two sources, both of which look back: 2 rather than 4
        bones = [{"name": "a", "constraints": [{"kind": "transform", "name": "t", "from": ["b", "c"]}]},
                 {"name": "b", "constraints": [reading("u", "a")]}, {"name": "c", "constraints": [reading("v", "a")]}]
        self.assertEqual(cuts_of(bones)[0][0], ([Maker("constraint", "a/t")], 2))

    def test_a_driven_weight_is_cut_by_its_driver_or_its_constraint(self):
        weight = from_channel("b", space="final")
        one = [{"name": "h"}, {"name": "a", "constraints": [reading("t", "h", weight=weight)]}, {"name": "b", "parent": "a"}]
        self.assertEqual(cuts_of(one)[0][0], ([Maker("driver", "weight a/t")], 1))
        three = [{"bone": "h", "weight": weight}] * 3  # three drivers cost 3, the constraint in which they sit 2
        many = [{"name": "h"}, {"name": "a", "constraints": [{"kind": "space", "name": "t", "from": three}]}, {"name": "b", "parent": "a"}]
        self.assertEqual(cuts_of(many)[0][0], ([Maker("constraint", "a/t")], 2))

    def test_a_solver_that_goes_takes_what_it_reads_of_a_driven_pose_with_it(self):
        # a -> driver -> pose of b -> k -> later -> a; without k nothing of the pose of b gets to the later solver
        bones = [{"name": "a"}, {"name": "t", "parent": "b"}, {"name": "b", "parent": "a",
            "channels": {"rotation.x": from_channel("a")}, "constraints": [
            {"kind": "ik", "name": "k", "target": "t", "chain": 2}, {"kind": "ik", "name": "later", "target": "stone",
                "chain": 2}]}, {"name": "stone"}]
        self.assertEqual(cuts_of(bones)[0][0], ([Maker("solver", "b/k")], 3))

    def test_a_finer_grain_needs_less(self):
        # a takes the place of b and b the turn of a: a loop of whole transforms; the dial on b is one of bones only
        bones = [{"name": "a", "constraints": [reading("t", "b", "position")]}, {"name": "b", "constraints": [
            reading("u", "a", "rotation"), reading("v", "a", "scale")]}, {"name": "c", "parent": "b", "constraints": [
                reading("w", "a", "rotation", weight=from_channel("c"))]}]
        (cut, own), (loop, none) = cuts_of(bones)
        self.assertEqual((cut, own), (([Maker("constraint", "a/t")], 2),) * 2)
        self.assertEqual((loop, none), (([Maker("driver", "weight c/w")], 1),) * 2)
        mixed = [{"name": "a", "constraints": [reading("t", "b")]}, {"name": "b", "constraints": [
            reading("u", "a"), reading("v", "a", "rotation", weight=from_channel("b"))]}]
        (cut, own), = cuts_of(mixed)
        self.assertEqual((cut.makers, cut.cost), ([Maker("constraint", "a/t"), Maker("driver", "weight b/v")], 3))
        self.assertEqual((own.makers, own.cost), ([Maker("constraint", "a/t")], 2))

    def test_loop_of_properties(self):
        (cut, _), = cuts_of([{"name": "a"}], properties=[{"name": "p", "value": from_property("q")}, {"name": "q",
            "value": from_property("p")}])
        self.assertEqual(cut, ([Maker("driver", "property p")], 1))

    def test_faults_of_a_claimed_cut(self):
        rig, g, places = read([{"name": "a", "constraints": [reading("t", "b")]}, {"name": "b", "constraints": [reading("u", "a")]}])
        (cycle,) = find_cycles(rig, g)
        component = Component(rig, edges_within(g["bone"], cycle["component"]), places)
        first, second = Maker("constraint", "a/t"), Maker("constraint", "b/u")
        self.assertEqual(cut_faults(component, [second]), [])
        self.assertEqual([len(cut_faults(component, c)) for c in ([], [first, second], [first, "nothing"])], [1, 2, 1])

    def test_both_methods_agree(self):
        dice = random.Random(1)
        for _ in range(150):
            names = [f"b{n}" for n in range(dice.randint(2, 5))]
            bones = [{"name": n, "constraints": [reading(f"c{k}", dice.choice(names)) | (
                {"weight": from_channel(dice.choice(names), space="final")} if dice.random() < 0.2 else {})
                for k in range(dice.randint(0, 3))]} for n in names]
            rig, g, places = read(bones)
            for cycle in find_cycles(rig, g):
                component = Component(rig, edges_within(g["bone"], cycle["component"]), places)
                if len(component.makers) <= 12:
                    self.assertEqual(cheapest_by_branching(component), cheapest_of_all(component), json.dumps(bones))

    def test_shortest_cycle(self):
        self.assertIsNone(shortest_cycle_of(3, [(0, 1), (1, 2), (0, 2)]))
        self.assertEqual(shortest_cycle_of(4, [(0, 1), (1, 2), (2, 0), (2, 3), (3, 2)]), [(3, 2), (2, 3)])
        self.assertEqual(shortest_cycle_of(1, [(0, 0)]), [(0, 0)])
        self.assertEqual([is_acyclic(2, pairs) for pairs in ([(0, 1)], [(0, 1), (1, 0)], [(0, 0)], [])], [True, False, False, True])

    def test_what_is_lost(self):
        bones = [{"name": "hand", "roles": ["control"]}, {"name": "a", "constraints": [reading("t", "hand"), reading("u",
            "b", weight=0.5)]},
                 {"name": "b", "parent": "a"}, {"name": "skin", "roles": ["deform"], "parent": "b"}]
        rig, g, _ = read(bones)
        lost = [controls_lost(rig, g["channel"], [Maker("constraint", key)]) for key in ("a/t", "a/u")]
        self.assertEqual(lost, [{"skin": ["hand"]}, {}])
        # a constraint that is taken out overrides nothing any more
        self.assertEqual(controls_lost(rig, g["channel"], [Maker("parent link", "skin")]), {"skin": ["hand"]})
        bones[1]["constraints"].append(reading("over", "b"))
        rig, g, _ = read(bones)
        self.assertEqual(controls_lost(rig, g["channel"], [Maker("constraint", "a/over")]), {})


class Places(unittest.TestCase):
    def test_places(self):
        text = '{"a": [1,\n  {"b": "x\\"]"}, []],\n "ü": {}, "c": true}'
        self.assertEqual(places_of(text), {(): (1, 1), ("a",): (1, 7), ("a", 0): (1, 8), ("a", 1): (2, 3), ("a", 1, "b"): (2, 9),
                                           ("a", 2): (2, 18), ("ü",): (3, 7), ("c",): (3, 16)})


class Points(unittest.TestCase):
    def test_single_points_of_control(self):
        bones = [{"name": "root", "roles": ["control"]}, {"name": "hand", "roles": ["control"], "parent": "root"},
                 {"name": "foot", "roles": ["control"]}, {"name": "rides", "roles": ["deform"], "parent": "hand"},
                 {"name": "both", "roles": ["deform"], "parent": "hand", "constraints": [reading("t", "foot", weight=0.5)]},
                 {"name": "turned", "roles": ["deform"], "channels": {"rotation.x": from_property("dial")}},
                 {"name": "lost", "roles": ["deform"]}, {"name": "own", "roles": ["deform", "control"], "parent": "foot"},
                 {"name": "replaced", "roles": ["deform"], "parent": "hand", "constraints": [reading("t", "foot")]}]
        rig, g, _ = read(bones, properties=[{"name": "dial", "on": "foot"}])
        # root moves `rides` only through hand, and hand by itself: hand is the one point. `own` poses itself whatever foot does.
        self.assertEqual(find_points(rig, g["channel"]), {"rides": ["hand"], "both": [], "turned": ["foot"], "own": ["own"],
            "replaced": ["foot"]})
        self.assertEqual(find_only_movers(rig, g["channel"]), {"root": [], "hand": [], "foot": ["turned", "replaced"], "own": []})


if __name__ == "__main__":
    unittest.main()
