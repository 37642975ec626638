"""The second invented day: another clinic, other syringes, another zone. Nothing was published of it, so every expected
number is worked out here, in plain arithmetic."""
import datetime
import math
import re

from black_box.program import ROOT, Program, page_one, section

DAY = ROOT / "demo" / "second-day"
SUMMER, WINTER = "+02:00", "+01:00"  # Europe/Berlin: summer time ends on 25 October 2026 at 03:00


def at(clock, day="2026-10-24", offset=SUMMER):
    return f"{day}T{clock}{offset}"


def half_up(value, places=0):
    return math.floor(value * 10**places + 0.5) / 10**places


def sphere_cm(ml):
    """d = (6 V / pi) ^ (1/3), shown with one decimal."""
    return half_up((6 * ml / math.pi) ** (1 / 3), 1)


def months_on(year, month, day, months):
    total = month - 1 + months
    return datetime.date(year + total // 12, total % 12 + 1, day)


def doses(shown):
    return {d["drug"]: (d["total"], d["unit"], d.get("per_kg")) for d in shown["sedation"]["doses"]}


def holds(shown):
    return [(h["code"], h["since"][11:19], h.get("ended", "")[11:19], h.get("ended_how")) for h in shown["holds"]]


def dates(count, case, shown, placed, home, text):
    """The policy: nine months, seven days of grace, booked 42 days before; diet to days 2, 12, 20; calls on days 3, 10;
    no driving for 30 h of real time."""
    day = lambda n: str(placed + datetime.timedelta(days=n - 1))
    due = months_on(placed.year, placed.month, placed.day, 9)
    got = shown["dates"]
    count.equal(f"{case}: due {due}, latest seven days later, book by 42 days before", (got["due"], got["latest"], got["book_by"]),
                (str(due), str(due + datetime.timedelta(days=7)), str(due - datetime.timedelta(days=42))))
    count.equal(f"{case}: the diet ends on days 2, 12 and 20", got["diet"],
                {"clear_through": day(2), "full_through": day(12), "soft_through": day(20)})
    count.equal(f"{case}: the calls are on days 3 and 10", got["calls"], [day(3), day(10)])
    until = datetime.datetime.fromisoformat(home) + datetime.timedelta(hours=30)
    got_until = datetime.datetime.fromisoformat(got["no_driving_before"])
    count.equal(f"{case}: no driving for 30 real hours, though the clock goes back in between", got_until, until)
    count.equal(f"{case}: that instant is shown in winter time", got["no_driving_before"][-6:], WINTER)
    full = until.astimezone(datetime.timezone(datetime.timedelta(hours=1)))
    full = full if full.minute == 0 else full.replace(minute=0) + datetime.timedelta(hours=1)
    printed = f"No driving before {full.day} Oct 2026 {full:%H:%M} (30 h from going home at {home[11:16]})"
    count.holds(f"{case}: the record prints the next full hour, {full:%H:%M}", printed, page_one(text))


def case_k(count, p):
    k, text = p.show("K"), p.text("K")
    one = page_one(text)
    volume = 9 * 60 + 4
    count.equal("K: nine syringes of 60 mL and 4 mL of dye on top are 544 mL", k["fill"]["running_ml"], volume)
    count.equal("K: the dye on top counts from the first syringe on", p.show("K", at("09:31:00"))["fill"]["running_ml"], 60 + 4)
    count.equal("K: before the first syringe nothing is in, dye or no dye", p.show("K", at("09:30:59"))["fill"]["running_ml"], 0)
    seconds = 8 * 25  # nine taps, 25 s apart
    count.equal("K: pace is 480 mL after the first in 200 s", k["fill"]["pace_ml_min"], half_up(8 * 60 / seconds * 60))
    count.equal("K: the sphere and the mass of 544 mL", (k["fill"]["diameter_cm"], k["fill"]["mass_g"]),
                (sphere_cm(volume), half_up(volume * 1.0046)))
    count.equal("K: count checks at 3, 6 and 9, without a pedal", [(c["own"], c["said"], "pedal" in c) for c in k["counts"]],
                [(3, 3, False), (6, 6, False), (9, 9, False)])
    due = [pr["priority"] for pr in p.show("K", at("09:31:50"))["prompts"] if pr["code"] == "count-check-due"]
    count.equal("K: a count check is due after three syringes in this clinic", due, ["medium"])
    count.equal("K: doses per kg of 131.5 kg", doses(k),
                {"midazolam": (2, "mg", half_up(2 / 131.5, 3)), "propofol": (120, "mg", half_up((60 + 30 + 30) / 131.5, 2))})
    # 9 at 10:00 and 10:16 are 16 min apart (this clinic asks 15); the last dose 09:36 + 45 min is later: 10:21.
    count.equal("K: fit from 10:21, 45 min after the last dose", k["recovery"].get("fit_since"), at("10:21:00"))
    count.check("K: a second before, not yet fit", "fit_since" not in p.show("K", at("10:20:59"))["recovery"])
    count.equal("K: the set after 09:12 is due ten minutes later", p.show("K", at("09:13:00"))["sedation"]["next_vitals_due"], at("09:22:00"))
    count.equal("K: no hold, nothing open", (k["holds"], k["open_items"]), ([], []))
    dates(count, "K", k, datetime.date(2026, 10, 24), at("13:20:00"), text)
    bmi = half_up(131.5 / 1.84**2, 1)
    at_24 = half_up(24 * 1.84**2, 1)
    for part in [f"131.5 kg (measured), 184 cm, BMI {bmi}", f"{at_24} kg at BMI 24", "born 29 Feb 1972 · 54 years · male · LU-20771",
                 "544 mL = 9 x 60 mL + 4 mL dye on top", "said 544, pair: no third witness", "Last said or shown 2 min before",
                 "lot KR-118, serial 55A0093, expiry 30 Nov 2027", "penicillin (hives), latex", "before sedation 40 s"]:
        count.holds(f"K: page one holds: {part}", part, one)
    count.lacks("K: no STOP-Bang where the policy does not ask it", "STOP-Bang", text)
    count.equal("K: the record's number has the clinic's own letters", k["sealed"]["number"], "LU-2026-0001")
    after = text.split("Added after the seal")
    count.check("K: the addendum stands after the sealed text, with its person",
                len(after) == 2 and "Dr Maren Thole" in after[1] and "handed over by post" in after[1])
    count.holds("K: two hours without a set before going home are a gap in the record", "GAP 2 h 14 min without a set", section(text, "Vital signs"))
    for bp, mean in [("142/88", (142 + 2 * 88) / 3), ("128/79", (128 + 2 * 79) / 3), ("122/76", (122 + 2 * 76) / 3)]:
        row = re.search(rf"{bp} +(\d+)", section(text, "Vital signs"))
        count.equal(f"K: the mean of {bp} is {half_up(mean):.0f}", row and row.group(1), f"{half_up(mean):.0f}")


def case_l(count, p):
    l, text = p.show("L"), p.text("L")
    one = page_one(text)
    count.equal("L: each hold, from when to when, and how it ended", holds(l), [
        ("fasting-clear-fluid", "13:05:20", "13:30:00", "plan moved"),  # 11:30 + 3 h = 14:30; 14:00 moved to 14:45
        ("medicine-window", "13:06:00", "13:20:00", "override"),        # 16 to 24 October: 8 of 10 days
        ("look-stopping-finding", "14:56:00", "14:56:40", "override"),  # 3.5 cm, this clinic allows 3
        ("resistance", "15:06:50", "15:07:40", "resolved"),
        ("ceiling-passed", "15:09:20", "15:10:00", "resolved"),         # 645.5 mL against 640
        ("sizing-not-met", "15:11:10", "15:11:40", "resolved"),
        ("count-differs", "15:12:00", "15:12:50", "resolved"),          # said 580 against 585.5
        ("valve-not-dry", "15:13:50", "15:15:00", "resolved"),
    ])
    eight, nine, part = 8 * 60, 9 * 60, 9 * 60 + 45.5
    for clock, ml, state in [("15:06:30", eight, "in-band"), ("15:08:00", nine, "in-band"), ("15:08:50", part, "in-band"),
                             ("15:09:20", part + 60, "above-ceiling"), ("15:10:00", part, "in-band")]:
        fill = p.show("L", at(clock))["fill"]
        count.equal(f"L: at {clock} {ml} mL are in, {state}", (fill["running_ml"], fill["state"]), (ml, state))
    asked = p.show("L", at("15:03:35"))["fill"]
    count.equal("L: a tap 4.999 s after the last is a question: 120 mL counted, 180 mL possible",
                (asked["running_ml"], asked.get("possible_ml"), asked["questions"]), (120, 180, ["q1"]))
    count.equal("L: as the larger number rules, the next would make 240 mL", asked["next_ml"], 240)
    near = [pr["code"] for pr in p.show("L", at("15:08:55"))["prompts"]]
    count.check("L: at 585.5 mL the ceiling is near: the next makes 645.5 mL", "ceiling-near" in near, near)
    count.equal("L: eleven deliveries against eleven of the row, and the matter agrees",
                (l["fill"]["syringes"], l["matter"]["used"], l["matter"]["agrees"]), (8 + 1 + 1 + 1, 11 - 0, True))
    in_it = 15 * 3600 + 9 * 60 + 20 - (15 * 3600 + 3 * 60) - 70  # first to last tap, less 70 s stopped
    count.equal("L: pace leaves out the first syringe and the stop", l["fill"]["pace_ml_min"],
                half_up((7 * 60 + 60 + 45.5 + 60) / in_it * 60))
    count.equal("L: propofol 70 + 20 mg over 78.4 kg as stated", doses(l), {"propofol": (90, "mg", half_up(90 / 78.4, 2))})
    dates(count, "L", l, datetime.date(2026, 10, 24), at("16:45:00"), text)
    mean = (94 + 2 * 58) / 3
    alert = [pr["say"] for pr in p.show("L", at("14:55:30"))["prompts"] if pr["code"] == "alert-value"]
    count.check(f"L: a mean pressure of {mean:.0f} is not below this clinic's 70", not any("Mean" in s for s in alert), alert)
    for words in ["78.4 kg (stated), 158.5 cm, BMI 31.2", "585.5 mL = 9 x 60 mL + 60 mL pushed while stopped + 45.5 mL part syringe − 60 mL drawn back",
                  "said 585.5, row 11", "!! Read-back differed 15:12:00: said 580 mL, counted 585.5 mL",
                  "entered for the physician, countersigned by the physician's signature", "sliding, sac empty, seen twice",
                  "against advice, 24 Oct 2026 16:45", "will not wait for the second score", "109 of 110 entries, 99 %", "1 marked late",
                  "10.4 cm across, 588 g"]:
        count.holds(f"L: page one holds: {words[:70]}", words, one)
    unmet = [e["payload"]["unmet"] for e in p.events("L") if e["kind"] == "discharged"][0]
    count.equal("L: what was not met when she left is named", unmet, ["score", "drink", "nausea", "escort", "prescriptions", "advice", "card"])
    timeline = section(text, "Timeline of every entry")
    count.holds("L: the dose entered eight minutes after is marked late in a clinic of five", "Propofol 20 mg; LATE, entered 8 min after", timeline)
    count.holds("L: the set not taken has its reason", "not taken: valve under view", section(text, "Vital signs"))
    count.holds("L: the wrong birthday at the hand-over is an attempt", "do not match", section(text, "Attempts that were refused"))


def case_m(count, p):
    m, text = p.show("M"), p.text("M")
    one = page_one(text)
    count.equal("M: abandoned", m["outcome"], "abandoned")
    count.equal("M: each hold, from when to when, and how it ended", holds(m), [
        ("gate-position", "23:27:00", "23:36:00", "resolved"), ("position-lost", "23:27:40", "23:32:00", "resolved"),
        ("count-differs", "23:32:00", "23:33:00", "resolved"),  # 55 mL came out, 60 mL were counted
    ])
    count.equal("M: two devices, the first not left in with 55 mL out, the second left in",
                [(d["serial"], d["left_in"], d.get("out_ml")) for d in m["devices"]], [("55A0094", False, 55), ("55A0095", True, None)])
    count.equal("M: the second device starts at 0 mL", p.show("M", at("23:40:30"))["fill"]["running_ml"], 0)
    count.equal("M: 2 x 60 mL are in the second device", m["fill"]["running_ml"], 120)
    gates = p.show("M", at("23:36:10"))["gates"]
    count.equal("M: a second device opens the gate position again, go stays", (gates["go"], gates["position"]), ("met", "open"))
    naloxone = 100 + 0.1 * 1000
    count.equal("M: naloxone in mcg and mg is one total in mcg; the infusion of 120 mg/h ran half an hour", doses(m),
                {"fentanyl": (100, "ug", half_up(100 / 102, 2)), "propofol": (40 + 120 * 0.5, "mg", half_up(100 / 102, 2)),
                 "naloxone": (naloxone, "ug", half_up(naloxone / 102, 2))})
    running = doses(p.show("M", at("23:30:00")))["propofol"][0]
    count.equal("M: at 23:30 the infusion has given a quarter of an hour, 30 mg, beside 40 mg", running, 40 + 120 * 0.25)
    count.equal("M: fit 2 h after the reversal at 00:16, at the second score of the repeated hour",
                m["recovery"].get("fit_since"), at("02:30:00", "2026-10-25", WINTER))
    dates(count, "M", m, datetime.date(2026, 10, 25), at("03:10:00", "2026-10-25", WINTER), text)
    for words in ["Wiebe, Tjark · born 31 Dec 1979 · 46 years · male · LU-20805", "102 kg (estimated)", "started at once",
                  "!! Inside the patient the device with 120 mL when abandoned at 00:10", "!! Agreed by NOT AGREED",
                  "!! Device 1: position CROSSED", "55A0094", "would not unfold, 55 mL came out", "−5 mL for 23:33, 60 mL became 55 mL",
                  "MEMORY ONLY", "naloxone 200 mcg (1.96 mcg/kg)", "!! Emergency 23:46:00, bleeding, ended 23:52:00",
                  "Sun 25 Jul 2027"]:
        count.holds(f"M: page one holds: {words[:70]}", words, one)
    timeline = section(text, "Timeline of every entry")
    for words in ["02:30:00 +02:00", "02:30:00 +01:00"]:
        count.check(f"M: in the repeated hour an entry carries its offset, {words}", words in timeline)
    count.check("M: 01:30 happened once and carries none", re.search(r"01:30:00 +Bodo", timeline) is not None)
    count.lacks("M: a weight without a height gives no BMI", "BMI", one)
    count.holds("M: the reversal stands out among the doses", "REVERSAL", section(text, "Doses"))
    items = sorted(i["code"] for i in m["open_items"])
    count.equal("M: what was never asked stays open with an owner", (items, all(i.get("owner") for i in m["open_items"])),
                (["unanswered-escort", "unanswered-screen"], True))


def run(count, binary):
    p = Program(binary, DAY / "policy")
    for name in ["people", "case-k", "case-l", "case-m"]:
        done = p.script(DAY / f"{name}.jsonl")
        count.equal(f"the script {name} of the second day runs to its end", (done.code, done.err), (0, ""))
    case_k(count, p)
    case_l(count, p)
    case_m(count, p)
    count.equal("the second day is verified without damage", p.verify().code, 0)
    p.end()
