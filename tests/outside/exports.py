#!/usr/bin/env python3
"""What leaves the program beside FHIR: tables, calendars, a year's folder, signatures, the package for the next clinic, and
what comes in from another clinic. Usage: exports.py [PROGRAM] (or BRIMLINE=PROGRAM).

Readers of other people: Python's csv module, Debian python3-icalendar, npm ical.js, Debian's minisign and b2sum.
Sources: RFC 4180, RFC 5545, minisign's documented format (interchange.md 3.2, 3.3, 4.1).
"""
import binascii
import csv
import datetime
import hashlib
import io
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import tempfile
import time

from black_box.cases import with_debian

with_debian("icalendar")

import icalendar  # noqa: E402

from black_box.program import ROOT, Count, Program, binary_path  # noqa: E402
from black_box.validators import node_modules, stop  # noqa: E402

DEMO = ROOT / "demo"
CASES = ["D0", "A", "B", "C", "D", "E"]


def day():
    program = Program(binary_path(), DEMO / "policy")
    for name in ("people", "case-d-placed", "case-a", "case-b", "case-c", "case-d", "case-e"):
        assert program.script(DEMO / f"{name}.jsonl").code == 0, name
    return program


def table(raw):
    """Rows by column; strict: every line as many fields, CRLF alone, a mark in front."""
    assert raw.startswith(b"\xef\xbb\xbf"), "no mark"
    text = raw[3:].decode("utf-8")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert all(len(row) == len(rows[0]) for row in rows), "ragged"
    outside = re.sub(r'"(?:[^"]|"")*"', "", text)
    assert "\n" not in outside.replace("\r\n", ""), "a line ends without CR"
    assert text.endswith("\r\n"), "the last line does not end"
    return [unguarded(dict(zip(rows[0], row))) for row in rows[1:]]


def unguarded(row):
    """Takes the apostrophes off again that the last column names."""
    for column in row["guarded"].split():
        assert row[column].startswith("'")
        row[column] = row[column][1:]
    return row


def tables(count, p):
    for case in CASES:
        shown, events = p.show(case), p.events(case)
        got = {name: table(p.call("export", case, "--format", "csv", "--table", name, "--data", p.data).raw)
               for name in ("vital-signs", "doses", "events", "register")}
        payload = {e["seq"]: {k: v for k, v in e["payload"].items() if not k.startswith("@")} for e in events}
        count.equal(f"{case}: every event stands in the table, in its order", [int(r["entry"]) for r in got["events"]], [e["seq"] for e in events])
        count.check(f"{case}: fields and kinds are those of the journal", all(
            json.loads(r["fields"]) == payload[int(r["entry"])] and r["kind"] == next(e["kind"] for e in events if e["seq"] == int(r["entry"]))
            for r in got["events"]))
        count.check(f"{case}: every event says something, and who", all(r["words"] and r["by"] for r in got["events"]))
        totals = {}
        for row in got["doses"]:
            if row["kind"] == "dose":
                totals[row["drug"]] = totals.get(row["drug"], 0) + float(row["amount"])
        count.equal(f"{case}: doses add up to the totals of the case", {k: round(v, 6) for k, v in totals.items()},
                    {d["drug"]: float(d["total"]) for d in shown["sedation"]["doses"]})
        sets = [e for e in events if e["kind"] == "vitals"]
        count.equal(f"{case}: every set of vital signs has its line", len(got["vital-signs"]), len(sets))
        corrected = {r["entry"]: r for r in got["vital-signs"] if r["corrected"] == "yes"}
        as_written = [r for r in got["vital-signs"] if r["entry"] not in corrected]
        columns = {"hr": "hr_per_min", "systolic": "systolic_mmhg", "spo2": "spo2_percent", "rr": "rr_per_min", "etco2": "etco2_mmhg"}
        count.check(f"{case}: the values are those entered", all(
            str(payload[int(r["entry"])].get(k, "")) == r[c] for r in as_written for k, c in columns.items()))
        if case == "B":
            count.equal("B: the corrected pulse is 76", [r["hr_per_min"] for r in corrected.values()], ["76"])
    lines = table(p.call("register", "--all", "--format", "csv", "--data", p.data).raw)
    one = [table(p.call("export", c, "--format", "csv", "--table", "register", "--data", p.data, "--on", "2026-11-25").raw) for c in CASES]
    whole = table(p.call("register", "--all", "--format", "csv", "--on", "2026-11-25", "--data", p.data).raw)
    count.equal("the register case by case is the register", sorted(r["entry"] for o in one for r in o), sorted(r["entry"] for r in whole))
    count.check("the register holds every balloon", {"A", "B", "D0"} <= {r["entry"] for r in lines}, lines)


