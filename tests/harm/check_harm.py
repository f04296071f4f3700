#!/usr/bin/env python3
"""What is left when a call cannot go on? A clear line, the old file as it was, no temporary file, no child process.

`check_harm.py PROGRAM [NAME...]`. What a machine cannot show (no mount allowed, a build whose memory has no limit) is skipped with a word.
The judge is the operating system: errors as errno(3) names them, deaths as wait(2) tells them, processes as proc(5) lists them."""

import contextlib
import json
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "support"))
sys.dont_write_bytecode = True
import make_rig  # noqa: E402

HERON = HERE.parents[1] / "examples" / "heron.rig.json"
PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
LIMITS_MEMORY = b"__asan_init" not in PROGRAM.read_bytes()
OLD = "what stood here before\n"
NOBODY = 65534
for ignored in (signal.SIGINT, signal.SIGHUP):  # as a shell leaves them to what it starts with & or nohup; the program would, too
    if signal.getsignal(ignored) == signal.SIG_IGN:
        signal.signal(ignored, signal.SIG_DFL)
PATIENCE = 30  # seconds; nothing here takes so long unless it hangs, on a loaded machine neither


def wait_until(is_so, what):
    end = time.monotonic() + PATIENCE
    while not is_so():
        if time.monotonic() > end:
            raise AssertionError(f"waited {PATIENCE} s for {what}")
        time.sleep(0.005)


def process(pid):
    """(state, parent, start time) of a process; None where there is none. The name before them may hold anything but is in ()."""
    try:
        words = pathlib.Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    except (FileNotFoundError, ProcessLookupError):
        return None
    return words[0], int(words[1]), words[19]


def children_of(pid):
    """(pid, start time) of each: a number alone may be given to another process later."""
    found = set()
    for entry in os.listdir("/proc"):
        if entry.isdigit() and (told := process(entry)) and told[1] == pid:
            found.add((int(entry), told[2]))
    return found


def is_gone(child):
    told = process(child[0])
    return told is None or told[2] != child[1] or told[0] in "ZX"


def drop_privileges():
    if os.getuid() == 0:
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)


def limit(kind, size):
    return lambda: resource.setrlimit(kind, (size, size))


