"""Does a library that is spread over a queue come to the same report as one call? Runs examples/queue/check_library."""
import pathlib
import shutil
import subprocess
import sys
import tempfile


def main():
    program, root = pathlib.Path(sys.argv[1]).resolve(strict=True), pathlib.Path(sys.argv[2]).resolve(strict=True)
    if "\n  merge " not in subprocess.run([program, "--help"], check=True, stdout=subprocess.PIPE, text=True).stdout:
        print("skipped: the program has no command merge")
        return 77
    faults, looked_at = 0, 0

    def expect(got, wanted, *words):
        nonlocal faults, looked_at
        looked_at += 1
        if got != wanted:
            faults += 1
            print("FAILED", *words, f"\n  got    {str(got)[:400]}\n  wanted {str(wanted)[:400]}")

    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for rig in root.glob("examples/*.rig.json"):
            shutil.copy(rig, folder)
        shutil.copy(folder / "heron.rig.json", folder / "a heron's sister.rig.json")
        shutil.copy(root / "tests/cli/rigs/broken.rig.json", folder / "broken.json")
        rigs = sorted(path.name for path in folder.glob("*.rig.json"))

        def spread(shards, form, *words):
            out = folder / "library"
            out.write_bytes(b"as it was")
            done = subprocess.run([root / "examples/queue/check_library", "-n", str(shards), "-f", form, "-o", out.name, *words], cwd=folder,
                                  env={"PATH": "/usr/bin:/bin", "HOME": name, "LC_ALL": "C.UTF-8", "LIGAMENT": str(program)},
                                  stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
            return done.returncode, out.read_bytes(), done.stderr.decode()

        def alone(form, *words):
            done = subprocess.run([program, "check", "--format", form, *words], cwd=folder, stdout=subprocess.PIPE, check=False)
            return done.returncode, done.stdout

        # Also more parts than rigs, one part, and formats that are no JSON.
        for shards, form in [(3, "json"), (1, "json"), (7, "json"), (3, "text"), (2, "sarif"), (3, "junit"), (3, "markdown")]:
            expect(spread(shards, form, *rigs)[:2], alone(form, *rigs), shards, "shards,", form)
        expect(alone("json", *rigs)[0], 1, "the faulty heron has findings")
        clean = [rig for rig in rigs if "faulty" not in rig and "before" not in rig]
        expect(spread(3, "json", *clean)[:2], alone("json", *clean), "clean rigs")
        expect(alone("json", *clean)[0], 0, "clean rigs have none")

        status, kept, said = spread(3, "json", *rigs, "broken.json")
        expect((status, kept), (2, b"as it was"), "a rig that cannot be read stops all")
        expect("broken.json:5:34: unknown bone" in said, True, "and is named:", said)
        expect(spread(0, "json", *rigs)[0], 2, "no shards")
        expect(spread(3, "json")[0], 2, "no rigs")
    print(f"{looked_at} looked at, {faults} failed")
    return 1 if faults else 0


sys.exit(main())
