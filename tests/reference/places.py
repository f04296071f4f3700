"""Where does each thing stand in the text of a rig? Line and column, both from 1, of everything in a piece of JSON, by its path."""
import json
import re

from makers import Maker
from rig import SOLVERS

TOKEN = re.compile(r'\s*("(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+)')


def places_of(text):
    """path, such as ("bones", 0, "name") -> (line, column) of the value there. The text is one whole JSON value."""
    places, stack, at, line, line_start = {}, [], 0, 1, 0
    while match := TOKEN.match(text, at):
        start, token = match.start(1), match.group(1)
        line, line_start = line + text.count("\n", at, start), max(line_start, text.rfind("\n", at, start) + 1)
        at = match.end()
        if token in "}]":
            stack.pop()
        elif token == ",":
            if isinstance(stack[-1], int):
                stack[-1] += 1
            else:
                stack[-1] = None
        elif token == ":":
            continue
        elif stack and stack[-1] is None:
            stack[-1] = json.loads(token)
        else:
            places[tuple(stack)] = (line, start - line_start + 1)
            stack += [None] if token == "{" else [0] if token == "[" else []
    return places


def places_of_makers(j, text):
    """Maker -> (line, column) of the rig that json.loads gives for the text. A parent link stands where its bone does."""
    at, found = places_of(text), {}
    for i, p in enumerate(j.get("properties", [])):
        found[Maker("driver", f"property {p['name']}")] = at.get(("properties", i, "value"))
    for i, o in enumerate(j.get("objects", [])):
        found[Maker("follows", o["name"])] = at[("objects", i)]
    for i, b in enumerate(j["bones"]):
        path, name = ("bones", i), b["name"]
        found[Maker("parent link", name)] = at[path]
        found[Maker("curve handles", name)] = at.get(path + ("curve",))
        for channel in b.get("channels", {}):
            found[Maker("driver", f"channel {name}/{channel}")] = at[path + ("channels", channel)]
        for k, c in enumerate(b.get("constraints", [])):
            found.update(places_in_constraint(c, name, k, path + ("constraints", k), at))
    return {maker: place for maker, place in found.items() if place}


def places_in_constraint(c, bone, number, path, at):
    key = f"{bone}/{c.get('name', c['kind'] + str(number + 1))}"
    found = {Maker("solver" if c["kind"] in SOLVERS else "constraint", key): at[path]}
    if isinstance(c.get("weight"), dict):
        found[Maker("driver", f"weight {key}")] = at[path + ("weight",)]
    listed = c.get("from", [])
    sources = [("from", i) for i in range(len(listed))] if isinstance(listed, list) else [("from",)]
    for index, use in enumerate(sources + [(u,) for u in ("up", "target", "pole") if u in c]):
        if path + use + ("weight",) in at:
            found[Maker("driver", f"source{index} {key}")] = at[path + use + ("weight",)]
    return found