class Harm(unittest.TestCase):
    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)
        self.folder.chmod(0o755)
        shutil.copy(HERON, self.folder / "heron.rig.json")
        (self.folder / "old").write_text(OLD)
        (self.folder / "old").chmod(0o640)
        self.names = self.listed()

    def listed(self):
        return sorted(str(path.relative_to(self.folder)) for path in self.folder.rglob("*"))

    def big_rig(self, bones):
        (self.folder / "big.rig.json").write_text(json.dumps(make_rig.rig(bones)))
        self.names = self.listed()
        return "big.rig.json"

    def start(self, *arguments, **options):
        program = options.pop("program", PROGRAM)
        given = {"cwd": self.folder, "stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
        started = subprocess.Popen([program, *arguments], **{**given, **options})
        self.addCleanup(lambda: (started.kill(), started.communicate()))
        return started

    def run_program(self, *arguments, **options):
        started = self.start(*arguments, **options)
        output, error = started.communicate(timeout=PATIENCE)
        return started.returncode, output, error

    def expect(self, ended, status, error):
        self.assertEqual((ended[0], ended[2]), (status, error))

    def expect_as_before(self):
        self.assertEqual(self.listed(), self.names)
        self.assertEqual((self.folder / "old").read_text(), OLD)
        self.assertEqual((self.folder / "old").stat().st_mode & 0o7777, 0o640)

    def expect_gone(self, children):
        self.assertTrue(children)
        for child in children:
            wait_until(lambda: is_gone(child), f"the end of child {child}")

    def end_of(self, started, sent):
        os.kill(started.pid, sent)
        _, error = started.communicate(timeout=PATIENCE)
        return started.returncode, None, error

    def stopped_children(self, started):
        """Children that cannot come to their own end: what ends a stopped process is SIGKILL alone."""
        found = set()

        def are_some_stopped():
            for child in children_of(started.pid):
                try:
                    os.kill(child[0], signal.SIGSTOP)
                except ProcessLookupError:
                    continue
                wait_until(lambda: (process(child[0]) or "Z")[0] in "TZX", "a child to stop")
                if (process(child[0]) or "Z")[0] == "T":
                    found.add(child)
                    self.addCleanup(lambda held=child: is_gone(held) or os.kill(held[0], signal.SIGKILL))
            return found

        wait_until(are_some_stopped, "children")
        return found

    def fifo(self, name="fifo"):
        os.mkfifo(self.folder / name)
        self.names = self.listed()
        return self.folder / name


class Reading(Harm):
    """The bounds that README.md states, at the sizes that it states. Others need the library, and stand in tests/read."""

    def expect_fault(self, name, content, fault):
        (self.folder / name).write_text(content)
        status, output, error = self.run_program("check", name)
        self.assertEqual((status, output), (2, ""))
        self.assertIn(fault, error)
        self.assertLess(len(error), 20_000)

    def test_file_larger_than_is_read(self):
        for name in ("big.rig.json", "big.glb"):
            with open(self.folder / name, "wb") as big:
                big.truncate((1 << 30) + 1)  # a hole: it takes no room
            self.expect(self.run_program("check", name), 2,
                        f'{name}: cannot read "{name}": it is larger than 1073741824 bytes, the most that is read\n')

    def test_nesting(self):
        deep = "[" * 100_000 + "]" * 100_000
        start = '{"format": "rig-description", "version": 1, "name": "reed", "bones": [], "extras": '
        self.expect_fault("lists.rig.json", start + deep + "}", "nested deeper than 1000")
        self.expect_fault("open.rig.json", start + "[" * 100_000, "nested deeper than 1000")
        objects = '{"a": ' * 100_000 + "1" + "}" * 100_000
        self.expect_fault("objects.rig.json", start + objects + "}", "nested deeper than 1000")
        self.expect_fault("lists.gltf", '{"asset": {"version": "2.0"}, "nodes": ' + deep + "}", "nested deeper than 1000")

    def test_values(self):
        start = '{"asset": {"version": "2.0"}, "extras": ['
        self.expect_fault("values.gltf", start + "0," * 20_000_000 + "0]}", "more than 20000000 values, the text behind is not read")

    def test_names_and_expressions(self):
        rig = {"format": "rig-description", "version": 1, "name": "reed", "bones": [{"name": "b" * 1_001}]}
        self.expect_fault("name.rig.json", json.dumps(rig), "name of 1001 characters, at most 1000 are taken")
        self.expect_fault("name.gltf", json.dumps({"asset": {"version": "2.0"}, "nodes": [{"name": "b" * 1_001}]}),
                          "name of 1001 characters, at most 1000 are taken (/nodes/0)")
        long = {"rotation.x": {"expression": "1" + "+1" * 5_000, "inputs": {}}}
        rig["bones"] = [{"name": "b", "channels": long}]
        self.expect_fault("long.rig.json", json.dumps(rig), "expression of 10001 characters, at most 10000 are taken")
        long["rotation.x"]["expression"] = "(" * 1_001 + "1" + ")" * 1_001
        self.expect_fault("deep.rig.json", json.dumps(rig), "deeper than 1000")

    def test_masses_of_faults(self):
        rig = '{"format": "rig-description", "version": 1, "name": "reed", "bones": [' + "{}," * 100_000 + "{}]}"
        (self.folder / "faults.rig.json").write_text(rig)
        status, _, error = self.run_program("check", "faults.rig.json")
        self.assertEqual((status, len(error.splitlines())), (2, 100_001))
        self.assertIn("and 1 more faults, listed are 100000", error.splitlines()[-1])


class Writing(Harm):
    COMMANDS = (("check", "--format", "json"), ("states", "--format", "json"), ("draw",), ("report",), ("convert",))

    def test_full_device(self):
        for command in self.COMMANDS:
            with open("/dev/full", "w") as full:
                to_standard_output = ("-o", "-") if command[0] in ("draw", "report") else ()
                self.expect(self.run_program(*command, "heron.rig.json", *to_standard_output, stdout=full), 2,
                            "ligament: cannot write standard output: no space left on device\n")
        self.expect(self.run_program("draw", "heron.rig.json", "-o", "/dev/full"), 2,
                    'ligament: cannot write "/dev/full": no space left on device\n')
        self.expect_as_before()

    def test_watching_where_nobody_reads(self):
        """It ends, also where the first report is what cannot be written."""
        with open("/dev/full", "w") as full:
            self.expect(self.run_program("watch", "heron.rig.json", stdout=full), 2,
                        "ligament: cannot write standard output: no space left on device\n")
        reading, writing = os.pipe()
        os.close(reading)
        ended = self.run_program("watch", "heron.rig.json", stdout=writing)
        os.close(writing)
        self.expect(ended, 2, "ligament: cannot write standard output: broken pipe\n")

    def test_file_is_on_disk_before_it_stands_in_its_place(self):
        """As strace(1) tells it: all is written, then fsync(2), then rename(2) over the old file, and nothing after it."""
        strace = shutil.which("strace")
        if not strace or subprocess.run([strace, "-o", "/dev/null", "true"], capture_output=True).returncode != 0:
            self.skipTest("no strace here, or none that may look")
        without_leaks = {"env": {**os.environ, "ASAN_OPTIONS": "detect_leaks=0"}}  # which cannot be looked for under strace
        for command in self.COMMANDS:
            if command[0] == "states":
                continue
            self.names = self.listed()
            self.run_program("-o", "calls", "-e", "trace=openat,write,fsync,rename", "-y", PROGRAM, *command, "heron.rig.json",
                             "-o", "old", program=strace, **without_leaks)
            calls = re.findall(r"^(\w+)\((.*/old\b.*)\) += \d", (self.folder / "calls").read_text(), re.M)
            (self.folder / "calls").unlink()
            self.assertRegex(" ".join(name for name, _ in calls), r"^openat (write )+fsync rename$")
            self.assertRegex(calls[-1][1], r'/old\.\w{6}", ".*/old"$')
            self.assertEqual(self.listed(), self.names)
            self.assertNotEqual((self.folder / "old").read_text(), OLD)

    def test_file_that_may_not_grow(self):
        for command in self.COMMANDS:
            if command[0] == "states":
                continue  # writes to standard output alone
            self.expect(self.run_program(*command, "heron.rig.json", "-o", "old", preexec_fn=limit(resource.RLIMIT_FSIZE, 100)), 2,
                        'ligament: cannot write "old": file too large\n')
            self.expect_as_before()

    def test_full_disk(self):
        disk = self.folder / "disk"
        disk.mkdir()
        mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "none", disk], capture_output=True, text=True)
        if mounted.returncode != 0:
            self.skipTest(f"no file system of 64 KiB: {mounted.stderr.strip()}")
        self.addCleanup(subprocess.run, ["umount", disk], check=True)
        (disk / "page.html").write_text(OLD)
        self.expect(self.run_program("report", "heron.rig.json", "-o", "disk/page.html"), 2,
                    'ligament: cannot write "disk/page.html": no space left on device\n')
        self.assertEqual((disk / "page.html").read_text(), OLD)
        self.assertEqual(os.listdir(disk), ["page.html"])

    def test_pages_on_a_full_disk_are_whole(self):
        """The pages before the one that does not fit are written, that one is not, and none is cut off."""
        call = ("draw", "heron.rig.json", "--view", "group", "-o", "pages/")
        self.run_program(*call)
        pages = sorted((self.folder / "pages").iterdir(), key=lambda page: page.stat().st_mtime_ns)
        whole = [page.read_bytes() for page in pages]
        large = next(i for i in range(1, len(pages)) if len(whole[i]) > max(map(len, whole[:i])))
        shutil.rmtree(self.folder / "pages")
        self.expect(self.run_program(*call, preexec_fn=limit(resource.RLIMIT_FSIZE, len(whole[large]) - 1)), 2,
                    f'ligament: cannot write "pages/{pages[large].name}": file too large\n')
        self.assertEqual({page: page.read_bytes() for page in (self.folder / "pages").iterdir()}, dict(zip(pages[:large], whole)))

    def test_new_folder_without_a_page_goes(self):
        self.expect(self.run_program("draw", "heron.rig.json", "-o", "new/deep/", preexec_fn=limit(resource.RLIMIT_FSIZE, 100)), 2,
                    'ligament: cannot write "new/deep/plan.svg": file too large\n')
        self.expect_as_before()

    def test_folder_that_is_not_there(self):
        self.expect(self.run_program("check", "heron.rig.json", "-o", "none/out"), 2,
                    'ligament: cannot write "none/out": no such file or directory\n')
        self.expect_as_before()

    def test_target_is_a_folder(self):
        (self.folder / "sub").mkdir()
        self.names = self.listed()
        for command in (("check",), ("report",)):
            self.expect(self.run_program(*command, "heron.rig.json", "-o", "sub"), 2, 'ligament: cannot write "sub": is a directory\n')
        self.expect_as_before()

    def test_folder_below_a_file(self):
        self.expect(self.run_program("draw", "heron.rig.json", "-o", "old/pages/"), 2,
                    'ligament: cannot make folder "old/pages/": not a directory\n')
        self.expect_as_before()

    def test_closed_pipe(self):
        for command in (("check", "--format", "json"), ("draw", "-o", "-"), ("report", "-o", "-")):
            reading, writing = os.pipe()
            os.close(reading)
            ended = self.run_program(*command, "heron.rig.json", stdout=writing)
            os.close(writing)
            self.expect(ended, 2, "ligament: cannot write standard output: broken pipe\n")

    def test_reader_that_goes_half_way(self):
        started = self.start("report", "heron.rig.json", "-o", "-")
        self.assertEqual(started.stdout.read(9), "<!DOCTYPE")
        started.stdout.close()
        self.assertEqual(started.stderr.read(), "ligament: cannot write standard output: broken pipe\n")
        self.assertEqual(started.wait(PATIENCE), 2)


