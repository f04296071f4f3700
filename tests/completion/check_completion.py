"""Do shells complete calls as the definitions of commands say?

Each shell runs its own script: bash is asked by COMP_WORDS, fish by `complete -C`, zsh on a terminal of its own. What is wanted comes from the
help of the program, so that an option without completion is a fault.
"""
import os
import pathlib
import pty
import re
import shutil
import subprocess
import sys
import tempfile
import time

FILES = ["heron.rig.json", "warden.vrm", "leg.gltf", "wing.glb", "notes.txt", "other.json", "two words.rig.json"]
RIGS = ["folder", "heron.rig.json", "leg.gltf", "two words.rig.json", "warden.vrm", "wing.glb"]
ALL = sorted([*FILES, "folder"])


class Test:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.looked_at = self.faults = 0

    def say(self, *words):
        return subprocess.run([self.program, *words], check=True, stdout=subprocess.PIPE, text=True).stdout

    def expect(self, got, wanted, *words):
        self.looked_at += 1
        if got != wanted:
            self.faults += 1
            print("FAILED", *words, f"\n  got    {got}\n  wanted {wanted}")


def commands_in(test):
    listed = test.say("--help").split("Subcommands:\n")[1].split("\n\n")[0]
    return [line.split()[0] for line in listed.splitlines()]


def options_in(test, *command):
    """The names that the help has in its list of options."""
    lines = test.say(*command, "--help").split("Options:\n")[1].split("\n\n")[0].splitlines()
    return sorted(name for line in lines if (found := re.match(r"  (-\S+)", line)) for name in found[1].split(","))


def cases(test):
    """Words before the cursor with what completes the last one."""
    checks = [line.split()[0] for line in test.say("checks").splitlines()[1:]]
    formats = re.search(r"--format FORMAT:\{(.*?)\}", test.say("check", "--help"))[1].split(",")
    views = re.search(r"--view VIEW:\{(.*?)\}", test.say("draw", "--help"))[1].split(",")
    commands = commands_in(test)
    yield [""], sorted(commands)
    yield ["c"], sorted(command for command in commands if command.startswith("c"))
    yield ["completion", ""], ["bash", "fish", "zsh"]
    yield ["check", ""], RIGS
    yield ["check", "--format", ""], sorted(formats)
    yield ["check", "--format", "j"], sorted(name for name in formats if name.startswith("j"))
    yield ["check", "heron.rig.json", ""], RIGS
    yield ["check", "heron.rig.json", "l"], ["leg.gltf"]
    yield ["check", "-o", ""], ALL
    yield ["check", "--cut-cost", ""], []
    yield ["explain", ""], sorted(checks)
    yield ["explain", checks[0], ""], []
    yield ["draw", "--view", ""], sorted(views)
    yield ["draw", "-o", "out.svg", ""], RIGS
    yield ["draw", "--page", "A"], ["A3", "A4"]
    yield ["trace", "heron.rig.json", ""], []
    yield ["trace", "--state", "a", ""], RIGS
    yield ["nonsense", ""], []


def bash(test, words, script):
    """What bash would offer; a word with "=" comes apart there as COMP_WORDBREAKS says."""
    ask = f"source {script}; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); _ligament 2>/dev/null; printf '%s\\n' \"${{COMPREPLY[@]}}\""
    done = subprocess.run(["bash", "--norc", "-c", ask, "bash", "ligament", *words], cwd=test.folder, check=True, stdout=subprocess.PIPE, text=True)
    return sorted(filter(None, done.stdout.splitlines()))


def fish(test, words, script):
    line = "ligament " + " ".join(word.replace(" ", "\\ ") for word in words)
    done = subprocess.run(["fish", "--no-config", "-c", f"source {script}; complete -C '{line}'"], cwd=test.folder, check=True,
                          stdout=subprocess.PIPE, text=True, env={**os.environ, "HOME": str(test.folder.parent / "home")})
    return sorted(line.split("\t")[0].rstrip("/") for line in done.stdout.splitlines())


