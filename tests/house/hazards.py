#!/usr/bin/env python3
"""The table of hazards: every row says harm, control and what remains, and names tests that exist."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
ROWS_AT_LEAST = 54  # the rows of what goes wrong in the room


def cases():
    """Names of all test cases as "file: name"."""
    names = set()
    for file in (ROOT / "tests").rglob("*.cpp"):
        for written in re.findall(r'TEST_CASE\(((?:\s*"(?:[^"\\]|\\.)*")+)\s*,', file.read_text()):
            name = "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', written))
            names.add(f"{file.stem}: {name}")
    return names


def faults_of(row, known):
    missing = [f"has no {part}" for part in ("Harm", "Control", "Proof", "Remains") if f"- {part}: " not in row]
    proofs = re.findall(r"^- Proof: `(.+)`$", row, re.MULTILINE)
    return missing + [f'names "{proof}", which is no test case' for proof in proofs if proof not in known]


def main():
    text = (ROOT / "assets" / "help" / "hazards.md").read_text()
    rows = re.split(r"^## ", text, flags=re.MULTILINE)[1:]
    known = cases()
    passed = failed = 0
    numbers = [int(row.split(".")[0]) for row in rows]
    if numbers != list(range(1, len(rows) + 1)) or len(rows) < ROWS_AT_LEAST:
        print(f"FAILED: rows are numbered {numbers[:3]}..{numbers[-1]}, wanted 1 to at least {ROWS_AT_LEAST}")
        failed += 1
    for row in rows:
        faults = faults_of(row, known)
        for fault in faults:
            print(f"FAILED: hazard {row.splitlines()[0]} {fault}")
        failed += bool(faults)
        passed += not faults
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


sys.exit(main())