class Permissions(Harm):
    """As a user whom they bind; root is none, so that it becomes nobody."""

    def setUp(self):
        super().setUp()
        self.program = self.folder / "bin" / "ligament"
        self.program.parent.mkdir()
        shutil.copy(PROGRAM, self.program)  # that user may not be able to reach the original
        self.names = self.listed()
        self.addCleanup(self.folder.chmod, 0o755)

    def call(self, *arguments):
        return self.run_program(*arguments, program=self.program, preexec_fn=drop_privileges)

    def own(self, mode, *names):
        for name in names:
            if os.getuid() == 0:
                os.chown(self.folder / name, NOBODY, NOBODY)
            (self.folder / name).chmod(mode)

    def test_read_only_folder(self):
        self.own(0o640, "old")
        self.own(0o555, ".")
        for command in (("check",), ("draw",), ("report",)):
            self.expect(self.call(*command, "heron.rig.json", "-o", "old"), 2,
                        'ligament: cannot write "old": no file may be made in its folder: permission denied\n')
        self.expect(self.call("draw", "heron.rig.json", "-o", "pages/"), 2,
                    'ligament: cannot make folder "pages/": permission denied\n')
        self.expect_as_before()

    def test_read_only_file(self):
        self.own(0o440, "old")
        self.own(0o755, ".")
        self.expect(self.call("check", "heron.rig.json", "-o", "old"), 2, 'ligament: cannot write "old": permission denied\n')
        self.assertEqual(((self.folder / "old").read_text(), self.listed()), (OLD, self.names))

    def test_unreadable_input(self):
        self.own(0o000, "heron.rig.json")
        status, output, error = self.call("check", "heron.rig.json")
        self.assertEqual((status, output), (2, ""))
        self.assertRegex(error, r'(?i)^heron\.rig\.json: cannot read "heron\.rig\.json": permission denied\n$')