def formulas(count, p):
    """A name that a spreadsheet would run stays text, and comes back as it was."""
    wicked = '=HYPERLINK("x");\u0141'
    line = {"at": "2026-11-25T22:30:00+00:00", "by": "pia", "case": "W", "do": "book", "kind": "placement", "patient": {
        "number": "HM-9009", "family_name": wicked, "given_name": "+1", "born": "1980-01-01", "sex_at_birth": "f"},
        "planned": "2026-11-26T09:30:00+00:00", "room": "Room 1"}
    more = {"at": "2026-11-25T22:31:00+00:00", "by": "wren", "case": "W", "do": "vitals", "not_taken": "@cmd, \"no\"\nwhy"}
    count.equal("a name like a formula is booked", p.script([line, more]).code, 0)
    rows = table(p.call("export", "W", "--format", "csv", "--table", "vital-signs", "--data", p.data).raw)
    count.equal("a formula comes back as it was typed", rows[0]["not_taken"], '@cmd, "no"\nwhy')
    raw = p.call("export", "W", "--format", "csv", "--table", "vital-signs", "--data", p.data).out
    count.check("no cell begins with a formula", not any(
        c and c[0] in "=+-@\t\r\0" and not re.fullmatch(r"-?[0-9.]+", c) for r in csv.reader(io.StringIO(raw[1:])) for c in r))


def calendars(count, p):
    raw = p.call("register", "--format", "ics", "--on", "2026-11-25", "--data", p.data).raw
    lines = json.loads(p.call("register", "--format", "json", "--on", "2026-11-25", "--data", p.data).out)
    wanted = sorted((d, r[k]) for r in lines if r.get("next") for d, k in (("book by", "book_by"), ("due", "due")))
    parsed = icalendar.Calendar.from_ical(raw)
    events = [e for e in parsed.walk("VEVENT")]
    got = sorted((str(e["SUMMARY"]).split(": ")[1], e["DTSTART"].dt.isoformat()) for e in events)
    count.equal("the calendar's days are the register's (python3-icalendar)", got, wanted)
    count.check("every day ends on the next, is private and free", all(
        e["DTEND"].dt - e["DTSTART"].dt == datetime.timedelta(days=1) and e["CLASS"] == "PRIVATE" and e["TRANSP"] == "TRANSPARENT" for e in events))
    count.check("no error by python3-icalendar", not any(e.errors for e in parsed.walk()), [e.errors for e in parsed.walk()])
    count.check("UIDs differ and stay", len({str(e["UID"]) for e in events}) == len(events) > 0
                and raw == p.call("register", "--format", "ics", "--on", "2026-11-25", "--data", p.data).raw)
    count.check("lines end with CRLF and hold at most 75 octets", all(len(l) <= 75 and b"\n" not in l for l in raw.split(b"\r\n")))
    count.check("the real day: DTSTAMP is UTC", all(re.fullmatch(rb"DTSTAMP:\d{8}T\d{6}Z", l) for l in raw.split(b"\r\n") if l.startswith(b"DTSTAMP")))
    for word in (b"Quill", b"Brandt", b"HM-", b"balloon", b"01632"):
        count.check(f"nothing of a patient in the calendar: {word.decode()}", word not in raw)
    script = ("const I=require(process.argv[1]);const c=new I.Component(I.parse(require('fs').readFileSync(0,'utf8')));"
              "console.log(JSON.stringify(c.getAllSubcomponents('vevent').map(e=>{const v=new I.Event(e);"
              "return [v.summary.split(': ')[1],v.startDate.toString(),v.uid,e.getAllSubcomponents('valarm').length]})))")
    run = subprocess.run(["node", "-e", script, str(node_modules() / "ical.js" / "dist" / "ical.es5.cjs")], input=raw, capture_output=True)
    by_js = json.loads(run.stdout) if run.returncode == 0 else [run.stderr.decode()[-300:]]
    count.equal("the calendar's days are the register's (ical.js)", sorted((e[0], e[1]) for e in by_js), wanted)


