#!/usr/bin/env python3
"""The clinic's policy from outside: every number of the house files has a default within its range, a unit, a source and a
sentence; each is refused one step outside its range with file, key, value and range; faults are named all at once; a
stricter figure really holds longer. Usage: policy.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import json
import pathlib
from decimal import Decimal

from black_box.program import ROOT, Count, Program, binary_path

HOUSE = {file.name: json.loads(file.read_text()) for file in sorted((ROOT / "assets/policy").glob("*.json"))}

# Figures as the sources print them, written down a second time: key, default, from, to.
PRINTED = """fasting.clear-fluid-min 120 120 480|fasting.breast-milk-min 240 240 480|fasting.infant-formula-min 360 360 480
fasting.milk-min 360 360 720|fasting.light-meal-min 360 360 1440|fasting.fatty-meal-min 480 480 1440
fasting.milk-in-tea-percent 0 0 20|fasting.oldest-unasked-h 72 24 168|fasting.glp1-liquid-diet-min 1440 1440 4320
fasting.glp1-hold-weekly-days 0 0 28|fasting.glp1-hold-daily-days 0 0 7|body.ideal-bmi 25 23 25|body.review-bmi-below 30 25 35
body.review-bmi-above 40 40 70|body.review-age-below 18 16 21|body.review-age-above 65 60 80|airway.hold-from-asa 4 3 4
medicine.window-days 7 5 14|medicine.pregnancy-test-h 24 0 168|vitals.interval-s 300 60 900|vitals.lead-s 30 0 120
vitals.prompt-band 2 1 3|vitals.map-below 65 55 75|vitals.baseline-percent 25 15 40|vitals.etco2-high 50 45 60
vitals.etco2-absent-s 15 10 60|vitals.depth-prompt-at 1 0 2|dose.age-reduced-from 60 60 75|look.hernia-ceiling-cm 5 2 8
medicine.serotonergic-days 14 14 42|medicine.fluoxetine-days 35 35 70|fill.double-tap-s 8 1 15|fill.fast-ml-min 300 100 600
fill.stalled-s 120 30 600|fill.count-check-every 5 1 10|fill.bag-tolerance-ml 25 10 100|fill.saline-g-per-ml 1.0046 0.99 1.02
fill.read-back-tolerance-ml 0 0 5|recovery.threshold 9 8 10|recovery.item-floor 1 0 2|recovery.consecutive 2 1 3
recovery.gap-min 10 0 30|recovery.drop-alert 2 1 3|recovery.since-sedative-min 30 0 120|recovery.since-reversal-min 120 60 240
recovery.min-stay-min 0 0 240|recovery.vitals-min 15 5 30|recovery.vitals-after-reversal-min 10 5 15
recovery.symptom-recheck-min 30 10 60|discharge.padss-threshold 9 8 10|discharge.padss-consecutive 2 1 3
discharge.drink-kept-min 30 0 60|discharge.max-nausea 6 3 10|discharge.max-pain 3 2 6|discharge.limits-h 24 24 48
diet.clear-days 3 1 7|diet.full-through 17 7 21|diet.soft-through 24 14 35|diet.first-sip-h 6 2 12
medicine.antiemetic-days 14 3 21|advice.no-fluid-h 24 12 48|advice.vomiting-day 7 3 14|dwell.months 6 1 12|dwell.grace-days 0 0 14
register.early-window-days 30 0 60|register.lost-attempts 3 2 10|register.lost-dates 3 2 10|register.lost-ways 2 1 3
removal.solid-h 72 48 120|removal.full-liquid-h 24 12 72|removal.clear-h 12 8 24|removal.volume-tolerance-percent 10 5 30
outcome.responder-percent 10 5 20|record.retention-years 15 8 30|record.sign-idle-min 5 1 15|record.clock-jump-s 2 1 10"""

# What must hold between keys (after.md 10 and before.md): an overlay that breaks it, the key that is named, a word of why.
CROSSED = [
    ("clear days not before full", {"diet.clear-days": 7, "diet.full-through": 7}, "diet.full-through", "between"),
    ("full days not before soft", {"diet.full-through": 21, "diet.soft-through": 21}, "diet.full-through", "between"),
    ("more dates than attempts", {"register.lost-attempts": 2, "register.lost-dates": 3}, "register.lost-dates", "exceed"),
    ("reversal shorter than sedative", {"recovery.since-reversal-min": 60, "recovery.since-sedative-min": 90},
     "recovery.since-reversal-min", "shorter"),
    ("vital signs after reversal rarer", {"recovery.vitals-after-reversal-min": 15, "recovery.vitals-min": 10},
     "recovery.vitals-after-reversal-min", "longer"),
    ("a light meal longer than a fatty one", {"fasting.light-meal-min": 600}, "fasting.light-meal-min", "longer"),
    ("an unknown meal shorter than a fatty one", {"fasting.fatty-meal-min": 600}, "fasting.meal-unknown-min", "shorter"),
    ("fluoxetine shorter than the others", {"medicine.serotonergic-days": 40}, "medicine.fluoxetine-days", "shorter"),
    ("clear longer than solid before a removal", {"removal.clear-h": 24, "removal.full-liquid-h": 12}, "removal.solid-h", "shorter"),
    ("a lead as long as the interval", {"vitals.interval-s": 60, "vitals.lead-s": 60}, "vitals.lead-s", "shorter"),
]


def overlay(program, name, keys):
    """A clinic's folder with these values (or whole entries)."""
    folder = pathlib.Path(program.folder) / name
    folder.mkdir(exist_ok=True)
    files = {}
    for key, value in keys.items():
        entry = value if isinstance(value, dict) and "value" in value else {"value": value}
        files.setdefault(key.split(".")[0] + ".json", {})[key] = entry
    for file, entries in files.items():
        (folder / file).write_text(json.dumps(entries))
    return folder


