"""Does a rig stay clean for months? Rules, baselines, several rigs at a time, shards and watching, with the whole program."""

import copy
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import jsonschema

PROGRAM, ROOT = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
FORMATS = ["text", "json", "sarif", "junit", "markdown"]
failures = []
looked_at = 0


def expect(what, is_so):
    global looked_at
    looked_at += 1
    if not is_so:
        failures.append(what)
        print("FAILED", what)


def run(folder, *arguments, **more):
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1795780800", **more}  # 2026-11-27
    done = subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder, capture_output=True, env=environment, timeout=300)
    return done.returncode, done.stdout, done.stderr


def library(folder):
    """Rigs of all sorts: clean, faulty, small, one that cannot be read, one of glTF."""
    for name in ["heron.rig.json", "heron-faulty.rig.json", "warden.vrm"]:
        shutil.copy(ROOT / "examples" / name, folder)
    for path in sorted((ROOT / "examples" / "checks").glob("c*.bad.rig.json")):
        shutil.copy(path, folder)
    (folder / "broken.rig.json").write_text('{"format": "rig-description", "version": 1, "name": "b", "bones": [{"nam": "x"}]}\n')
    return sorted(path.name for path in folder.iterdir())


def shards_and_jobs(folder):
    rigs = library(folder)
    for format in FORMATS:
        single = run(folder, "check", "--format", format, *rigs)
        expect(f"{format}: an unreadable rig is told", single[0] == 2 and b"broken.rig.json:1:" in single[2])
        for jobs in [2, 5]:
            expect(f"{format}: {jobs} jobs", run(folder, "check", "--jobs", jobs, "--format", format, *rigs) == single)
        for of in [1, 3, len(rigs) + 2]:
            files = [f"{format}-{of}-{i}.json" for i in range(1, of + 1)]
            for i, file in enumerate(files, 1):
                run(folder, "check", "--shard", f"{i}/{of}", "--format", format, "-o", file, *rigs)
                shard = json.loads((folder / file).read_text())
                expect(f"{file}: closes with itself", shard[-1]["format"] == "rig-shard" and shard[-1]["shard"] == i)
            expect(f"{format}: {of} shards are the single run", run(folder, "merge", *reversed(files)) == single)
        lacking = run(folder, "merge", *[f"{format}-3-{i}.json" for i in (1, 3)])
        expect(f"{format}: a lost shard is an error", lacking[0] == 2 and lacking[1] == b"" and b"shard 2 of 3 is missing" in lacking[2])
        twice = run(folder, "merge", *[f"{format}-3-{i}.json" for i in (1, 2, 3, 3)])
        expect(f"{format}: a shard given twice is an error", twice[0] == 2 and b"shard 3 is given twice" in twice[2])
    mixed = run(folder, "merge", "text-3-1.json", "text-3-2.json", "json-3-3.json")
    expect("shards of two formats are no call", mixed[0] == 2)
    cut = (folder / "json-3-1.json").read_text()[:-20]
    (folder / "cut.json").write_text(cut)
    expect("half a shard is none", run(folder, "merge", "cut.json")[0] == 2)
    fine = run(folder, "check", "--shard", "1/1", "--format", "json", "heron.rig.json", "-o", "one.json")
    expect("a clean shard", fine[0] == 0)
    one = run(folder, "merge", "one.json")
    expect("one rig of one shard", one == run(folder, "check", "--format", "json", "heron.rig.json"))