def minisign(*words):
    if not shutil.which("minisign"):
        stop("minisign is missing; third_party/install test installs it.")
    return subprocess.run(["minisign", *map(str, words)], capture_output=True, text=True)


def signatures(count, p, folder):
    signed = sorted(folder.glob("*.minisig"))
    good = [s for s in signed if minisign("-V", "-p", folder / "brimline.pub", "-m", s.with_suffix("")).returncode == 0]
    count.check("every file of the folder is signed, and Debian's minisign agrees", len(good) == len(signed) >= 20, [s.name for s in signed if s not in good])
    unsigned = {f.name for f in folder.iterdir()} - {s.name for s in signed} - {s.stem for s in signed}
    count.equal("only the key and the page are not signed", unsigned, {"brimline.pub", "verify.md"})
    key = (folder / "brimline.pub").read_text().splitlines()[1]
    for record in folder.glob("R-*-????.txt"):
        printed = re.search(r"^file key  (RW\S+)$", record.read_text(encoding="utf-8"), re.M)
        count.check(f"{record.name}: the key printed on the record is the exported one", printed and printed[1] == key)
        count.equal(f"{record.name}: the printed key verifies it", minisign("-V", "-P", printed[1], "-m", record).returncode, 0)
        comment = minisign("-V", "-Q", "-p", folder / "brimline.pub", "-m", record).stdout.strip()
        count.check(f"{record.name}: the signed comment names file, record and head", re.fullmatch(
            rf"timestamp:\d+\tfile:{record.name}\trecord:{record.stem}\tseal:[0-9a-f]{{16}}", comment), comment)
    with tempfile.TemporaryDirectory() as place:
        for name in sorted(f.name for f in folder.iterdir()):
            shutil.copy(folder / name, place)
        place, victim = pathlib.Path(place), "R-2026-0003.fhir.json"
        check = lambda key="brimline.pub": minisign("-V", "-p", place / key, "-m", place / victim).returncode
        whole, sig = (place / victim).read_bytes(), (place / f"{victim}.minisig").read_text()
        (place / victim).write_bytes(whole.replace(b"550", b"551", 1))
        count.check("an altered file is refused", whole != (place / victim).read_bytes() and check() == 1)
        (place / victim).write_bytes(whole + b"\n")
        count.equal("a longer file is refused", check(), 1)
        (place / victim).write_bytes(whole)
        for what, old, new in (("comment", "record:R-2026-0003", "record:R-2026-0002"), ("time", "timestamp:1", "timestamp:2")):
            (place / f"{victim}.minisig").write_text(sig.replace(old, new))
            count.check(f"an altered {what} is refused", old in sig and check() == 1)
        (place / f"{victim}.minisig").write_text(sig)
        count.equal("as it was, it is good again", check(), 0)
        subprocess.run(["minisign", "-G", "-W", "-p", place / "other.pub", "-s", place / "other.key"], capture_output=True)
        count.equal("another key is refused", check("other.pub"), 1)