class Zsh:
    """A shell on a terminal; what it completes is listed, one a line, between marks."""

    SETUP = r"""
autoload -U compinit; compinit -u -D
zstyle ':completion:*' list-grouped false
zstyle ':completion:*' insert-tab false
compadd() {
    if [[ ${@[(I)-[a-zA-Z]#[OAD]]} -gt 0 ]]; then builtin compadd "$@"; return; fi
    local -a found
    builtin compadd -A found "$@"
    (( $#found )) && print -rl -- $found >> $FOUND
    builtin compadd "$@"
}
done_widget() { : > $FOUND; zle complete-word; print -r -- DONE >> $FOUND; zle kill-whole-line; }
zle -C complete-word complete-word _main_complete
zle -N done_widget
bindkey '^I' done_widget
PS1='ready> '
print -r -- DONE >> $FOUND
"""

    def __init__(self, test, script):
        home = test.folder.parent / "zsh"
        home.mkdir()
        shutil.copy(script, home / "_ligament")
        self.found = home / "found"
        self.found.write_text("")
        (home / "setup").write_text(f"setopt extendedglob\nfpath=({home} $fpath)\nFOUND={self.found}\n" + self.SETUP)
        self.child, self.terminal = pty.fork()
        if self.child == 0:
            os.chdir(test.folder)
            os.environ.update({"TERM": "dumb", "LC_ALL": "C.UTF-8", "HOME": str(home)})
            os.execvp("zsh", ["zsh", "-f", "-i"])
        self.type(f"source {home}/setup\n")
        self.wait()

    def type(self, text):
        os.write(self.terminal, text.encode())

    def wait(self):
        os.set_blocking(self.terminal, False)
        end = time.monotonic() + 30
        while time.monotonic() < end:
            try:
                os.read(self.terminal, 65536)  # or it would stop once nobody reads
            except BlockingIOError:
                pass
            text = self.found.read_text()
            if text.endswith("DONE\n"):
                return text.removesuffix("DONE\n").splitlines()
            time.sleep(0.01)
        raise AssertionError("zsh says nothing")

    def ask(self, _, words, __):
        self.found.write_text("")
        self.type("ligament " + " ".join(word.replace(" ", "\\ ") for word in words) + "\t")
        # Where no argument may follow zsh offers options, unasked.
        found = {line.rstrip("/").replace("\\ ", " ") for line in self.wait()}
        return sorted(name for name in found if words[-1].startswith("-") or not name.startswith("-"))

    def close(self):
        self.type("\x03exit\n")
        os.close(self.terminal)
        os.waitpid(self.child, 0)


def check_shell(test, shell, ask, script):
    for words, wanted in cases(test):
        test.expect(ask(test, words, script), wanted, shell, words)
    for command in [[], *([name] for name in commands_in(test))]:
        got = ask(test, [*command, "-"], script)
        names = options_in(test, *command)
        # fish offers short names by themselves.
        test.expect([name for name in got if name.startswith("--")], [name for name in names if name.startswith("--")], shell, command, "-")


def main():
    program, folder = pathlib.Path(sys.argv[1]).resolve(strict=True), tempfile.TemporaryDirectory()
    with folder as name:
        here = pathlib.Path(name) / "here"
        (here / "folder").mkdir(parents=True)
        (here.parent / "home").mkdir()
        for file in FILES:
            (here / file).touch()
        test = Test(program, here)
        for shell in ("bash", "zsh", "fish"):
            if not shutil.which(shell):
                print(f"skipped: there is no {shell} here (apt-get install {shell})")
                return 77
            script = here.parent / f"ligament.{shell}"
            script.write_text(test.say("completion", shell))
            lint = subprocess.run([shell, "-n", script], stderr=subprocess.PIPE, check=False)
            test.expect((lint.returncode, lint.stderr), (0, b""), shell, "-n")
            if shell == "bash":
                check_shell(test, shell, bash, script)
                # Cut apart at "=", as bash does it.
                test.expect(bash(test, ["check", "--format", "=", "sa"], script), ["sarif"], "bash --format=sa")
                test.expect(bash(test, ["check", "--format", "="], script), bash(test, ["check", "--format", ""], script), "bash --format=")
                test.expect(bash(test, ["check", "--format", "=", "json", ""], script), RIGS, "bash --format=json")
            elif shell == "fish":
                check_shell(test, shell, fish, script)
                test.expect(fish(test, ["check", "--format=sa"], script), ["--format=sarif"], "fish --format=sa")
            else:
                zsh = Zsh(test, script)
                check_shell(test, shell, zsh.ask, script)
                test.expect(zsh.ask(test, ["check", "--format=sa"], script), ["sarif"], "zsh --format=sa")
                zsh.close()
    print(f"{test.looked_at} looked at, {test.faults} failed")
    return 1 if test.faults or not test.looked_at else 0


sys.exit(main())
