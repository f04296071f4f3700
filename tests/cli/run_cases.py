#!/usr/bin/env python3
"""Does the program do and say what the golden cases say?

A case is one file, cases/NAME.case:

    # what it shows
    $ ligament check marsh.rig.json --format json
    env COLUMNS=60
    terminal 100
    closed stdout
    --- file NAME
    --- stdin
    --- stdout
    --- stderr
    --- status

The call runs in a shell, in a directory of its own that holds the files of rigs/ and those of the case. `terminal N` gives it a terminal
of N columns as standard output, `closed stdout` a pipe that nobody reads. Escape characters are shown as <ESC>, a missing newline at the end
as a line "<no newline>". Sections that are left out are empty, and the status then is 0. --update rewrites stdout, stderr and status.
"""
import argparse
import difflib
import fcntl
import os
import pathlib
import pty
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import termios
import threading

HERE = pathlib.Path(__file__).resolve().parent
NO_NEWLINE = "<no newline>\n"


def shown(raw):
    text = raw.decode("utf-8", "backslashreplace").replace("\x1b", "<ESC>")
    text = re.sub(r"^ligament \d+\.\d+\.\d+$", "ligament VERSION", text, flags=re.M)
    return text if not text or text.endswith("\n") else text + "\n" + NO_NEWLINE


def parse(path):
    case = {"head": [], "call": "", "env": {}, "terminal": None, "closed": False, "files": {}, "stdin": None, "stdout": "", "stderr": "",
            "status": "0\n"}
    section = None
    for line in path.read_text(encoding="utf-8").splitlines(keepends=True):
        marker = re.match(r"--- (stdin|stdout|stderr|status|file (\S+))\n$", line)
        if marker:
            section = marker[1]
            if section.startswith("file "):
                case["files"][marker[2]] = ""
            else:
                case[section] = ""
        elif section is None:
            case["head"].append(line)
            read_head(case, line.rstrip("\n"), path)
        elif section.startswith("file "):
            case["files"][section[5:]] += line
        else:
            case[section] += line
    if not case["call"]:
        sys.exit(f"{path}: no call")
    return case


def read_head(case, line, path):
    if line.startswith("$ "):
        case["call"] += line[2:] + "\n"
    elif line.startswith("env "):
        name, value = line[4:].split("=", 1)
        case["env"][name] = value
    elif line.startswith("terminal "):
        case["terminal"] = int(line[9:])
    elif line == "closed stdout":
        case["closed"] = True
    elif line and not line.startswith("#"):
        sys.exit(f"{path}: cannot read {line!r}")


def run_in(case, directory, program):
    env = {"PATH": f"{directory}/.bin:/usr/bin:/bin", "LC_ALL": "C.UTF-8", "TERM": "xterm", "PYTHON": sys.executable,
           "TOOLS": str(HERE / "tools"), "PYTHONDONTWRITEBYTECODE": "1"}
    env.update({name: value for name, value in os.environ.items() if name.endswith("SAN_OPTIONS")})
    env.update(case["env"])
    (directory / ".bin").mkdir()
    (directory / ".bin" / "ligament").symlink_to(program)
    for rig in (HERE / "rigs").iterdir():
        shutil.copy(rig, directory / rig.name)
    for name, text in case["files"].items():
        (directory / name).write_text(text.removesuffix("\n" + NO_NEWLINE), encoding="utf-8")
    common = {"cwd": directory, "env": env, "stderr": subprocess.PIPE,
              "stdin": subprocess.PIPE if case["stdin"] is not None else subprocess.DEVNULL}
    command = ["/bin/sh", "-c", case["call"]]
    given = (case["stdin"] or "").encode() or None
    if case["terminal"]:
        return run_on_terminal(command, common, given, case["terminal"])
    if case["closed"]:
        reading, writing = os.pipe()
        os.close(reading)
        process = subprocess.Popen(command, stdout=writing, **common)
        os.close(writing)
        _, error = process.communicate(given, timeout=120)
        return b"", error, process.returncode
    process = subprocess.Popen(command, stdout=subprocess.PIPE, **common)
    output, error = process.communicate(given, timeout=120)
    return output, error, process.returncode


def run_on_terminal(command, common, given, columns):
    main, terminal = pty.openpty()
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    process = subprocess.Popen(command, stdout=terminal, **common)
    os.close(terminal)
    output = bytearray()

    def collect():
        try:
            while chunk := os.read(main, 65536):
                output.extend(chunk)
        except OSError:  # Linux says EIO once nobody holds the terminal any more
            pass

    reader = threading.Thread(target=collect)
    reader.start()
    _, error = process.communicate(given, timeout=120)
    reader.join()
    os.close(main)
    return bytes(output).replace(b"\r\n", b"\n"), error, process.returncode


def run(case, program):
    with tempfile.TemporaryDirectory() as directory:
        output, error, status = run_in(case, pathlib.Path(directory).resolve(), program)
    return {"stdout": shown(output), "stderr": shown(error), "status": f"{status}\n"}


def write(path, case, got):
    text = "".join(case["head"])
    for name, content in case["files"].items():
        text += f"--- file {name}\n{content}"
    if case["stdin"] is not None:
        text += "--- stdin\n" + case["stdin"]
    for section in ("stdout", "stderr", "status"):
        if got[section] or section == "status":
            text += f"--- {section}\n{got[section]}"
    path.write_text(text, encoding="utf-8")


def compare(case, got):
    lines = []
    for section in ("stdout", "stderr", "status"):
        lines += difflib.unified_diff(case[section].splitlines(True), got[section].splitlines(True), f"expected {section}", f"got {section}")
    return "".join(lines)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--program", required=True, type=lambda path: pathlib.Path(path).resolve(strict=True))
    parser.add_argument("--update", action="store_true", help="rewrite what the cases expect")
    parser.add_argument("names", nargs="*", help="only the cases of these names")
    arguments = parser.parse_args()
    paths = sorted((HERE / "cases").glob("*.case"))
    if arguments.names:
        paths = [path for path in paths if path.stem in arguments.names]
    passed = failed = 0
    for path in paths:
        case = parse(path)
        got = run(case, arguments.program)
        if arguments.update:
            write(path, case, got)
            continue
        difference = compare(case, got)
        passed, failed = passed + (not difference), failed + bool(difference)
        if difference:
            print(f"FAILED {path.stem}\n{difference}")
    if arguments.update:
        print(f"{len(paths)} cases rewritten")
        return 0
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
