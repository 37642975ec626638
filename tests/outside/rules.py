#!/usr/bin/env python3
"""Worked examples by the command: every example of assets/examples holds, every one of them fails when what it expects is
changed, and a file that cannot be read is named. Usage: rules.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import copy
import json
import re

from black_box.program import ROOT, Count, Program, binary_path

EXAMPLES = sorted((ROOT / "assets/examples").glob("*.json"))

# The names that other tools rely on.
NAMES = """fasting fasting-dst fasting-input fasting-combined fasting-meal-type glp1 glp1-hold bmi ideal-weight
anthropometry-input units age stop-bang stop-bang-derived asa-class airway-review mallampati map map-alert alert-band
baseline-change plausible vitals-timer depth airway-event dose-total dose-span dose-cumulative lidocaine pause screen
medicine-window pregnancy hiatal-hernia look dye dye-dose gs1-label gs1-check-digit gs1-expiry fill-sum double-tap fill-pace
count-check bag-check syringe-check geometry osmolarity read-back implant-card-complete aldrete-circulation aldrete-oxygen
aldrete-activity aldrete-total aldrete-trend recovery-fit recovery-vitals-interval padss-vital padss-total symptom-band
discharge-drink-kept discharge-checks after-sedation-limits diet-plan visit-plan medicine-dates due-date register-status
removal-book-by lost-to-follow-up removal-prep recovered-volume removal-fluid-colour outcomes responder removal-timing
register-rates register-median signature-components signature-shown audit-trail record-retention elapsed-time
warning-signs""".split()

GOOD = {"id": "map-1", "rule": "map", "inputs": {"sbp": 118, "dbp": 72}, "expected": {"map_mmHg": 87}, "source": "before.md 7"}


def good(**changes):
    example = copy.deepcopy(GOOD)
    for key, value in changes.items():
        example[key] = value
    return {key: value for key, value in example.items() if value is not None}


# What is wrong, the example, and what the one sentence must name.
MALFORMED = [
    ("an unknown rule", good(rule="mapp"), ["\"mapp\"", "did you mean \"map\""]),
    ("a rule with no near name", good(rule="zzzzzzzz"), ["\"zzzzzzzz\""]),
    ("no rule", good(rule=None), ["\"rule\"", "--list"]),
    ("an unknown input", good(inputs={"sbp": 118, "dpb": 72}), ["\"dpb\"", "did you mean \"dbp\""]),
    ("an unknown expected field", good(expected={"map_mmhg": 87}), ["\"map_mmhg\"", "did you mean \"map_mmHg\""]),
    ("an unknown field of the example", good(expectd={}), ["\"expectd\"", "did you mean \"expected\""]),
    ("a text for a number", good(inputs={"sbp": "high", "dbp": 72}), ["sbp", "number", "high"]),
    ("a fraction for a whole number", good(inputs={"sbp": 118.5, "dbp": 72}), ["sbp", "whole", "118.5"]),
    ("a number too large", good(inputs={"sbp": 118000000000, "dbp": 72}), ["sbp", "at most"]),
    ("a missing input", good(inputs={"sbp": 118}), ["\"dbp\" is missing"]),
    ("a null for a needed input", good(inputs={"sbp": 118, "dbp": None}), ["\"dbp\" is missing"]),
    ("a list for a number", good(inputs={"sbp": [118], "dbp": 72}), ["sbp", "list"]),
    ("nothing expected", good(expected={}), ["\"expected\" is empty"]),
    ("no inputs", good(inputs=None), ["\"inputs\" must be an object"]),
    ("a list of inputs", good(inputs=[118, 72]), ["\"inputs\" must be an object"]),
    ("a tolerance that is no number", good(tolerance="small"), ["tolerance"]),
    ("an example that is no object", 7, ["must be an object"]),
    ("a nested unknown field", good(rule="double-tap", inputs={"ms_since_last": 1, "policy": {"mins": 8}},
                                    expected={"result": "question"}), ["\"policy.mins\"", "did you mean \"min_s\""]),
    ("a time that is none", good(rule="age", inputs={"birth": "1986-02-30", "on": "2026-11-25"},
                                 expected={"age_years": 40}), ["birth", "1986-02-30"]),
    ("an unknown zone", good(rule="after-sedation-limits", expected={"until_utc": "2026-11-26T13:00:00Z"},
                             inputs={"zone": "Europe/Lundon", "discharged_local": "2026-11-25 13:00", "hours": 24}),
     ["Europe/Lundon"]),
    ("a yes for true", good(rule="responder", inputs={"start_kg": 100, "end_kg": 80, "mark_percent": 10},
                            expected={"responder": "yes"}), ["responder", "true or false"]),
    ("a word that is not listed", good(rule="glp1-hold", expected={"hold_met": True}, inputs={
        "formulation": "weekley", "last_dose_date": "2026-11-18", "procedure_date": "2026-11-25"}),
     ["formulation", "weekley", "daily, weekly", "did you mean \"weekly\""]),
    ("an unlisted word in a list", good(rule="look", inputs={"findings": ["ulcers"]}, expected={"stop": True}),
     ["findings[0]", "ulcers", "did you mean \"ulcer\""]),
    ("a weight finer than is kept", good(rule="bmi", inputs={"weight_kg": 96.45, "height_cm": 167},
                                         expected={"who_class": "normal"}), ["weight_kg", "tenths", "96.45"]),
]


def run_list(program, examples, *flags):
    return program.call("rules", "-", *flags, given=json.dumps(examples).encode())


def total(run):
    """(held, differ, not read) of the last line."""
    found = re.search(r"^\d+ examples: (\d+) hold, (\d+) differ, (\d+) not read$", run.out, re.M)
    return tuple(map(int, found.groups())) if found else (0, 0, 0)


def other(value):
    """A value of the same kind that is not this one."""
    if isinstance(value, bool):
        return not value
    if value is None:
        return None
    if isinstance(value, (int, float)):
        return value + 1
    if isinstance(value, dict):
        return {key: other(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return value[:-1] if value else [1]
    if re.fullmatch(r"-?\d+\.\d+", value):
        return f"{float(value) + 1:.3f}"
    if re.fullmatch(r"\d\d:\d\d:\d\d", value):
        return value[:-1] + str((int(value[-1]) + 1) % 10)
    dated = re.match(r"(\d{4})(-\d\d-\d\d.*)", value)
    return f"{int(dated[1]) - 4}{dated[2]}" if dated else value + "9"


def shipped(count, program):
    for file in EXAMPLES:
        examples = json.loads(file.read_text())
        run = program.call("rules", file)
        wrong = {line.split(": ")[1] for line in run.out.splitlines() if ": expected " in line}
        for example in examples:
            count.check(f"{file.stem}: {example['id']}", example["id"] not in wrong and run.code == 0, run.out + run.err)
        count.check(f"{file.stem}: every example names its source", all(e.get("source") for e in examples))
    used = {e["rule"] for file in EXAMPLES for e in json.loads(file.read_text())}
    count.equal("every rule has an example", sorted(set(NAMES) - used), [])


def changed(count, program):
    """Each expected value that is not null is changed by itself: the example must differ."""
    broken = []
    for file in EXAMPLES:
        for example in json.loads(file.read_text()):
            for key, value in example["expected"].items():
                new = other(value)
                if new is not None and not (example["rule"] == "diet-plan" and isinstance(value, list)):
                    broken.append({**example, "expected": {key: new}, "id": f"{example['id']}/{key}"})
    run = run_list(program, broken)
    held, differ, unread = total(run)
    count.equal(f"{len(broken)} examples with one expected value changed all differ", (held, unread), (0, 0))
    count.equal("each changed example has its line with id, rule, expected and got", differ,
                len(re.findall(r"^-: .+?: [\w-]+: expected \{.*\}, got \{.*\} \(differs: .+\)$", run.out, re.M)))
    count.equal("examples that differ end with 1", run.code, 1)


def malformed(count, program):
    for name, example, words in MALFORMED:
        run = run_list(program, [example, GOOD])
        lines = run.err.strip().split("\n")
        count.check(f"{name} is one sentence", len(lines) == 1 and lines[0].endswith((".", "?")), run.err)
        count.check(f"{name} names what and where", all(word in run.err for word in words), run.err)
        count.equal(f"{name} ends with 2 and the others still run", (run.code, total(run)), (2, (1, 0, 1)))
    for name, text, words in [("no JSON", b"[{", ["JSON"]), ("an object", b"{}", ["must be a list"]),
                              ("nothing", b"", ["JSON"]), ("invalid letters", b"[\"\xff\"]", ["JSON"])]:
        run = program.call("rules", "-", given=text)
        count.check(f"a file of {name} is refused", run.code == 2 and all(w in run.err for w in words), run.err)
    run = program.call("rules", "no-such-file.json")
    count.check("a file that is not there is named", run.code == 2 and "no-such-file.json" in run.err, run.err)
    run = program.call("rules")
    count.check("no file at all is refused with what is allowed", run.code == 2 and "--list" in run.err, run.err)


def agreement(count, program):
    """How numbers, times and absent values are compared."""
    def holds(**changes):
        return run_list(program, [good(**changes)]).code == 0
    pound = {"rule": "units", "inputs": {"weight_lb": 150}}
    count.check("a number in quotes is a number", holds(expected={"map_mmHg": "87"}, inputs={"sbp": "118", "dbp": "72.0"}))
    count.check("a decimal agrees as it is shown", holds(**pound, expected={"weight_kg": 68}))
    count.check("a decimal agrees exactly", holds(**pound, expected={"weight_kg": "68.038856"}, tolerance="0.000001"))
    count.check("a decimal that is neither differs", not holds(**pound, expected={"weight_kg": 68.1}))
    count.check("a tolerance includes its end", holds(**pound, expected={"weight_kg": 68.1}, tolerance=0.1))
    count.check("beyond the tolerance differs", not holds(**pound, expected={"weight_kg": 68.2}, tolerance=0.1))
    count.check("digits beyond nine do not disturb", holds(**pound, expected={"weight_kg": 68.03885550000001}))
    count.check("null agrees with what is not there", holds(**pound, expected={"height_cm": None}))
    count.check("null differs from what is there", not holds(**pound, expected={"weight_kg": None}))
    count.check("what is not there differs from a value", not holds(**pound, expected={"height_cm": 170}))
    left = {"rule": "after-sedation-limits", "inputs": {"zone": "Europe/London", "discharged_local": "2027-10-30 15:10"}}
    for until in ["2027-10-31 14:10", "2027-10-31T14:10:00", "2027-10-31T14:10:00+00:00", "2027-10-31T15:10:00+01:00"]:
        count.check(f"a moment agrees as {until}", holds(**left, expected={"until_local": until}))
    for until in ["2027-10-31 14:11", "2027-10-30 14:10", "2027-10-31T14:10:00+01:00"]:
        count.check(f"a moment differs from {until}", not holds(**left, expected={"until_local": until}))


# What a slip, or somebody with bad intentions, may put into a field.
JUNK = [None, True, -1, 0, 1, 0.05, 10000000, 100000, 10000, -10000, "", "x", "2026-02-30", "0000-01-01", "9999-12-31",
        "9999-12-31T23:59:59+00:00", "0000-01-01 00:00", "23:59", "-", "1e5", "\u001d", "\u0000", [], {}, [[]], [None], [0, 0],
        [10000, -10000], {"value": 1}]


def junk(count, program):
    """Every field of every example with every kind of junk: always an answer, a difference or one sentence, never the end."""
    cases = []
    for file in EXAMPLES:
        for example in json.loads(file.read_text()):
            for field in example["inputs"]:
                for value in JUNK:
                    cases.append({**example, "id": str(len(cases)), "inputs": {**example["inputs"], field: value}})
    seen = unread = 0
    for start in range(0, len(cases), 10000):
        run = run_list(program, cases[start:start + 10000])
        seen += sum(total(run))
        unread += total(run)[2]
        count.check(f"examples {start} and on with junk in them end in order", run.code in (1, 2), f"{run.code} {run.err[-300:]}")
    count.equal("each example with junk is answered or refused", seen, len(cases))
    count.check("most junk is refused before a rule sees it", 2 * unread > len(cases), (unread, len(cases)))


def lists(count, program):
    listed = program.call("rules", "--list")
    found = re.findall(r"^([a-z0-9-]+)\n  inputs:  (.+)\n  outputs: (.+)\n  source:  (.+)$", listed.out, re.M)
    count.equal("--list names every rule, each once", sorted(name for name, *_ in found), sorted(NAMES))
    count.check("--list gives inputs, outputs and a source for each", len(found) == len(NAMES) and listed.code == 0)
    codes = program.call("rules", "--codes")
    rows = [line.split(": ", 1) for line in codes.out.splitlines()]
    count.check("--codes gives each code once with a sentence",
                codes.code == 0 and len({row[0] for row in rows}) == len(rows) > 70 and
                all(len(row) == 2 and row[1].endswith(("." , "?")) for row in rows), codes.out)
    for code in ["fasting-clear-fluid", "gate-position", "ceiling-passed", "role-may-not", "bad_check_digit", "unknown_ai"]:
        count.check(f"--codes knows {code}", code in [row[0] for row in rows])


def main():
    count = Count()
    program = Program(binary_path())
    for part in [shipped, changed, malformed, agreement, junk, lists]:
        part(count, program)
    program.end()
    count.end()


if __name__ == "__main__":
    main()
