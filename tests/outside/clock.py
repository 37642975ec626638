#!/usr/bin/env python3
"""Case A moved so that the clocks change in the middle of recovery, both ways: every line is answered as on the day
itself, every duration is the same, nothing is noted of the clock, and the store is sound. Clock changes: Europe/London,
2026-10-25 and 2027-03-28 at 01:00 UTC (tz database). Usage: clock.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import datetime
import json
import re

from black_box.program import Count, Program, binary_path

from day import DEMO

MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)")
EARLIER = re.compile(r'"since":"(\d{4}-\d\d-\d\d)"')  # the day of the pre-visit, which moves with the case


def moved(text, by):
    def one(match):
        there = datetime.datetime.fromisoformat(match.group().replace("Z", "+00:00")) + by
        return there.isoformat()
    def day(match):
        return f'"since":"{datetime.date.fromisoformat(match.group(1)) + datetime.timedelta(days=by.days)}"'
    return EARLIER.sub(day, MOMENT.sub(one, text))


def run(binary, by):
    p = Program(binary, DEMO / "policy")
    answers = []
    for name in ("people", "case-a"):
        done = p.script(moved((DEMO / f"{name}.jsonl").read_text(), by if name == "case-a" else datetime.timedelta(days=-200)))
        answers += [(a["line"], a["result"], a.get("code"), a.get("raised"), a.get("ended")) for a in done.answers]
    return p, done, answers


def durations(shown):
    """Every number of the state whose name says minutes or seconds, by its path."""
    found = {}

    def walk(at, node):
        if isinstance(node, dict):
            for key, value in node.items():
                walk(f"{at}.{key}", value)
        elif isinstance(node, list):
            for i, value in enumerate(node):
                walk(f"{at}[{i}]", value)
        elif isinstance(node, (int, float)) and re.search(r"(_s|_min|minutes|seconds)(\[|$)", at.split(".")[-1]):
            found[at] = node
    walk("", shown)
    return found


def main():
    count = Count()
    binary = binary_path()
    plain, done, expected = run(binary, datetime.timedelta(0))
    count.equal("case A runs on its own day", done.code, 0)
    figures = durations(plain.show("A"))
    count.check("the state holds durations to compare", len(figures) >= 2, figures)
    middle = datetime.datetime.fromisoformat("2026-11-25T10:30:00+00:00")
    for name, change in (("back an hour", "2026-10-25T01:00:00+00:00"), ("ahead an hour", "2027-03-28T01:00:00+00:00")):
        by = datetime.datetime.fromisoformat(change) - middle
        p, done, answers = run(binary, by)
        count.equal(f"case A runs while the clock goes {name}", (done.code, done.err), (0, ""))
        differing = [(a, b) for a, b in zip(answers, expected) if a != b]
        count.equal(f"every line is answered alike while the clock goes {name}", differing, [])
        count.equal(f"every duration is the same while the clock goes {name}", durations(p.show("A")), figures)
        kinds = {e["kind"] for e in p.call("export", "--all", "--format", "json", "--data", p.data).answers}
        count.check(f"no jump is noted while the clock goes {name}", "clock-jump" not in kinds)
        count.equal(f"the store is sound after the clock went {name}", p.verify().code, 0)
        p.end()
    plain.end()
    count.end()


if __name__ == "__main__":
    main()
