"""Is what is written as SARIF valid, and does it say what it should?

The schema is that of the npm package @microsoft/jest-sarif (sarif-2.1.0-rtm.5, JSON Schema draft 4), the judge Debian's jsonschema. What
the schema cannot say is looked at here: that indices and ids lead somewhere, that fingerprints tell findings apart and outlive changes of
lines (SARIF 2.1.0, OASIS, sections 3.27.16 partialFingerprints, 3.27.24 baselineState, 3.35 suppressions; numbers from memory).
"""
import json
import re
import sys
import tempfile
import urllib.parse

import jsonschema

from calls import RIGS, Caller, Faults, arguments

SCHEMA = "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"


def fnv1a_128(data):
    """FNV-1a of 128 bits, offset basis and prime as Fowler, Noll and Vo give them (from memory)."""
    value = 0x6C62272E07BB014262B821756295C58D
    for byte in data:
        value = (value ^ byte) * (2**88 + 0x13B) % 2**128
    return f"{value:032x}"


def fingerprint(check, bones, subject, maker):
    return fnv1a_128(json.dumps([check, bones, subject, maker], ensure_ascii=False, separators=(",", ":")).encode())


def messages_in(value):
    if isinstance(value, dict):
        if isinstance(value.get("text"), str):
            yield value["text"]
        for inner in value.values():
            yield from messages_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from messages_in(inner)


def bones_of(result):
    return [place["name"] for place in result["locations"][0].get("logicalLocations", []) if place["kind"] == "bone"]


def check_result(run, result, faults):
    rules = run["tool"]["driver"]["rules"]
    faults.same(rules[result["ruleIndex"]]["id"], result["ruleId"], "ruleIndex")
    for location in result["locations"]:
        artifact = location["physicalLocation"]["artifactLocation"]
        faults.same(artifact.get("uri"), run["artifacts"][artifact["index"]]["location"].get("uri"), "the uri of the artifact")
    properties = result.get("properties", {})
    faults.same(result["partialFingerprints"]["ligament/v1"],
                fingerprint(result["ruleId"], bones_of(result), properties.get("subject", ""), properties.get("maker", "")),
                "the fingerprint of", result["message"]["text"])
    if result["ruleId"] in ("cycle", "cycle-by-bone") and result.get("baselineState") != "absent":
        flow = result["codeFlows"][0]["threadFlows"][0]["locations"]
        ends = [re.match(r"(.*) -> (.*) \(", step["location"]["message"]["text"]).groups() for step in flow]
        for this, following in zip(ends, ends[1:] + ends[:1]):
            faults.same(this[1], following[0], "the loop of", result["message"]["text"])


def check_graph(run, faults, whole=True):
    graph = run["graphs"][0]
    nodes = {node["id"] for node in graph["nodes"]}
    edges = {edge["id"]: edge for edge in graph["edges"]}
    faults.same(len(nodes), len(graph["nodes"]), "ids of nodes are different")
    faults.same(len(edges), len(graph["edges"]), "ids of edges are different")
    for edge in graph["edges"]:
        faults.expect(edge["sourceNodeId"] in nodes and edge["targetNodeId"] in nodes, "an edge without its nodes", edge)
    properties = graph["properties"]
    faults.same((properties["nodesShown"], properties["edgesShown"]), (len(nodes), len(edges)), "the counts of the graph")
    faults.same(properties["isWhole"], whole, "isWhole")
    faults.expect(not whole or (properties["nodes"], properties["edges"]) == (len(nodes), len(edges)), "a whole graph is whole")
    traversals = [one for result in run["results"] for one in result.get("graphTraversals", [])]
    for traversal in traversals:
        steps = [edges[step["edgeId"]] for step in traversal["edgeTraversals"]]
        for this, following in zip(steps, steps[1:] + steps[:1]):
            faults.same(this["targetNodeId"], following["sourceNodeId"], "the traversal hangs together")
    return len(traversals)


def check_file(text, judge, faults, schema=True):
    document = json.loads(text)
    if schema:
        for fault in judge.iter_errors(document):
            faults.expect(False, "the schema:", "/".join(map(str, fault.absolute_path)), fault.message[:300])
    faults.same(document["version"], "2.1.0", "the version")
    ids = [run["automationDetails"]["id"] for run in document["runs"]]
    faults.same(len(ids), len(set(ids)), "runs have ids of their own")
    for run in document["runs"]:
        faults.same([rule["id"] for rule in run["tool"]["driver"]["rules"] if not rule["help"]["markdown"]], [], "rules without help")
        for rule in run["tool"]["driver"]["rules"]:
            faults.expect(rule["defaultConfiguration"]["level"] in ("error", "warning", "note"), rule["id"], "has a level")
        faults.same(run["columnKind"], "unicodeCodePoints", "columnKind")
        successful = run["invocations"][0]["executionSuccessful"]
        faults.same("results" in run, successful, "results of a run that was carried out, and of no other")
        for message in messages_in(run):
            faults.expect(not re.search(r"(?<!\{)\{(?:\{\{)*(?!\{)", message), "a placeholder in", message)
        if successful:
            prints = [result["partialFingerprints"]["ligament/v1"] for result in run["results"]]
            faults.same(len(prints), len(set(prints)), "distinct findings have distinct fingerprints", run["automationDetails"])
            for result in run["results"]:
                check_result(run, result, faults)
    return document


