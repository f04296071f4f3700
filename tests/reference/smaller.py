"""What is the least of a rig of which something is still so? Takes out one piece of the description after the other."""
import copy


def paths_in(thing, path=()):
    """The paths to all that can be taken out."""
    for key, value in thing.items() if isinstance(thing, dict) else enumerate(thing) if isinstance(thing, list) else ():
        yield path + (key,)
        yield from paths_in(value, path + (key,))


def without(described, path):
    """The description without one piece; as it was where that piece is gone already."""
    result = copy.deepcopy(described)
    place = result
    try:
        for key in path[:-1]:
            place = place[key]
        del place[path[-1]]
    except (KeyError, IndexError, TypeError):
        pass
    return result


def smallest(described, is_so):
    """A rig description of which `is_so` holds, and no more when any one piece is taken out. Large pieces go first."""
    found = True
    while found:
        found = False
        # from the last to the first: what is taken out of a list does not move what is still to be tried
        for path in sorted(reversed(list(paths_in(described))), key=len):
            less = without(described, path)
            if less != described and is_so(less):
                described, found = less, True
    return described
