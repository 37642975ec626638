#!/usr/bin/env python3
"""The rules against published tables, written down here a second time and reckoned with Python's fractions: nothing is
taken from the program. Each part names its source. Usage: published.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import decimal
import itertools
from fractions import Fraction

from black_box.cases import Cases, with_debian
from black_box.program import Count, Program, binary_path

with_debian("pint")
import pint  # noqa: E402  (Debian's python3-pint: units by an independent library)


def half_away(value, places):
    """A fraction as a decimal text, rounded half away from zero."""
    scaled = abs(value) * 10 ** places
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    return f"{'-' if value < 0 and whole else ''}{whole // 10 ** places}" + (f".{whole % 10 ** places:0{places}}" if places else "")


def body_mass(cases):
    """WHO Technical Report Series 894 (2000): 18.5, 25, 30, 35, 40; lower bounds belong to the class."""
    bounds = [Fraction("18.5"), 25, 30, 35, 40]
    names = ["underweight", "normal", "overweight", "obesity-1", "obesity-2", "obesity-3"]
    for height in range(1400, 2101, 35):
        for weight in range(300, 2501, 7):
            bmi = Fraction(weight, 10) / Fraction(height, 1000) ** 2
            cls = sum(bmi >= bound for bound in bounds)
            cases.add("bmi", {"weight_kg": weight / 10, "height_cm": height / 10}, {"who_class": names[cls]})
            cases.add("asa-class", {"weight_kg": weight / 10, "height_cm": height / 10, "asa_class": 2},
                      {"lowest_expected": 3 if bmi >= 40 else 2 if bmi >= 30 else 1, "ask": bmi >= 40})
    cases.all_hold("BMI classes as published by the WHO, and the ASA examples at 30 and 40")
    for start, end, height in itertools.product(range(700, 1500, 53), range(500, 1500, 61), (150, 160, 167, 175, 188)):
        s, e, h2 = Fraction(start, 10), Fraction(end, 10), Fraction(height, 100) ** 2
        ideal = 25 * h2
        expected = {"tbwl_percent": half_away(100 * (s - e) / s, 1), "bmi_loss": half_away((s - e) / h2, 1),
                    "ideal_kg": half_away(ideal, 1), "ewl_percent": None}
        if s > ideal:  # equal to 100 (BMI start - BMI end) / (BMI start - 25), PMID 21197603
            expected["ewl_percent"] = half_away(100 * (s / h2 - e / h2) / (s / h2 - 25), 1)
        cases.add("outcomes", {"start_kg": start / 10, "end_kg": end / 10, "height_cm": height}, expected)
    cases.all_hold("weight outcomes by the formula of PMID 21197603")


def early_warning(cases):
    """Royal College of Physicians, National Early Warning Score 2 (2017), chart 1: first value of each band upwards."""
    chart = {"rr": [(0, 3), (9, 1), (12, 0), (21, 2), (25, 3)], "spo2": [(0, 3), (92, 2), (94, 1), (96, 0)],
             "sbp": [(0, 3), (91, 2), (101, 1), (111, 0), (220, 3)],
             "hr": [(0, 3), (41, 1), (51, 0), (91, 1), (111, 2), (131, 3)]}
    top = {"rr": 80, "spo2": 100, "sbp": 300, "hr": 300}
    for sign, rows in chart.items():
        for value in range(top[sign] + 1):
            band = [b for first, b in rows if first <= value][-1]
            cases.add("alert-band", {"sign": sign, "value": value},
                      {"news2_band": band, "prompt": "high" if band == 3 else "medium" if band == 2 else "none"})
    cases.all_hold("single bands of NEWS2, chart 1, for every value")


def sleep_apnoea(cases):
    """Chest 2016;149:631-638 with supplement: 0-2 low, 3-4 intermediate, 5-8 high; two of the first four with sex, BMI or neck
    is high."""
    names = ["snore", "tired", "observed", "pressure", "bmi_gt_35", "age_gt_50", "neck_gt_40cm", "male"]
    for answers in itertools.product([False, True], repeat=8):
        score = sum(answers)
        two_step = sum(answers[:4]) >= 2 and (answers[7] or answers[4] or answers[6])
        risk = "high" if score >= 5 or two_step else "intermediate" if score >= 3 else "low"
        cases.add("stop-bang", dict(zip(names, answers)), {"score": score, "risk": risk})
    for answers in itertools.product([False, True, None], repeat=8):
        if None in answers:
            cases.add("stop-bang", dict(zip(names, answers)), {
                "score": None, "risk": "incomplete", "score_min": answers.count(True),
                "score_max": answers.count(True) + answers.count(None)})
    cases.all_hold("every pattern of the eight answers, open ones too (Chest 2016)")


def recovery_scores(cases):
    """Modified Aldrete (J Clin Anesth 1995;7:89-91, secondary copies) and modified PADSS (World J Gastrointest Endosc
    2013;5:502-507, table 1), shares of the pressure before as fractions."""
    for before in (90, 101, 118, 130, 155):
        for now in range(20, 300):
            share = Fraction(abs(now - before), before)
            cases.add("aldrete-circulation", {"systolic_before_sedation": before, "systolic_now": now},
                      {"suggested": 2 if share <= Fraction(1, 5) else 1 if share < Fraction(1, 2) else 0})
            cases.add("padss-vital", {"systolic_before": before, "systolic_now": now, "pulse_before": 70, "pulse_now": 70},
                      {"suggested": 2 if share <= Fraction(1, 5) else 1 if share <= Fraction(2, 5) else 0})
    for spo2 in range(50, 101):
        cases.add("aldrete-oxygen", {"spo2_percent": spo2, "on_oxygen": False},
                  {"suggested": 2 if spo2 > 92 else 1 if spo2 > 90 else 0})
        cases.add("aldrete-oxygen", {"spo2_percent": spo2, "on_oxygen": True}, {"suggested": 1 if spo2 > 90 else 0})
    names = ["activity", "respiration", "circulation", "consciousness", "oxygen"]
    more = ["vital_signs", "ambulation", "nausea_vomiting", "pain", "bleeding"]
    for items in itertools.product(range(3), repeat=5):
        for threshold, floor in ((9, 1), (8, 1), (8, 0), (10, 2)):
            cases.add("aldrete-total", {"items": dict(zip(names, items)), "threshold": threshold, "item_floor": floor},
                      {"total": sum(items), "qualifies": sum(items) >= threshold and min(items) >= floor})
        cases.add("padss-total", {"items": dict(zip(more, items)), "threshold": 9},
                  {"total": sum(items), "qualifies": sum(items) >= 9})
    cases.all_hold("Aldrete and PADSS as their tables say")


def sedation(cases):
    """Br J Anaesth 2012;108:13-20 (classes of an event) and the ASA continuum of depth against MOAA/S."""
    for lowest in range(50, 101):
        for lasted in (0, 1, 30, 59, 60, 61, 300):
            cls = "severe" if lowest < 75 else "prolonged" if lowest < 90 and lasted > 60 else "minor" if lowest <= 90 else "none"
            cases.add("airway-event", {"lowest_spo2": lowest, "duration_s": lasted}, {"desaturation": cls})
    for step, level in enumerate(["general-anaesthesia", "deep", "moderate", "moderate", "moderate", "minimal"]):
        cases.add("depth", {"moaas": step}, {"level": level})
    for step, words in enumerate(["Does not respond to painful trapezius squeeze", "Responds only after painful trapezius squeeze",
                                  "Responds only after mild prodding or shaking",
                                  "Responds only after name is called loudly and/or repeatedly",
                                  "Lethargic response to name spoken in normal tone",
                                  "Responds readily to name spoken in normal tone"]):
        cases.add("depth", {"response": words}, {"moaas": step})  # J Clin Psychopharmacol 1990;10:244-251, as in open papers
    cases.all_hold("classes of desaturation and steps of MOAA/S")
    for systolic in range(40, 260, 3):
        for diastolic in range(20, systolic, 7):
            mean = Fraction(systolic + 2 * diastolic, 3)  # StatPearls, Mean Arterial Pressure
            cases.add("map", {"sbp": systolic, "dbp": diastolic}, {"map_mmHg": int(half_away(mean, 0))})
            cases.add("map-alert", {"sbp": systolic, "dbp": diastolic, "policy": {"map_alert_below": 65}}, {"alert": mean < 65})
    cases.all_hold("mean pressure by its formula")


def units(cases):
    """The pound, inch and mmHg of Debian's python3-pint; exact values are those of 16 CFR 500.19."""
    registry = pint.UnitRegistry()

    def converted(value, old, new):
        return f"{registry.Quantity(value, old).to(new).magnitude:.7f}"
    for step in range(1, 700, 3):
        cases.add("units", {"weight_lb": step}, {"weight_kg": converted(step, "pound", "kilogram")}, 0.000001)
        cases.add("units", {"weight_kg": step / 2}, {"weight_lb": converted(step / 2, "kilogram", "pound")}, 0.000001)
        cases.add("units", {"feet": step // 12 % 8, "inches": step % 12},
                  {"height_cm": converted(step // 12 % 8 * 12 + step % 12, "inch", "centimeter")}, 0.000001)
    for mmhg in range(0, 151):  # the rule's 0.133322 is the conventional mmHg cut to six places
        cases.add("units", {"etco2_mmHg": mmhg}, {"etco2_kPa": converted(mmhg, "millimeter_Hg", "kilopascal")}, 0.0001)
    cases.all_hold("pounds, inches and mmHg by an independent library of units")


def physics(cases):
    """Geometry with 50 digits; NaCl solutions at 20 C: CRC Handbook of Chemistry and Physics, concentrative properties of
    aqueous solutions: 0 % 0.9982, 0.5 % 1.0018, 1 % 1.0053 g/mL (1.0 % 1.0053 seen in a 1974 table, the rest from memory)."""
    decimal.getcontext().prec = 50
    pi = decimal.Decimal("3.14159265358979323846264338327950288419716939937510")
    for tenths in range(0, 12001, 7):
        volume = decimal.Decimal(tenths) / 10
        diameter = (6 * volume / pi) ** (decimal.Decimal(1) / 3) if tenths else decimal.Decimal(0)
        shown = diameter.quantize(decimal.Decimal("0.1"), decimal.ROUND_HALF_UP)
        grams = volume * decimal.Decimal("1.0046")
        pounds = (grams / decimal.Decimal("453.59237")).quantize(decimal.Decimal("0.1"), decimal.ROUND_HALF_UP)
        cases.add("geometry", {"volume_mL": str(volume), "density_g_per_mL": "1.0046"},
                  {"diameter_cm": str(shown), "mass_lb": str(pounds),
                   "mass_g": str(grams.quantize(decimal.Decimal(1), decimal.ROUND_HALF_UP))})
    cases.all_hold("sphere and mass with fifty digits")
    low, high = Fraction("1.0018"), Fraction("1.0053")  # 0.5 % and 1.0 % by mass
    half, one = Fraction("5") * low, Fraction("10") * high  # g/L
    density = low + (9 - half) / (one - half) * (high - low)
    cases.count.check("the house's density of saline is the handbook's, interpolated at 9.0 g/L, to 0.0001",
                      abs(density - Fraction("1.0046")) <= Fraction("0.0001"), float(density))
    cases.add("osmolarity", {"nacl_g_per_L": 9, "molar_mass": "58.44", "ions": 2}, {"mOsm_per_L": 308}, 0.5)
    cases.all_hold("saline 0.9 % has the 308 mOsm/L that every label of it prints")


def fill(cases):
    """A second reckoning of the fill: sums in tenths, marks by division, states by comparison."""
    for syringe, dye, whole, part in itertools.product((200, 500, 600), (0, 20, 100), range(0, 16), (0, 1, 173, 499)):
        running = dye + whole * syringe + part

        def state(v):
            return "below" if v < 5000 else "in-band" if v <= 6000 else "above-band" if v <= 7000 else "above-ceiling"
        events = [{"e": "dye", "mL": dye / 10}] * bool(dye) + [{"e": "syringe", "mL": syringe / 10}] * whole
        events += [{"e": "partial", "mL": part / 10}] * bool(part)
        cases.add("fill-sum", {"syringe_mL": syringe / 10, "band": [500, 600], "target": 550, "ceiling": 700, "events": events}, {
            "running_mL": running / 10, "syringes": whole + bool(part), "state": state(running),
            "next_tap": {"mL": (running + syringe) / 10, "state": state(running + syringe)},
            "to_band": max(0, -((running - 5000) // syringe)), "to_target": max(0, -((running - 5500) // syringe)),
            "to_ceiling": max(0, (7000 - running) // syringe)})
    cases.all_hold("sums and marks of the fill")


def main():
    count = Count()
    program = Program(binary_path())
    cases = Cases(program, count)
    for part in [body_mass, early_warning, sleep_apnoea, recovery_scores, sedation, units, physics, fill]:
        part(cases)
    program.end()
    for name in sorted(count.names):
        print(f"checked: {name}")
    count.end()


if __name__ == "__main__":
    main()
