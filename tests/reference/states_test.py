"""Are the brute-force states right? Tiny rigs whose states were worked out by hand, each with the rule that it holds."""
import unittest

from reference_test import from_channel, from_property, judge
from states import (combinations_of, find_gaps, find_states, find_switches, interacting_sets, judge_states, live_in, told_of_states,
                    touching, worse_in, worse_in_combinations)
from verdicts import find_cycles

GROUND = [{"name": "hand", "roles": ["control"]}, {"name": "stone"}]


def both(a, b, expression="a * b"):
    return {"expression": expression, "inputs": {"a": {"property": a}, "b": {"property": b}}}


def blend(name, first, second, weight, **more):
    return {"name": name, "roles": ["deform"], "constraints": [
        {"kind": "transform", "name": "one", "from": first}, {"kind": "transform", "name": "two", "from": second, "weight": weight}]} | more


def states_of(bones, **more):
    rig, graphs = judge(bones, **more)
    return rig, graphs, *judge_states(rig, graphs["channel"])


class Switches(unittest.TestCase):
    def test_a_switch_reaches_a_live_weight_and_its_stops_are_named_or_the_ends(self):
        bones = GROUND + [
            blend("a", "hand", "stone", from_property("straight")), blend("b", "hand", {"bone": "stone",
                "weight": from_property("mix")}, 1),
            {"name": "c", "channels": {"rotation.x": from_property("dial")}, "constraints": [
                {"kind": "transform", "from": "hand", "weight": from_property("off"), "enabled": False},
                {"kind": "ik", "target": "hand", "chain": 1, "weight": from_property("solver")}]}]
        rig, _ = judge(bones, properties=[
            {"name": "straight", "stops": {"ik": 0, "fk": 1, "rest": 0}}, {"name": "behind", "min": -1, "default": 3},
            {"name": "mix", "value": from_property("behind")}, {"name": "dial"}, {"name": "off"}, {"name": "solver", "max": 0.5}])
        self.assertEqual([(s.property, s.stops, s.constraints) for s in find_switches(rig)], [
            ("straight", {"straight=ik": 0, "straight=fk": 1, "straight=rest": 0}, {"a/two"}),
            ("behind", {"behind=-1": -1, "behind=1": 1}, {"b/two"}), ("solver", {"solver=0": 0, "solver=0.5": 0.5}, {"c/ik2"})])

    def test_single_states(self):
        # the default 1 replaces the hand by the stone: nothing gets worse than orphaned; the other way round it does
        rig, graphs, states, dead = states_of(GROUND + [blend("a", "hand", "stone", from_property("p")),
                                                        blend("b", "hand", "stone", from_property("q")),
                                                        {"name": "rider", "roles": ["deform"], "parent": "a"}],
                                              properties=[{"name": "p", "stops": {"held": 0, "lost": 1, "loose": 0.5}},
                                                          {"name": "q", "default": 1}])
        self.assertEqual({b: worse_in(states, b) for b in states.verdicts[()]}, {
            "a": [{"state": "p=lost", "verdict": "orphaned"}], "b": [], "rider": [{"state": "p=lost", "verdict": "orphaned"}]})
        # the two meet on no bone, a stop that equals the default counts as a state: the default, three and two
        self.assertEqual(told_of_states(states), {"switches": [
            {"property": "p", "stops": [{"state": "p=held", "value": 0}, {"state": "p=lost", "value": 1}, {"state": "p=loose",
                "value": 0.5}]},
            {"property": "q", "stops": [{"state": "q=0", "value": 0}, {"state": "q=1", "value": 1}]}], "looked_at": 6, "sets": []})
        self.assertEqual(dead, [])

    def test_root_controls_are_found_anew_in_each_state(self):
        # without `roots`: by default no control reaches all bones; with p on the hand does, and `b`, which moves with it alone, is root-only
        bones = GROUND + [{"name": "foot", "roles": ["control"]}, blend("a", "foot", "hand", from_property("p", "s / 2")),
                          {"name": "b", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "hand"}]}]
        _, _, states, _ = states_of(bones, properties=[{"name": "p"}])
        self.assertEqual(states.verdicts[()], {"a": "attached", "b": "attached"})
        self.assertEqual([worse_in(states, b) for b in "ab"], [[], [{"state": "p=1", "verdict": "root-only"}]])

    def test_worse_only_in_a_combination(self):
        bones = GROUND + [blend("a", "hand", "stone", both("p", "q")), blend("b", "hand", "stone", from_property("p"))]
        _, _, states, _ = states_of(bones, properties=[{"name": "p"}, {"name": "q", "stops": {"in": 0, "out": 1}}, {"name": "unused"}])
        self.assertEqual(worse_in(states, "a"), [])
        self.assertEqual(worse_in_combinations(states, "a"), [
            {"state": "p=1 + q=out", "switches": ["p=1", "q=out"], "verdict": "orphaned"}])
        # b is lost with p alone already: the combination tells nothing new
        self.assertEqual((worse_in(states, "b"), worse_in_combinations(states, "b")), ([{"state": "p=1", "verdict": "orphaned"}], []))
        told = told_of_states(states)
        self.assertEqual((told["looked_at"], told["sets"]), (6, [{"switches": ["p", "q"], "combinations": 1, "looked_at": 1}]))

    def test_touching_is_over_a_gated_step(self):
        bones = GROUND + [
            blend("a", "hand", "stone", from_property("p")), {"name": "on", "roles": ["deform"], "parent": "a"},
            {"name": "still", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "stone", "weight": from_property("p")}]},
            {"name": "chain", "roles": ["deform"], "parent": "on", "constraints": [
                {"kind": "ik", "target": "hand", "chain": 1, "weight": from_property("q")}]},
            # what a switch gates that only chooses: the weight's own driver moves nothing
            {"name": "free", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "hand"}]}]
        rig, g = judge(bones, properties=[{"name": "p"}, {"name": "q"}])
        touched = touching(rig, g["channel"], find_switches(rig))
        self.assertEqual({b: [s.property for s in switches] for b, switches in touched.items()},
                         {"a": ["p"], "on": ["p"], "still": ["p"], "chain": ["p", "q"], "free": []})
        self.assertEqual(interacting_sets(touched, ["p", "q"]), [["p", "q"]])

    def test_sets_inside_another_are_left_out_and_shared_combinations_count_once(self):
        three = {"expression": "a * b * c", "inputs": {"a": {"property": "p"}, "b": {"property": "q"}, "c": {"property": "r"}}}
        bones = GROUND + [blend("x", "hand", "stone", both("p", "q")), blend("y", "hand", "stone", three),
                          blend("z", "hand", "stone", {"expression": "a * b * c", "inputs": {
                              "a": {"property": "p"}, "b": {"property": "q"}, "c": {"property": "s"}}})]
        rig, _, states, _ = states_of(bones, properties=[{"name": n} for n in "pqrs"])
        # each set: three pairs and one triple; the pair of p and q is in both: 1 + 8 + 4 + 4 - 1 states
        self.assertEqual(told_of_states(states)["sets"], [{"switches": ["p", "q", "r"], "combinations": 4, "looked_at": 4},
                                                         {"switches": ["p", "q", "s"], "combinations": 4, "looked_at": 4}])
        self.assertEqual(told_of_states(states)["looked_at"], 16)
        self.assertEqual([c["state"] for c in worse_in_combinations(states, "y")], ["p=1 + q=1 + r=1"])
        self.assertEqual([c["state"] for c in worse_in_combinations(states, "x")], ["p=1 + q=1"])

    def test_order_of_combinations_and_their_limit(self):
        names = [f"p{n}" for n in range(9)]
        every = {"expression": " * ".join(names), "inputs": {n: {"property": n} for n in names}}
        rig, g = judge(GROUND + [blend("a", "hand", "stone", every)],
                       properties=[{"name": n} | ({"stops": {"x": 2, "y": 0, "z": 1}} if n == "p0" else {}) for n in names])
        combos = list(combinations_of(rig, find_switches(rig)))
        self.assertEqual(combos[:3], [("p0=x", "p1=1"), ("p0=z", "p1=1"), ("p0=x", "p2=1")])
        self.assertEqual((len(combos[35]), len(combos[43]), len(combos[44])), (2, 2, 3))  # 8 + 8 + 28 pairs
        self.assertEqual(told_of_states(find_states(rig, g["channel"]))["sets"],
                         [{"switches": names, "combinations": 3 * 2 ** 8 - 1 - 2 - 8, "looked_at": 256}])