class Interruption(Harm):
    def reading(self, *arguments, **options):
        """A call that waits in reading from a pipe, and the end of the pipe to write to."""
        fifo = self.fifo()
        started = self.start("check", "fifo", *arguments, **options)
        return started, open(fifo, "w")  # waits for the reader

    def test_while_reading(self):
        for sent in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            started, pipe = self.reading("-o", "old")
            with pipe:
                self.expect(self.end_of(started, sent), -sent, "ligament: interrupted, nothing was written\n")
            self.expect_as_before()
            (self.folder / "fifo").unlink()

    def test_while_drawings_are_made(self):
        rig = self.big_rig(2000)
        for sent in (signal.SIGINT, signal.SIGTERM):
            started = self.start("report", rig, "-o", "old")
            children = self.stopped_children(started)
            self.assertEqual(len(list(self.folder.glob("old.*"))), 1)
            self.expect(self.end_of(started, sent), -sent, "ligament: interrupted, nothing was written\n")
            self.expect_gone(children)
            self.expect_as_before()

    def test_new_folders_go(self):
        rig = self.big_rig(2000)
        second = ("heron.rig.json", rig)
        for call in (("draw", rig, "--view", "all", "-o", "new/deep/"), ("report", *second, "-o", "new")):
            started = self.start(*call)
            self.stopped_children(started)
            self.assertTrue((self.folder / "new").is_dir())
            self.expect(self.end_of(started, signal.SIGINT), -signal.SIGINT, "ligament: interrupted, nothing was written\n")
            self.expect_as_before()

    def test_killed_parent_leaves_no_child(self):
        """SIGKILL can be heeded by nobody: the old file stays, and the temporary one is all that is left."""
        started = self.start("report", self.big_rig(2000), "-o", "old")
        children = self.stopped_children(started)
        started.kill()
        started.wait(timeout=PATIENCE)
        for child in children:  # one that was stopped as soon as it began has not asked to die with its parent, and has to look for it
            with contextlib.suppress(ProcessLookupError):
                os.kill(child[0], signal.SIGCONT)
        started.communicate(timeout=PATIENCE)
        self.expect_gone(children)
        self.assertEqual((self.folder / "old").read_text(), OLD)

    def test_between_two_pages(self):
        """The last page's name is that of a pipe without a reader, so that the program waits there with the others written."""
        self.run_program("draw", "heron.rig.json", "--view", "all", "-o", "pages/")
        pages = sorted((self.folder / "pages").iterdir(), key=lambda page: page.stat().st_mtime_ns)
        whole = {page: page.read_bytes() for page in pages}
        for page in pages:
            page.unlink()
        os.mkfifo(pages[-1])
        started = self.start("draw", "heron.rig.json", "--view", "all", "-o", "pages/")
        wait_until(pages[-2].exists, "the last page but one")
        self.expect(self.end_of(started, signal.SIGTERM), -signal.SIGTERM,
                    "ligament: interrupted, what was not finished was not written\n")
        self.assertEqual({page: page.read_bytes() for page in pages[:-1]}, {page: whole[page] for page in pages[:-1]})
        self.assertEqual(len(list((self.folder / "pages").iterdir())), len(pages))

    def test_while_writing_to_a_pipe(self):
        started = self.start("report", "heron.rig.json", "-o", "-")  # more than a pipe holds
        self.assertEqual(os.read(started.stdout.fileno(), 9), b"<!DOCTYPE")
        self.expect(self.end_of(started, signal.SIGINT), -signal.SIGINT, "ligament: interrupted, the output is incomplete\n")

    def test_ignored_signals_stay_ignored(self):
        """As under nohup(1), or behind & in a shell script."""
        def ignore():
            for one in (signal.SIGINT, signal.SIGHUP):
                signal.signal(one, signal.SIG_IGN)

        started, pipe = self.reading("--format", "json", preexec_fn=ignore)
        with pipe:
            for one in (signal.SIGINT, signal.SIGHUP):
                os.kill(started.pid, one)
            pipe.write((self.folder / "heron.rig.json").read_text())
        output, error = started.communicate(timeout=PATIENCE)
        self.assertEqual((started.returncode, error), (0, ""))
        self.assertEqual(json.loads(output)["source"], "fifo")


