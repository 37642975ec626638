#!/usr/bin/env python3
"""The two removals of the reference day, D and E, replayed through the command line and compared with what was
published of them, and the register on that day. Usage: removals.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import json

from black_box.program import Count, Program, binary_path, page_one, section

from day import DEMO, at, doses, run_day, vital_signs

SCORES = {"D": [("14:08", 7), ("14:23", 9), ("14:38", 10), ("14:53", 10)],
          "E": [("20:32", 7), ("20:37", 7), ("20:42", 8), ("20:57", 9), ("21:12", 10), ("21:27", 10)]}


def scores(count, case, shown):
    listed = [(s["at"][11:16], s["total"]) for s in shown["recovery"]["scores"] if s["scale"] == "aldrete"]
    count.equal(f"{case}: the recovery scores", listed, SCORES[case])


def case_d(count, p, text):
    d = p.show("D")
    removal = d["removal"]
    count.equal("D: 470 mL against 600 mL, -130 mL, -21.7 %",
                (removal["recovered_ml"], removal["filled_ml"], removal["difference_ml"], removal["difference_percent"]),
                (470, 600, -130, -21.7))
    count.equal("D: filled by our own record, on day 183, on time", (removal["filled_from"], removal["days_in_place"], removal["timing"]),
                ("record", 183, "on time"))
    count.equal("D: 13.4 % of total, 40.9 % of excess, BMI -5.0", d["outcome_weight"],
                {"tbwl_percent": 13.4, "ewl_percent": 40.9, "bmi_change": -5.0})
    count.equal("D: 20 mL of juice are not counted", p.show("D", at("13:43:45"))["removal"].get("recovered_ml"), None)
    count.equal("D: doses and per kg", doses(d), {"midazolam": (1, "mg", 0.009), "propofol": (120, "mg", 1.11),
                                                   "hyoscine-butylbromide": (20, "mg", 0.19)})
    count.equal("D: no hold, gate identity met", (d["holds"], d["gates"]), ([], {"identity": "met"}))
    count.equal("D: fit at 14:38", d["recovery"].get("fit_since"), at("14:38:00"))
    count.equal("D: the leak waited for the physician until 12:52", [
        [i["code"] for i in p.show("D", at(t))["open_items"]] for t in ("12:51:59", "12:52:00")], [["review-leak-suspected"], []])
    for when, stage in [("13:41:30", "puncture"), ("13:45:00", "aspirate"), ("13:50:00", "out"), ("14:10:00", "recovery")]:
        count.equal(f"D: the stage at {when} is {stage}", p.show("D", at(when)).get("stage"), stage)
    one = page_one(text)
    for part in ["placed Tue 26 May 2026, 600 mL, with dye, lot DW-2487", "due Thu 26 Nov 2026",
                 "470 mL against 600 mL: \u2212130 mL, \u221221.7 %", "tear 2 mm beside the valve", "Fluid pale blue",
                 "13:51:20, complete, kept; 183 days in place, 1 day before it was due", "scratch, \"superficial\"",
                 "124.6 kg then, 13.4 % of the total, 40.9 % of the excess over BMI 25", "R-2026-0002"]:
        count.holds(f"D: page one holds: {part}", part, one)


def case_e(count, p, text):
    e = p.show("E")
    removal = e["removal"]
    count.equal("E: 655 mL against 600 mL reported, +55 mL, +9.2 %",
                (removal["recovered_ml"], removal["filled_ml"], removal["filled_from"], removal["difference_ml"], removal["difference_percent"]),
                (655, 600, "reported", 55, 9.2))
    count.equal("E: due 6 Sep by our policy, day 264, late", (removal["due"], removal["days_in_place"], removal["timing"]),
                ("2026-09-06", 264, "late"))
    count.equal("E: 22.5 % lost, by word", (e["outcome_weight"]["tbwl_percent"], e["outcome_weight"]["reported"]), (22.5, True))
    holds = [(h["code"], h["class"], h.get("ended_how")) for h in e["holds"]]
    count.equal("E: fasting not known was overridden, food was cleared", holds,
                [("fasting-not-known", "absolute", "override"), ("food-in-stomach", "absolute", "resolved")])
    count.equal("E: doses and per kg", doses(e), {"fentanyl": (100, "ug", 1.4), "propofol": (210, "mg", 2.95),
                                                  "suxamethonium": (100, "mg", 1.4), "ondansetron": (4, "mg", 0.056)})
    count.equal("E: the patient was completed at 19:20", (p.show("E", at("19:19:59"))["patient"].get("number"), e["patient"]["number"]),
                (None, "HM-4519"))
    count.equal("E: before the number the identity was open",
                "identity" in [i["code"] for i in p.show("E", at("19:15:00"))["open_items"]], True)
    one = page_one(text)
    for part in ["\u017b\u00f3\u0142tek, Zofia", "started at once, without an entry on the list", "600 mL reported", "due Sun 6 Sep 2026",
                 "655 mL against 600 mL reported: +55 mL, +9.2 %", "264 days in place, 80 days OVERDUE", "pressure erosions",
                 "tube 7.0 at 19:53:50", "obstruction; tube, head up; waiting adds risk", "the first weight is by word"]:
        count.holds(f"E: page one holds: {part}", part, one)
    count.holds("E: the consent by interpreter stands in the record", "telephone interpreter", text)
    count.holds("E: the change of canister stands in the timeline", "Canister changed at 250 mL, the new one at 0 mL",
                " ".join(section(text, "Timeline of every entry").split()))


def listing(p, *more):
    return json.loads(p.call("register", "--data", p.data, "--format", "json", *more).out)


def register(count, p):
    entries = {e["entry"]: e for e in listing(p, "--all")}
    count.equal("the register closed D0 and E the same day", [(k, entries[k]["status"]) for k in ("D0", "E")],
                [("D0", "removed"), ("E", "removed")])
    count.equal("plainly it lists nobody", listing(p), [])
    count.equal("the table says so in words", p.call("register", "--data", p.data).out, "Nobody here.\n")
    count.equal("a lot finds what is closed, too", [e["entry"] for e in listing(p, "--lot", "DW-2487")], ["D0"])
    count.equal("a date that does not exist is refused", p.call("register", "--data", p.data, "--on", "2027-02-30").code, 2)
    count.equal("verify finds nothing damaged", p.verify().code, 0)


def month(count, p):
    """The month of the two removals, counted by hand from their scripts."""
    audit = json.loads(p.call("audit", "--data", p.data, "--month", "2026-11", "--format", "json").out)
    count.equal("November: two removals, nothing placed", (audit["removals"], audit["placements"]), (2, 0))
    count.equal("November: one balloon was due and came out on time", audit["removed_on_time"], {"n": 1, "of": 1})
    count.equal("November: one override, of another reason", audit["overrides"], {"other": 1})
    count.equal("November: nobody is overdue at its end", audit["overdue_at_end"], 0)
    count.check("November: a median of nobody is absent", "median_volume_ml" not in audit)
    may = json.loads(p.call("audit", "--data", p.data, "--month", "2026-05", "--format", "json").out)
    count.equal("May: one placement of 600 mL", (may["placements"], may["median_volume_ml"]), (1, 600.0))
    count.equal("May: three count checks, none differed", may["counts_parted"], {"n": 0, "of": 3})
    count.equal("May: the fill took 4 min 15 s", may["median_fill_s"], 255)
    september = json.loads(p.call("audit", "--data", p.data, "--month", "2026-09", "--format", "json").out)
    count.equal("September: the balloon from elsewhere was due and not out", september["removed_on_time"], {"n": 0, "of": 1})
    count.equal("a month that is none is refused", p.call("audit", "--data", p.data, "--month", "2026-13").code, 2)
    listed = json.loads(p.call("list", "--data", p.data, "--format", "json").out)
    count.equal("the list of the day", [(x["case"], x["stage"]) for x in listed], [("D", "sealed"), ("E", "sealed")])
    count.equal("in words", p.call("list", "--data", p.data, "--on", "2026-11-24").out, "Nobody here.\n")


def before_the_removal(count, binary):
    """The register on the days before: booked, then flagged."""
    p = Program(binary, DEMO / "policy")
    runs = [p.script(DEMO / f"{name}.jsonl").code for name in ("people", "case-d-placed")]
    count.equal("the placement of May runs alone", runs, [0, 0])
    on = {day: listing(p, "--on", day)[0] for day in ("2026-06-01", "2026-10-01", "2026-11-26", "2026-11-27")}
    count.equal("D0 by date", [on[d]["status"] for d in on], ["in place", "book by", "due", "overdue"])
    count.equal("D0: book by 1 Oct, due 26 Nov 2026", (on["2026-06-01"]["book_by"], on["2026-06-01"]["due"]), ("2026-10-01", "2026-11-26"))
    count.check("D0 always has a next action, a date and an owner", all(e.get("next") and e.get("next_date") and e.get("owner") for e in on.values()))
    p.end()


def main():
    binary = binary_path()
    count = Count()
    before_the_removal(count, binary)
    p = Program(binary, DEMO / "policy")
    run_day(count, p, ["people", "case-d-placed", "case-d", "case-e"])
    for case, check in (("D", case_d), ("E", case_e)):
        text = p.text(case)
        vital_signs(count, case, text)
        scores(count, case, p.show(case))
        check(count, p, text)
    register(count, p)
    month(count, p)
    p.end()
    count.end()


if __name__ == "__main__":
    main()