class Dead(unittest.TestCase):
    def dead(self, constraints, properties=(), more=()):
        _, _, _, dead = states_of(GROUND + [{"name": "b", "constraints": constraints}] + list(more), properties=list(properties))
        return dead

    def test_inert_and_always_overridden(self):
        self.assertEqual(self.dead([{"kind": "transform", "name": "t", "from": "hand", "enabled": False},
                                    {"kind": "rotation", "name": "r", "from": "hand"}, {"kind": "limit", "name": "l",
                                        "channels": ["position"]},
                                    {"kind": "rotation", "name": "over", "from": "stone"}]), ["b/t", "b/r"])

    def test_overridden_in_some_states_only(self):
        steps = [{"kind": "rotation", "name": "r", "from": "hand"}, {"kind": "rotation", "name": "over", "from": "stone",
                                                                      "weight": from_property("p")}]
        self.assertEqual(self.dead(steps, [{"name": "p"}]), [])
        self.assertEqual(self.dead(steps, [{"name": "p", "default": 1, "min": 1, "max": 1}]), ["b/r"])
        self.assertEqual(self.dead(steps, [{"name": "p", "default": 0, "stops": {"off": 0}}]), ["b/over"])

    def test_alive_in_a_combination_only(self):
        steps = [{"kind": "transform", "name": "t", "from": "hand", "weight": both("p", "q")}]
        skin = {"name": "skin", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "b"}]}
        self.assertEqual(self.dead(steps, [{"name": "p"}, {"name": "q"}], [skin]), [])
        self.assertEqual(self.dead(steps, [{"name": "p"}, {"name": "q"}]), ["b/t"])  # no deform bone makes the two meet

    def test_an_own_read_keeps_it_alive(self):
        over = {"kind": "position", "name": "over", "from": "stone"}
        self.assertEqual(self.dead([{"kind": "position", "name": "p", "from": "hand"}, {"kind": "aim", "name": "a",
            "from": "stone"}, over]), [])
        self.assertEqual(self.dead([{"kind": "position", "name": "p", "from": "hand"}, over]), ["b/p"])

    def test_someone_who_reads_the_local_keeps_it_alive(self):
        steps = [{"kind": "rotation", "name": "r", "from": "hand", "space": "local"}, {"kind": "transform", "name": "over",
            "from": "stone"}]
        reader = {"name": "c", "constraints": [{"kind": "rotation", "name": "r", "from": "b", "space": "local"}]}
        self.assertEqual(self.dead(steps), ["b/r"])
        self.assertEqual(self.dead(steps, more=[reader]), [])
        self.assertEqual(self.dead(steps, more=[{"name": "c", "channels": {"scale.x": from_channel("b")}}]), [])
        reader["constraints"][0]["weight"] = from_property("p")  # in some state is enough
        self.assertEqual(self.dead(steps, [{"name": "p"}], [reader]), [])
        self.assertEqual(self.dead(steps, [{"name": "p", "max": 0}], [reader]), ["b/r", "c/r"])

    def test_solvers(self):
        solver = {"kind": "ik", "name": "k", "target": "hand", "chain": 1}
        self.assertEqual(self.dead([solver]), [])
        self.assertEqual(self.dead([solver, {"kind": "rotation", "name": "over", "from": "stone"}]), ["b/k"])
        later = {"kind": "ik", "name": "later", "target": "stone", "chain": 1}  # it begins with what the first one made
        self.assertEqual(self.dead([solver, later, {"kind": "rotation", "name": "over", "from": "stone"}]), ["b/later"])
        self.assertEqual(self.dead([solver | {"weight": from_property("p", "s * 0")}], [{"name": "p"}]), ["b/k"])


