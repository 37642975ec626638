#!/usr/bin/env python3
"""The reference day and a second invented day, replayed through the command line and compared with what was published
of them: to the minute and the millilitre. Usage: day.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import hashlib
import json
import pathlib
import re
import shutil
import sqlite3
import sys

from black_box.program import ROOT, Count, Program, binary_path, page_one, section

from black_box import second_day

DEMO = ROOT / "demo"
DAY = "2026-11-25T"

# As published: time HR BP(MAP) SpO2 RR, M = MOAA/S, O = oxygen L/min; recovery sets have no M.
SETS = {
    "A": """08:55:00 80 130/82(98) 98 15
09:27:45 78 128/80(96) 98 15 M5 O0 · 09:32:45 80 116/70(85) 94 13 M3 O4 · 09:37:45 74 118/72(87) 97 14 M3 O4
09:42:45 76 122/74(90) 97 14 M3 O4 · 09:47:45 72 116/70(85) 98 14 M4 O2 · 09:55:00 72 114/70(85) 95 13 O2
10:10:00 76 120/74(89) 97 14 O1 · 10:25:00 80 124/78(93) 96 15 O0 · 10:40:00 84 126/78(94) 97 16 O0
10:55:00 78 122/76(91) 97 15 O0 · 11:10:00 76 120/76(91) 98 15 O0 · 11:25:00 76 122/76(91) 98 15 O0""",
    "B": """11:09:00 86 146/88(107) 96 16 M5 O0 · 11:14:00 84 128/78(95) 95 12 M3 O3 · 11:19:00 88 132/80(97) 95 14 M2 O6
11:24:00 82 130/78(95) 97 14 M3 O6 · 11:29:00 104 152/92(112) 94 20 M4 O6 · 11:34:00 86 134/80(98) 97 15 M3 O6
11:39:00 82 130/80(97) 97 15 M4 O4 · 11:44:00 80 132/80(97) 96 15 M4 O4 · 11:50:00 80 128/78(95) 94 14 O4
12:05:00 78 130/80(97) 96 14 O2 · 12:20:00 82 134/82(99) 95 15 O1 · 12:35:00 76 132/80(97) 95 15 O0
12:50:00 74 130/80(97) 96 15 O0 · 13:05:00 74 132/82(99) 96 15 O0 · 13:20:00 76 134/82(99) 96 16 O0""",
    "C": """10:20:00 84 124/78(93) 99 16 M5 O2 · 10:25:00 78 112/68(83) 97 13 M3 O2 · 10:30:00 76 114/70(85) 98 14 M3 O2
10:35:00 74 116/72(87) 98 15 M4 O2 · 10:42:00 72 114/70(85) 97 14 O0 · 10:57:00 74 118/74(89) 98 15 O0
11:12:00 76 120/76(91) 99 15 O0 · 11:27:00 74 120/74(89) 99 15 O0""",
    "D": """13:33:00 72 138/84(102) 97 14 M5 O0 · 13:38:00 70 124/76(92) 97 12 M3 O2 · 13:43:00 74 126/78(94) 96 13 M3 O2
13:48:00 76 128/78(95) 97 13 M3 O2 · 13:53:00 92 130/80(97) 96 14 M3 O2 · 13:58:00 84 128/78(95) 97 14 M4 O2
14:08:00 78 126/76(93) 95 13 O2 · 14:23:00 76 130/80(97) 96 14 O0 · 14:38:00 72 134/82(99) 97 14 O0
14:53:00 72 136/82(100) 97 14 O0""",
    "E": """19:49:00 112 98/62(74) 98 20 M5 O6 · 19:54:00 118 88/54(65) 100 14 E36 M0 O10 · 19:59:00 102 94/58(70) 99 14 E35 M0 O4