def numbers():
    """Each key of the house whose value is one number."""
    for file, entries in HOUSE.items():
        for key, entry in entries.items():
            if isinstance(entry["value"], (int, float)) and not isinstance(entry["value"], bool):
                yield file, key, entry


def house_files(count):
    for file, entries in HOUSE.items():
        for key, entry in entries.items():
            count.check(f"{key} has a source and a sentence", all(len(entry.get(name, "")) > 5 for name in ("source", "sentence")))
    for file, key, entry in numbers():
        low, high = entry["range"]
        count.check(f"{key}: the default lies within its range and has a unit", low <= entry["value"] <= high and entry["unit"])


def as_printed(count):
    for row in PRINTED.replace("\n", "|").split("|"):
        key, *figures = row.split()
        entry = HOUSE[key.split(".")[0] + ".json"].get(key, {})
        got = [entry.get("value"), *entry.get("range", [])]
        count.equal(f"{key} has the default and range that the sources print", got, [json.loads(figure) for figure in figures])


def outside_the_range(count, program):
    """One step beyond either end, and a text instead of the number."""
    for i, (file, key, entry) in enumerate(numbers()):
        low, high = entry["range"]
        step = Decimal(1) if isinstance(entry["value"], int) and isinstance(low, int) else Decimal("0.01")
        for end, value in (("below", Decimal(str(low)) - step), ("above", Decimal(str(high)) + step), ("no number", None)):
            given = "many" if value is None else float(value) if value % 1 else int(value)
            run = program.call("policy", "check", overlay(program, f"range-{i}-{end}", {key: given}))
            shown = "a text" if value is None else str(value.normalize() if value % 1 else int(value))
            parts = [file, key, shown, f"{low} to {high}"]
            count.check(f"{key} {end} is refused with file, key, value and range",
                        run.code == 1 and all(part in run.err for part in parts), f"{parts}: {run.err}")


