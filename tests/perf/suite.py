"""What do all sections of a measurement share? Programs, rigs, sizes, and what was found."""

import subprocess


class Suite:
    def __init__(self, build, folder, sizes, least_runs):
        self.program = build / "src" / "ligament"
        self.programs = build / "tests" / "perf"
        self.folder = folder
        self.sizes = sizes
        self.least_runs = least_runs
        self.goals = []
        self.raw = {}  # by section

    def runs(self, usual):
        """How often to run what is usually run so often; never below five, since medians of fewer carry no goal."""
        return max(5, self.least_runs or usual)

    def rig(self, bones, **options):
        """The path of a rig of so many bones; the same options give the same rig."""
        words = [word for name, value in sorted(options.items()) for word in (f"--{name}", str(value))]
        path = self.folder / ("_".join(["rig", str(bones), *words]).replace("--", "") + ".rig.json")
        if not path.exists():
            with open(path, "wb") as file:
                subprocess.run([self.programs / "perf_generate", str(bones), *words], stdout=file, check=True)
        return path
