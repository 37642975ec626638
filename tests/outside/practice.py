#!/usr/bin/env python3
"""Practice and real patients never share a store: the kiosk refuses either in the other's folder before any window
opens. Usage: practice.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import os

from black_box.program import Count, Program, binary_path

from day import DEMO

BOOK = {"at": "2026-11-25T08:00:00+00:00", "by": "pia", "case": "P", "do": "book", "kind": "placement",
        "patient": {"number": "P-0001", "family_name": "PRACTICE", "given_name": "Ida", "born": "1990-01-01", "sex_at_birth": "f"},
        "planned": "2026-11-25T09:00:00+00:00", "room": "Room 1"}


def main():
    os.environ.pop("DISPLAY", None)  # what is refused must be refused without a screen
    count = Count()
    real = Program(binary_path(), DEMO / "policy")
    for name in ("people", "case-c"):
        real.script(DEMO / f"{name}.jsonl")
    run = real.call("kiosk", "--practice", "--data", real.data)
    count.equal("practice in a real store is refused with a sentence",
                (run.code, "practice has a store of its own" in run.err), (1, True))
    count.equal("and leaves it undamaged", real.verify().code, 0)
    rehearsed = Program(binary_path(), DEMO / "policy")
    rehearsed.script(DEMO / "people.jsonl")
    count.equal("a practice patient is booked by script", rehearsed.script([BOOK]).code, 0)
    run = rehearsed.call("kiosk", "--data", rehearsed.data)
    count.equal("a store of practice is not opened for real", (run.code, "one of practice" in run.err), (1, True))
    run = rehearsed.call("kiosk", "--practice", "--data", rehearsed.data)
    count.equal("with --practice only the missing screen is in the way", "one of practice" in run.err or "real patients" in run.err, False)
    for one in (real, rehearsed):
        one.end()
    count.end()


if __name__ == "__main__":
    main()
