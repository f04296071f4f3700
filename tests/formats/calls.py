"""How are reports made for these tests? Calls of the program, and of write_reports, in a folder of its own."""
import argparse
import pathlib
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
RIGS = {"heron": ROOT / "examples/heron.rig.json", "faulty": ROOT / "examples/heron-faulty.rig.json", "warden": ROOT / "examples/warden.vrm",
        "names": ROOT / "tests/cli/rigs/names.rig.json", "broken": ROOT / "tests/cli/rigs/broken.rig.json",
        "tangled": ROOT / "tests/cli/rigs/tangled.rig.json", "switches": ROOT / "tests/cli/rigs/switches.rig.json",
        "leg": ROOT / "tests/cli/rigs/leg.gltf", "broken_gltf": ROOT / "tests/cli/rigs/broken.gltf"}


def arguments(words):
    parser = argparse.ArgumentParser(description=words)
    parser.add_argument("--program", required=True, type=lambda path: pathlib.Path(path).resolve(strict=True))
    parser.add_argument("--write-reports", required=True, type=lambda path: pathlib.Path(path).resolve(strict=True))
    parser.add_argument("--packages", type=pathlib.Path)
    return parser.parse_args()


class Caller:
    """Rigs lie in its folder under their short names, so that reports name them the same everywhere."""

    def __init__(self, given, folder):
        self.given = given
        self.folder = pathlib.Path(folder)
        for path in RIGS.values():
            (self.folder / path.name).write_bytes(path.read_bytes())

    def written(self, *words):
        """What write_reports writes."""
        return subprocess.run([self.given.write_reports, *words], cwd=self.folder, check=True, stdout=subprocess.PIPE).stdout

    def checked(self, *words, status):
        """What `ligament check` writes, and that it gives this status."""
        done = subprocess.run([self.given.program, "check", *words], cwd=self.folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        if done.returncode != status:
            raise AssertionError(f"check {words}: status {done.returncode}, wanted {status}: {done.stderr.decode()}")
        return done.stdout

    def has_option(self, option):
        return option in subprocess.run([self.given.program, "check", "--help"], check=True, stdout=subprocess.PIPE, text=True).stdout


class Faults:
    """Collects what is not so."""

    def __init__(self):
        self.faults, self.looked_at = 0, 0

    def expect(self, holds, *words):
        self.looked_at += 1
        if not holds:
            self.faults += 1
            print("FAILED", *words)

    def same(self, got, wanted, *words):
        self.expect(got == wanted, *words, f"\n  got    {got!r}\n  wanted {wanted!r}")

    def status(self):
        print(f"{self.looked_at} looked at, {self.faults} failed")
        return 1 if self.faults or not self.looked_at else 0
