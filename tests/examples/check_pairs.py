"""Has every check an example in which it finds something, and the same rig mended?

check_pairs.py --root DIR --ligament PROGRAM

Of each check of `ligament checks` there are examples/checks/CHECK.bad.* and CHECK.good.*. In the bad one that check finds something and
no other one an error or a warning; in the good one nothing is found at all. `ligament explain` shows the bad one and what is found in it.
CHECK.rules.json holds rules for both; such pairs are left out as long as `ligament check` does not take rules.
"""
import argparse
import json
import pathlib
import subprocess
import sys


def run(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, encoding="utf-8", check=False)


def names_of_checks(program):
    lines = run(program, "checks").stdout.splitlines()
    return [line.split()[0] for line in lines[1:]]


def only_file(folder, check, which):
    """The one file of a pair's half; throws LookupError where there is none, or more than one."""
    found = sorted(path for path in folder.glob(f"{check}.{which}.*"))
    if len(found) != 1:
        raise LookupError(f"{check}: {len(found)} files {check}.{which}.*, expected one")
    return found[0]


def findings_in(program, path, rules):
    result = run(program, "check", "--format", "json", *(["--rules", rules] if rules else []), path)
    if result.returncode not in (0, 1):
        raise LookupError(f"{path.name}: status {result.returncode}: {result.stderr}")
    return json.loads(result.stdout)["findings"]


def check_pair(program, folder, check, takes_rules):
    rules = folder / f"{check}.rules.json"
    rules = rules if rules.exists() else None
    bad, good = only_file(folder, check, "bad"), only_file(folder, check, "good")
    if rules and not takes_rules:
        return
    found = findings_in(program, bad, rules)
    if not any(finding["check"] == check for finding in found):
        yield f"{bad.name}: {check} finds nothing"
    for finding in found:
        if finding["check"] != check and finding["severity"] != "note":
            yield f"{bad.name}: {finding['check']} finds as well: {finding['message']}"
    for finding in findings_in(program, good, rules):
        yield f"{good.name}: {finding['check']}: {finding['message']}"
    explained = run(program, "explain", check)
    if explained.returncode != 0:
        yield f"explain {check}: status {explained.returncode}: {explained.stderr}"
    said = explained.stdout
    for wanted in (f"example: examples/checks/{bad.name}", f"mended: examples/checks/{good.name}", f": {check}"):
        if wanted not in said:
            yield f"explain {check} does not say: {wanted}"
    for line in bad.read_text(encoding="utf-8").splitlines():
        if line and f"\n  {line}\n" not in said:
            yield f"explain {check} does not show: {line}"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--root", type=pathlib.Path, required=True)
    parser.add_argument("--ligament", type=pathlib.Path, required=True)
    options = parser.parse_args()
    folder = options.root / "examples" / "checks"
    takes_rules = "--rules" in run(options.ligament, "check", "--help").stdout
    checks = names_of_checks(options.ligament)
    faults = [] if len(checks) > 10 else [f"only {len(checks)} checks are listed"]
    for check in checks:
        try:
            faults += check_pair(options.ligament, folder, check, takes_rules)
        except LookupError as fault:
            faults.append(str(fault))
    for path in sorted(folder.iterdir()):
        if path.name.split(".")[0] not in checks and path.suffix != ".bin":
            faults.append(f"{path.name}: there is no such check")
    print("\n".join([*faults, f"{len(checks)} checks: {len(faults)} faults"]))
    return 1 if faults else 0


sys.exit(main())
