#!/usr/bin/env python3
"""Are the boundaries pinned? Each is moved by one unit, one at a time, and the worked examples must notice: at least 95 of
100, and those that nobody notices are named. Nothing is recompiled; a boundary is moved
- in the policy: the key's default, by an overlay, and all examples run again;
- in the inputs: the threshold that an example carries itself (its "policy", band, ceiling, required minutes ...);
- in fixed tables: the sweep finds where an answer changes between v and v + 1; moving that boundary is answering at v + 1
  as at v, or at v as at v + 1, and an example on that spot must disagree.
Usage: boundaries.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import copy
import datetime
import json
import pathlib
import re
from decimal import Decimal

from black_box.program import ROOT, Count, Program, binary_path

EXAMPLES = [e for file in sorted((ROOT / "assets/examples").glob("*.json")) for e in json.loads(file.read_text())]

# Policy keys that stand behind a rule of the examples. The others are prompts, lists and limits of the kiosk.
KEYS = """fasting.clear-fluid-min fasting.milk-min fasting.light-meal-min fasting.fatty-meal-min fasting.meal-unknown-min
fasting.breast-milk-min fasting.infant-formula-min body.weight-kg body.height-cm body.ideal-bmi airway.neck-cm
airway.review-from-asa airway.review-from-mallampati medicine.window-days medicine.serotonergic-days
medicine.fluoxetine-days medicine.pregnancy-test-h medicine.antiemetic-days dose.age-reduced-from vitals.hr vitals.systolic
vitals.diastolic vitals.spo2 vitals.rr vitals.etco2 vitals.prompt-band vitals.depth-prompt-at look.hernia-ceiling-cm
fill.double-tap-s fill.count-check-every fill.read-back-tolerance-ml discharge.max-nausea discharge.max-pain
discharge.call-day-first discharge.call-day-second dwell.months record.clock-jump-s removal.volume-tolerance-percent
outcome.responder-percent register.early-window-days register.visit-months""".split()

# Fields of inputs that are thresholds themselves, with their unit; "policy.*" always are.
THRESHOLDS = {"required_min": 1, "band": "0.1", "target": "0.1", "ceiling": "0.1", "syringe_mL": "0.1", "threshold": 1,
              "item_floor": 1, "keep_min": 1, "hours": 1, "soon_days": 1, "tolerance_percent": 1, "mark_percent": 1,
              "early_window_days": 1, "months": 1, "days": 1, "years": 1, "antiemetic_days": 1, "last_agreed_at": 1}
FINE = {"hard": 1, "ask": 1, "usual": "0.01", "limit_mg": "0.1", "limit_mg_from_60": "0.1", "max_mg_per_kg": "0.01",
        "ceiling_cm": "0.1"}
# A key that may not pass another takes it along.
ALONG = {"fasting.fatty-meal-min": "fasting.meal-unknown-min"}
NO_BOUNDARY = {("recovery-fit", "policy.item_floor"): "a floor of 1 matters at threshold 8, never at 9 (after.md 2.1)"}

FALSE_ALL = {k: False for k in ["snore", "tired", "observed", "pressure", "bmi_gt_35", "age_gt_50", "neck_gt_40cm", "male"]}
CLEAN = {"asa_class": 2, "mallampati": 2, "stop_bang_risk": "low", "previous_sedation_trouble": False}
PLAN = {"syringe_mL": "50.0", "band": ["500.0", "600.0"], "target": "550.0", "ceiling": "700.0"}
# rule, base inputs, field, unit, from, to, the answers that a boundary separates
SWEEPS = [
    ("bmi", {"height_cm": 200}, "weight_kg", "0.1", 60, 180, ["who_class"]),
    ("asa-class", {"height_cm": 180, "asa_class": 1}, "weight_kg", "0.1", 80, 140, ["lowest_expected"]),
    ("asa-class", {"height_cm": 180, "weight_kg": "129.6"}, "asa_class", 1, 1, 6, ["ask"]),
    ("airway-review", CLEAN, "asa_class", 1, 1, 6, ["physician_review"]),
    ("airway-review", CLEAN, "mallampati", 1, 1, 4, ["physician_review"]),
    ("map-alert", {"dbp": 55, "policy": {"map_alert_below": 65}}, "sbp", 1, 60, 120, ["alert"]),
    *[("alert-band", {"sign": sign}, "value", 1, low, high, ["news2_band"])
      for sign, low, high in [("hr", 0, 200), ("sbp", 0, 280), ("spo2", 50, 100), ("rr", 0, 60)]],
    *[("plausible", {"sign": sign}, "value", 1, -2, 310, ["result"]) for sign in ["hr", "sbp", "dbp", "spo2", "rr", "etco2"]],
    ("baseline-change", {"sign": "sbp", "baseline": 120, "policy": {"limit_percent": 25}}, "value", 1, 60, 200, ["prompt"]),
    ("depth", {}, "moaas", 1, -2, 7, ["level", "prompt", "refused"]),
    ("airway-event", {"duration_s": 61}, "lowest_spo2", 1, 60, 100, ["desaturation"]),
    ("airway-event", {"lowest_spo2": 89}, "duration_s", 1, 0, 300, ["desaturation"]),
    ("anthropometry-input", {"field": "weight_kg"}, "value", "0.1", 20, 360, ["result"]),
    ("anthropometry-input", {"field": "height_cm"}, "value", "0.1", 110, 240, ["result"]),
    ("anthropometry-input", {"field": "height_cm"}, "value", "0.01", 1, 3, ["suggest"]),
    ("dose-cumulative", {"drug": "midazolam", "age_years": 61}, "total_mg", "0.1", 1, 9, ["remind"]),
    ("dose-cumulative", {"drug": "midazolam", "age_years": 40}, "total_mg", "0.1", 1, 9, ["remind"]),
    ("dose-cumulative", {"drug": "midazolam", "total_mg": "3.6"}, "age_years", 1, 20, 90, ["remind"]),
    ("dose-cumulative", {"drug": "flumazenil", "age_years": 40}, "total_mg", "0.1", 0, 3, ["remind"]),
    ("dose-span", {"drug": "propofol", "unit": "mg"}, "dose", "0.1", 1, 120, ["ask"]),
    ("dose-span", {"drug": "midazolam", "unit": "mg"}, "dose", "0.1", 0, 5, ["ask"]),
    ("dose-span", {"drug": "fentanyl", "unit": "microgram"}, "dose", 1, 1, 150, ["ask"]),
    ("dose-span", {"drug": "naloxone", "unit": "microgram"}, "dose", 1, 1, 500, ["ask"]),
    ("dose-span", {"drug": "flumazenil", "unit": "mg"}, "dose", "0.01", 0, 1, ["ask"]),
    ("pregnancy", {"childbearing_potential": True, "test": "negative"}, "test_age_h", 1, 0, 200, ["satisfied"]),
    ("hiatal-hernia", {}, "size_cm", "0.1", 1, 9, ["stop"]),
    ("double-tap", {}, "ms_since_last", 1, 7000, 9000, ["result"]),
    ("count-check", {"last_agreed_at": 0}, "syringes", 1, 0, 12, ["due"]),
    ("bag-check", {"bag_start_mL": "1000.0", "saline_counted_mL": "500.0", "waste_mL": "0.0", "syringe_mL": "50.0"},
     "bag_left_mL", "0.1", 450, 550, ["hold"]),
    ("syringe-check", {"laid_out": 12, "left_over": 2}, "counted", 1, 5, 15, ["hold"]),
    ("read-back", {"count_mL": "500.0", "same_person": False, "band": ["500.0", "600.0"], "ceiling": "700.0"}, "read_back_mL",
     "0.1", 490, 510, ["equal"]),
    ("aldrete-circulation", {"systolic_before_sedation": 130}, "systolic_now", 1, 40, 220, ["suggested"]),
    ("aldrete-oxygen", {"on_oxygen": False}, "spo2_percent", 1, 80, 100, ["suggested"]),
    ("aldrete-oxygen", {"on_oxygen": True}, "spo2_percent", 1, 80, 100, ["suggested"]),
    ("aldrete-activity", {}, "limbs_moved", 1, 0, 4, ["suggested"]),
    ("padss-vital", {"systolic_before": 120, "pulse_before": 70, "pulse_now": 70}, "systolic_now", 1, 50, 190, ["suggested"]),
    ("padss-vital", {"systolic_before": 120, "pulse_before": 70, "systolic_now": 120}, "pulse_now", 1, 30, 110, ["suggested"]),
    ("symptom-band", {}, "rating_0_to_10", 1, 0, 10, ["padss_points"]),
    ("recovered-volume", {"filled_ml": 500, "tolerance_percent": 10}, "recovered_ml", "0.1", 400, 600, ["state"]),
    ("responder", {"start_kg": "110.0", "mark_percent": 10}, "end_kg", "0.1", 90, 105, ["responder"]),
    ("discharge-drink-kept", {"last_drink_minute": 10, "keep_min": 30}, "now_minute", 1, 10, 60, ["met"]),
    ("medicine-window", {"on": "2026-11-25"}, "last_dose_date", "day", "2026-11-01", "2026-11-25", ["review"]),
    ("glp1-hold", {"formulation": "weekly", "procedure_date": "2026-11-25", "policy": {"hold_days": 7}}, "last_dose_date", "day",
     "2026-11-01", "2026-11-25", ["hold_met"]),
    ("dye", {"dye": "methylene-blue", "drug": "sertraline", "on": "2026-11-25"}, "last_dose_date", "day", "2026-10-01",
     "2026-11-25", ["caution"]),
    ("dye", {"dye": "methylene-blue", "drug": "fluoxetine", "on": "2026-11-25"}, "last_dose_date", "day", "2026-10-01",
     "2026-11-25", ["caution"]),
    ("register-status", {"due": "2027-05-25", "latest": "2027-06-01", "lost_to_follow_up": False, "soon_days": 30}, "today",
     "day", "2027-04-01", "2027-06-10", ["status", "counts_as_overdue"]),
    ("removal-timing", {"due": "2027-05-25", "latest": "2027-05-25", "early_window_days": 30}, "out", "day", "2027-04-01",
     "2027-06-10", ["class"]),
    ("gs1-expiry", {"ai17": "261125"}, "today", "day", "2026-11-01", "2026-12-10", ["expired"]),
    ("age", {"on": "2026-11-25"}, "birth", "day", "1986-11-20", "1986-11-30", ["age_years"]),
    ("stop-bang-derived", {"height_cm": 180, "birth": "1986-03-14", "on": "2026-11-25", "neck_cm": 38, "male": False,
                           "snore": False, "tired": False, "observed": False, "pressure": False}, "weight_kg", "0.1", 100, 120,
     ["bmi_item"]),
    ("stop-bang-derived", {"height_cm": 167, "weight_kg": "96.4", "birth": "1986-03-14", "on": "2026-11-25", "male": False,
                           "snore": False, "tired": False, "observed": False, "pressure": False}, "neck_cm", "0.1", 35, 45,
     ["neck_item"]),
    ("stop-bang-derived", {"height_cm": 167, "weight_kg": "96.4", "on": "2026-11-25", "male": False, "neck_cm": 38,
                           "snore": False, "tired": False, "observed": False, "pressure": False}, "birth", "day", "1975-11-01",
     "1976-12-01", ["age_item"]),
]


def shifted(value, unit, steps):
    """A number, or a date, moved by so many units; written as numbers in quotes are."""
    if unit == "day":
        return (datetime.date.fromisoformat(value) + datetime.timedelta(days=steps)).isoformat()
    moved = Decimal(str(value)) + steps * Decimal(str(unit))
    return int(moved) if moved == moved.to_integral_value() else str(moved)


def same_value(a, b, unit):
    return a == b if unit == "day" else a is not None and Decimal(str(a)) == Decimal(str(b))


def differing(program, examples, policy=None):
    """Which examples (by place) differ or are not read."""
    numbered = [{**e, "id": f"@{i}"} for i, e in enumerate(examples)]
    run = program.call("rules", "-", *(["--policy", policy] if policy else []), given=json.dumps(numbered).encode())
    return {int(n) for n in re.findall(r"^-: @(\d+):", run.out + "\n" + run.err, re.M)}, run


def answers(program, rule, inputs):
    """What the rule answers for each of these inputs; None where it answers nothing."""
    keys = program.outputs[rule]
    nothing = {key: None for key in (keys[0], "refused" if "refused" in keys else keys[0])}
    examples = [{"id": f"@{i}", "rule": rule, "inputs": one, "expected": nothing} for i, one in enumerate(inputs)]
    run = program.call("rules", "-", given=json.dumps(examples).encode())
    got = {int(i): json.loads(text) for i, text in re.findall(r"^-: @(\d+): .*?, got (\{.*\}) \(differs", run.out, re.M)}
    return [got.get(i) for i in range(len(inputs))]


class Tally:
    def __init__(self):
        self.moved = 0
        self.missed = []
        self.noticed_by = 0

    def add(self, name, notices):
        self.moved += 1
        self.noticed_by += notices
        if notices == 0:
            self.missed.append(name)


def moved_policies(program):
    """(key, direction, overlay) for each default that can move by one unit within its range."""
    for file in sorted((ROOT / "assets/policy").glob("*.json")):
        for key, entry in json.loads(file.read_text()).items():
            if key not in KEYS:
                continue
            unit = Decimal("0.1") if key in ("body.ideal-bmi", "airway.neck-cm", "look.hernia-ceiling-cm",
                                             "fill.read-back-tolerance-ml") else 1
            for step in (unit, -unit):
                for part, value in moved_values(entry["value"], step):
                    yield key, f"{part} {step:+}", file.name, value


def number(value):
    return int(value) if value == value.to_integral_value() else float(value)


def moved_values(value, step):
    if isinstance(value, dict):
        for name in ("ask", "hard"):
            for end in (0, 1):
                moved = copy.deepcopy(value)
                moved[name][end] = number(Decimal(str(moved[name][end])) + step)
                yield f"{name}[{end}]", moved
    elif isinstance(value, list):
        for i in range(len(value)):
            yield f"[{i}]", value[:i] + [number(value[i] + Decimal(step))] + value[i + 1:]
    else:
        yield "", number(Decimal(str(value)) + step)


def policy_boundaries(program, tally):
    """A value that the policy does not allow (its range or an order) cannot move there."""
    seen = set()
    for index, (key, direction, file, value) in enumerate(moved_policies(program)):
        folder = pathlib.Path(program.folder) / f"overlay-{index}"
        folder.mkdir()
        overlay = {key: {"value": value}, ALONG.get(key, key): {"value": value}}
        (folder / file).write_text(json.dumps(overlay))
        if program.call("policy", "check", folder).code == 0:
            wrong, _ = differing(program, EXAMPLES, folder)
            tally.add(f"policy {key} {direction}", len(wrong))
            seen.add(key)
    return seen


def input_thresholds(inputs, prefix=""):
    for name, value in inputs.items():
        if isinstance(value, dict) and name == "policy":
            yield from input_thresholds(value, "policy.")
        elif prefix or name in THRESHOLDS:
            unit = FINE.get(name, 1) if prefix else THRESHOLDS[name]
            if isinstance(value, list):
                for i in range(len(value)):
                    yield prefix + name, i, unit
            elif isinstance(value, (int, float)) and not isinstance(value, bool) or \
                    isinstance(value, str) and re.fullmatch(r"[\d.]+", value):
                yield prefix + name, None, unit


def with_moved(example, path, place, unit, step):
    moved = copy.deepcopy(example)
    holder = moved["inputs"]["policy"] if path.startswith("policy.") else moved["inputs"]
    name = path.removeprefix("policy.")
    if place is None:
        holder[name] = shifted(holder[name], unit, step)
    else:
        holder[name][place] = shifted(holder[name][place], unit, step)
    return moved


def input_boundaries(program, tally):
    moves, owners = [], []
    for example in EXAMPLES:
        for path, place, unit in input_thresholds(example["inputs"]):
            for step in (1, -1):
                moves.append(with_moved(example, path, place, unit, step))
                owners.append((example["rule"], path, place, step))
    wrong, _ = differing(program, moves)
    for owner in sorted(set(owners), key=str):
        if owner[:2] in NO_BOUNDARY:
            continue
        notices = sum(1 for i, one in enumerate(owners) if one == owner and i in wrong)
        tally.add("input " + " ".join(map(str, owner)), notices)


def sweep_values(unit, low, high):
    if unit == "day":
        values = [low]
        while values[-1] < high:
            values.append(shifted(values[-1], "day", 1))
        return values
    values, at = [], Decimal(low)
    while at <= high:
        values.append(shifted(at, unit, 0))
        at += Decimal(str(unit))
    return values


def separated(key, a, b):
    """Whether two answers differ; what is suggested differs with every value, so only that something is."""
    return (key in a) != (key in b) if key == "suggest" else a.get(key) != b.get(key)


def table_boundaries(program, tally):
    for rule, base, field, unit, low, high, keys in SWEEPS:
        values = sweep_values(unit, low, high)
        got = answers(program, rule, [{**base, field: v} for v in values])
        mine = [e for e in EXAMPLES if e["rule"] == rule and e["inputs"].get(field) is not None]
        found = 0
        for i in range(len(values) - 1):
            a, b = got[i] or {}, got[i + 1] or {}
            changing = [key for key in keys if separated(key, a, b)]
            if not changing:
                continue
            found += 1
            for at, other in ((i + 1, i), (i, i + 1)):
                there = [e for e in mine if same_value(e["inputs"][field], values[at], unit)]
                moved = [{**e, "inputs": {**e["inputs"], field: values[other]}} for e in there]
                notices = len(differing(program, moved)[0]) if moved else 0
                tally.add(f"{rule} {field} {values[i]} | {values[i + 1]} ({', '.join(changing)}), moved over {values[at]}", notices)
        if found == 0:
            tally.add(f"{rule} {field}: the sweep found no boundary", 0)


def main():
    count = Count()
    program = Program(binary_path())
    listed = program.call("rules", "--list").out
    program.outputs = {name: re.findall(r"(?:^|, )([^:{},?]+)\??: ", fields) for name, fields in
                       re.findall(r"^([a-z0-9-]+)\n  inputs:  .+\n  outputs: (.+)$", listed, re.M)}
    whole = Tally()
    for name, part in [("policy defaults", policy_boundaries), ("thresholds in inputs", input_boundaries),
                       ("fixed tables", table_boundaries)]:
        tally = Tally()
        seen = part(program, tally)
        pinned = tally.moved - len(tally.missed)
        print(f"{name}: {tally.moved} boundaries moved, {pinned} pinned, {tally.noticed_by} times an example noticed")
        for missed in tally.missed:
            print(f"    not pinned: {missed}")
        count.check(f"{name}: at least 95 of 100 boundaries are pinned", tally.moved > 0 and 100 * pinned >= 95 * tally.moved)
        if part is policy_boundaries:
            count.equal("every key behind a rule was moved", sorted(set(KEYS) - seen), [])
        whole.moved += tally.moved
        whole.missed += tally.missed
    print(f"together: {whole.moved} moved, {whole.moved - len(whole.missed)} pinned")
    program.end()
    count.end()


if __name__ == "__main__":
    main()
