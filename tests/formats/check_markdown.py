"""Does GitHub Flavored Markdown render as what was meant, whatever the names are?

The judge is Debian's cmark-gfm, the renderer that the format's specification comes with, with its extensions for tables, strikethrough and
autolinks. Mentions are no part of the format; that "@" stands in an element of its own, so that none begins there, is common practice
without a source.
"""
import html.parser
import json
import shutil
import subprocess
import sys
import tempfile

from calls import RIGS, Caller, Faults, arguments


class Page(html.parser.HTMLParser):
    """Tables as lists of rows of texts, other text, and the names of all elements."""

    def __init__(self, text):
        super().__init__()
        self.tables, self.elements, self.items, self.headings, self.said = [], set(), [], [], ""
        self.open = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.add(tag)
        self.open.append(tag)
        if tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append([])
        elif tag in ("td", "th"):
            self.tables[-1][-1].append("")
        elif tag == "li":
            self.items.append("")
        elif tag == "h2":
            self.headings.append("")

    def handle_endtag(self, tag):
        self.open.pop()

    def handle_data(self, data):
        self.said += data
        if "td" in self.open or "th" in self.open:
            self.tables[-1][-1][-1] += data
        elif "li" in self.open:
            self.items[-1] += data
        elif "h2" in self.open:
            self.headings[-1] += data


WANTED = {"h2", "p", "table", "thead", "tbody", "tr", "th", "td", "code", "ul", "li", "details", "summary", "span"}


def rendered(text, faults):
    call = ["cmark-gfm", "--unsafe", "-e", "table", "-e", "strikethrough", "-e", "autolink"]
    page = Page(subprocess.run(call, input=text, check=True, stdout=subprocess.PIPE).stdout.decode())
    faults.same(sorted(page.elements - WANTED), [], "elements that nobody wrote")
    for table in page.tables:
        faults.expect(len({len(row) for row in table}) == 1, "rows of a table are equally wide:", table)
    return page


def check_findings(caller, faults):
    for name, path in RIGS.items():
        if name.startswith("broken"):
            continue
        report = json.loads(caller.written("json", path.name))
        page = rendered(caller.written("markdown", path.name), faults)
        findings = report["findings"]
        faults.same(len(page.headings), 1, "a heading a rig")
        rows = page.tables[0][1:] if findings else []
        faults.same(len(rows), len(findings), "a row a finding in", name)
        for row, finding in zip(rows, findings):
            faults.same(row[:2], [finding["severity"], finding["check"]], "severity and check")
            faults.expect(row[2].startswith(f"{path.name}:{finding['line']}:{finding['column']}"), "the place", row)
            if finding["message"].isprintable():
                faults.same((row[4], row[5]), (finding["message"], finding["hint"]), "message and hint")
        edges = sum(len(cycle["witness"]) for cycle in report["cycles"])
        faults.same(len(page.items), edges, "the edges of cycles in", name)


def check_several(caller, faults):
    call = ("markdown", *(path.name for path in RIGS.values()))
    page = rendered(caller.written(*call), faults)
    faults.same(len(page.headings), len(RIGS) + 1, "a heading a rig, and one for all")
    reports = json.loads(caller.written("json", *(path.name for name, path in RIGS.items() if not name.startswith("broken"))))
    counts = [sum(f["severity"] == severity for r in reports for f in r["findings"]) for severity in ("error", "warning", "note")]
    bones = sum(report["counts"]["bones"] for report in reports)
    faults.same(page.tables[-1][1], [str(number) for number in [len(RIGS), 2, bones, *counts]], "the totals")
    faults.expect('broken.rig.json:5:34: unknown bone "rooot", nearest is "root"' in page.items, "a fault")


def check_review(caller, faults):
    faulty = "heron-faulty.rig.json"
    findings = json.loads(caller.written("json", faulty))["findings"]
    cycles = sum(finding["check"] == "cycle" for finding in findings)
    page = rendered(caller.written("markdown", "--baseline", "heron.rig.json", "--accept", "cycle", "a | b", faulty), faults)
    faults.expect({"details", "summary"} <= page.elements, "what is set aside is folded")
    faults.expect(f"{cycles} findings accepted by rules" in page.said, "how many are")
    faults.same([row[4] for row in page.tables[-1][1:]], ["a | b"] * cycles, "the reasons")
    faults.same(len(page.tables[0]) - 1, len(findings) - cycles, "the rest counts")
    known = rendered(caller.written("markdown", "--baseline", faulty, faulty), faults)
    faults.expect(f"{len(findings)} findings known by the baseline" in known.said, "all is known")
    gone = rendered(caller.written("markdown", "--baseline", faulty, "heron.rig.json"), faults)
    faults.same(len(gone.items), len(findings), "what is gone")
    faults.expect(f"{len(findings)} findings of the baseline are gone" in gone.said, "how many are gone")


def check_names(caller, faults):
    """Names that would end a cell, or be markup, stand there as they are."""
    names = ["a|b", "a\\|b", "\\", "`", "``", "a`b|c", "*bold*", "_x_", "__y__", "~~z~~", "<b>", "</code>", "&amp;", "[a](b)", "![a](b)", "<!-- x",
             "# h", "@heron", "https://a.example", "www.a.example", "a@b.example", "$x$", " space ", "two  spaces", "-", "羽", "|", "||", "wing_arm_l", "`a`",
             "\\`"]
    rig = {"format": "rig-description", "version": 1, "name": "*|<i>`@x", "bones": [{"name": name, "roles": ["deform"]} for name in names]}
    (caller.folder / "odd|`.json").write_text(json.dumps(rig), encoding="utf-8")
    text = caller.written("markdown", "odd|`.json")
    page = rendered(text, faults)
    faults.same(page.headings, ["*|<i>`@x"], "the heading")
    faults.same(len(page.tables[0]) - 1, len(names), "a row a finding")
    for row, name in zip(page.tables[0][1:], names):
        shown = " ".join(name.split()) if name.strip() != name else name
        faults.same(row[3].strip(), shown.strip(), "the bone")
        faults.expect(f'"{name}"' in row[4], repr(name), "stands in its message", row[4])
        faults.expect(row[2].startswith("odd|`.json:1:"), "the place", row[2])
    faults.expect(b"@heron" not in text.replace(b"<span>@</span>", b"").replace(b"`@heron`", b""), "nobody is called")
    control = {**rig, "bones": [{"name": "a\nb\u001b\u202e", "roles": ["deform"]}]}
    (caller.folder / "control.json").write_text(json.dumps(control), encoding="utf-8")
    row = rendered(caller.written("markdown", "control.json"), faults).tables[0][1]
    faults.same(row[3], "a\\x0ab\\x1b\\u202e", "control characters are spelled out")


def check_program(caller, faults):
    for words, status in ([("heron-faulty.rig.json",), 1], [("heron.rig.json", "warden.vrm"), 0]):
        faults.same(caller.checked("--format", "markdown", *words, status=status), caller.written("markdown", *words), "check", words)


def main():
    given = arguments(__doc__)
    if not shutil.which("cmark-gfm"):
        print("skipped: there is no cmark-gfm here (apt-get install cmark-gfm)")
        return 77
    faults = Faults()
    with tempfile.TemporaryDirectory() as folder:
        caller = Caller(given, folder)
        for part in (check_findings, check_several, check_review, check_names, check_program):
            part(caller, faults)
    return faults.status()


if __name__ == "__main__":
    sys.exit(main())
