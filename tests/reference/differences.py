"""What differs between the two readings? All differences, by what differs, with the first of each in full."""
import collections

SHOWN = 8
LISTED = 12


class Differences:
    """Counts every difference; keeps the text of the first of each sort."""

    def __init__(self):
        self.counts, self.rigs, self.texts = collections.Counter(), {}, {}

    def expect(self, name, text, what, reference, program):
        if reference == program:
            return
        self.counts[what] += 1
        self.rigs.setdefault(name, []).append(what)
        if what not in self.texts:
            self.texts[what] = (f"--- {what} of {name}\nreference: {shown(reference, program)}\n"
                                f"program:   {shown(program, reference)}\nrig: {text}")

    def add(self, other):
        """Takes over what another run found after this one."""
        self.counts.update(other.counts)
        self.rigs.update(other.rigs)
        self.texts = other.texts | self.texts


def shown(one, other):
    """A value for people; of a set only what the other has not."""
    if not isinstance(one, (set, frozenset)):
        return one
    only = sorted(map(str, one - other))
    return "".join(f"\n  only here: {x}" for x in only[:LISTED]) + (f"\n  showing {LISTED} of {len(only)}" if len(only) > LISTED else "")