def by_the_page(count, folder):
    """A stranger does what verify.md says, word for word."""
    page = (folder / "verify.md").read_text(encoding="utf-8")
    key = (folder / "brimline.pub").read_text().splitlines()[1]
    record = next(f for f in sorted(folder.glob("R-*-????.txt")))
    commands = [line.strip() for line in page.splitlines() if line.startswith("    ")]
    count.equal("the page gives five commands", len(commands), 5)
    for command in commands:
        if command.startswith("apt-get"):
            continue  # done by third_party/install
        said = re.sub(r"RWx+", key, command.replace("R-2026-0001", record.stem))
        run = subprocess.run(["bash", "-c", said], cwd=folder, capture_output=True, text=True)
        count.check(f"the page's command works: {command[:60]}", run.returncode == 0 and "NOT GOOD" not in run.stdout, run.stdout + run.stderr)
        if "b2sum" in said:
            printed = re.search(r"^hash      ([0-9a-f]{64})$", record.read_text(encoding="utf-8"), re.M)[1]
            count.equal("the page's sum is the hash of the seal", run.stdout.split()[0], printed)
            body = record.read_bytes().split(b"\nSealed R-")[0]
            count.equal("and Python's BLAKE2b gives the same", hashlib.blake2b(body, digest_size=32).hexdigest(), printed)


def package(count, p):
    """One case for the next clinic, which checks it and takes it in."""
    folder = pathlib.Path(p.folder) / "package"
    run = p.call("package", "B", "-o", folder, "--data", p.data)
    names = {f.name for f in folder.iterdir()}
    wanted = {"letter.txt", "verify.md", "brimline.pub", "R-2026-0003.txt", "R-2026-0003.pdf", "R-2026-0003.fhir.json", "R-2026-0003.events.jsonl"}
    count.check("a package holds letter, record, document, events, key and page", run.code == 0 and wanted <= names, (run.err, sorted(names)))
    good = [s.name for s in folder.glob("*.minisig") if minisign("-V", "-p", folder / "brimline.pub", "-m", s.with_suffix("")).returncode == 0]
    count.equal("each of its files is signed", len(good), len(wanted) - 2)
    letter = (folder / "letter.txt").read_text(encoding="utf-8")
    key = (folder / "brimline.pub").read_text().splitlines()[1]
    for part in ("Brandt, Osei", "550 mL", "DW-2644", "0007902", "25 May 2027", "R-2026-0003.fhir.json", key, "verify.md"):
        count.holds(f"the letter holds: {part[:24]}", part, letter)
    count.check("the letter's lines fit a page", all(len(line) <= 100 for line in letter.splitlines()))
    count.equal("a package into a folder that holds something is refused", p.call("package", "B", "-o", folder, "--data", p.data).code, 3)
    elsewhere(count, folder / "R-2026-0003.fhir.json", p)


