"""Do the commands and examples of README.md and DEVELOPERS.md still say what the program says?

A ```console block holds commands behind `$ ` and their output; a line `...` stands for any lines. Commands run in a scratch copy of
the examples, so that they may write files. A ```json block is a rig that reads without faults. A ```cpp block stands word by
word in the file under examples/ that the line before the block names. Links point at files that exist.
`check_readme.py ROOT PROGRAM --update` rewrites the output of console blocks that hold no `...`."""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

FENCE = re.compile(r"(?P<before>[^\n]*\n)?(?P<open>```(?P<kind>console|json|cpp)\n)(?P<body>.*?)(?P<close>^```$)", re.S | re.M)


def run(command, folder, program):
    environment = {**os.environ, "PATH": f"{pathlib.Path(program).parent}:{os.environ['PATH']}", "NO_COLOR": "1", "COLUMNS": "100"}
    done = subprocess.run(["bash", "-c", command], cwd=folder, env=environment, capture_output=True, text=True, timeout=120)
    return done.stdout + done.stderr


def matches(expected, actual):
    """Line by line; `...` stands for any number of lines."""
    pattern = "".join(r"(?:.*\n)*?" if line == "..." else re.escape(line) + r"\n" for line in expected.strip("\n").split("\n"))
    return re.fullmatch(pattern, actual.strip("\n") + "\n") is not None


def commands_of(body):
    """(command, expected output) pairs of a console block."""
    pairs = []
    for line in body.splitlines():
        if line.startswith("$ "):
            pairs.append([line[2:], []])
        elif pairs:
            pairs[-1][1].append(line)
    return [(command, "\n".join(output)) for command, output in pairs]


def check_console(body, folder, program, update):
    faults, blocks = [], []
    for command, expected in commands_of(body):
        actual = run(command, folder, program)
        if not matches(expected, actual):
            faults.append(f"$ {command}\n--- the document says\n{expected}\n--- the program says\n{actual}")
            if update and "\n...\n" not in f"\n{expected}\n":
                expected, _ = actual.strip("\n"), faults.pop()
        blocks.append(f"$ {command}\n{expected}\n" if expected else f"$ {command}\n")
    return faults, "".join(blocks)


def check_rules(body, folder, program):
    """A rules file goes with the demo rig; what it extends says nothing."""
    show = pathlib.Path(folder) / "show"
    show.mkdir(exist_ok=True)
    (pathlib.Path(folder) / "studio.rules.json").write_text('{"format": "rig-rules", "version": 1}', encoding="utf-8")
    (show / "block.rules.json").write_text(body, encoding="utf-8")
    rig = pathlib.Path(__file__).parents[2] / "examples" / "heron.rig.json"
    done = subprocess.run([program, "check", "--rules", str(show / "block.rules.json"), str(rig)], capture_output=True, text=True)
    return [f"a json block is no rules file:\n{done.stderr}"] if done.returncode == 2 else []


def check_json(body, folder, program):
    if '"rig-rules"' in body:
        return check_rules(body, folder, program)
    path = pathlib.Path(folder) / "block.rig.json"
    path.write_text(body, encoding="utf-8")
    done = subprocess.run([program, "check", str(path)], capture_output=True, text=True)
    return [f"a json block is no rig:\n{done.stderr}"] if done.returncode == 2 else []


def check_cpp(body, before, root):
    name = re.search(r"examples/[\w/]+\.cpp", before or "")
    if not name:
        return ["a cpp block without the name of its file in the line before"]
    return [] if body in (root / name[0]).read_text(encoding="utf-8") else [f"a cpp block does not stand in {name[0]}"]


def check_links(text, root, document):
    for target in re.findall(r"\]\((?!https?:|#)([^)#\s]+)", text) + re.findall(r'src="([^"]+)"', text):
        if not (root / target).exists():
            yield f"{document}: link to {target}, which is not there"


def check_document(root, document, program, update, folder):
    text = (root / document).read_text(encoding="utf-8")
    faults, pieces, end = list(check_links(text, root, document)), [], 0
    for fence in FENCE.finditer(text):
        body = fence["body"]
        if fence["kind"] == "console":
            found, body = check_console(body, folder, program, update)
            faults += found
        elif fence["kind"] == "json":
            faults += check_json(body, folder, program)
        else:
            faults += check_cpp(body, fence["before"], root)
        pieces += [text[end : fence.start("body")], body if update else fence["body"]]
        end = fence.end("body")
    if update:
        (root / document).write_text("".join(pieces) + text[end:], encoding="utf-8")
    return faults


def main():
    root, program = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    update = "--update" in sys.argv
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(root / "examples", pathlib.Path(folder) / "examples")
        faults = [fault for document in ("README.md", "DEVELOPERS.md")
                  for fault in check_document(root, document, program, update, folder)]
    for fault in faults:
        print(fault, end="\n\n")
    print(f"readme: {len(faults)} faults")
    return 1 if faults else 0


sys.exit(main())
