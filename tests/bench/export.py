#!/usr/bin/env python3
"""How long one sealed case takes to leave the program, and 1,000 cases in every format in one pass with the memory they
take. A measurement, not a test. Usage: export.py [HOW_MANY]. Times are of whole processes, start included."""
import json
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
BINARY, TOOL = ROOT / "build/release/bin/brimline", ROOT / "build/release/tools/many_cases"
TRIES = 20


def milliseconds(words):
    times = []
    for _ in range(TRIES):
        start = time.monotonic()
        subprocess.run([BINARY, *words], stdout=subprocess.DEVNULL, check=True)
        times.append((time.monotonic() - start) * 1000)
    return sorted(times)


def main():
    how_many = int(sys.argv[1]) if len(sys.argv) > 1 and sys.argv[1].isdigit() else 1000
    with tempfile.TemporaryDirectory() as place:
        day, year = pathlib.Path(place) / "day", pathlib.Path(place) / "year"
        for name in ("people", "case-a", "case-b", "case-c"):
            subprocess.run([BINARY, "script", ROOT / f"demo/{name}.jsonl", "--data", day, "--policy", ROOT / "demo/policy"], stdout=subprocess.DEVNULL, check=True)
        subprocess.run([TOOL, day, year, str(how_many)], check=True)
        case = json.loads(subprocess.run([BINARY, "register", "--format", "json", "--on", "2026-12-01", "--data", year], capture_output=True, check=True).stdout)[0]["entry"]
        for store, data, name in (("3 cases", day, "B"), (f"{how_many} cases", year, case)):
            for form, goal in (("text", 50), ("json", 50), ("fhir", None)):
                took = milliseconds(["export", name, "--format", form, "--data", data])
                print(f"one sealed case as {form:5} from {store:11} p50 {took[TRIES // 2]:7.1f} ms   most {took[-1]:7.1f} ms" + (f"   goal {goal} ms" if goal else ""))
        start = time.monotonic()
        subprocess.run([BINARY, "export", "--all", "--folder", pathlib.Path(place) / "out", "--data", year], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
        took = time.monotonic() - start
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024
        size = sum(f.stat().st_size for f in (pathlib.Path(place) / "out").iterdir()) // (1 << 20)
        print(f"{how_many} cases in every format, signed: {took:.1f} s, {size} MiB written; no process took more than {peak} MiB")


if __name__ == "__main__":
    main()
