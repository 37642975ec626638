#!/usr/bin/env python3
"""The script language at its edges: malformed lines, refusals and their codes, questions, double taps and bursts, crossed
gates, exits. Usage: scripts.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import datetime
import json
import pathlib
import sys

from black_box.case import PIN, Case, clock, seq_of
from black_box.program import ROOT, Count, Program, binary_path, page_one, section

DEMO = ROOT / "demo"
GOOD = {"at": "2026-11-25T08:00:00+00:00", "by": "pia", "do": "recall", "lot": "DW-1000", "note": "first"}
LATER = {**GOOD, "at": "2026-11-25T08:02:00+00:00", "lot": "DW-1002", "note": "later"}


def second(**fields):
    line = {"at": "2026-11-25T08:01:00+00:00", "by": "pia", "do": "recall", "lot": "DW-1001", "note": "second"}
    line.update(fields)
    return json.dumps({key: value for key, value in line.items() if value is not None})


def book(**patient):
    known = {"number": "HM-9001", "family_name": "Probe", "given_name": "Ada", "born": "1980-01-01", "sex_at_birth": "f"}
    known.update(patient)
    return {"case": "X", "do": "book", "kind": "placement", "patient": known, "planned": "2026-11-26T09:00:00+00:00",
            "room": "Room 1", "lot": None, "note": None}


# What is wrong, the second line of the file, and what the one sentence must name: the field, and what is allowed.
MALFORMED = [
    ("a line that is no JSON", "{at: 1}", ["JSON object", "quotes"]),
    ("a line that ends in the middle", second()[:-4], ["JSON object"]),
    ("two objects on one line", second() + second(), ["JSON object"]),
    ("a list instead of an object", "[1, 2]", ["JSON object"]),
    ("NaN for a number", second().replace('"second"', "NaN"), ["JSON object", "numbers"]),
    ("an unknown command", second(do="recal"), ['"do"', "recall"]),
    ("an unknown command with no near name", second(do="zzzzzz"), ['"do"', "zzzzzz"]),
    ("a line without a command", second(do=None), ['"do"', "missing"]),
    ("an unknown field", second(nota="x"), ['"nota"', "note"]),
    ("an unknown field inside an object", json.dumps({**json.loads(second(**book())), "patient": {"number": "1", "family_nam": "Q"}}),
     ["patient.family_nam", "family_name"]),
    ("a missing field", second(note=None), ['"note"', "missing"]),
    ("a missing by", second(by=None), ['"by"', "missing"]),
    ("a number where text is needed", second(lot=7), ['"lot"', "text"]),
    ("null where text is needed", second().replace('"second"', "null"), ['"note"', "text"]),
    ("text where a number is needed", second(case="X", do="depth", moaas="3", lot=None, note=None), ['"moaas"', "number"]),
    ("a fraction where a whole number is needed", second(case="X", do="depth", moaas=2.5, lot=None, note=None), ['"moaas"', "whole"]),
    ("a number outside its set", second(case="X", do="depth", moaas=6, lot=None, note=None), ['"moaas"', "0 to 5"]),
    ("a word outside its set", second(case="X", do="stop-filling", reason="tired", lot=None, note=None),
     ['"reason"', "resistance, retching, position-lost, other"]),
    ("a how that there is not", second(how="voice"), ['"how"', "tap, pedal, scan, key, paper"]),
    ("1e9 mL", second(case="X", do="part-syringe", ml=1e9, lot=None, note=None), ['"ml"', "mL"]),
    ("more than one decimal of a mL", second(case="X", do="part-syringe", ml=50.25, lot=None, note=None), ['"ml"', "one decimal"]),
    ("a time that goes back", second(at="2026-11-25T07:59:59+00:00"), ['"at"', "goes back"]),
    ("a time without an offset", second(at="2026-11-25T08:01:00"), ['"at"', "offset"]),
    ("a day that does not exist", second(at="2026-02-30T08:01:00+00:00"), ['"at"', "time"]),
    ("a birth date that does not exist", second(**book(born="1986-02-30")), ["patient.born", "date"]),
    ("two keys alike", second()[:-1] + ', "note": "again"}', ['"note"', "twice"]),
    ("an expectation that there is not", second(expect="maybe"), ['"expect"', "recorded, asked, refused"]),
    ("the physician's word without whose it is", second(case="X", do="go", lot=None, note=None), ['"said_by"', "missing"]),
    ("a label given in two ways", second(case="X", do="device", raw="1", unreadable=True, lot=None, note=None), ['"raw"', "exactly one"]),
    ("a typed label without who read it", second(case="X", do="device", typed={"gtin": "1"}, lot=None, note=None), ['"verified_by"', "missing"]),
    ("a score with a part missing", second(case="X", do="score", scale="padss", walking=2, lot=None, note=None), ["missing"]),
    ("a reference to a line that recorded nothing", second(case="X", do="airway-event-end", event={"line": 7}, lot=None, note=None),
     ['"event"', "line 7"]),
]


def sentence_good(err):
    lines = err.strip().splitlines()
    return len(lines) == 1 and lines[0].endswith((".", "?"))


def malformed(count, binary):
    p = Program(binary, DEMO / "policy")
    p.script(DEMO / "people.jsonl")
    folder = pathlib.Path(p.folder)
    for number, (name, line, needles) in enumerate(MALFORMED):
        file = folder / f"bad-{number}.jsonl"
        file.write_text(json.dumps(GOOD) + "\n" + line + "\n" + json.dumps(LATER) + "\n")
        run = p.script(file)
        count.equal(f"{name} is malformed: exit 2", run.code, 2)
        count.check(f"{name}: one sentence says file, line and what is wrong",
                    sentence_good(run.err) and file.name in run.err and "line 2" in run.err and all(n in run.err for n in needles),
                    run.err)
        count.equal(f"{name}: the line before is kept, nothing after it runs", [a["result"] for a in run.answers], ["recorded"])
        going = p.script(file, "--keep-going")
        count.equal(f"{name} stops even with --keep-going", (going.code, len(going.answers)), (2, 1))
    bytes_bad = json.dumps(GOOD).encode() + b"\n" + second().replace("second", "\udcff").encode("utf-8", "surrogateescape") + b"\n"
    run = p.call("script", "-", "--data", p.data, given=bytes_bad)
    count.check("invalid UTF-8 is malformed", run.code == 2 and "UTF-8" in run.err and sentence_good(run.err), run.err)
    for name, content in [("an empty file", ""), ("a file of blank lines", "\n \n\n")]:
        (folder / "empty.jsonl").write_text(content)
        run = p.script(folder / "empty.jsonl")
        count.check(f"{name} is malformed and says so", run.code == 2 and "empty" in run.err and sentence_good(run.err), run.err)
    run = p.call("script", folder, "--data", p.data)
    count.check("a folder instead of a file is malformed", run.code == 2 and "folder" in run.err and sentence_good(run.err), run.err)
    run = p.call("script", folder / "none.jsonl", "--data", p.data)
    count.check("a file that is not there is malformed", run.code == 2 and sentence_good(run.err), run.err)
    run = p.call("script", folder / "empty.jsonl", "--dat", p.data)
    count.equal("an unknown option is bad usage", run.code, 2)
    count.equal("after all of this the store is whole", p.verify().code, 0)
    p.end()


def refusals(count, p):
    """One case far enough that the refusals below are about the command and not about the stage."""
    c = Case(p, "R1").until("filled")

    def refused(claim, code, by, do, attempt=False, **fields):
        answer = c.say(by, do, **fields).answers[-1]
        count.equal(f"{claim}: {code}", (answer["result"], answer.get("code")), ("refused", code))
        count.equal(f"{claim}: {'the attempt is recorded' if attempt else 'nothing is recorded'}", "seq" in answer, attempt)
        count.check(f"{claim}: the answer says what is wrong in a sentence", answer["say"].endswith("."), answer["say"])

    refused("a nurse counts no syringe", "role-may-not", "wren", "syringe-in")
    refused("an assistant gives no dose", "role-may-not", "tomas", "dose", drug="propofol", amount=20, unit="mg")
    refused("a nurse's word is no go", "role-may-not", "tomas", "go", said_by="wren")
    refused("a nurse signs no physician's part", "role-may-not", "wren", "sign", attempt=True, part="physician", pin=PIN["wren"])
    refused("the assistant does not enter the read-back", "role-may-not", "tomas", "read-back", said_by="ilse", ml=500)
    refused("the physician does not enter her own read-back with the scope in", "same-person", "ilse", "read-back", ml=500)
    refused("the pedal is no read-back with three in the room", "role-may-not", "tomas", "read-back", said_by="ilse", **{"from": "pedal"})
    refused("nobody corrects with himself", "same-person", "tomas", "correct", ml=50, reason="x", **{"with": "tomas"})
    refused("a correction names its reason", "out-of-range", "tomas", "correct", ml=50, reason="")
    refused("a person that there is not", "no-such-person", "nobody", "scope-in")
    refused("the word of a person that there is not", "no-such-person", "tomas", "go", said_by="nobody")
    refused("an entry that there is not", "no-such-entry", "noor", "correct", entry=999999, reason="x", hr=80)
    refused("an airway event that there is not", "no-such-entry", "noor", "airway-event-end", event=999999)
    refused("a proviso that there is not", "no-such-entry", "tomas", "answer-proviso", said_by="ilse", proviso="p9", value="yes")
    refused("a question that there is not", "no-such-entry", "tomas", "double-tap-was", question="q9", answer="same")
    refused("0 mL", "out-of-range", "tomas", "part-syringe", ml=0)
    refused("a negative volume", "out-of-range", "tomas", "part-syringe", ml=-20)
    refused("more than any syringe of the world", "out-of-range", "tomas", "part-syringe", ml=1001)
    refused("more drawn back than is in", "nothing-to-draw", "tomas", "draw-back", ml=500.1)
    refused("a lower pressure that is not below the upper", "out-of-range", "noor", "vitals", hr=80, systolic=80, diastolic=80, spo2=97, rr=14)
    refused("a saturation of 101", "out-of-range", "noor", "vitals", hr=80, systolic=120, diastolic=80, spo2=101, rr=14)
    refused("a dose of 0 mg", "out-of-range", "noor", "dose", drug="propofol", amount=0, unit="mg")
    refused("a weight of 9640 kg", "out-of-range", "wren", "measure", weight_kg=9640, weight_basis="measured", height_cm=170)
    refused("a height in metres", "out-of-range", "wren", "measure", weight_kg=80, weight_basis="measured", height_cm=1.67)
    refused("a meal in the future", "out-of-range", "wren", "intake", kind="clear", last=clock(c.now + 3600))
    refused("something that happened after it was entered", "out-of-range", "tomas", "scope-out", happened=clock(c.now + 3600))
    refused("an override without a hold", "no-such-hold", "ilse", "override", hold="look-stopping-finding", reason="benefit", pin=PIN["ilse"])
    refused("an addendum before the seal", "case-not-sealed", "ilse", "addendum", text="x")
    refused("a seal without signatures", "part-unsigned", "ilse", "seal", pin=PIN["ilse"])
    refused("a case that there is not", "no-such-case", "tomas", "scope-in", case="R999")
    refused("a second case of one name", "case-exists", "pia", "book", **{k: v for k, v in book().items() if k not in ("do", "case", "lot", "note")})
    refused("a person added twice", "person-exists", "pia", "add-person", case=None, id="wren", name="W", roles=["nurse"], pin="123456")
    refused("a PIN of two digits", "out-of-range", "pia", "add-person", case=None, id="neu", name="N", roles=["nurse"], pin="12")
    refused("a birth date of 2090", "out-of-range", "pia", "book", case="R998",
            **{k: v for k, v in book(born="2090-01-01").items() if k not in ("do", "case", "lot", "note")})
    refused("a hand-over to the wrong birthday", "identity-mismatch", "wren", "accept-handover", attempt=True, birth_day_month="02 01")
    near = c.say("tomas", "finding", said_by="ilse", kind="ulcre").answers[-1]
    count.check("an unknown finding names the nearest", near["code"] == "not-on-list" and "ulcer" in near["say"], near)
    near = c.say("noor", "dose", drug="propofoll", amount=20, unit="mg").answers[-1]
    count.check("an unknown drug names the nearest", near["code"] == "not-on-list" and "propofol" in near["say"], near)
    count.equal("a height in metres is offered in cm", "167" in c.say("wren", "measure", weight_kg=80, weight_basis="measured",
                                                                         height_cm=1.67).answers[-1]["say"], True)
    count.equal("after all refusals 500 mL are still in", c.show()["fill"]["running_ml"], 500)


def pins(count, p):
    c = Case(p, "P1").until("booked")
    c.say("wren", "medicine", group="nsaid", name="ibuprofen", last_dose="2026-11-24")
    count.check("an NSAID within the window holds", "medicine-window" in [h["code"] for h in c.show()["holds"]])
    asked = {"hold": "medicine-window", "reason": "single-dose"}
    for name, pin in [("a wrong PIN", "000000"), ("no PIN at all", None)]:
        answer = c.say("ilse", "override", **asked, **({"pin": pin} if pin else {})).answers[-1]
        count.equal(f"an override with {name} is refused and the attempt recorded", (answer.get("code"), "seq" in answer), ("pin-wrong", True))
    c.say("ilse", "override", **asked, pin="000001")
    answer = c.say("ilse", "override", **asked, pin="000002").answers[-1]
    locked = c.say("ilse", "override", **asked, pin=PIN["ilse"]).answers[-1]
    count.equal("after three wrong PINs even the right one is locked", locked.get("code"), "pin-locked")
    count.equal("a lock is never in the way of vital signs",
                c.say("ilse", "vitals", hr=80, systolic=120, diastolic=80, spo2=97, rr=14).answers[-1]["result"], "recorded")
    count.equal("nor of an airway event", c.say("ilse", "airway-event").answers[-1]["result"], "recorded")
    c.now += 61
    ended = c.say("ilse", "override", **asked, pin=PIN["ilse"]).answers[-1]
    count.equal("after a minute the right PIN overrides", (ended["result"], ended.get("ended")), ("recorded", ["medicine-window"]))
    count.check("the wrong tries stand in the record as attempts", "pin-wrong" in section(p.text("P1"), "Attempts that were refused"))
    payloads = json.dumps([e["payload"] for e in p.events("P1")])
    count.check("no PIN that was tried stands in the events", not any(pin in payloads for pin in ["000000", "000001", PIN["ilse"]]))
    by_nurse = c.say("wren", "override", hold="medicine-window", reason="single-dose", pin=PIN["wren"]).answers[-1]
    count.equal("a nurse overrides nothing", (by_nurse.get("code"), "seq" in by_nurse), ("role-may-not", True))


def shut(count, p):
    c = Case(p, "S1").until("identified")
    wrong = c.say("tomas", "enter-room", room="Room 1", birth_day_month="02 01").answers[-1]
    count.equal("a wrong birthday on entering is recorded and holds", (wrong["result"], wrong["raised"]), ("recorded", ["identity-mismatch"]))
    leads_on = [("pause", {"which": "before-sedation", "present": ["ilse"], "answers": {}}, "tomas"), ("start-sedation", {}, "noor"),
                ("go", {"said_by": "ilse"}, "tomas"), ("device", {"unreadable": True}, "tomas"),
                ("plan", {"said_by": "ilse", "band_low_ml": 500, "band_high_ml": 600, "aim_ml": 500}, "tomas")]
    for do, fields, by in leads_on:
        count.equal(f"while the case is shut {do} is refused", c.say(by, do, **fields).answers[-1].get("code"), "case-shut")
    rescue = [("vitals", {"hr": 80, "systolic": 120, "diastolic": 80, "spo2": 97, "rr": 14}, "noor"), ("airway-event", {}, "wren"),
              ("dose", {"drug": "naloxone", "amount": 100, "unit": "ug"}, "noor"), ("allergies", {"none_known": True}, "wren"),
              ("emergency", {}, "wren"), ("hand-over-role", {"role": "nurse", "to": "sunniva"}, "wren")]
    for do, fields, by in rescue:
        count.equal(f"while the case is shut {do} is recorded", c.say(by, do, **fields).answers[-1]["result"], "recorded")
    answer = c.say("ilse", "override", hold="identity-mismatch", reason="benefit", words="x", pin=PIN["ilse"]).answers[-1]
    count.equal("a wrong patient is never overridden", (answer.get("code"), "seq" in answer), ("hold-has-no-override", True))
    right = c.say("tomas", "enter-room", room="Room 1", birth_day_month="01 01").answers[-1]
    count.equal("the right birthday opens the case again", right["ended"], ["identity-mismatch"])
    count.equal("then sedation starts", c.say("noor", "start-sedation").answers[-1]["result"], "recorded")
    after = c.say("tomas", "enter-room", room="Room 1", birth_day_month="02 01").answers[-1]
    count.equal("during sedation a wrong digit is recorded", after["result"], "recorded")
    count.equal("and stops no go", c.say("tomas", "go", said_by="ilse").answers[-1]["result"], "recorded")
    d = Case(p, "S2").until("booked")
    d.say("wren", "consent", signed=False)
    no = d.say("ilse", "override", hold="consent-missing", reason="benefit", words="x", pin=PIN["ilse"]).answers[-1]
    count.equal("missing consent is never overridden", no.get("code"), "hold-has-no-override")


def labels(count, p):
    c = Case(p, "L1").until("go")
    good = "(01)02001234026413(17)280531(10)DW-2650(21)0008001"
    answer = c.say("tomas", "device", how="scan", raw=good.replace("6413", "6414")).answers[-1]
    count.equal("a wrong check digit is refused", answer.get("code"), "label-check-digit")
    typed = {"gtin": "02001234026414", "lot": "DW-2650", "serial": "0008001", "expiry": "280531"}
    answer = c.say("tomas", "device", how="key", typed=typed, verified_by="noor").answers[-1]
    count.equal("a wrong check digit is refused when typed too", answer.get("code"), "label-check-digit")
    answer = c.say("tomas", "device", how="scan", raw="https://example.org/leaflet").answers[-1]
    count.equal("scanner junk is refused and kept as an attempt", (answer.get("code"), "seq" in answer), ("label-junk", True))
    count.check("the junk stands in the record as it was read", "https://example.org/leaflet" in p.text("L1"))
    typed["gtin"] = "02001234026413"
    answer = c.say("tomas", "device", how="key", typed=typed, verified_by="tomas").answers[-1]
    count.equal("a typed label is read by a second person", answer.get("code"), "same-person")
    answer = c.say("tomas", "device", how="key", typed={**typed, "lot": "HM-9001"}, verified_by="noor").answers[-1]
    count.equal("a hospital number is no lot", answer.get("code"), "out-of-range")
    count.equal("after five refusals no device is open", c.show()["devices"], [])
    answer = c.say("tomas", "device", how="scan", raw=good.replace("280531", "261031")).answers[-1]
    count.equal("an expired device is recorded and holds", (answer["result"], answer["raised"]), ("recorded", ["label-expired"]))
    d = Case(p, "L2").until("go")
    answer = d.say("tomas", "device", how="scan", raw=good.replace("DW-2650", "DW-2399")).answers[-1]
    count.equal("a lot on the recall list is recorded and holds", answer["raised"], ["label-recall"])
    e = Case(p, "L3").until("go")
    answer = e.say("tomas", "device", unreadable=True).answers[-1]
    count.check("an unreadable label is possible and stays open", answer["result"] == "recorded" and "label-unreadable" in answer["opened"], answer)
    count.holds("the record says that the label was unreadable", "LABEL UNREADABLE", page_one(p.text("L3")))
    count.holds("and that the lot is not recorded", "lot not recorded", page_one(p.text("L3")))


def asked(count, p):
    c = Case(p, "A1").until("booked")
    heavy = {"weight_kg": 300, "weight_basis": "measured", "height_cm": 180}
    run = c.say("wren", "measure", **heavy)
    answer = run.answers[-1]
    count.equal("a weight of 300 kg is asked about, and nothing recorded",
                (answer["result"], answer["question"], answer["field"], "seq" in answer), ("asked", "implausible", "weight_kg", False))
    count.equal("an unexpected question of that kind stops the script with 1", run.code, 1)
    count.check("the weight is not known yet", "weight" not in c.show())
    count.equal("with sure it is recorded", c.say("wren", "measure", sure=True, **heavy).answers[-1]["result"], "recorded")
    count.equal("and stands as said", c.show()["weight"], {"kg": 300, "basis": "measured"})
    for name, fields, word in [("500 mg of propofol", {"drug": "propofol", "amount": 500, "unit": "mg"}, "mg"),
                               ("0.2 mcg of fentanyl", {"drug": "fentanyl", "amount": 0.2, "unit": "ug"}, "mcg"),
                               ("50 mg of fentanyl", {"drug": "fentanyl", "amount": 50, "unit": "mg"}, "mcg")]:
        answer = c.say("noor", "dose", **fields).answers[-1]
        count.check(f"{name} is asked about once, with the ampoule's unit in words",
                    answer["result"] == "asked" and f"The ampoule counts in {word}" in answer["say"], answer)
    pulse = {"hr": 190, "systolic": 120, "diastolic": 80, "spo2": 97, "rr": 14}
    count.equal("a pulse of 190 is asked about", c.say("noor", "vitals", **pulse).answers[-1]["result"], "asked")
    pulse["hr"] = 176
    count.equal("a pulse of 176 is not", c.say("noor", "vitals", **pulse).answers[-1]["result"], "recorded")
    old = c.say("wren", "intake", kind="clear", last="2026-11-01T08:00:00+00:00").answers[-1]
    count.equal("a drink of three weeks ago is asked about", old["result"], "asked")


def taps(count, p):
    c = Case(p, "T1").until("ready")
    start = c.now
    c.say("tomas", "syringe-in", at=start)
    early = c.say("tomas", "syringe-in", at=start + 7.999).answers[-1]
    count.equal("a tap after 7.999 s is a question", (early["result"], early["question"], early["id"], "seq" in early), ("asked", "double-tap", "q1", True))
    again = c.say("tomas", "syringe-in", at=start + 15.998).answers[-1]
    count.equal("7.999 s after a question is a question too", again.get("id"), "q2")
    count.equal("8.000 s after the last tap of any kind it counts", c.say("tomas", "syringe-in", at=start + 23.998).answers[-1]["result"], "recorded")
    fill = c.show()["fill"]
    count.equal("two are counted and two are possible", (fill["running_ml"], fill["possible_ml"], fill["questions"]), (100, 200, ["q1", "q2"]))
    before = len(p.events("T1"))
    check = c.say("tomas", "count-check", said_by="ilse", count=2).answers[-1]
    count.equal("a count check while taps are open asks the oldest", (check["result"], check["id"]), ("asked", "q1"))
    count.equal("and records nothing", len(p.events("T1")), before)
    c.say("tomas", "double-tap-was", question="q1", answer="second")
    c.say("tomas", "double-tap-was", question="q2", answer="same")
    fill = c.show()["fill"]
    count.equal("a second syringe counts, the same one does not", (fill["running_ml"], fill["questions"], "possible_ml" in fill), (150, [], False))
    count.equal("an answer is given once", c.say("tomas", "double-tap-was", question="q2", answer="second").answers[-1].get("code"), "no-such-entry")
    timeline = section(p.text("T1"), "Timeline of every entry")
    count.holds("the record says of the one that it was a second syringe", "it was a second syringe; 100 mL in", timeline)
    count.holds("and of the other that it was not counted", "the same one twice, not counted", timeline)

    d = Case(p, "T2").until("ready")
    run = d.run([("tomas", "syringe-in", d.now + 0.1 * i, {}) for i in range(10)])
    results = [a["result"] for a in run.answers]
    count.equal("a burst of ten taps is one syringe and nine questions", results, ["recorded"] + ["asked"] * 9)
    count.equal("a burst exits with 0: questions that are recorded are no failure", run.code, 0)
    fill = d.show()["fill"]
    count.equal("after the burst 50 mL are counted and 500 mL possible", (fill["running_ml"], fill["possible_ml"], len(fill["questions"])), (50, 500, 9))
    kinds = [e["kind"] for e in p.events("T2")]
    count.equal("all ten taps are in the journal", (kinds.count("syringe-in"), kinds.count("double-tap-asked")), (1, 9))
    count.holds("page one shows the span until they are answered", "50 mL to 500 mL", page_one(p.text("T2")))
    e = Case(p, "T3").until("ready")
    e.say("tomas", "syringe-in", at=e.now)
    paper = e.say("tomas", "syringe-in", at=e.now + 1, how="paper").answers[-1]
    count.equal("entries from paper are never asked about", paper["result"], "recorded")
    count.holds("and are counted as from paper on page one", "1 from paper", page_one(p.text("T3")))


def gates(count, p):
    c = Case(p, "G1").until("booked")
    steps = [("identity", "noor", "start-sedation", {}, "gate-identity", [("wren", "identity", {"identifiers": ["name", "born"]}),
                                                                          ("wren", "consent", {"signed": True})]),
             ("go", "tomas", "device", {"how": "scan", "raw": "(01)02001234026413(17)280531(10)DW-2660(21)0009001"}, "gate-go",
              [("tomas", "go", {"said_by": "ilse"})]),
             ("position", "tomas", "syringe-in", {}, "gate-position", [("tomas", "position-seen", {"said_by": "ilse"})]),
             ("read_back", "tomas", "device-off", {}, "gate-read-back", [("noor", "read-back", {"said_by": "ilse", "ml": 50})])]
    for gate, by, do, fields, code, later in steps:
        answer = c.say(by, do, **fields).answers[-1]
        count.equal(f"crossing the gate {gate} is recorded", answer["result"], "recorded")
        count.check(f"and raises {code}", code in answer["raised"], answer["raised"])
        prompts = [pr["priority"] for pr in c.show()["prompts"] if pr["code"] == code]
        count.equal(f"{code} is a high prompt", prompts, ["high"])
        refused = c.say("ilse", "override", hold=code, reason="benefit", words="x", pin=PIN["ilse"]).answers[-1]
        count.equal(f"{code} is never overridden away", refused.get("code"), "hold-has-no-override")
        ended = []
        for who, what, more in later:
            ended += c.say(who, what, **more).answers[-1]["ended"]
        count.check(f"doing it later ends {code}", code in ended, ended)
        count.equal(f"the gate {gate} stays crossed for ever", c.show()["gates"][gate], "crossed")
        name = gate.replace("_", "-")
        count.holds(f"page one shows the crossed gate {gate} in the margin", f"!! Gate: {name}", page_one(p.text("G1")))
    count.holds("and says when it was done later", "CROSSED: passed before it was met; done later", page_one(p.text("G1")))


def witnesses(count, p):
    """What page one says of how the volume was agreed, when something was missing."""
    c = Case(p, "W1").until("filled")
    c.say("noor", "read-back", said_by="ilse", ml=500)
    count.holds("no matter check before the read-back is said", "said 500, matter not checked before", page_one(p.text("W1")))
    c.say("tomas", "device-off")
    c.say("tomas", "matter", full_left=2)
    one = page_one(p.text("W1"))
    count.holds("a matter check after the catheter was off is said so", "!! the matter was checked after the catheter was off", " ".join(one.split()))
    d = Case(p, "W2").until("ready")
    for i in range(10):
        d.say("tomas", "syringe-in", at=d.now + 20)
    d.say("tomas", "correct", ml=-50, reason="one tap too many", evidence="memory", **{"with": "ilse"})
    one = page_one(p.text("W2"))
    count.holds("memory alone as a witness stands loud on page one", "MEMORY ONLY", one)
    count.holds("a correction keeps the old and the new total", "500 mL became 450 mL", one)
    count.holds("what was never agreed says so", "NOT AGREED", one)
    e = Case(p, "W3").until("go")
    e.say("tomas", "pause", which="before-device", present=["ilse", "tomas"], answers={})
    e.until("ready")
    for i in range(3):
        e.say("tomas", "syringe-in", at=e.now + 20)
        e.say("ilse", "second-count", how="pedal")
    said = e.say("tomas", "read-back", said_by="ilse", **{"from": "pedal"}).answers[-1]
    count.equal("with two in the room the pedal is the read-back", said["result"], "recorded")
    count.equal("three presses are 150 mL", (e.show()["read_back"]["ml"], e.show()["read_back"]["agreed"]), (150, True))
    count.holds("page one says that the pedal served", "the physician's pedal served as read-back", page_one(p.text("W3")))
    e.say("tomas", "syringe-in", at=e.now + 20)
    count.holds("a syringe after the read-back undoes it on page one", "the volume changed after it was read back", page_one(p.text("W3")))


def typed_text(count, p):
    """A name or a reason that a person typed cannot forge a line of the record."""
    c = Case(p, "F1", family_name="Probe\nSigned, physician   Dr Ilse Varga\u202e").until("booked")
    c.say("tomas", "enter-room", room="Room 1", birth_day_month="01 01")
    c.say("pia", "move", planned="2026-11-25T10:30:00+00:00", reason="late\r\n   Gate: go  met")
    text = p.text("F1")
    lines = text.splitlines()
    count.check("a line break in a name does not begin a line", not any(line.startswith("Signed") for line in lines))
    count.check("nor does one in a reason", sum(line.lstrip().startswith("Gate: go") for line in lines) == 1)
    count.check("marks that turn the direction of text are shown as such", "\u202e" not in text and "\ufffd" in text)
    count.equal("long words are cut at the width of the page", [line for line in lines if len(line) > 100], [])


def exits(count, p):
    c = Case(p, "E1").until("booked")
    run = c.say("wren", "syringe-in", expect="refused:role-may-not")
    count.equal("an expected refusal exits with 0", (run.code, run.err), (0, ""))
    count.equal("any refusal is expected by refused", c.say("wren", "syringe-in", expect="refused").code, 0)
    run = c.say("wren", "syringe-in", expect="refused:pin-wrong")
    count.check("another code than expected exits with 1 and says both", run.code == 1 and "pin-wrong" in run.err and "role-may-not" in run.err, run.err)
    run = c.say("wren", "allergies", none_known=True, expect="refused")
    count.check("recorded instead of refused exits with 1", run.code == 1 and sentence_good(run.err), run.err)
    count.equal("but it is recorded", c.show()["allergies"], [])
    run = c.run([("wren", "syringe-in", c.now, {}), ("wren", "scope-in", c.now + 1, {})])
    count.equal("an unexpected refusal stops the script", (run.code, len(run.answers)), (1, 1))
    run = c.run([("wren", "syringe-in", c.now, {}), ("wren", "scope-in", c.now + 1, {})], "--keep-going")
    count.equal("with --keep-going it goes on and still exits with 1", (run.code, [a["result"] for a in run.answers]), (1, ["refused", "recorded"]))
    run = c.run([("noor", "airway-event", c.now + 2, {}), ("noor", "airway-event-end", c.now + 5, {"event": {"line": 1}, "lowest_spo2": 90})])
    count.equal("a line is referred to by its number", [a["result"] for a in run.answers], ["recorded", "recorded"])
    count.equal("and the airway event has its value", c.show()["airway_events"][0]["lowest_spo2"], 90)
    run = c.run([("wren", "syringe-in", c.now + 6, {"expect": "refused"}), ("noor", "airway-event-end", c.now + 7, {"event": {"line": 1}})])
    count.equal("a line that recorded nothing cannot be referred to", (run.code, "line 1" in run.err), (2, True))
    answer = c.say("noor", "oxygen", l_min=2).answers[-1]
    count.check("an answer gives line, number and hash", answer["line"] == 1 and len(answer["seq"]) == 1 and len(answer["hash"]) == 64, answer)
    count.equal("and empty lists where nothing was raised or opened", [answer[k] for k in ("raised", "ended", "opened", "closed")], [[], [], [], []])


def sealed(count, p):
    c = Case(p, "Z1").until("booked")
    c.sign_and_seal()
    count.equal("after the seal nothing is recorded", c.say("noor", "vitals", hr=80, systolic=120, diastolic=80, spo2=97, rr=14).answers[-1].get("code"),
                "case-sealed")
    text = p.text("Z1")
    count.equal("an addendum is", c.say("ilse", "addendum", text="The scale was calibrated on the next day.").answers[-1]["result"], "recorded")
    after = p.text("Z1")
    count.check("the sealed text is unchanged before the addendum", after.startswith(text.rstrip("\n").rsplit("\n", 3)[0]) and len(after) > len(text))
    count.holds("and the addendum stands behind it with its person", "Dr Ilse Varga: The scale was calibrated", after.split("Added after the seal")[-1])
    count.equal("a wrong PIN seals nothing", Case(p, "Z2").until("booked").sign_and_seal(pin="999999").answers[-1].get("code"), "pin-wrong")


def new_year(count, binary):
    """The number of a record is of the clinic's year, and no two records share one."""
    p = Program(binary, DEMO / "second-day" / "policy")
    p.script(DEMO / "second-day" / "people.jsonl")
    people = {"pia": "greta", "ilse": "maren", "noor": "yusra", "wren": "bodo", "tomas": "fiete"}
    pins_of = {"maren": "295618", "yusra": "470829", "bodo": "958246"}
    numbers = []
    eve = datetime.datetime(2026, 12, 31, 22, 50, tzinfo=datetime.timezone.utc).timestamp()
    for index, minutes in enumerate([0, 20, 40, 75]):  # 23:50 on the eve, then 00:10, 00:30 and 01:05 of the new year in Berlin
        c = Case(p, f"N{index}", people=people, pins=pins_of, room="Saal 1").at(eve + 60 * minutes - 300).until("booked")
        c.now = eve + 60 * minutes
        c.sign_and_seal()
        numbers.append(c.show().get("sealed", {}).get("number"))
    count.equal("records sealed around midnight of the new year in Berlin are numbered by the local year, each once", numbers,
                ["LU-2026-0001", "LU-2027-0001", "LU-2027-0002", "LU-2027-0003"])
    p.end()


def main():
    binary = binary_path()
    count = Count()
    malformed(count, binary)
    p = Program(binary, DEMO / "policy")
    p.script(DEMO / "people.jsonl")
    for part in [refusals, pins, shut, labels, asked, taps, gates, witnesses, typed_text, exits, sealed]:
        part(count, p)
    count.equal("after all of this nothing is damaged", p.verify().code, 0)
    p.end()
    new_year(count, binary)
    count.end()


if __name__ == "__main__":
    main()