def baselines(folder):
    library(folder)
    rig = "heron-faulty.rig.json"
    before = run(folder, "check", "--format", "json", rig)
    wrote = run(folder, "check", "--write-baseline", "night/accepted.json", rig)
    expect("a folder that is not there is an error", wrote[0] == 2)
    (folder / "night").mkdir()
    expect("writing a baseline", run(folder, "check", "--write-baseline", "night/accepted.json", rig)[0] == 0)
    known = json.loads((folder / "night/accepted.json").read_text())
    expect("rigs are named from the baseline", [entry["source"] for entry in known["rigs"]] == ["../" + rig])
    expect("no lines", '"line"' not in (folder / "night/accepted.json").read_text())
    expect("nothing is new", run(folder, "check", "--fail-on", "note", "--baseline", "night/accepted.json", rig)[0] == 0)
    text = (folder / rig).read_text()
    (folder / rig).write_text("\n\n" + text)
    expect("nor when lines move", run(folder, "check", "--fail-on", "note", "--baseline", "night/accepted.json", rig)[0] == 0)
    (folder / rig).write_text(text.replace('"name": "alert"', '"name": "alert_2"').replace('"property": "alert"', '"property": "alert_2"'))
    status, out, _ = run(folder, "check", "--format", "json", "--baseline", "night/accepted.json", rig)
    report = json.loads(out)
    expect("a renamed loop is new", status == 1 and {f["check"] for f in report["findings"]} == {"cycle"})
    expect("and the old one is gone", [gone["check"] for gone in report["review"]["gone"]] == ["cycle"])
    (folder / rig).write_text(text)
    run(folder, "check", "--write-baseline", "night/accepted.json", "heron.rig.json")
    known = json.loads((folder / "night/accepted.json").read_text())
    expect("rigs of other calls stay", [len(entry["findings"]) > 0 for entry in known["rigs"]] == [True, False])
    kept = (folder / "night/accepted.json").read_bytes()
    status, _, err = run(folder, "check", "--write-baseline", "night/accepted.json", rig, "broken.rig.json")
    expect("an unreadable rig leaves the baseline", status == 2 and b"not written" in err and (folder / "night/accepted.json").read_bytes() == kept)
    for content in ["", "{}", "[]", kept.decode()[:-5], kept.decode().replace("rig-baseline", "rig-report")]:
        (folder / "bad.json").write_text(content)
        status, out, err = run(folder, "check", "--baseline", "bad.json", rig)
        expect(f"no baseline: {content[:20]!r}", status == 2 and out == b"" and b"bad.json" in err)
        expect("and it is not written over", run(folder, "check", "--write-baseline", "bad.json", rig)[0] == 2 and (folder / "bad.json").read_text() == content)
    expect("a missing one", run(folder, "check", "--baseline", "none.json", rig)[0] == 2)
    expect("the report without a baseline is as before", run(folder, "check", "--format", "json", rig) == before)


RULES = {
    "format": "rig-rules", "version": 1, "severities": {"cycle": "warning", "fan-out-high": "off"},
    "thresholds": {"fan_out": 3, "pole_angle": 2.5}, "costs": {"driver": 2}, "roots": ["world*"],
    "names": [{"of": {"role": "control"}, "names": "*_ctl"}],
    "layers": [{"from": {"group": "face*"}, "to": {"role": ["deform"]}, "allow": False, "why": "w"}, {"from": {}, "to": {}, "require": True}],
    "accepted": [{"check": "cycle", "reason": "r", "until": "2027-01-31"}], "extras": {"any": 1},
}


def broken_rules():
    """Rules with one thing wrong each: (what, rules)."""
    def changed(what, change):
        rules = copy.deepcopy(RULES)
        change(rules)
        return what, rules
    yield changed("format", lambda r: r.update(format="rig-report"))
    yield changed("version", lambda r: r.update(version=2))
    yield changed("no format", lambda r: r.pop("format"))
    yield changed("unknown key", lambda r: r.update(severity={}))
    yield changed("severity", lambda r: r["severities"].update(cycle="fatal"))
    yield changed("severity's type", lambda r: r["severities"].update(cycle=1))
    yield changed("threshold", lambda r: r["thresholds"].update(fan_in=1))
    yield changed("negative threshold", lambda r: r["thresholds"].update(pole_angle=-1))
    yield changed("half a target", lambda r: r["thresholds"].update(fan_out=1.5))
    yield changed("cost", lambda r: r["costs"].update(driver=0))
    yield changed("kind of maker", lambda r: r["costs"].update(bone=1))
    yield changed("roots", lambda r: r.update(roots=[1]))
    yield changed("no names", lambda r: r["names"][0].update(names=[]))
    yield changed("names left out", lambda r: r["names"][0].pop("names"))
    yield changed("role", lambda r: r["layers"][0]["to"].update(role="skin"))
    yield changed("allow and require", lambda r: r["layers"][0].update(require=True))
    yield changed("neither", lambda r: r["layers"][1].pop("require"))
    yield changed("require false", lambda r: r["layers"][1].update(require=False))
    yield changed("from", lambda r: r["layers"][1].pop("from"))
    yield changed("reason", lambda r: r["accepted"][0].pop("reason"))
    yield changed("empty reason", lambda r: r["accepted"][0].update(reason=" "))
    yield changed("day", lambda r: r["accepted"][0].update(until="31.1.2027"))
    yield changed("extends", lambda r: r.update(extends=3))


