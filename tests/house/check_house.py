"""Does the source tree keep its shape? Top level, direction of includes, one home for each library, opening sentences."""

import pathlib
import re
import sys

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "src", "include", "graphs", "examples", "tests"}
# Public headers in reading order: each includes earlier ones only.
HEADERS = ["version", "finding", "rare", "rig", "whole_file", "read", "graph", "states", "cycles", "order", "attachment", "controls", "switches",
           "links", "sides", "facts", "comparison", "rules", "checks", "review", "report", "shard", "comparison_report", "drawing",
           "page"]
# Stages and the stages whose headers they may include (src/CMakeLists.txt says the same to the compiler).
STAGES = {
    "model": set(),
    "read": {"model"},
    "graph": {"model"},
    "analysis": {"model", "graph"},
    "checks": {"model", "graph", "analysis"},
    "review": {"model", "read", "graph", "analysis", "checks"},
    "report": {"model", "graph", "analysis", "checks", "review"},
    "drawing": {"model", "graph", "analysis"},
    "page": {"model", "graph", "analysis", "checks", "review", "report", "drawing"},
}
# What public headers each stage may include: up to the one that declares it.
LAST_HEADER = {"model": "rig", "read": "read", "graph": "graph", "analysis": "comparison", "checks": "checks", "review": "review", "report": "comparison_report",
               "drawing": "drawing", "page": "page"}
# Libraries with one home each.
HOMES = {
    r"<(graphviz/|cgraph|gvc)": {"src/drawing/graphviz.cpp"},
    r"<nlohmann/": {"src/read/", "src/review/", "src/report/", "src/page/", "tests/"},
    r"<CLI/": {"src/cli/"},
    r"<boost/": {"src/graph/bgl_view.hpp", "src/analysis/"},
    r"<muParser": {"src/model/expression"},
}
MOST_LINES = 400


def top_level_faults(root):
    for path in root.iterdir():
        if not path.name.startswith(".") and path.name not in TOP_LEVEL and not path.name.startswith("build"):
            yield f"{path.name}: not one of the names of the top level"


def includes(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if match := re.match(r'\s*#\s*include\s+([<"][^>"]+)[>"]', line):
            yield number, match.group(1)


def public_header_faults(root, path, relative, last):
    allowed = HEADERS[: HEADERS.index(last) + 1]
    for number, name in includes(path):
        if (match := re.match(r'"ligament/(\w+)\.hpp', name)) and match.group(1) not in allowed:
            yield f"{relative}:{number}: includes ligament/{match.group(1)}.hpp, which comes later"


def stage_faults(root, path, relative, stage):
    yield from public_header_faults(root, path, relative, LAST_HEADER[stage])
    own = {p.name for p in path.parent.iterdir()}
    for allowed in STAGES[stage]:
        own |= {p.name for p in (root / "src" / allowed).iterdir()}
    for number, name in includes(path):
        if name.startswith('"') and not name.startswith('"ligament/') and name[1:] not in own:
            yield f"{relative}:{number}: includes {name[1:]}, which is of no earlier stage"


def home_faults(path, relative):
    for number, name in includes(path):
        for library, homes in HOMES.items():
            if re.match(library, name) and not any(relative.startswith(home) for home in homes):
                yield f"{relative}:{number}: includes {name[1:]}, whose home is {' '.join(sorted(homes))}"


def opening_faults(path, relative):
    lines = path.read_text(encoding="utf-8").splitlines()
    if len(lines) > MOST_LINES:
        yield f"{relative}: {len(lines)} lines, more than {MOST_LINES}"
    headers = [path.with_suffix(".hpp"), path.parents[2] / "include" / "ligament" / f"{path.stem}.hpp"]
    if path.suffix == ".cpp" and any(header.exists() for header in headers):
        return  # its header opens with the sentence
    if not lines or not lines[0].startswith("// "):
        yield f"{relative}: does not open with the question that it answers"


def source_faults(root):
    for path in sorted([*root.glob("include/ligament/*.hpp"), *root.glob("src/**/*.[ch]pp")]):
        relative = path.relative_to(root).as_posix()
        yield from home_faults(path, relative)
        yield from opening_faults(path, relative)
        if relative.startswith("include/"):
            if path.stem not in HEADERS:
                yield f"{relative}: not in the list of public headers"
            else:
                yield from public_header_faults(root, path, relative, path.stem)
        elif (stage := path.parent.name) in STAGES:
            yield from stage_faults(root, path, relative, stage)


def main():
    root = pathlib.Path(sys.argv[1])
    faults = [*top_level_faults(root), *source_faults(root)]
    for fault in faults:
        print(fault)
    print(f"house: {len(faults)} faults")
    return 1 if faults else 0


sys.exit(main())