def all_at_once(count, program):
    folder = overlay(program, "many", {"fasting.clear-fluid-min": 60, "fasting.milk-mins": 400, "recovery.threshold": 7.5,
                                       "diet.clear-days": 7, "diet.full-through": 7, "vitals.hr": {"value": {"ask": [35, 180]}}})
    (folder / "fastin.json").write_text("{}")
    (folder / "dose.json").write_text("{")
    run = program.call("policy", "check", folder)
    lines = run.err.strip().split("\n")
    for name, parts in [("a value out of range", ["fasting.clear-fluid-min", "60", "120 to 480 min"]),
                        ("an unknown key with the nearest", ["fasting.milk-mins", "fasting.milk-min"]),
                        ("a fraction", ["recovery.threshold", "7.5"]), ("half of two limits", ["vitals.hr", "hard"]),
                        ("an unknown file with the nearest", ["fastin.json", "fasting.json"]),
                        ("broken JSON", ["dose.json"]), ("an order broken elsewhere", ["diet.full-through", "between"])]:
        count.check(f"beside other faults, {name} is named", any(all(p in line for p in parts) for line in lines), run.err)
    count.equal("seven faults are seven lines", (len(lines), run.code), (7, 1))


def crossed(count, program):
    for i, (name, keys, key, word) in enumerate(CROSSED):
        run = program.call("policy", "check", overlay(program, f"crossed-{i}", keys))
        count.check(f"{name}: refused at its key", run.code == 1 and any(key in line and word in line for line in
                                                                       run.err.split("\n")), run.err)


def overlays(count, program):
    """Only what differs is written; the rest stays the house's; another figure is another hash."""
    plain = program.call("policy", "check", overlay(program, "empty", {}))
    longer = program.call("policy", "check", overlay(program, "longer", {"fasting.clear-fluid-min": 180}))
    same = program.call("policy", "check", overlay(program, "same", {"fasting.clear-fluid-min": 120}))
    count.equal("an empty overlay, a longer wait and a repeated default are good", [plain.code, longer.code, same.code], [0, 0, 0])
    count.check("a changed figure changes the hash, a repeated one does not", plain.out == same.out != longer.out)
    example = [{"id": "x", "rule": "fasting", "expected": {"met": True}, "inputs": {
        "kind": "clear-fluid", "last_local": "2026-11-25 07:30", "at_local": "2026-11-25 09:30", "tz": "Europe/London"}}]
    given = json.dumps(example).encode()
    house = program.call("rules", "-", given=given)
    strict = program.call("rules", "-", "--policy", overlay(program, "longer", {}), given=given)
    count.equal("what is met by the house's wait is not by the longer one", [house.code, strict.code], [0, 1])
    entry = {"value": 180, "unit": "h"}
    run = program.call("policy", "check", overlay(program, "unit", {"fasting.clear-fluid-min": entry}))
    count.check("a unit that is not the key's is refused", run.code == 1 and "\"min\"" in run.err, run.err)
    entry = {"value": 180, "range": [60, 480]}
    run = program.call("policy", "check", overlay(program, "wider", {"fasting.clear-fluid-min": entry}))
    count.check("a clinic cannot widen a range", run.code == 1 and "range" in run.err, run.err)


def who_may(count, program):
    """A policy, a key and the plan of backups are changed by somebody who is here and keeps the kiosk."""
    add = {"at": "2026-11-25T08:00:00+00:00", "by": "pia", "do": "add-person", "id": "abe", "name": "Abe Nolan", "roles": ["coordinator"], "pin": "731946"}
    program.script(ROOT / "demo/people.jsonl")
    program.script([add])
    longer = overlay(program, "who-may", {})
    asks = {"policy": ["policy", "adopt", longer], "key": ["key", "rotate"], "plan": ["backup-plan", "--to", ""]}
    program.script([{"at": "2026-11-25T08:01:00+00:00", "by": "pia", "do": "person-left", "id": "abe"}])
    for what, words in asks.items():
        for who in ("abe", "tomas"):
            run = program.call(*words, "--by", who, "--data", program.data)
            count.check(f"{what}: {who} may not", run.code == 1 and "coordinator" in run.err, run.err)
    run = program.call("policy", "adopt", longer, "--by", "pia", "--data", program.data)
    count.check("policy: the coordinator may", run.code == 0, run.err)


def main():
    count = Count()
    program = Program(binary_path())
    house_files(count)
    as_printed(count)
    for part in [outside_the_range, all_at_once, crossed, overlays, who_may]:
        part(count, program)
    program.end()
    count.end()


if __name__ == "__main__":
    main()