def check_findings(caller, judge, faults):
    """One result a finding of the JSON report, with its level, place and words."""
    for name, path in RIGS.items():
        if name.startswith("broken"):
            continue
        run = check_file(caller.written("sarif", path.name), judge, faults)["runs"][0]
        report = json.loads(caller.written("json", path.name))
        faults.same([(r["ruleId"], r["level"], bones_of(r)) for r in run["results"]],
                    [(f["check"], f["severity"], f["bones"]) for f in report["findings"]], "the results of", name)
        for result, finding in zip(run["results"], report["findings"]):
            region = result["locations"][0]["physicalLocation"]["region"]
            faults.same((region["startLine"], region["startColumn"]), (finding["line"], finding["column"]), "the place in", name)
            faults.same(result.get("properties", {}).get("jsonPointer"), finding.get("pointer"), "the pointer in", name)
        traversals = check_graph(run, faults)
        faults.same(traversals, sum(f["check"] in ("cycle", "cycle-by-bone") for f in report["findings"]), "the traversals of", name)
        faults.same(run["graphs"][0]["properties"]["edges"], report["counts"]["edges"]["bone"], "the edges of", name)


def check_several(caller, judge, faults):
    text = caller.written("sarif", *(path.name for path in RIGS.values()))
    runs = check_file(text, judge, faults)["runs"]
    faults.same(len(runs), len(RIGS), "a run a rig")
    by_name = dict(zip(RIGS, runs))
    for name in ("broken", "broken_gltf"):
        notes = by_name[name]["invocations"][0]["toolExecutionNotifications"]
        faults.expect(len(notes) > 0, "an unreadable rig has faults")
        for note in notes:
            faults.same(note["level"], "error", "the level of a fault")
            faults.expect(note["locations"][0]["physicalLocation"]["region"]["startLine"] > 0, "a fault has a place")
    faults.same(text, caller.written("sarif", *(path.name for path in RIGS.values())), "the same input, the same bytes")


def check_lines(caller, judge, faults):
    """A blank line at the start of a rig moves regions, not fingerprints."""
    def prints(results):
        return [(r["partialFingerprints"], r["ruleId"]) for r in results]
    source = (caller.folder / "heron-faulty.rig.json").read_text(encoding="utf-8")
    (caller.folder / "moved.rig.json").write_text("\n" + source, encoding="utf-8")
    before = check_file(caller.written("sarif", "heron-faulty.rig.json"), judge, faults)["runs"][0]["results"]
    after = check_file(caller.written("sarif", "moved.rig.json"), judge, faults)["runs"][0]["results"]
    faults.expect(len(before) > 10, "the faulty heron has findings")
    faults.same(prints(after), prints(before), "fingerprints after a blank line")
    lines = [[r["locations"][0]["physicalLocation"]["region"]["startLine"] for r in results] for results in (before, after)]
    faults.same(lines[1], [line + 1 for line in lines[0]], "lines after a blank line")


def check_review(caller, judge, faults):
    clean, faulty = "heron.rig.json", "heron-faulty.rig.json"
    findings = json.loads(caller.written("json", faulty))["findings"]
    reason = "the {0} ring [is](known)"

    def states(*words):
        return check_file(caller.written("sarif", *words), judge, faults)["runs"][0]["results"]

    unchanged = states("--baseline", faulty, faulty)
    faults.same([r.get("baselineState") for r in unchanged], ["unchanged"] * len(findings), "against itself")
    new = states("--baseline", clean, faulty)
    faults.same([r.get("baselineState") for r in new], ["new"] * len(findings), "against the clean rig")
    gone = states("--baseline", faulty, clean)
    faults.same([r.get("baselineState") for r in gone], ["absent"] * len(findings), "what is gone")
    faults.same(sorted(r["partialFingerprints"]["ligament/v1"] for r in gone),
                sorted(r["partialFingerprints"]["ligament/v1"] for r in unchanged), "fingerprints of what is gone")
    accepted = states("--baseline", clean, "--accept", "cycle", reason, faulty)
    cycles = [r for r in accepted if r["ruleId"] == "cycle"]
    faults.expect(len(cycles) > 1, "there are cycles to accept")
    for result in accepted:
        wanted = [{"kind": "external", "status": "accepted", "justification": reason}] if result in cycles else []
        faults.same(result["suppressions"], wanted, "suppressions")
    plain = states(faulty)
    faults.expect(all("suppressions" not in r and "baselineState" not in r for r in plain), "without a review nothing is said of one")