class Bounds(Harm):
    @unittest.skipUnless(LIMITS_MEMORY, "this build limits no memory")
    def test_memory_unless_told(self):
        """As README.md says, and as proc(5) tells it: the addresses of a process, in bytes."""
        fifo = self.fifo()
        started = self.start("check", "fifo")
        with open(fifo, "w"):
            limits = pathlib.Path(f"/proc/{started.pid}/limits").read_text()
        self.assertRegex(limits, rf"Max address space +{8 << 30} ")

    def test_time_while_reading(self):
        fifo = self.fifo()
        started = self.start("check", "fifo", "-o", "old", "--timeout", "0.3")
        with open(fifo, "w"):
            _, error = started.communicate(timeout=PATIENCE)
        self.expect((started.returncode, None, error), 2, "ligament: stopped after 0.3 s (--timeout), nothing was written\n")
        self.expect_as_before()

    def test_time_is_counted_in_seconds(self):
        fifo = self.fifo()
        started = self.start("check", "fifo", "--timeout", "0.0001h")
        with open(fifo, "w"):
            _, error = started.communicate(timeout=PATIENCE)
        self.expect((started.returncode, None, error), 2, "ligament: stopped after 0.36 s (--timeout), nothing was written\n")

    def test_time_while_drawings_are_made(self):
        started = self.start("report", self.big_rig(2000), "-o", "old", "--timeout", "1.5")
        children = self.stopped_children(started)  # well before their own limit of time
        self.expect((started.wait(PATIENCE), None, started.stderr.read()), 2,
                    "ligament: stopped after 1.5 s (--timeout), nothing was written\n")
        self.expect_gone(children)
        self.expect_as_before()

    def test_alarm_that_was_blocked(self):
        fifo = self.fifo()
        started = self.start("check", "fifo", "--timeout", "0.3",
                             preexec_fn=lambda: signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGALRM]))
        with open(fifo, "w"):
            self.assertEqual(started.wait(PATIENCE), 2)