class Gaps(unittest.TestCase):
    def gaps(self, weights, **more):
        bones, parent = list(GROUND), {}
        for n, weight in enumerate(weights):
            bones.append(blend(f"b{n}", "hand", "stone", weight) | parent)
            parent = {"parent": f"b{n}"}
        bones[2] |= more
        rig, _ = judge(bones, properties=[{"name": "p"}, {"name": "q"}])
        return find_gaps(rig, find_switches(rig))

    def test_the_forgotten_driver(self):
        p, q = from_property("p"), from_property("q")
        self.assertEqual(self.gaps([p, p, 1]), {("p", "b2/two")})
        self.assertEqual(self.gaps([p, 0.5, p]), {("p", "b1/two")})
        self.assertEqual(self.gaps([p, 1, 1]), set())  # one alone makes no rule
        self.assertEqual(self.gaps([p, p, q]), {("p", "b2/two")})
        self.assertEqual(self.gaps([q, p, q, p]), {("p", "b0/two"), ("p", "b2/two"), ("q", "b1/two"), ("q", "b3/two")})

    def test_a_run_ends_where_kinds_differ_and_inert_ones_do_not_count(self):
        p = from_property("p")
        self.assertEqual(self.gaps([p, p, 1], constraints=[]), set())
        self.assertEqual(self.gaps([p, p, 0]), set())  # a weight of the number 0 is inert: another stack
        bones = [blend("a", "hand", "stone", p), blend("b", "hand", "stone", p, parent="a"), blend("c", "hand", "stone", 1, parent="b")]
        bones[2]["constraints"].insert(0, {"kind": "aim", "from": "hand", "enabled": False})
        rig, _ = judge(GROUND + bones, properties=[{"name": "p"}])
        self.assertEqual(find_gaps(rig, find_switches(rig)), {("p", "c/two")})

    def test_every_place_of_the_stack_is_one(self):
        def twice(name, one, two, **more):
            steps = blend(name, "hand", "stone", two)["constraints"]
            return {"name": name, "constraints": [steps[0] | {"weight": one}, steps[1]]} | more

        p, q = from_property("p"), from_property("q")
        rig, _ = judge(GROUND + [twice("a", p, q), twice("b", p, q, parent="a"), twice("c", 1, 0.5, parent="b"),
                                 twice("d", q, p, parent="c")],
                       properties=[{"name": "p"}, {"name": "q"}])
        self.assertEqual(find_gaps(rig, find_switches(rig)), {("p", "c/one"), ("p", "d/one"), ("q", "c/two"), ("q", "d/two")})

    def test_siblings_are_one_run_through_their_parent(self):
        p = from_property("p")
        bones = [blend("a", "hand", "stone", 1), blend("b", "hand", "stone", p, parent="a"), blend("c", "hand", "stone", p, parent="a")]
        rig, _ = judge(GROUND + bones, properties=[{"name": "p"}])
        self.assertEqual(find_gaps(rig, find_switches(rig)), {("p", "a/two")})