def elsewhere(count, document, p):
    """Another clinic books the removal and takes the document in."""
    other = Program(binary_path(), DEMO / "second-day" / "policy")
    other.script(DEMO / "second-day" / "people.jsonl")
    people = [json.loads(line) for line in (DEMO / "second-day" / "people.jsonl").read_text(encoding="utf-8").splitlines() if line.strip()]
    by = next(x["id"] for x in people if "coordinator" in x.get("roles", []))
    book = {"at": "2027-05-20T10:00:00+00:00", "by": by, "case": "R1", "do": "book", "kind": "removal", "patient": {
        "number": "X-1", "family_name": "Brandt", "given_name": "Osei", "born": "1979-01-01", "sex_at_birth": "m"},
        "planned": "2027-05-25T10:00:00+00:00", "room": "Saal 1"}
    count.equal("the other clinic books the removal", other.script([book]).code, 0)
    run = other.call("import", document, "--case", "R1", "--by", by, "--data", other.data)
    shown = other.show("R1")["removal"]
    count.check("the document is taken in", run.code == 0, run.err)
    count.equal("the balloon is that of the document, as reported", (shown["placed"], shown["filled_ml"], shown["filled_from"]), ("2026-11-25", 550, "reported"))
    kept = [e for e in other.events("R1") if e["kind"] == "placed-elsewhere"][0]["payload"]
    count.equal("its source and its device are kept", (kept["source"], kept["lot"], kept["serial"], kept["device"]), ("letter", "DW-2644", "0007902", "02001234026413"))
    count.check("the number of the document is kept", "FHIR document R-2026-0003" in kept["clinic"], kept["clinic"])
    count.equal("the other clinic's store is whole", other.verify().code, 0)
    count.equal("another removal is booked", other.script([{**book, "case": "R2", "patient": {**book["patient"], "number": "X-2"}}]).code, 0)
    card = "BALLOON CARD 1\nPlaced: 2026-11-25\nOut by: 2027-05-25\nVolume: 550 mL\nDye: none\nLot: DW-2644\nClinic: Demo Unit\n"
    text = card + f"Check: {binascii.crc_hqx(card.encode(), 0xFFFF):04X}"
    run = other.call("import", "-", "--case", "R2", "--by", by, "--data", other.data, given=text.encode())
    shown = other.show("R2").get("removal", {})
    count.equal("a card's code is taken in", (run.code, shown.get("placed"), shown.get("filled_ml")), (0, "2026-11-25", 550))
    kept = [e for e in other.events("R2") if e["kind"] == "placed-elsewhere"][-1:]
    count.equal("its source is the card", [e["payload"]["source"] for e in kept], ["card"])
    run = other.call("import", "-", "--case", "R2", "--by", by, "--data", other.data, given=text.replace("550", "560").encode())
    count.check("a card with an altered line is refused in one sentence", run.code == 2 and run.err.count("\n") == 1, (run.code, run.err))
    whole = json.loads(document.read_text(encoding="utf-8"))
    deferred = p.call("export", "C", "--format", "fhir", "--data", p.data).out
    removal = p.call("export", "D", "--format", "fhir", "--data", p.data).out
    wrong_day = json.dumps(whole).replace('"timingPeriod": {"start": "2026-11-25', '"timingPeriod": {"start": "2026-13-25')
    for name, text in (("no JSON", "{"), ("another kind", '{"resourceType": "Patient"}'), ("a deferred case", deferred), ("a removal", removal),
                       ("an impossible day", wrong_day), ("no entries", '{"resourceType": "Bundle", "type": "document"}'),
                       ("odd types", '{"resourceType":"Bundle","type":"document","entry":[1,{"resource":[]},{"resource":{"resourceType":"DeviceUseStatement","status":"active","timingPeriod":3}}]}')):
        run = other.call("import", "-", "--case", "R1", "--by", by, "--data", other.data, given=text.encode())
        count.check(f"refused in one sentence: {name}", run.code == 2 and run.err.count("\n") == 1 and run.err.strip(), (run.code, run.err))
    run = other.call("import", document, "--case", "nobody", "--by", by, "--data", other.data)
    count.check("a case that there is not is refused", run.code == 1 and "book the removal first" in run.err, run.err)
    rng = __import__("random").Random(7)
    raw = document.read_bytes()
    junk = [bytes(rng.randrange(256) if rng.random() < 0.001 else b for b in raw[:20000]) for _ in range(20)]
    codes = {other.call("import", "-", "--case", "nobody", "--by", by, "--data", other.data, given=j).code for j in junk}
    count.check("junk is refused and nothing breaks", codes <= {1, 2}, codes)
    other.end()


def picture(folder):
    return {f.name: hashlib.sha256(f.read_bytes()).hexdigest() for f in pathlib.Path(folder).iterdir()}


def export_folder(p, folder, *words):
    return p.call("export", "--all", "--folder", folder, "--data", p.data, *words)


