#!/usr/bin/env python3
"""Device labels against other people's programs: symbols drawn by zint and read back by dmtxread and zbarimg, element
strings taken apart by Debian's python3-stdnum, check digits by the same. Source of the format: GS1 General Specifications,
as laid out in the GS1 Barcode Syntax Dictionary. Usage: labels.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import datetime
import json
import os
import random
import re
import shutil
import subprocess

from black_box.cases import Cases, with_debian
from black_box.program import Count, Program, binary_path

with_debian("stdnum.gs1_128")
from stdnum import ean, gs1_128  # noqa: E402

GS = "\x1d"
TODAY = "2026-03-10"
LOT_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ0123456789-/._+"
FIXED = {"01", "02", "11", "13", "15", "16", "17", "20"}


def any_label(chance):
    """Random valid fields in random order."""
    def word(most):
        return "".join(chance.choice(LOT_LETTERS) for _ in range(chance.randint(1, most)))

    def date():
        return (datetime.date(2021, 1, 1) + datetime.timedelta(days=chance.randrange(14000))).strftime("%y%m%d")
    body = "02" + "".join(str(chance.randrange(10)) for _ in range(11))
    kinds = {"01": body + ean.calc_check_digit(body), "17": date(), "11": date(), "10": word(20), "21": word(20),
             "240": word(30), "30": str(chance.randrange(1, 10 ** chance.randint(1, 8))), "20": f"{chance.randrange(100):02}"}
    chosen = chance.sample(sorted(kinds), chance.randint(1, 6))
    return [(ai, kinds[ai]) for ai in chosen]


def element_string(fields):
    text = ""
    for i, (ai, value) in enumerate(fields):
        text += ai + value + (GS if ai not in FIXED and i + 1 < len(fields) else "")
    return text


def bracketed(fields):
    return "".join(f"({ai}){value}" for ai, value in fields)


def expected_of(fields):
    found = dict(fields)

    def date(ai):
        return datetime.datetime.strptime(found[ai], "%y%m%d").date().isoformat() if ai in found else None
    return {"elements": found, "gtin14": found.get("01"), "lot": found.get("10"), "serial": found.get("21"),
            "expiry": date("17"), "produced": date("11")}


def bare_number(text):
    """The house reads a text that is only a good GTIN as one; such a scan says something else."""
    return text.isdigit() and len(text) in (8, 12, 13, 14) and ean.calc_check_digit(text[:-1]) == text[-1]


def by_splitting(cases):
    chance = random.Random(471190)
    for _ in range(4000):
        fields = any_label(chance)
        text = element_string(fields)
        if bare_number(text):
            continue
        theirs = gs1_128.info(text, GS)
        mine = {ai: value for ai, value in fields}
        same = all(str(theirs[ai]).lstrip("0") == value.lstrip("0") or
                   isinstance(theirs[ai], datetime.date) and theirs[ai].strftime("%y%m%d") == value
                   for ai, value in mine.items()) and set(theirs) == set(mine)
        cases.count.check(f"stdnum splits {text!r} as it was put together", same, theirs) if not same else None
        cases.add("gs1-label", {"kind": "scan", "text": text, "today": TODAY}, expected_of(fields))
        cases.add("gs1-label", {"kind": "typed", "text": bracketed(fields), "today": TODAY}, expected_of(fields))
    cases.all_hold("element strings that stdnum splits alike, scanned and typed")


def check_digits(cases):
    chance = random.Random(119740)
    for _ in range(3000):
        digits = "".join(str(chance.randrange(10)) for _ in range(chance.choice((7, 11, 12, 13))))
        cases.add("gs1-check-digit", {"digits_without_check": digits}, {"check_digit": int(ean.calc_check_digit(digits))})
    for _ in range(3000):
        digits = "".join(str(chance.randrange(10)) for _ in range(14))
        if chance.random() < 0.5:
            digits = digits[:-1] + ean.calc_check_digit(digits[:-1])
        good = ean.is_valid(digits)
        cases.add("gs1-check-digit", {"gtin14": digits}, {"valid": good})
        cases.add("gs1-label", {"kind": "gtin", "text": digits, "today": TODAY},
                  {"gtin14": digits} if good else {"refused": True, "code": "bad_check_digit"})
    cases.all_hold("check digits by stdnum")


def quiet(*words):
    done = subprocess.run(words, capture_output=True, check=False, timeout=60)
    return done.stdout if done.returncode == 0 else None


def symbols(cases, folder):
    """Drawn, read back, and taken apart. Without white space around it dmtxread finds nothing; -G 29 keeps separators."""
    chance = random.Random(28033)
    drawn = {"GS1 DataMatrix": (["-b", "DATAMATRIX", "--gs1", "--scale=5", "-w", "6", "--vwhitesp=6"],
                                ["dmtxread", "-N", "1", "-G", "29"]),
             "GS1-128": (["-b", "GS1_128", "--scale=2"], ["zbarimg", "-q", "--raw"]),
             "GS1 QR": (["-b", "QRCODE", "--gs1", "--scale=4", "-w", "4", "--vwhitesp=4"], ["zbarimg", "-q", "--raw"])}
    for kind, (draw, read) in drawn.items():
        picture = os.path.join(folder, "symbol.png")
        unread = 0
        for _ in range(25):
            fields = [(ai, value) for ai, value in any_label(chance) if kind != "GS1-128" or len(value) < 16]
            if kind == "GS1-128":
                fields = fields[:3]
            if not fields or bare_number(element_string(fields)):
                continue
            if quiet("zint", *draw, "--gs1parens", "-d", bracketed(fields), "-o", picture) is None:
                unread += 1
                continue
            scanned = quiet(*read, picture)
            if not scanned:
                unread += 1
                continue
            cases.add("gs1-label", {"kind": "scan", "text": scanned.decode(), "today": TODAY}, expected_of(fields))
        cases.count.check(f"nearly all {kind} symbols can be drawn and read at all", unread <= 5 and len(cases.waiting) >= 15,
                          f"{unread} unread, {len(cases.waiting)} read")
        cases.all_hold(f"{kind} symbols drawn by zint and read by {read[0]}")


# What zint says of a label, and the code that the same fault has here.
SAID = [("Bad checksum", {"bad_check_digit"}), ("Invalid day", {"bad_date"}), ("Invalid month", {"bad_date"}),
        ("Invalid CSET 82", {"bad_charset"}), ("Non-numeric", {"bad_charset"}), ("Invalid data length", {"truncated", "too_long"}),
        ("Invalid AI", {"unknown_ai"}), ("Empty data field", {"empty_value"})]


def spoiled(chance, fields):
    """The same label with one fault, or none."""
    fields = list(fields)
    place = chance.randrange(len(fields))
    ai, value = fields[place]
    at = chance.randrange(len(value))
    kind = chance.choice(["none", "swap", "letter", "odd", "short", "long", "empty", "ai", "digit"])
    if kind == "swap" and len(value) > 1:
        at = min(at, len(value) - 2)
        value = value[:at] + value[at + 1] + value[at] + value[at + 2:]
    elif kind in ("letter", "odd", "digit"):
        value = value[:at] + chance.choice({"letter": "AZx", "odd": " #$@^{|}~`", "digit": "0123456789"}[kind]) + value[at + 1:]
    elif kind == "short":
        value = value[:-1]
    elif kind == "long":
        value += "7" * chance.randint(1, 30)
    elif kind == "empty":
        value = ""
    elif kind == "ai":
        ai = chance.choice(["08", "28", "3106", "3709", "718", "245", "91", "99", "37", "250", "3102", "15", "13"])
    fields[place] = (ai, value)
    return fields


def by_drawing(cases, folder):
    """zint judges element strings by GS1's own table: what it draws without a word we accept, what it warns of or refuses we
    refuse, for the same reason; and where it names a place, at the same place."""
    chance = random.Random(17280230)
    picture = os.path.join(folder, "judged.png")
    drawn = refused = 0
    for _ in range(500):
        fields = spoiled(chance, any_label(chance))
        if any(value != value.strip() for _, value in fields):
            continue  # blanks beside brackets are dropped here: house leniency
        text = bracketed(fields)
        said = subprocess.run(["zint", "-b", "DATAMATRIX", "--gs1", "--gs1parens", "-d", text, "-o", picture],
                              capture_output=True, text=True, check=False, timeout=60)
        words = said.stdout + said.stderr
        inputs = {"kind": "typed", "text": text, "today": TODAY}
        if not words:
            drawn += 1
            cases.add("gs1-label", inputs, {"refused": False, "elements": dict(fields)})
            continue
        codes = next((codes for part, codes in SAID if part in words), None)
        if codes is None or len(words.strip().split("\n")) > 1:
            cases.count.check(f"zint's words are known: {words!r}", codes is not None) if codes is None else None
            continue
        refused += 1
        run = cases.program.call("rules", "-", given=json.dumps([
            {"id": "1", "rule": "gs1-label", "inputs": inputs, "expected": {"code": "?"}}]).encode())
        got = json.loads(re.search(r"got (\{.*\}) \(", run.out)[1])
        place = re.search(r"AI \((\d+)\) position (\d+)", words)
        same = got.get("code") in codes
        if same and place and "bad_date" not in codes:
            value_at = text.index(f"({place[1]})") + len(place[1]) + 2
            same = got["where"] == value_at + int(place[2]) - 1
        if not same:
            cases.count.check(f"{text!r} is refused as zint does", False, f"{words.strip()}: {got}")
    cases.count.check(f"zint draws some and refuses others ({drawn} drawn, {refused} refused)", drawn > 100 and refused > 150)
    cases.all_hold("labels that zint draws without a word")


def bare_symbols(cases, folder):
    chance = random.Random(20010003)
    picture = os.path.join(folder, "bare.png")
    for digits in (12, 7):
        for _ in range(10):
            body = "2" + "".join(str(chance.randrange(10)) for _ in range(digits - 1))
            whole = body + ean.calc_check_digit(body)
            if quiet("zint", "-b", "EANX", "--scale=2", "-d", body, "-o", picture) is None:
                continue
            scanned = quiet("zbarimg", "-q", "--raw", "-Sean8.enable=1", picture)
            if scanned:
                text = scanned.decode()
                cases.count.check(f"zbar reads {whole} as it was drawn", text.strip() == whole, text) if text.strip() != whole else None
                cases.add("gs1-label", {"kind": "scan", "text": text, "today": TODAY}, {"gtin14": whole.zfill(14)})
    cases.count.check("most bare symbols can be read at all", len(cases.waiting) >= 15, len(cases.waiting))
    cases.all_hold("EAN-13 and EAN-8 symbols drawn by zint and read by zbarimg")


def main():
    count = Count()
    for tool in ("zint", "dmtxread", "zbarimg"):
        count.check(f"{tool} is there", shutil.which(tool) is not None, "third_party/install test installs it")
    program = Program(binary_path())
    cases = Cases(program, count)
    by_splitting(cases)
    check_digits(cases)
    symbols(cases, program.folder)
    by_drawing(cases, program.folder)
    bare_symbols(cases, program.folder)
    program.end()
    for name in sorted(count.names):
        print(f"checked: {name}")
    count.end()


if __name__ == "__main__":
    main()
