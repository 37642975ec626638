"""The program seen from outside: runs it as a clinic would, reads what it prints, and counts checks.

Nothing here knows how Brimline is built; only its command line, its script language and its exit codes.
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]


def binary_path():
    """The program to test: first argument, else BRIMLINE, else the release build."""
    if len(sys.argv) > 1:
        return pathlib.Path(sys.argv[1]).resolve()
    return pathlib.Path(os.environ.get("BRIMLINE", ROOT / "build/release/bin/brimline")).resolve()


class Run:
    """What one call of the program came to."""

    def __init__(self, done):
        self.code = done.returncode
        self.raw = done.stdout
        self.out = done.stdout.decode("utf-8", "replace")
        self.err = done.stderr.decode("utf-8", "replace")

    @property
    def answers(self):
        return [json.loads(line) for line in self.out.splitlines()]


class Program:
    """The program on one data folder of its own, thrown away at the end."""

    def __init__(self, binary, policy=None):
        self.binary = str(binary)
        self.policy = policy
        self.folder = tempfile.mkdtemp(prefix="brimline-outside-")
        self.data = os.path.join(self.folder, "data")

    def call(self, *words, given=None):
        return Run(subprocess.run([self.binary, *map(str, words)], input=given, capture_output=True, timeout=120))

    def script(self, source, *flags):
        """Runs a file (a path), or text or lines given on standard input."""
        words = ["--data", self.data, *flags]
        if self.policy:
            words += ["--policy", str(self.policy)]
        if isinstance(source, pathlib.Path):
            return self.call("script", source, *words)
        if isinstance(source, list):
            source = "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in source)
        if isinstance(source, str):
            source = source.encode()
        return self.call("script", "-", *words, given=source)

    def show(self, case, at=None):
        run = self.call("show", case, "--data", self.data, *(["--at", at] if at else []))
        return json.loads(run.out) if run.code == 0 else {"failed": run.err}

    def text(self, case):
        return self.call("export", case, "--format", "text", "--data", self.data).out

    def events(self, case):
        return self.call("export", case, "--format", "json", "--data", self.data).answers

    def verify(self):
        return self.call("verify", "--data", self.data)

    def end(self):
        shutil.rmtree(self.folder, ignore_errors=True)


class Count:
    """Checks by name; a name is the sentence that is wrong when the check fails."""

    def __init__(self):
        self.passed = 0
        self.failed = 0
        self.names = set()

    def check(self, name, good, detail=""):
        if name in self.names:
            good, detail = False, "this name was used twice"
        self.names.add(name)
        if good:
            self.passed += 1
            return
        self.failed += 1
        print(f"FAILED  {name}" + (f"\n        {detail}" if detail != "" else ""))

    def equal(self, name, got, expected):
        self.check(name, got == expected, f"expected {expected!r}, got {got!r}")

    def holds(self, name, part, whole):
        """The text holds these words, however its lines are broken."""
        flat = re.sub(r"\s+", " ", whole)
        self.check(name, part in flat, f"not found: {part!r}")

    def lacks(self, name, part, whole):
        flat = re.sub(r"\s+", " ", whole)
        self.check(name, part not in flat, f"found: {part!r}")

    def end(self):
        print(f"{self.passed} passed, {self.failed} failed")
        sys.exit(0 if self.failed == 0 and self.passed > 0 else 1)


def page_one(text):
    return text.split("\nBefore sedation\n")[0]


def section(text, name):
    """The lines of one section of a text record."""
    parts = text.split(f"\n{name}\n" + "-" * 100 + "\n")
    return parts[1].split("\n" + "-" * 100)[0] if len(parts) == 2 else ""