def rules(folder):
    library(folder)
    schema = json.loads(run(folder, "schema", "rules")[1])
    # JSON Schema, draft 2020-12, as python3-jsonschema reads it.
    validator = jsonschema.Draft202012Validator(schema)
    jsonschema.Draft202012Validator.check_schema(schema)
    cases = [("all that there is", RULES, True), ("the least", {"format": "rig-rules", "version": 1}, True)]
    cases += [(what, rules, False) for what, rules in broken_rules()]
    for what, rules, is_good in cases:
        (folder / "r.json").write_text(json.dumps(rules))
        status, _, err = run(folder, "check", "--rules", "r.json", "heron.rig.json")
        expect(f"schema: {what}", validator.is_valid(rules) == is_good)
        expect(f"program: {what}", (status != 2) == is_good and (is_good or b"r.json:1:" in err))
    faulty = "heron-faulty.rig.json"
    (folder / "ligament.rules.json").write_text(json.dumps({"format": "rig-rules", "version": 1, "severities": {"cycle": "note"}, "accepted": [
        {"check": "deform-orphaned", "reason": "known", "until": "2026-11-27"}, {"check": "switch-gap", "reason": "known", "until": "2026-11-26"}]}))
    found = json.loads(run(folder, "check", "--format", "json", faulty)[1])
    by_check = {f["check"]: f for f in found["findings"]}
    expect("a severity of the rules", by_check["cycle"]["severity"] == "note")
    expect("accepted up to today", "deform-orphaned" not in by_check and len(found["review"]["accepted"]) > 0)
    expect("not after its day", "counts again" in by_check["switch-gap"]["hint"])
    later = json.loads(run(folder, "check", "--format", "json", faulty, SOURCE_DATE_EPOCH="1795867200")[1])
    expect("and from tomorrow on it counts", "deform-orphaned" in {f["check"] for f in later["findings"]})
    plain = json.loads(run(folder, "check", "--format", "json", "--no-rules", faulty)[1])
    expect("--no-rules", plain["findings"][0]["severity"] == "error" and "review" not in plain)


def watching(folder):
    library(folder)
    rig = folder / "r.rig.json"
    shutil.copy(folder / "heron.rig.json", rig)
    watcher = subprocess.Popen([PROGRAM, "watch", "--no-rules", "--times", "3", "r.rig.json"], cwd=folder, stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE, text=True)
    lines = iter(watcher.stdout.readline, "")

    def until(ending):
        seen = []
        for line in lines:
            seen.append(line)
            if line.startswith("r.rig.json: "):
                break
        expect(f"watch: {ending}", bool(seen) and seen[-1].strip().endswith(ending))
        return "".join(seen)

    until("no errors, no warnings, no notes")
    shutil.copy(folder / "heron-faulty.rig.json", folder / "t.tmp")
    os.replace(folder / "t.tmp", rig)
    expect("watch: new findings stand there", "error: cycle" in until("notes"))
    rig.write_text("{")
    until("cannot be checked as it stands")
    shutil.copy(folder / "heron.rig.json", rig)
    expect("watch: what is gone", "gone: deform-orphaned: breast_plume" in until("no errors, no warnings, no notes"))
    expect("watch ends", watcher.wait(30) == 0)


for part in [shards_and_jobs, baselines, rules, watching]:
    with tempfile.TemporaryDirectory() as name:
        part(pathlib.Path(name))
print(f"{looked_at} looked at, {len(failures)} failed")
sys.exit(1 if failures else 0)
