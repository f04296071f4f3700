"""Is the reference itself right? Tiny rigs whose edges and verdicts were worked out by hand from the rules."""
import math
import unittest

from attachment import Evaluation, find_attachment, find_fan_out, find_findings
from expressions import evaluate_curve, evaluate_expression, names_in
from graph import build_graphs
from rig import read_rig
from verdicts import find_cycles, find_order, longest_chain_faults, witness_faults, witness_lengths


def judge(bones, **more):
    rig = read_rig({"name": "tiny", "bones": bones} | more)
    return rig, build_graphs(rig)


def text(vertex):
    return "_".join(filter(None, vertex))


def edges_into(graph, target, inert=None):
    return {text(e.source) for e in graph.edges if text(e.target) == target and inert in (None, e.inert)}


def from_property(p, expression="s"):
    return {"expression": expression, "inputs": {"s": {"property": p}}}


def from_channel(bone, channel="rotation.x", **more):
    return {"expression": "s", "inputs": {"s": {"bone": bone, "channel": channel} | more}}


class Expressions(unittest.TestCase):
    def test_values(self):
        for expression, value in [("1 - s", 0.75), ("-s * -4", 1), ("2 + 3 * 4 - 6 / 2", 11), ("(s < 1) * 2", 2), ("s == 0.25", 1),
                                  ("clamp(s, 0.5, 1)", 0.5), ("min(3, s, 2)", 0.25), ("abs(-1e1)", 10), ("8 / 2 / 2", 2), ("- -.5", 0.5)]:
            self.assertEqual(evaluate_expression(expression, {"s": 0.25}), value, expression)

    def test_unknown(self):
        for expression in ["u", "u * 0", "u < 1", "min(u, 0)", "clamp(u, 0, 1)", "1 / (s - s)", "1e308 * 10"]:
            self.assertTrue(math.isnan(evaluate_expression(expression, {"s": 0.25, "u": math.nan})), expression)
        self.assertEqual(evaluate_expression("0", {"u": math.nan}), 0)
        self.assertEqual(names_in("min(a, 1) + b"), {"a", "b"})

    def test_curve(self):
        points = [[0, 1], [1, 3], [2, 3]]
        self.assertEqual([evaluate_curve(points, x) for x in (-1, 0, 0.5, 1.5, 9)], [1, 1, 2, 3, 3])