def check_names(caller, judge, faults):
    """Names that mean something in a message or a URI."""
    names = ["{0}", "a[b](c)", "back\\slash", "\u001b[31m", "\u202e", "</script>", "\u7fbd", "two words", "%41"]
    rig = {"format": "rig-description", "version": 1, "name": "odd", "bones": [{"name": name, "roles": ["deform"]} for name in names]}
    for path, uri in [("plain.json", "plain.json"), ("a b%{}:#?.json", "a%20b%25%7B%7D%3A%23%3F.json"), ("\u7fbd.json", "%E7%BE%BD.json"),
                      ("./plain.json", "plain.json")]:
        (caller.folder / path).write_text(json.dumps(rig), encoding="utf-8")
        run = check_file(caller.written("sarif", path), judge, faults)["runs"][0]
        faults.same(run["artifacts"][0]["location"]["uri"], uri, "the uri of", path)
        faults.same(urllib.parse.unquote(uri), path.removeprefix("./"), "the uri read by Python")
        faults.same([bones_of(r)[0] for r in run["results"]], names, "names as they are")
    absolute = check_file(caller.written("sarif", str(caller.folder / "plain.json")), judge, faults)["runs"][0]
    faults.same(absolute["artifacts"][0]["location"]["uri"], (caller.folder / "plain.json").as_uri(), "an absolute path")


def check_large(caller, judge, faults):
    """A graph past the limit is shown around the findings, and says so."""
    bones = [{"name": "root", "roles": ["control"]}]
    bones += [{"name": f"b{i}", "parent": f"b{i - 1}" if i % 50 else "root", **({"roles": ["deform"]} if i % 50 == 49 else {})}
              for i in range(12000)]
    bones += [{"name": "lost", "roles": ["deform"]}]
    bones[611]["constraints"] = [{"kind": "transform", "from": "b620"}]
    (caller.folder / "large.json").write_text(json.dumps({"format": "rig-description", "version": 1, "name": "large", "bones": bones}))
    document = check_file(caller.written("sarif", "large.json"), judge, faults, schema=False)
    run = document["runs"][0]
    faults.same(check_graph(run, faults, whole=False), 1, "the one cycle can still be walked")
    properties = run["graphs"][0]["properties"]
    faults.same((properties["nodes"], properties["aroundFindings"], properties["findings"]), (12002, len(run["results"]), len(run["results"])),
                "what is left out")
    faults.expect(10 < properties["nodesShown"] < 40, "around the findings:", properties)
    for fault in judge.iter_errors(document):
        faults.expect(False, "the schema:", fault.message[:300])


def check_program(caller, judge, faults):
    """What the program itself writes."""
    faults.same(caller.checked("--format", "sarif", "heron.rig.json", status=0), caller.written("sarif", "heron.rig.json"), "check, one rig")
    both = ["heron-faulty.rig.json", "broken.rig.json"]
    faults.same(caller.checked("--format", "sarif", *both, status=2), caller.written("sarif", *both), "check, several rigs")
    faults.same(caller.checked("--format", "sarif", "broken.rig.json", status=2), caller.written("sarif", "broken.rig.json"),
                "check, an unreadable rig")
    if not caller.has_option("--baseline"):
        print("check has no --baseline: left out")
        return
    findings = json.loads(caller.written("json", "heron-faulty.rig.json"))["findings"]
    known = [{"check": f["check"], "bones": f["bones"], **{k: f[k] for k in ("subject", "maker") if k in f}} for f in findings]
    gone = {"check": "cycle", "bones": ["neck_1", "no_such_bone"]}
    (caller.folder / "known.json").write_text(json.dumps({
        "format": "rig-baseline", "version": 1, "rigs": [{"source": "heron-faulty.rig.json", "findings": [*known[1:], gone]}]}))
    results = check_file(caller.checked("--format", "sarif", "--baseline", "known.json", "heron-faulty.rig.json", status=1), judge,
                         faults)["runs"][0]["results"]
    faults.same([r["baselineState"] for r in results], ["new"] + ["unchanged"] * len(known[1:]) + ["absent"], "check --baseline")


def main():
    given = arguments(__doc__)
    schema = given.packages / SCHEMA
    if not schema.exists():
        print(f"skipped: there is no {schema}")
        return 77
    judge = jsonschema.Draft4Validator(json.loads(schema.read_text(encoding="utf-8")))
    faults = Faults()
    faults.expect(not judge.is_valid({"version": "2.1.0", "runs": [{"results": []}]}), "the judge refuses a run without a tool")
    # From memory: the test vectors of FNV-1a of 128 bits.
    faults.same((fnv1a_128(b""), fnv1a_128(b"a")), ("6c62272e07bb014262b821756295c58d", "d228cb696f1a8caf78912b704e4a8964"), "FNV-1a")
    with tempfile.TemporaryDirectory() as folder:
        caller = Caller(given, folder)
        for part in (check_findings, check_several, check_lines, check_review, check_names, check_large, check_program):
            part(caller, judge, faults)
    return faults.status()


if __name__ == "__main__":
    sys.exit(main())