@unittest.skipUnless(LIMITS_MEMORY, "AddressSanitizer takes terabytes of addresses, so this build limits no memory")
class Memory(Harm):
    def test_a_large_rig(self):
        rig = self.big_rig(20_000)
        for memory in ("1", "100K", "10M", "25M"):
            bound = memory + " bytes" if memory.isdigit() else memory
            self.expect(self.run_program("check", rig, "--format", "json", "-o", "old", "--max-memory", memory), 2,
                        f"ligament: out of memory: the limit is {bound} (--max-memory), nothing was written\n")
            self.expect_as_before()
        self.assertEqual(self.run_program("check", rig, "--format", "json", "--max-memory", "1G")[0], 0)

    def test_a_limit_from_outside_stays(self):
        size = 25 << 20
        outside = {"preexec_fn": limit(resource.RLIMIT_AS, size)}
        rig = self.big_rig(20_000)
        for memory in ("8G", "none"):
            self.expect(self.run_program("check", rig, "-o", "old", "--max-memory", memory, **outside), 2,
                        f"ligament: out of memory: the limit is {size} bytes, set outside and below --max-memory {memory}, "
                        "nothing was written\n")
        self.expect_as_before()

    def test_layouts(self):
        """From too little for the program to enough for all: each call ends in one of four ways, and layouts run out in some."""
        bound = r"the limit is \d+K \(--max-memory\)"
        pages = r"(heron\.rig\.json: \d+ pages: .*\n)?"
        ways = {"program": (2, rf"ligament: out of memory: {bound}, nothing was written\n"),
                "layout": (2, rf'ligament: no drawing of heron\.rig\.json: .* \(the layout ran out of memory\), {bound}\n'),
                "rows": (0, rf"{pages}heron\.rig\.json: .* failed \(the layout ran out of memory\), so its boxes stand in rows; {bound}\n"),
                "whole": (0, pages)}
        seen = set()
        for kibibytes in range(10_000, 80_000, 300):
            status, _, error = self.run_program("draw", "heron.rig.json", "--group", "wing_l", "-o", "out.svg", "--max-memory",
                                                f"{kibibytes}K")
            ended = {way for way, (code, text) in ways.items() if code == status and re.fullmatch(text, error)}
            self.assertEqual(len(ended), 1, (kibibytes, status, error))
            seen |= ended
            self.assertEqual((self.folder / "out.svg").exists(), status == 0)
            for page in self.folder.glob("out*.svg"):
                page.unlink()
            self.expect_as_before()
            if "whole" in ended:
                break
        self.assertTrue({"program", "whole"} <= seen and seen & {"layout", "rows"}, seen)


if __name__ == "__main__":
    unittest.main()
