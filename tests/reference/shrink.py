"""How small a rig still differs? Takes pieces out of the rig of a seed as long as it differs in the same thing.

    shrink.py --program .../ligament --dump .../dump_graph 4711 "cut cost"
"""
import argparse
import json
import pathlib
import subprocess
import tempfile

from compare import compare_rig, read_dump
from differences import Differences
from random_rigs import random_rig
from smaller import smallest


def differences_of(arguments, described, path):
    """What differs of a description; nothing where it is no rig any more."""
    differences, text = Differences(), json.dumps(described, indent=1, ensure_ascii=False)
    pathlib.Path(path).write_text(text, encoding="utf-8")
    dumped = read_dump(subprocess.run([arguments.dump, path], capture_output=True, check=True, text=True).stdout)[path]
    if dumped["faults"]:
        return differences
    try:
        compare_rig(arguments, differences, "smallest", path, text, dumped, False)
    except (KeyError, AssertionError):  # a piece that the reader can do without, but not the reference
        return Differences()
    return differences


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--program", required=True)
    parser.add_argument("--dump", required=True)
    parser.add_argument("seed", type=int)
    parser.add_argument("what", help="the sort of difference, as compare.py calls it")
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = f"{folder}/smallest.rig.json"
        least = smallest(random_rig(arguments.seed), lambda j: arguments.what in differences_of(arguments, j, path).counts)
        print(json.dumps(least, ensure_ascii=False))
        print(differences_of(arguments, least, path).texts.get(arguments.what, "it does not differ"))


if __name__ == "__main__":
    main()
