"""What made an edge? The things that a cut removes, what each costs, and what goes with it."""
from collections import namedtuple

# kind: parent link (of the child bone), follows (an object), solver, constraint, curve handles (of a bone), driver
Maker = namedtuple("Maker", "kind element")
COSTS = {"driver": 1, "constraint": 2, "curve handles": 2, "solver": 3, "parent link": 8, "follows": 8}


def maker_of_constraint(c):
    return Maker("solver" if c.is_solver() else "constraint", c.key)


def makers_of(rig, edge):
    """The makers of which each takes the edge away: none for the passing on inside a bone, two for what a driven weight makes, and,
    at bone grain, for a driven pose that a solver reads, where the driver's edge and the solver's are one."""
    if edge.kind == "driver":
        element = edge.source.element if edge.source.kind == "driver" else edge.target.element
        where, name = element.split(" ", 1)
        gated = name if where == "weight" or where.startswith("source") else edge.constraint
        return [Maker("driver", element)] + ([maker_of_constraint(rig.constraints[gated])] if gated else [])
    if edge.constraint is not None:
        return [maker_of_constraint(rig.constraints[edge.constraint])]
    if edge.kind == "parent":
        return [Maker("follows" if edge.target.kind == "object" else "parent link", edge.by)]
    return [Maker("curve handles", edge.by)] if edge.kind == "curve" else []