class Edges(unittest.TestCase):
    def test_plain_bone(self):
        _, g = judge([{"name": "a"}, {"name": "b", "parent": "a"}])
        self.assertEqual(edges_into(g["channel"], "base_b_T"), {"local_b_T", "final_a_T", "final_a_R", "final_a_S"})
        self.assertEqual(edges_into(g["channel"], "base_b_R"), {"local_b_R", "final_a_R"})
        self.assertEqual(edges_into(g["channel"], "solved_b_S"), {"pose_b_scale.x", "pose_b_scale.y", "pose_b_scale.z"})
        self.assertEqual(len(g["channel"].vertices), 2 * (9 + 4 * 3))
        self.assertEqual(len(g["step"].vertices), 2 * 5)
        self.assertEqual({(text(e.source), text(e.target), e.kind, e.by) for e in g["bone"].edges}, {("bone_a", "bone_b", "parent", "b")})

    def test_from_parent(self):
        _, g = judge([{"name": "a"}, {"name": "b", "parent": "a", "from_parent": ["position"]}])
        self.assertEqual(edges_into(g["channel"], "base_b_T"), {"local_b_T", "final_a_T", "final_a_R", "final_a_S"})
        self.assertEqual(edges_into(g["channel"], "base_b_R"), {"local_b_R"})

    def test_joins(self):
        _, g = judge([{"name": "a"}, {"name": "b", "constraints": [
            {"kind": "transform", "name": "t", "from": "a", "channels": ["rotation.x"]}, {"kind": "aim", "name": "m", "from": "a"},
            {"kind": "position", "name": "p", "from": {"bone": "a", "at": 0.5}}, {"kind": "space", "name": "s", "from": "a"}]}])
        c = g["channel"]
        self.assertEqual(edges_into(c, "constraint_b/t_R"), {"base_b_R", "final_a_R"})
        self.assertEqual(edges_into(c, "constraint_b/t_T"), {"base_b_T"})
        self.assertEqual(edges_into(c, "constraint_b/m_R"), {"constraint_b/t_R", "constraint_b/t_T", "final_a_T"})
        self.assertEqual(edges_into(c, "constraint_b/p_T"), {"constraint_b/m_T", "final_a_T", "final_a_R", "final_a_S"})
        self.assertEqual(edges_into(c, "constraint_b/s_S"), {"constraint_b/p_S", "final_a_T", "final_a_R", "final_a_S", "local_b_T",
                                                             "local_b_R", "local_b_S"})

    def test_local_space_leads_or_is_late(self):
        bones = [{"name": "top"}, {"name": "a"}, {"name": "b", "parent": "top", "constraints": [
            {"kind": "rotation", "name": "lead", "from": "a", "space": "local"}, {"kind": "position", "name": "f", "from": "a"},
            {"kind": "rotation", "name": "late", "from": "a", "space": "local"}]},
            {"name": "c", "constraints": [{"kind": "rotation", "name": "r", "from": "b", "space": "local"}]}]
        _, g = judge(bones)
        self.assertEqual(edges_into(g["channel"], "constraint_b/lead_R"), {"solved_b_R", "local_a_R"})
        self.assertEqual(edges_into(g["channel"], "constraint_b/late_R"), {"constraint_b/f_R", "local_a_R", "final_top_R"})
        self.assertEqual(edges_into(g["channel"], "constraint_c/r_R"), {"solved_c_R", "constraint_b/late_R", "final_top_R"})
        bones[2]["constraints"][1]["enabled"] = False  # then nothing live makes the last step late
        _, g = judge(bones)
        self.assertEqual(edges_into(g["step"], "constraint_b/late"), {"constraint_b/lead", "local_a"})
        self.assertEqual(edges_into(g["step"], "constraint_b/f", inert=True), {"final_a"})
        self.assertEqual(edges_into(g["step"], "constraint_b/f", inert=False), {"base_b"})

    def test_solvers(self):
        bones = [{"name": "top"}, {"name": "t"}, {"name": "a", "parent": "top"}, {"name": "b", "parent": "a", "constraints": [
            {"kind": "ik", "name": "k", "target": "t", "chain": 2}, {"kind": "path", "name": "p", "from": "t", "chain": 1}]},
            {"name": "d", "channels": {"scale.x": from_channel("b"), "scale.y": from_channel("d")}}]
        rig, g = judge(bones)
        self.assertEqual(edges_into(g["step"], "solver_b/k"), {"pose_a", "pose_b", "final_top", "final_t"})
        self.assertEqual(edges_into(g["step"], "solver_b/p"), {"solver_b/k", "final_a", "final_t"})
        self.assertEqual(edges_into(g["channel"], "solved_b_R") - {"pose_b_rotation." + x for x in "xyz"}, {"solver_b/k", "solver_b/p"})
        self.assertIn("solver_b/p", edges_into(g["channel"], "solved_b_T"))
        self.assertEqual(edges_into(g["channel"], "driver_channel d/scale.x"), {"solved_b_R".replace("solved", "local")})
        self.assertEqual(edges_into(g["channel"], "driver_channel d/scale.y"), {"pose_d_rotation.x"})
        self.assertEqual(edges_into(g["bone"], "solver_b/k"), {"bone_top", "bone_t"})
        self.assertEqual([c["grain"] for c in find_cycles(rig, g)], ["step"])  # d's scale.y follows its rotation.x

    def test_driven_channel_of_a_chain_bone_feeds_the_solver(self):
        _, g = judge([{"name": "t"}, {"name": "b", "channels": {"rotation.x": from_property("p")}, "constraints": [
            {"kind": "ik", "name": "k", "target": "t", "chain": 1}]}], properties=[{"name": "p"}])
        self.assertEqual(edges_into(g["bone"], "solver_b/k"), {"bone_t", "driver_channel b/rotation.x"})


