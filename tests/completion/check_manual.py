"""Is the manual page sound, and does it say what the help says?

The judge is mandoc (Debian), which also renders it. Its one warning is that the page has no date, which it has not so that it stays the same.
"""
import re
import shutil
import subprocess
import sys


def output(*call, given=None):
    return subprocess.run(call, input=given, check=True, stdout=subprocess.PIPE, text=True).stdout


def squeezed(text):
    return " ".join(text.split())


def main():
    program, readme = sys.argv[1:]
    if not shutil.which("mandoc"):
        print("skipped: there is no mandoc here (apt-get install mandoc)")
        return 77
    page = output(program, "manual")
    faults = []
    lint = subprocess.run(["mandoc", "-Tlint", "-Wwarning"], input=page, stdout=subprocess.PIPE, text=True, check=False).stdout
    faults += [line for line in lint.splitlines() if not line.endswith('WARNING: missing date, using "": TH')]
    if output(program, "manual") != page:
        faults.append("two pages differ")
    text = re.sub(".\b", "", output("mandoc", "-Tutf8", "-Owidth=100", given=page))
    said = squeezed(text)
    sections = re.findall(r"^([A-Z][A-Z ]+)$", text, re.M)
    if sections != ["NAME", "SYNOPSIS", "DESCRIPTION", "COMMANDS", "OPTIONS", "EXIT STATUS", "FILES", "CAUTION"]:
        faults.append(f"sections are {sections}")
    everyone = text.split("\nOPTIONS\n")[1].split("\nEXIT STATUS\n")[0]
    commands = [line.split()[0] for line in output(program, "--help").split("Subcommands:\n")[1].split("\n\n")[0].splitlines()]
    options = 0
    for command in commands:
        found = re.search(rf"^   {command}\n(.*?)(?=^   \S|^OPTIONS$)", text, re.M | re.S)
        own = found[1] if found else ""
        summary, rest = output(program, command, "--help").split("\n", 1)
        if squeezed(summary) not in squeezed(own):
            faults.append(f"{command}: its summary is missing")
        listed = rest.split("Options:\n")[1].split("\n\n")[0]
        for line in listed.splitlines():
            for name in re.findall(r"^  (-\S+)", line)[:1]:
                options += 1
                for one in name.split(","):
                    if not re.search(rf"(^|[ ,]){one}[ ,\n]", own + everyone, re.M):
                        faults.append(f"{command}: {one} is missing")
        for word in re.findall(r"\{(.*?)\}", listed):
            if word.replace(",", ", ") not in squeezed(own):
                faults.append(f"{command}: the choices {word} are missing")
        for example in re.findall(r"^  ((?:ligament|rsvg|source) .*)$", rest.split("Options:\n")[1].partition("\n\n")[2], re.M):
            if squeezed(example) not in said:
                faults.append(f"{command}: the example {example!r} is missing")
    machines = re.search(r"\*\*Machines\.\*\* (.*?)\n\n", open(readme, encoding="utf-8").read(), re.S)[1]
    if squeezed(machines) not in said:
        faults.append("the caution is not that of the README")
    status = re.search(r"Exit status: (.*)\.$", output(program, "--help"), re.S)[1]
    for number, words in re.findall(r"(\d) (.*?)(?=,? ?\n?\d |$)", squeezed(status)):
        if f"{number} {words.rstrip(',')}" not in said:
            faults.append(f"status {number} is missing")
    print(*faults, f"{len(commands)} commands, {options} options, {len(faults)} faults", sep="\n")
    return 1 if faults or len(commands) < 12 or options < 60 else 0


sys.exit(main())
