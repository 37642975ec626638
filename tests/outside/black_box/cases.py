"""Many cases at once through `brimline rules`: inputs and what an independent source says must come out."""
import json
import os
import re
import sys


def with_debian(*modules):
    """Runs this script again under Debian's own Python where these modules are missing here."""
    missing = []
    for module in modules:
        try:
            __import__(module)
        except ImportError:
            missing.append(module)
    if not missing:
        return
    debian = "/usr/bin/python3"
    if os.path.realpath(sys.executable) == os.path.realpath(debian) or os.environ.get("BRIMLINE_DEBIAN_PYTHON"):
        print(f"These Python modules are missing: {', '.join(missing)}; third_party/install test installs them.")
        print("0 passed, 1 failed")
        sys.exit(1)
    os.environ["BRIMLINE_DEBIAN_PYTHON"] = "yes"
    os.execv(debian, [debian, *sys.argv])


class Cases:
    """Collects cases of one kind and runs them in portions."""
    PORTION = 20000

    def __init__(self, program, count):
        self.program = program
        self.count = count
        self.waiting = []

    def add(self, rule, inputs, expected, tolerance=None):
        example = {"id": str(len(self.waiting)), "rule": rule, "inputs": inputs, "expected": expected}
        if tolerance is not None:
            example["tolerance"] = tolerance
        self.waiting.append(example)

    def all_hold(self, name):
        """One check: all waiting cases hold. Its name carries their number."""
        cases, self.waiting = self.waiting, []
        held, wrong = 0, []
        for start in range(0, len(cases), self.PORTION):
            part = cases[start:start + self.PORTION]
            run = self.program.call("rules", "-", given=json.dumps(part).encode())
            found = re.search(r"^\d+ examples: (\d+) hold", run.out, re.M)
            held += int(found[1]) if found else 0
            wrong += (run.out + run.err).splitlines()[:3] if run.code else []
        self.count.check(f"{name} ({len(cases)} cases)", cases and held == len(cases), "\n        ".join(wrong[:3]))