class Verdicts(unittest.TestCase):
    def test_grains(self):
        rig, g = judge([{"name": "a", "constraints": [{"kind": "position", "from": "b"}]},
                        {"name": "b", "constraints": [{"kind": "rotation", "from": "a"}]},
                        {"name": "c", "constraints": [{"kind": "rotation", "from": "a", "weight": from_channel("c")}]},
                        {"name": "d", "constraints": [{"kind": "aim", "name": "x", "from": "e"}]},
                        {"name": "e", "parent": "d"}])
        cycles = find_cycles(rig, g)
        self.assertEqual([(c["bones"], c["grain"]) for c in cycles],
                         [(["a", "b"], "step"), (["c"], "bone"), (["d", "e"], "channel")])
        self.assertEqual([witness_lengths(rig, g, c)[0] for c in cycles], [2, 1, 2])
        good = [{"from": "d", "to": "e", "kind": "parent", "by": "e"}, {"from": "e", "to": "d", "kind": "constraint", "by": "d/x"}]
        self.assertEqual(witness_faults(rig, g, cycles[2], good), [])
        self.assertEqual(len(witness_faults(rig, g, cycles[2], [good[0], good[1] | {"by": "d/y"}])), 1)
        self.assertEqual(len(witness_faults(rig, g, cycles[2], good[::-1])), 1)
        self.assertEqual(len(witness_faults(rig, g, cycles[2], good + good)), 1)

    def test_loop_of_properties(self):
        rig, g = judge([{"name": "a"}], properties=[{"name": "p", "value": from_property("q")}, {"name": "q", "value": from_property("p")}])
        (cycle,) = find_cycles(rig, g)
        self.assertEqual((cycle["bones"], cycle["grain"], witness_lengths(rig, g, cycle)), ([], "channel", (None, 2)))
        self.assertTrue(math.isnan(Evaluation(rig).of_property("p")))

    def test_order(self):
        rig, g = judge([{"name": "d", "parent": "c"}, {"name": "a"}, {"name": "c", "constraints": [
            {"kind": "position", "from": "a"}, {"kind": "position", "from": "b", "enabled": False}]}, {"name": "b"}, {"name": "e"}])
        order = find_order(rig, g["bone"])
        self.assertEqual(order["bones"], ["a", "b", "c", "d", "e"])
        self.assertEqual(order["levels"], [["a", "b", "e"], ["c"], ["d"]])
        self.assertEqual(longest_chain_faults(order, ["a", "c", "d"]), [])
        self.assertEqual(len(longest_chain_faults(order, ["b", "c", "d"])), 1)
        self.assertEqual(len(longest_chain_faults(order, ["a", "c"])), 1)

    def test_attachment(self):
        switch = [{"name": "mode", "on": "hand", "default": 1}]
        rig, g = judge([
            {"name": "root", "roles": ["control"]}, {"name": "hand", "roles": ["control"], "parent": "root"},
            {"name": "mech", "parent": "root"},
            {"name": "held", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "hand"}]},
            {"name": "rides", "roles": ["deform"], "parent": "held"},
            {"name": "lost", "roles": ["deform"], "parent": "held", "constraints": [{"kind": "transform", "from": "stone"}]},
            {"name": "stone"},
            {"name": "rooted", "roles": ["deform"], "constraints": [
                {"kind": "transform", "from": "hand"}, {"kind": "transform", "from": "mech", "weight": from_property("mode")}]},
            {"name": "half", "roles": ["deform"], "constraints": [
                {"kind": "transform", "from": "hand"}, {"kind": "transform", "from": "mech", "weight": from_property("mode", "s / 2")}]}],
            properties=switch)
        self.assertEqual(find_attachment(rig, g["channel"]), {
            "held": ("attached", ["root", "hand"]), "rides": ("carried", ["root", "hand"]), "lost": ("orphaned", []),
            "rooted": ("root-only", ["root"]), "half": ("attached", ["root", "hand"])})
        self.assertEqual(find_fan_out(rig, g["channel"]), [{"property": "mode", "weights": 2, "channels": 0, "properties": 0,
                                                            "constraints": ["rooted/transform2", "half/transform2"], "bones_moved": 2}])

    def test_a_late_step_does_not_attach_by_the_parent(self):
        rider = {"name": "rider", "roles": ["deform"], "parent": "upper", "constraints": [
            {"kind": "limit", "channels": ["scale"]}, {"kind": "rotation", "from": "stone", "space": "local"}]}
        _, g = rig = judge([{"name": "hand", "roles": ["control"]}, {"name": "stone"}, rider,
                            {"name": "upper", "roles": ["deform"], "constraints": [{"kind": "transform", "from": "hand"}]}])
        self.assertIn("final_upper_R", edges_into(g["channel"], "constraint_rider/rotation2_R"))
        self.assertEqual(find_attachment(rig[0], g["channel"])["rider"], ("carried", ["hand"]))

    def test_a_cycle_through_the_pose_of_a_chain_bone(self):
        rig, g = judge([{"name": "t"}, {"name": "b", "channels": {"rotation.x": from_channel("c", space="final")}},
                        {"name": "c", "parent": "b", "from_parent": [], "constraints": [{"kind": "ik", "target": "t", "chain": 2}]}])
        (cycle,) = find_cycles(rig, g)
        self.assertEqual((cycle["bones"], cycle["grain"], cycle["cores"]), (["c"], "channel", [["c"]]))
        self.assertEqual(witness_faults(rig, g, cycle, [{"from": "b", "to": "c", "kind": "solver", "by": "c/ik1"},
                                                        {"from": "c", "to": "b", "kind": "driver", "by": "b/rotation.x"}]), [])

    def test_findings(self):
        rig, g = judge([{"name": "a", "constraints": [{"kind": "limit", "channels": ["scale"], "weight": {"expression": "1"}},
                                                      {"kind": "limit", "channels": ["scale"], "weight": from_property("p")}]}],
                       properties=[{"name": "p"}, {"name": "q", "on": "a"}])
        self.assertEqual(find_findings(rig, [], {"a": ("orphaned", [])}, []),
                         {("driver-constant", ("a",), ""), ("deform-orphaned", ("a",), ""), ("property-unused", ("a",), "q")})


if __name__ == "__main__":
    unittest.main()