20:04:00 98 98/60(73) 99 14 E36 M0 O4 · 20:09:00 96 100/62(75) 99 14 E36 M0 O4 · 20:14:00 94 102/62(75) 99 14 E37 M0 O4
20:19:00 98 108/66(80) 99 16 E40 M1 O4 · 20:24:00 102 116/70(85) 98 18 M4 O6 · 20:32:00 98 110/66(81) 96 18 O4
20:37:00 96 108/66(80) 97 17 O4 · 20:42:00 94 110/68(82) 97 17 O2 · 20:57:00 90 112/68(83) 97 16 O0
21:12:00 88 114/70(85) 98 16 O0 · 21:27:00 86 112/70(84) 98 16 O0""",
}
# Recovery scores as published, with the parts that the demo gives them, and the last rating of nausea and pain.
SCORES = {
    "A": [("09:55", 6, "1 1 2 1 1", 0, 2), ("10:10", 8, "2 2 2 1 1", 2, 2), ("10:25", 9, "2 2 2 1 2", 3, 3),
          ("10:40", 10, "2 2 2 2 2", 5, 4)],
    "B": [("11:50", 6, "1 1 2 1 1", 2, 2), ("12:05", 7, "2 1 2 1 1", 4, 2), ("12:20", 8, "2 2 2 1 1", 6, 3),
          ("12:35", 9, "2 2 2 1 2", 4, 3), ("12:50", 10, "2 2 2 2 2", 3, 2)],
    "C": [("10:42", 8, "1 2 2 1 2", 0, 0), ("10:57", 9, "2 2 2 1 2", 0, 0), ("11:12", 10, "2 2 2 2 2", 0, 0),
          ("11:27", 10, "2 2 2 2 2", 0, 0)],
}


def at(clock):
    return f"{DAY}{clock}+00:00"


def doses(shown):
    return {d["drug"]: (d["total"], d["unit"], d.get("per_kg")) for d in shown["sedation"]["doses"]}


def hold(shown, code):
    found = [h for h in shown["holds"] if h["code"] == code]
    return found[0] if len(found) == 1 else {"code": f"{len(found)} holds named {code}"}


def run_day(count, program, files):
    for name in files:
        run = program.script(DEMO / f"{name}.jsonl")
        count.equal(f"the script {name} of the day runs to its end", (run.code, run.err), (0, ""))


def vital_signs(count, case, text):
    rows = [line.split() for line in section(text, "Vital signs").splitlines()]
    for one in re.split(r"·|\n", SETS[case]):
        clock, hr, pressure, spo2, rr, *more = one.split()
        bp, mean = pressure.rstrip(")").split("(")
        wanted = [clock, hr, bp, mean, spo2, rr, *(m[1:] for m in more)]
        if case == "B" and clock == "12:35:00":
            wanted[1:2] = ["76", "(was", "176)"]
        count.check(f"{case}: the set of {clock} stands in the record with its mean pressure {mean}", wanted in rows,
                    f"no row {wanted}")


def scores(count, case, shown, text):
    listed = [(s["at"][11:16], s["scale"], s["total"]) for s in shown["recovery"]["scores"]]
    rows = [line.split() for line in section(text, "Recovery").splitlines()]
    for clock, total, parts, nausea, pain in SCORES[case]:
        count.check(f"{case}: the score of {clock} is {total}", (clock, "aldrete", total) in listed, listed)
        wanted = [clock, str(total), *parts.split()]
        count.check(f"{case}: the parts of the score of {clock} stand in the record",
                    any(row[:7] == wanted for row in rows), f"no row {wanted}")
        count.holds(f"{case}: nausea and pain of {clock} stand in the record",
                    f"{clock} nausea {nausea} of 10, pain {pain} of 10", section(text, "Recovery"))


def case_a_fill(count, p):
    for clock, volume, syringes, state, next_ml, next_state in [
        ("09:38:22", 0, 0, "below-band", 50, "below-band"), ("09:38:23", 50, 1, "below-band", 100, "below-band"),
        ("09:39:47", 250, 5, "below-band", 300, "below-band"), ("09:41:12", 450, 9, "below-band", 500, "in-band"),
        ("09:41:36", 500, 10, "in-band", 550, "in-band"),
    ]:
        fill = p.show("A", at(clock))["fill"]
        count.equal(f"A: at {clock} {volume} mL are in, the next makes {next_ml} mL",
                    (fill["running_ml"], fill["syringes"], fill["state"], fill["next_ml"], fill["next_state"]),
                    (volume, syringes, state, next_ml, next_state))
    count.equal("A: pace after nine syringes is 400 mL in 169 s, 142 mL/min",
                p.show("A", at("09:41:12"))["fill"]["pace_ml_min"], 142)
    count.equal("A: before the second syringe there is no pace", "pace_ml_min" in p.show("A", at("09:38:30"))["fill"], False)
    one_left = p.show("A", at("09:41:12"))["fill"]["to_aim"]
    count.equal("A: at 450 mL one syringe is left to the aim of 500 mL", one_left, 1)
    fill = p.show("A")["fill"]
    count.equal("A: the sphere of 500 mL is 9.8 cm across and weighs 502 g", (fill["diameter_cm"], fill["mass_g"]), (9.8, 502))
    count.equal("A: pedal presses are nowhere before a count check", p.show("A", at("09:39:53"))["counts"], [])
    counts = [(c["own"], c["pedal"], c["said"], c["agreed"]) for c in p.show("A")["counts"]]
    count.equal("A: the count checks at 5 and 10 agree with the pedal", counts, [(5, 5, 5, True), (10, 10, 10, True)])
    matter = p.show("A")["matter"]
    count.equal("A: the row says ten used, and agrees", (matter["method"], matter["used"], matter["agrees"]), ("row", 10, True))
    read_back = p.show("A")["read_back"]
    count.equal("A: the read-back is 500 mL, entered by the sedation provider as said by the physician",
                (read_back["ml"], read_back["agreed"], read_back["by"], read_back["said_by"], read_back["at"]),
                (500, True, "noor", "ilse", at("09:43:25")))


def case_a_sedation(count, p):
    a = p.show("A")
    count.equal("A: 80 mg of propofol by 09:35:00 are 0.83 mg/kg", doses(p.show("A", at("09:35:00")))["propofol"], (80, "mg", 0.83))
    count.equal("A: the doses are propofol 100 mg (1.04 mg/kg) and ondansetron 4 mg (0.041 mg/kg)", doses(a),
                {"propofol": (100, "mg", 1.04), "ondansetron": (4, "mg", 0.041)})
    count.equal("A: the lowest SpO2 is 91 at the start of the airway event", a["sedation"]["lowest_spo2"],
                {"value": 91, "at": at("09:30:40")})
    event = a["airway_events"][0]
    count.equal("A: the airway event lasted 40 s with chin lift and more oxygen",
                (len(a["airway_events"]), event["seconds"], event["actions"]), (1, 40, ["chin-lift", "oxygen-up"]))
    count.equal("A: the first set is due five minutes after the start", p.show("A", at("09:29:00"))["sedation"]["next_vitals_due"],
                at("09:33:15"))
    count.equal("A: fit since the second qualifying score", a["recovery"].get("fit_since"), at("10:40:00"))
    count.equal("A: not fit after one qualifying score", "fit_since" in p.show("A", at("10:39:59"))["recovery"], False)
    count.equal("A: four gates are met and none is crossed", a["gates"],
                {"identity": "met", "go": "met", "position": "met", "read_back": "met"})
    count.equal("A: no hold ever stood", a["holds"], [])
    count.equal("A: nothing is open at the seal", a["open_items"], [])


def case_a_dates(count, p, text):
    dates = p.show("A")["dates"]
    count.equal("A: due 25 May 2027, no grace, book by 30 Mar 2027", (dates["due"], dates["latest"], dates["book_by"]),
                ("2027-05-25", "2027-05-25", "2027-03-30"))
    count.equal("A: clear to 27 Nov, full to 11 Dec, soft to 18 Dec", dates["diet"],
                {"clear_through": "2026-11-27", "full_through": "2026-12-11", "soft_through": "2026-12-18"})
    count.equal("A: calls on 26 Nov and 2 Dec", dates["calls"], ["2026-11-26", "2026-12-02"])
    count.equal("A: no driving for 24 h of real time from going home", dates["no_driving_before"], "2026-11-26T11:40:00+00:00")
    one = page_one(text)
    for part in ["Tue 25 May 2027; book by Tue 30 Mar 2027", "clear liquids 25 Nov 2026 to 27 Nov 2026",
                 "full liquids 28 Nov 2026 to 11 Dec 2026", "soft 12 Dec 2026 to 18 Dec 2026", "regular from 19 Dec 2026",
                 "No driving before 26 Nov 2026 12:00", "Thu 26 Nov 2026 and Wed 2 Dec 2026"]:
        count.holds(f"A: page one says {part}", part, one)


def case_a_page(count, text):
    one = page_one(text)
    for part in ["Quill, Marta · born 14 Mar 1986 · 40 years · female · HM-4471", "!! Allergies latex (rash)",
                 "96.4 kg (measured), 167 cm, BMI 34.6", "69.7 kg at BMI 25", "500 mL = 10 x 50 mL (first with 5 mL dye)",
                 "Agreed by said 500, pedal 10, row 10", "said by Dr Ilse Varga, entered by Dr Noor Adeyemi at 09:43:25",
                 "Last said or shown 1 min 41 s before", "9.8 cm across, 502 g", "3 min 13 s from first to last syringe",
                 "lot DW-2641, serial 0007731, expiry 31 May 2028", "scanned", "91 % at 09:30:40", "40 s, lowest SpO2 91 %",
                 "before sedation 50 s, before device 25 s, before leaving 30 s", "Holds none", "Corrections none",
                 "propofol 100 mg (1.04 mg/kg), ondansetron 4 mg (0.041 mg/kg); per kg of 96.4 kg, measured",
                 "09:28:15 to 09:46:30", "home, 25 Nov 2026 11:40, with Jon Quill", "It is not an alarm system"]:
        count.holds(f"A: page one holds: {part}", part, one)
    count.holds("A: STOP-Bang 3 stands in the record", "STOP-Bang 3", text)
    count.lacks("A: no person stands in the record by an id", " ilse ", text)


def case_a_stages(count, p):
    for when, stage in [("2026-11-18T12:00:00+00:00", "pre-visit"), (at("08:44:00"), "arrival"), (at("08:58:00"), "sedation"), (at("09:24:55"), "sedation"),
                        (at("09:32:00"), "look"), (at("09:36:00"), "place"), (at("09:39:00"), "fill"), (at("09:42:30"), "size"),
                        (at("09:44:30"), "release"), (at("10:00:00"), "recovery"), (at("11:30:00"), "discharge"),
                        (at("11:45:00"), "record")]:
        count.equal(f"A: the stage at {when[5:19]} is {stage}", p.show("A", when).get("stage"), stage)
    count.check("A: after the seal there is no stage", "stage" not in p.show("A"))


def case_a_prompts(count, p):
    """Every 20 s from arrival to the seal: what reached medium or high, each once."""
    seen = set()
    for second in range(8 * 3600 + 2400, 11 * 3600 + 58 * 60, 20):
        clock = f"{second // 3600:02}:{second // 60 % 60:02}:{second % 60:02}"
        for prompt in p.show("A", at(clock))["prompts"]:
            if prompt["priority"] in ("medium", "high"):
                seen.add((prompt["code"], prompt["since"], prompt["say"]))
    count.check("A: fewer than 12 prompts reached medium or high", len(seen) < 12, sorted(seen))
    count.check("A: a count check due is among the prompts", any(s[0] == "count-check-due" for s in seen), sorted(seen))


def case_b_holds(count, p):
    b = p.show("B")
    count.equal("B: four holds and no more", sorted(h["code"] for h in b["holds"]),
                ["count-differs", "fasting-clear-fluid", "matter-differs", "medicine-window"])
    for code, since, ended, how in [("fasting-clear-fluid", "09:50:00", "11:10:00", "time"),
                                    ("medicine-window", "09:50:00", "09:56:00", "override"),
                                    ("count-differs", "11:30:45", "11:31:40", "resolved"),
                                    ("matter-differs", "11:31:10", "11:31:40", "resolved")]:
        h = hold(b, code)
        count.equal(f"B: the hold {code} stood from {since} to {ended} and ended by {how}",
                    (h.get("since"), h.get("ended"), h.get("ended_how")), (at(since), at(ended), how))
    count.check("B: at 11:09:59 the fasting hold stands", "ended" not in hold(p.show("B", at("11:09:59")), "fasting-clear-fluid"))
    count.equal("B: at 11:10:00 it has ended by itself, to the second",
                hold(p.show("B", at("11:10:00")), "fasting-clear-fluid").get("ended_how"), "time")
    count.holds("B: the fasting hold says 1 h 20 min at 10:30 and 11:10", "1 h 20 min before 10:30", hold(b, "fasting-clear-fluid")["say"])
    count.equal("B: after the swap Brandt is planned for 11:05", b["planned"], at("11:05:00"))
    proviso = b["provisos"][0]
    count.equal("B: the proviso came back at Look and was answered there",
                (proviso["id"], proviso["stage"], proviso.get("answer"), proviso.get("answered")), ("p1", "look", "yes", at("11:20:10")))
    items = [i["code"] for i in p.show("B", at("11:18:00"))["open_items"]]
    count.check("B: the proviso was an open item from Look on", "proviso-p1" in items, items)


def case_b_fill(count, p):
    for clock, volume in [("11:26:54", 250), ("11:27:20", 300), ("11:27:45", 300), ("11:30:45", 500), ("11:31:40", 550)]:
        count.equal(f"B: at {clock} {volume} mL are counted", p.show("B", at(clock))["fill"]["running_ml"], volume)
    b = p.show("B")
    check = b["counts"][1]
    count.equal("B: the second check says own 10, pedal 11, said 10, not agreed",
                (check["own"], check["pedal"], check["said"], check["agreed"]), (10, 11, 10, False))
    count.equal("B: the counts parted at 11:27:43", check.get("parted_at"), at("11:27:43"))
    before = p.show("B", at("11:31:10"))["matter"]
    count.equal("B: the scale says 545.5 mL of saline, 550.5 mL with dye, against 500 mL",
                (before["saline_ml"], before["matter_ml"], before["counted_ml"], before["agrees"]), (545.5, 550.5, 500, False))
    count.equal("B: after the correction the scale agrees", (b["matter"]["counted_ml"], b["matter"]["agrees"]), (550, True))
    count.equal("B: 550 mL are 10.2 cm across and 553 g", (b["fill"]["diameter_cm"], b["fill"]["mass_g"]), (10.2, 553))
    count.equal("B: the read-back is 550", (b["read_back"]["ml"], b["read_back"]["agreed"]), (550, True))
    device = b["devices"][0]
    count.equal("B: the label was typed, lot and serial verbatim",
                (device["lot"], device["serial"], device["expiry"], device["how"], device["left_in"]),
                ("DW-2644", "0007902", "2028-05-31", "typed", True))


def case_b_rest(count, p, text):
    b = p.show("B")
    count.equal("B: the doses with their shares per kg", doses(b),
                {"fentanyl": (50, "ug", 0.42), "propofol": (150, "mg", 1.27), "ondansetron": (4, "mg", 0.034),
                 "dexamethasone": (4, "mg", 0.034)})
    count.equal("B: the lowest SpO2 is 88 at 11:15:10", b["sedation"]["lowest_spo2"], {"value": 88, "at": at("11:15:10")})
    count.equal("B: the airway event lasted 70 s", b["airway_events"][0]["seconds"], 70)
    count.equal("B: fit at 12:50", b["recovery"].get("fit_since"), at("12:50:00"))
    count.equal("B: PADSS 9 at 13:30", [(s["at"], s["total"]) for s in b["recovery"]["scores"] if s["scale"] == "padss"],
                [(at("13:30:00"), 9)])
    count.equal("B: due 25 May 2027", b["dates"]["due"], "2027-05-25")
    slip = [pr["say"] for pr in p.show("B", at("12:35:30"))["prompts"] if pr["code"] == "alert-value"]
    count.check("B: HR 176 prompted until it was corrected", any("176" in s for s in slip), slip)
    after = [pr["say"] for pr in p.show("B", at("12:36:00"))["prompts"]]
    count.check("B: after the correction nothing speaks of 176", not any("176" in s for s in after), after)
    one = page_one(text)
    for part in ["Brandt, Osei · born 30 Jun 1980 · 46 years · male · HM-4502", "118.2 kg (measured), 178 cm, BMI 37.3",
                 "79.2 kg at BMI 25", "550 mL = 10 x 50 mL + 50 mL by correction (first with 5 mL dye)",
                 "said 550, pedal 11, scale 550.5 mL", "!! Counts differed 11:30:45: counted 10, said 10, pedal 11; the counts parted at 11:27:43",
                 "5 min 5 s from first to last syringe, 1 min 12 s of it stopped", "10.2 cm across, 553 g",
                 "TYPED, read by Dr Noor Adeyemi", "fentanyl 50 mcg (0.42 mcg/kg), propofol 150 mg (1.27 mg/kg)",
                 "+50 mL for 11:27:41, 300 mL became 350 mL: \"pushed 11:27:41 while retching, not tapped\"; Tomas Reyle with Dr Ilse Varga; witness: matter",
                 "hr 176 became hr 76", "single dose, no symptoms; stop if erosions at Look", "answered yes at 11:20:10",
                 "Ended by itself at 11:10.", "Overridden at 09:56.", "Resolved at 11:31:40.", "own CPAP"]:
        whole = text if part == "own CPAP" else one
        count.holds(f"B: the record holds: {part[:70]}", part, whole)
    count.holds("B: STOP-Bang 5, high, stands in the record", "STOP-Bang 5, high", text)
    refused = section(text, "Attempts that were refused")
    count.equal("B: the two failed scans are kept with what was read", refused.count("label-junk"), 2)
    timeline = section(text, "Timeline of every entry")
    count.check("B: the untapped syringe stands at 11:27:41, entered 11:31:40",
                re.search(r"11:27:41 +11:31:40 +Tomas Reyle", timeline) is not None)
    count.equal("B: eleven presses of the pedal stand in the timeline", timeline.count("Pedal pressed"), 11)


def case_c(count, p, text):
    c = p.show("C")
    count.equal("C: deferred", c["outcome"], "deferred")
    items = {re.sub(r"-\d+$", "", i["code"]): (i.get("owner"), i.get("due")) for i in c["open_items"]}
    count.equal("C: open are histology by 9 Dec and look again from 20 Jan 2027, nothing else", (items, len(c["open_items"])),
                ({"sample": ("ilse", "2026-12-09"), "look-again": ("pia", "2027-01-20")}, 2))
    count.equal("C: no date of a balloon is given, only no driving", c["dates"], {"no_driving_before": "2026-11-26T11:55:00+00:00"})
    count.equal("C: no device was opened", c["devices"], [])
    count.equal("C: go, position and read-back were never reached", c["gates"],
                {"identity": "met", "go": "open", "position": "open", "read_back": "open"})
    h = hold(c, "look-stopping-finding")
    count.equal("C: the stopping finding held from 10:26:10 until the no-go at 10:28:30",
                (h.get("since"), h.get("ended"), h.get("ended_how")), (at("10:26:10"), at("10:28:30"), "resolved"))
    urgent = [pr["code"] for pr in p.show("C", at("10:45:00"))["prompts"] if pr["priority"] == "high"]
    count.equal("C: nothing high is left on the screen of the deferred patient in recovery", urgent, [])
    held = [pr["code"] for pr in p.show("C", at("10:27:00"))["prompts"] if pr["priority"] == "high"]
    count.equal("C: the finding is a high prompt before the no-go", held, ["look-stopping-finding"])
    count.equal("C: propofol 100 mg are 1.12 mg/kg", doses(c), {"propofol": (100, "mg", 1.12)})
    count.equal("C: fit at 11:12", c["recovery"].get("fit_since"), at("11:12:00"))
    one = page_one(text)
    for part in ["Ferrán, Lucía · born 2 Sep 1993 · 33 years · female · HM-4498", "88.9 kg (measured), 162 cm, BMI 33.9",
                 "deferred, no-go: ulcer", "not opened, lot DW-2645, back to stock", "no balloon stays in by this record: no due date",
                 "biopsy from the antrum, 4 pieces: result. Owner: Dr Ilse Varga. Due: Wed 9 Dec 2026.",
                 "Look again, not before 20 Jan 2027. Owner: Pia Holm.", "with Inés Ferrán"]:
        count.holds(f"C: page one holds: {part}", part, one)
    count.holds("C: STOP-Bang 1 stands in the record", "STOP-Bang 1", text)
    count.lacks("C: no volume stands on page one", "Final volume", one)
    count.lacks("C: nothing says Checks not met", "Checks not met", text)


def records(count, p):
    """Sealed texts: stable, signed over what is printed, no line too wide, nothing that cannot be."""
    for case, number in [("A", "R-2026-0001"), ("B", "R-2026-0002"), ("C", "R-2026-0003")]:
        text = p.text(case)
        count.equal(f"{case}: the record has the number {number}", p.show(case)["sealed"]["number"], number)
        count.check(f"{case}: two exports are the same byte for byte", text == p.text(case))
        body = text.split("\nSealed ")[0]
        count.equal(f"{case}: the hash is that of the printed text",
                    hashlib.blake2b(body.encode(), digest_size=32).hexdigest(), p.show(case)["sealed"]["hash"])
        wide = [line for line in body.splitlines() if len(line) > 100]
        count.equal(f"{case}: no line of the text is wider than 100", wide, [])
        count.equal(f"{case}: three parts are signed, each by its own person",
                    [(s["part"], s["by"]) for s in p.show(case)["signed"]],
                    [("sedation", "noor"), ("nursing", "wren"), ("physician", "ilse")])
        count.holds(f"{case}: all entries were live", "100 % (within 10 min", page_one(text))
        count.check(f"{case}: the record never says µg, and no decimal ends in 0", "µ" not in text and
                    not re.search(r"\d\.\d*0 (mL|mg|mcg|kg|cm)\b", text))
        kinds = [e["kind"] for e in p.events(case)]
        count.equal(f"{case}: the exported events begin with the booking and end with the seal", (kinds[0], kinds[-1]), ("booked", "sealed"))
        pins = ["381946", "625083", "917354", "540872", "470215"]
        journal = "".join(json.dumps(e["payload"]) for e in p.events(case))
        count.check(f"{case}: no PIN stands in the record or in the events", not any(pin in text.split("\nSealed ")[0] + journal for pin in pins))


def merged_lines(names):
    """The lines of several scripts in order of time; {"line": n} follow their lines."""
    rows = [(json.loads(line), k, n) for k, name in enumerate(names)
            for n, line in enumerate((DEMO / f"{name}.jsonl").read_text().splitlines())]
    rows.sort(key=lambda row: (row[0]["at"], row[1], row[2]))
    where = {(k, n + 1): i + 1 for i, (_, k, n) in enumerate(rows)}
    for line, k, _ in rows:
        for field, value in line.items():
            if isinstance(value, dict) and set(value) == {"line"}:
                line[field] = {"line": where[k, value["line"]]}
    return [line for line, _, _ in rows]


def whole_day(count, p, binary):
    names = ["case-a", "case-b", "case-c"]
    day = [json.loads(line) for line in (DEMO / "day.jsonl").read_text().splitlines()]
    count.check("the whole day is the three cases in order of time", day == merged_lines(names))
    other = Program(binary, DEMO / "policy")
    for name in ["people", "day"]:
        run = other.script(DEMO / f"{name}.jsonl")
        count.equal(f"in order of time, {name} runs to its end", (run.code, run.err), (0, ""))
    for case in "ABC":
        one, two = p.show(case, at("23:00:00")), other.show(case, at("23:00:00"))
        for shown in (one, two):
            shown.pop("sealed")
            for event in shown["airway_events"]:
                event.pop("entry")
            for item in shown["open_items"]:
                item["code"] = re.sub(r"-\d+$", "", item["code"])
        count.check(f"{case} comes out the same alone and beside the others", one == two)
    count.equal("the whole day is verified without damage", other.verify().code, 0)
    other.end()


def tampering(count, p):
    good = p.verify()
    count.equal("verify finds nothing damaged", (good.code, "Nothing is damaged" in good.out), (0, True))
    copy = pathlib.Path(p.folder) / "copy"
    shutil.copytree(p.data, copy)
    base = sqlite3.connect(next(copy.glob("*.sqlite*"), None) or next(f for f in copy.iterdir() if f.read_bytes()[:6] == b"SQLite"))
    table = next(name for (name,) in base.execute("select name from sqlite_master where type = 'table'")
                 if any(row[1] == "payload" for row in base.execute(f"pragma table_info({name})")))
    for (trigger,) in base.execute("select name from sqlite_master where type = 'trigger'").fetchall():
        base.execute(f"drop trigger {trigger}")
    changed = base.execute(f"update {table} set payload = replace(payload, '\"spo2\":91', '\"spo2\":97') "
                           "where payload like '%\"lowest_spo2\":91%'").rowcount
    changed += base.execute(f"update {table} set payload = replace(payload, '\"lowest_spo2\":91', '\"lowest_spo2\":97')").rowcount
    base.commit()
    base.close()
    run = p.call("verify", "--data", copy)
    count.check("a value changed behind the program's back is found by verify", changed > 0 and run.code == 1, (changed, run.code, run.out))


def main():
    binary = binary_path()
    count = Count()
    p = Program(binary, DEMO / "policy")
    run_day(count, p, ["people", "case-a", "case-b", "case-c"])
    texts = {case: p.text(case) for case in "ABC"}
    for case in "ABC":
        vital_signs(count, case, texts[case])
        scores(count, case, p.show(case), texts[case])
    case_a_fill(count, p)
    case_a_sedation(count, p)
    case_a_dates(count, p, texts["A"])
    case_a_page(count, texts["A"])
    case_a_stages(count, p)
    case_a_prompts(count, p)
    case_b_holds(count, p)
    case_b_fill(count, p)
    case_b_rest(count, p, texts["B"])
    case_c(count, p, texts["C"])
    records(count, p)
    whole_day(count, p, binary)
    tampering(count, p)
    p.end()
    second_day.run(count, binary)
    count.end()


if __name__ == "__main__":
    main()