class LiveIn(unittest.TestCase):
    def live(self, one, two, properties):
        rig, g = judge([{"name": "a", "constraints": [{"kind": "transform", "from": "b", "weight": one}]},
                        {"name": "b", "constraints": [{"kind": "transform", "from": "a", "weight": two}]}], properties=properties)
        (cycle,) = find_cycles(rig, g)
        return live_in(rig, g[cycle["grain"]], cycle, find_switches(rig))

    def test_states_in_which_a_cycle_is_left(self):
        p, q = {"name": "p", "stops": {"ik": 0, "fk": 1}}, {"name": "q", "default": 1}
        self.assertEqual(self.live(1, from_property("p"), [p]), ["p=fk"])
        self.assertEqual(self.live(1, from_property("p", "1 - s"), [p]), ["default", "p=ik"])
        self.assertEqual(self.live(from_property("q"), from_property("q", "s * 0.5"), [p, q]), ["default", "q=1"])
        self.assertEqual(self.live(from_property("p"), from_property("p", "1 - s"), [p]), [])

    def test_a_source_whose_weight_is_0_needs_neither_its_bone_nor_what_drives_the_weight(self):
        # the weight is 0 whatever b does, which the driver names without using it
        weight = {"expression": "s", "inputs": {"s": {"property": "p"}, "unused": {"bone": "b", "channel": "scale.x", "space": "final"}}}
        rig, g = judge([{"name": "a", "constraints": [{"kind": "transform", "from": {"bone": "stone", "weight": weight}}]},
                        {"name": "b", "parent": "a"}, {"name": "stone"}], properties=[{"name": "p"}])
        (cycle,) = find_cycles(rig, g)
        self.assertEqual(live_in(rig, g[cycle["grain"]], cycle, find_switches(rig)), ["p=1"])

    def test_overriding_cuts_nothing(self):
        rig, g = judge([{"name": "stone"}, {"name": "a", "constraints": [{"kind": "transform", "from": "b"},
            {"kind": "transform", "from": "stone"}]},
                        {"name": "b", "parent": "a"}])
        (cycle,) = find_cycles(rig, g)
        self.assertEqual(live_in(rig, g[cycle["grain"]], cycle, []), ["default"])


if __name__ == "__main__":
    unittest.main()
