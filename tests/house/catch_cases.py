#!/usr/bin/env python3
"""Runs a Catch2 program (2.13 or 3.x) and counts its cases one by one: "N passed, N failed" is the last line."""
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as Tree


def cases_of(report):
    """(name, passed) of every test case in Catch2's own XML report."""
    for case in Tree.parse(report).getroot().iter("TestCase"):
        result = case.find("OverallResult")
        yield case.get("name"), result is not None and result.get("success") == "true"


def main():
    program = sys.argv[1]
    with tempfile.TemporaryDirectory() as folder:
        report = os.path.join(folder, "report.xml")
        run = subprocess.run([program, "-r", "xml", "-o", report], capture_output=True, text=True, check=False)
        try:
            cases = list(cases_of(report))
        except (Tree.ParseError, FileNotFoundError) as problem:
            print(run.stdout[-2000:], run.stderr[-4000:])
            print(f"{program} ended with {run.returncode} before its report was whole: {problem}")
            print("0 passed, 1 failed")
            return 1
        failed = [name for name, good in cases if not good]
        for name in failed:
            print(f"failed: {name}")
        if failed or run.returncode != 0:
            words = subprocess.run([program, "-r", "console"], capture_output=True, text=True, check=False)
            print(words.stdout[-6000:], words.stderr[-3000:])
        crashed = run.returncode != 0 and not failed
        print(f"{len(cases) - len(failed)} passed, {len(failed) + crashed} failed")
        return 1 if failed or crashed or not cases else 0


if __name__ == "__main__":
    sys.exit(main())
