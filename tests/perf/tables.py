"""How are measurements shown? Rows of cells in columns, and goals with what was wanted and whether it was reached."""

import dataclasses


def show(title, heads, rows):
    """Columns as wide as they need; the first one to the left, all others to the right."""
    cells = [[str(cell) for cell in row] for row in [heads, *rows]]
    widths = [max(len(row[i]) for row in cells) for i in range(len(heads))]
    print(f"\n{title}")
    for row in cells:
        print("  " + "  ".join(cell.ljust(width) if i == 0 else cell.rjust(width) for i, (cell, width) in enumerate(zip(row, widths))).rstrip())


def seconds(value):
    return f"{value * 1e6:.1f} us" if value < 1e-3 else f"{value * 1e3:.2f} ms" if value < 1 else f"{value:.2f} s"


def size_word(bones):
    return f"{bones // 1_000_000}M" if bones % 1_000_000 == 0 else f"{bones // 1000}k" if bones % 1000 == 0 else str(bones)


@dataclasses.dataclass
class Goal:
    """One figure held against what is wanted. `ours` and `peer` are texts; `ratio` is what `wanted` bounds."""

    number: str
    what: str
    size: str
    ours: str
    peer: str
    ratio: float
    most: float | None = None
    least: float | None = None
    runs: int = 0
    ratio_is_bound: bool = False  # the true ratio is still better: the peer was ended before it was done
    medians: dict = dataclasses.field(default_factory=dict)

    @property
    def reached(self):
        return (self.most is None or self.ratio <= self.most) and (self.least is None or self.ratio >= self.least)

    @property
    def wanted(self):
        return f"<= {self.most:g}" if self.most is not None else f">= {self.least:g}" if self.least is not None else ""

    def cells(self):
        ratio = ("< " if self.ratio_is_bound else "") + f"{self.ratio:.3g}"
        reached = ("yes" if self.reached else "no") if self.wanted else ""
        return [f"{self.number} {self.what}", self.size, self.ours, self.peer, ratio, self.wanted, self.runs, reached]

    def row(self):
        return {"goal": self.number, "what": self.what, "size": self.size, "ours": self.ours, "peer": self.peer, "ratio": self.ratio,
                "ratio_is_bound": self.ratio_is_bound, "wanted": self.wanted, "runs": self.runs,
                "reached": self.reached if self.wanted else None, "medians": self.medians}


def show_goals(goals):
    show("Goals", ["what", "size", "ours", "peer", "ratio", "wanted", "runs", "reached"], [goal.cells() for goal in goals])
