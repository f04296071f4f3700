"""Is what is written as JUnit XML well-formed, and do its counts and cases say what the findings say?

The format has no standard; elements and attributes are those of the schemas that build servers publish (from memory). Well-formed is what
xmllint and Python's expat take.
"""
import json
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree

from calls import RIGS, Caller, Faults, arguments

SEVERITIES = ["note", "warning", "error"]


def check_file(caller, text, faults):
    path = caller.folder / "report.xml"
    path.write_bytes(text)
    lint = subprocess.run(["xmllint", "--noout", path], stderr=subprocess.PIPE, check=False)
    faults.same((lint.returncode, lint.stderr), (0, b""), "xmllint")
    root = tree.fromstring(text)
    faults.same(root.tag, "testsuites", "the root")
    for suite in root:
        cases = suite.findall("testcase")
        faults.same(int(suite.get("tests")), len(cases), "tests of", suite.get("name"))
        for attribute, element in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
            faults.same(int(suite.get(attribute)), sum(case.find(element) is not None for case in cases), attribute, suite.get("name"))
            faults.expect(all(len(case.findall(element)) <= 1 for case in cases), "one", element, "a case")
        faults.expect(all(case.get("classname") == suite.get("name") for case in cases), "the class of cases is their rig")
        names = [case.get("name") for case in cases]
        faults.same(len(names), len(set(names)), "names of cases are different")
    faults.expect(not re.search(rb"time|hostname", re.sub(rb">[^<]*<", b"><", text)), "no times")
    return list(root)


def words_of(case, element):
    found = case.find(element)
    return "" if found is None else found.text or ""


def check_findings(caller, checks, faults):
    for name, path in RIGS.items():
        if name.startswith("broken"):
            continue
        findings = json.loads(caller.written("json", path.name))["findings"]
        for failing in SEVERITIES:
            suite = check_file(caller, caller.written("junit", "--failing", failing, path.name), faults)[0]
            cases = {case.get("name"): case for case in suite.iter("testcase")}
            faults.same(list(cases), checks, "a case a check, in", name)
            for check, case in cases.items():
                own = [f for f in findings if f["check"] == check]
                bad = [f for f in own if SEVERITIES.index(f["severity"]) >= SEVERITIES.index(failing)]
                faults.same(case.find("failure") is not None, bool(bad), check, "fails in", name, "at", failing)
                for finding in own:
                    said = words_of(case, "failure" if finding in bad else "system-out")
                    line = f"{path.name}:{finding['line']}:{finding['column']}: {finding['severity']}: "
                    faults.expect(line in said, line, "is said in", name, "at", failing)
                if bad:
                    faults.same(case.find("failure").get("type"), bad[0]["severity"], "the type of", check)


def check_several(caller, faults):
    call = ("junit", *(path.name for path in RIGS.values()))
    suites = check_file(caller, caller.written(*call), faults)
    faults.same([suite.get("name") for suite in suites], [path.name for path in RIGS.values()], "a suite a rig")
    broken = dict(zip(RIGS, suites))["broken"]
    errors = [case.find("error") for case in broken.iter("testcase")]
    faults.same([(error.get("message"), error.text) for error in errors][1],
                ('unknown bone "rooot", nearest is "root"', 'broken.rig.json:5:34: unknown bone "rooot", nearest is "root"'), "a fault")
    faults.same(int(broken.get("errors")), 4, "the faults of the unreadable rig")
    faults.same(caller.written(*call), caller.written(*call), "the same input, the same bytes")


def check_review(caller, faults):
    faulty = "heron-faulty.rig.json"
    findings = json.loads(caller.written("json", faulty))["findings"]
    kinds = {finding["check"] for finding in findings}
    known = check_file(caller, caller.written("junit", "--baseline", faulty, faulty), faults)[0]
    faults.same((int(known.get("failures")), int(known.get("skipped"))), (0, len(kinds)), "all is known")
    accepted = check_file(caller, caller.written("junit", "--accept", "cycle", "as <wanted>", faulty), faults)[0]
    case = next(case for case in accepted.iter("testcase") if case.get("name") == "cycle")
    count = sum(finding["check"] == "cycle" for finding in findings)
    faults.same(case.find("skipped").get("message"), f"{count} accepted by rules", "what is skipped")
    faults.same(words_of(case, "system-out").count("accepted by rules (as <wanted>): "), count, "the reason")
    gone = check_file(caller, caller.written("junit", "--baseline", faulty, "heron.rig.json"), faults)[0]
    faults.same(words_of(gone, "system-out").count("not found any more: "), len(findings), "what is gone")


def check_names(caller, faults):
    names = ["<&>\"'", "]]>", "tab\tline\nreturn\r", "羽"]
    lost = {"\u001b[31m": "\ufffd[31m", "\u0000": "\ufffd", "\uffff": "\ufffd", "\u007f": "\u007f"}
    rig = {"format": "rig-description", "version": 1, "name": "\u0001odd", "bones":
           [{"name": name, "roles": ["deform"]} for name in [*names, *lost]]}
    (caller.folder / 'odd"<.json').write_text(json.dumps(rig), encoding="utf-8")
    suite = check_file(caller, caller.written("junit", 'odd"<.json'), faults)[0]
    faults.same(suite.get("name"), 'odd"<.json', "the name of the suite")
    faults.same(suite.find("properties/property").get("value"), "\ufffdodd", "the name of the rig")
    said = words_of(next(case for case in suite.iter("testcase") if case.get("name") == "deform-orphaned"), "failure")
    for name in [*names, *lost.values()]:
        faults.expect(f'"{name}"' in said, repr(name), "comes back")


def check_program(caller, faults):
    for words, status in ([("heron.rig.json",), 0], [("heron-faulty.rig.json", "broken.rig.json"), 2], [("broken.rig.json",), 2]):
        faults.same(caller.checked("--format", "junit", *words, status=status), caller.written("junit", *words), "check", words)
    faults.same(caller.checked("--format", "junit", "--fail-on", "note", "warden.vrm", status=1),
                caller.written("junit", "--failing", "note", "warden.vrm"), "check --fail-on")


def main():
    given = arguments(__doc__)
    if not shutil.which("xmllint"):
        print("skipped: there is no xmllint here (apt-get install libxml2-utils)")
        return 77
    table = subprocess.run([given.program, "checks"], check=True, stdout=subprocess.PIPE, text=True).stdout
    faults = Faults()
    with tempfile.TemporaryDirectory() as folder:
        caller = Caller(given, folder)
        check_findings(caller, [line.split()[0] for line in table.splitlines()[1:]], faults)
        for part in (check_several, check_review, check_names, check_program):
            part(caller, faults)
    return faults.status()


if __name__ == "__main__":
    sys.exit(main())