def year(count, p):
    folder = pathlib.Path(p.folder)
    first, second = folder / "one", folder / "two"
    run = export_folder(p, first)
    count.check("a year goes into a folder, with its progress", run.code == 0 and "6 of 6 cases" in run.err, run.err)
    export_folder(p, second)
    count.equal("the same store gives the same bytes twice", picture(first), picture(second))
    for case, number in (("A", "R-2026-0002"), ("E", "R-2026-0006")):
        for form, end in (("fhir", "fhir.json"), ("json", "events.jsonl"), ("pdf", "pdf")):
            alone = p.call("export", case, "--format", form, "--data", p.data).raw
            count.equal(f"{case}: {form} in the folder is the one exported alone", (first / f"{number}.{end}").read_bytes(), alone)
    added = (first / "R-2026-0001.txt").read_text(encoding="utf-8") + (first / "R-2026-0001.added.txt").read_text(encoding="utf-8")
    count.equal("record and what was added make the text of the case", added, p.text("D0"))
    whole = p.verify()
    count.check("verify writes the sealed records anew from their events and finds them the same",
                whole.code == 0 and "Written anew from their events, 6 sealed records read the same." in whole.out, whole.out)
    again = export_folder(p, first)
    count.check("a folder that holds something is refused in one sentence", again.code == 3 and "not an empty folder" in again.err, again.err)
    other = export_folder(p, folder / "2025", "--year", "2025")
    count.check("another year holds no case", other.code == 0 and "0 cases" in other.out, other.out)
    bare = export_folder(p, folder / "bare", "--no-sign", "--format", "text")
    count.check("one format, unsigned", bare.code == 0 and not list((folder / "bare").glob("*.minisig")) and list((folder / "bare").glob("*.txt")))
    out = folder / "alone.txt"
    p.call("export", "A", "--out", out, "--data", p.data)
    count.equal("a sealed record to a file is signed without asking", minisign("-V", "-p", first / "brimline.pub", "-m", out).returncode, 0)
    for words, code in ((["A", "--folder", "x"], 2), (["--all", "--format", "fhir"], 2), (["A", "--format", "csv", "--table", "moods"], 2),
                        (["nobody"], 1), (["A", "--format", "fhir", "--addendum", "9"], 1)):
        run = p.call("export", *words, "--data", p.data)
        count.check(f"refused in one sentence: {' '.join(words)}", run.code == code and run.err.count("\n") == 1, run.err)
    return first


def stopped(count, p):
    """An interrupted pass leaves whole files only."""
    folder = pathlib.Path(p.folder) / "stopped"
    whole = picture(pathlib.Path(p.folder) / "big")
    run = subprocess.Popen([p.binary, "export", "--all", "--folder", folder, "--data", p.data], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    deadline = time.monotonic() + 60
    while time.monotonic() < deadline and not (folder.exists() and len(list(folder.glob("*.fhir.json"))) > 3):
        time.sleep(0.002)
    run.send_signal(signal.SIGINT)
    _, err = run.communicate(timeout=60)
    left = picture(folder)
    count.check("it stops at a sentence", run.returncode == 1 and b"Stopped after" in err, err[-200:])
    count.check("some cases are there and not all", 3 < len(left) < len(whole), len(left))
    count.check("what is there is whole, to the byte", all(whole.get(name) == what for name, what in left.items()), [n for n in left if whole.get(n) != left[n]])
    count.check("no unfinished file is left", not [n for n in left if n.endswith(".part")])


def many(count, p):
    """A store of many cases, made from the day's: one pass in little memory."""
    tool = ROOT / "build" / "release" / "tools" / "many_cases"
    if not tool.exists():
        stop(f"{tool.name} is missing: build the release preset with tests.")
    big = Program(binary_path())
    made = subprocess.run([tool, p.data, big.data, "300"], capture_output=True, text=True)
    count.check("a store of 300 cases is made from the day's", made.returncode == 0, made.stderr)
    verified = big.verify()
    count.check("the big store is whole", verified.code == 0, verified.out[:500] + verified.err)
    peak = {}
    for name, words in (("big", []),):
        code = ("import resource,subprocess,sys;r=subprocess.run(sys.argv[1:],capture_output=True);"
                "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss);sys.exit(r.returncode)")
        for store, data in (("day", p.data), ("big", big.data)):
            place = pathlib.Path(big.folder) / (name if store == "big" else "small")
            run = subprocess.run(["python3", "-c", code, big.binary, "export", "--all", "--folder", place, "--data", data, *words], capture_output=True, text=True)
            peak[store] = int(run.stdout) if run.returncode == 0 else 10**9
    print(f"  peak memory: 6 cases {peak['day'] // 1024} MiB, 300 cases {peak['big'] // 1024} MiB")
    count.check("fifty times the cases take less than twice the memory", peak["big"] < 2 * peak["day"], peak)
    stopped(count, big)
    big.end()


def main():
    count = Count()
    p = day()
    tables(count, p)
    calendars(count, p)
    folder = year(count, p)
    signatures(count, p, folder)
    by_the_page(count, folder)
    package(count, p)
    many(count, p)
    formulas(count, p)
    p.end()
    count.end()


if __name__ == "__main__":
    main()
