#!/usr/bin/env python3
"""Prints, looked at by other people's programs: qpdf for the file's form, Poppler for fonts, texts and pixels, ZXing,
libdmtx and zbar for the codes. Record, patient's sheet, balloon card and downtime sheet of the reference day, of a second
day with other words, and of names and lists at their longest. Usage: print.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import binascii
import collections
import json
import math
import os
import pathlib
import re
import shutil
import stat
import subprocess
import sys

from black_box.case import Case
from black_box.program import ROOT, Count, Program, binary_path, page_one

DEMO = ROOT / "demo"
GOLDEN = ROOT / "tests/print"
MM = 72 / 25.4
KINDS = {"A": ("record", "leaflet", "card"), "B": ("record", "leaflet", "card"), "C": ("record", "leaflet"),
         "D0": ("record", "leaflet", "card"), "D": ("record", "leaflet"), "E": ("record",)}

# after.md 4.3, row by row: what the row says, in which block it belongs, and words of the sheet that stand for it.
SIGNS = [
    ("severe or sudden belly pain, pain in the back, hard belly, fever, shoulder pain", "emergency",
     ["bad or sudden pain in belly, back or shoulder", "hard or swelling belly", "fever"]),
    ("swollen tense belly, short of breath", "emergency", ["hard or swelling belly", "short of breath"]),
    ("vomiting blood, black stool, faint", "emergency", ["blood in vomit, black stool, faint"]),
    ("cramps, swollen belly, no wind or stool", "emergency", ["hard or swelling belly", "no wind or stool"]),
    ("no fluid kept down for 24 h", "same day", ["nothing stays down for 24 h"]),
    ("still vomiting after day 7", "same day", ["still vomiting after day 7 (Tue 1 Dec)"]),
    ("blue or green urine or stool, if dye was used", "same day", ["blue or green urine or stool", "do not wait for pain"]),
    ("sudden hunger, fullness gone", "same day", ["hunger back at once"]),
]


def run(*words, given=None, env=None):
    done = subprocess.run([str(w) for w in words], input=given, capture_output=True, timeout=180, env=env)
    return done.returncode, done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")


def flat(text):
    return re.sub(r"\s+", " ", text)


def text_of(pdf, *flags):
    return run("pdftotext", *flags, pdf, "-")[1]


class Pdf:
    """One print: made by the program, read by Poppler."""

    def __init__(self, program, folder, kind, case, *flags):
        self.path = pathlib.Path(folder) / f"{kind}-{case}{''.join(flags).replace('--', '-')}.pdf"
        words = ["print", kind] + ([case] if case else []) + ["-o", self.path, "--data", program.data, *flags]
        self.made = program.call(*words)
        self.text = text_of(self.path, "-layout") if self.made.code == 0 else ""
        self.pages = self.text.split("\f")[:-1]
        self.info = dict(line.split(":", 1) for line in run("pdfinfo", self.path)[1].splitlines() if ":" in line)

    def pixels(self, dpi, page=1):
        """Grey pixels of a page: width, height, bytes."""
        raw = subprocess.run(["pdftoppm", "-r", str(dpi), "-gray", "-f", str(page), "-l", str(page), str(self.path)],
                             capture_output=True, timeout=120).stdout
        return pgm(raw)


def pgm(raw):
    head = re.match(rb"P5\s+(?:#[^\n]*\n)?(\d+)\s+(\d+)\s+255\s", raw)
    width, height = int(head.group(1)), int(head.group(2))
    return width, height, bytearray(raw[head.end():head.end() + width * height])


def written(path, width, height, data):
    path.write_bytes(b"P5 %d %d 255\n" % (width, height) + bytes(data))
    return path


def sound(count, name, pdf, size):
    """Form, fonts, title, language, structure, size, caution."""
    count.check(f"{name}: is printed", pdf.made.code == 0, pdf.made.err)
    if pdf.made.code != 0:
        return
    code, out, err = run("qpdf", "--check", pdf.path)
    count.check(f"{name}: qpdf finds nothing wrong with the file", code == 0, out + err)
    fonts = run("pdffonts", pdf.path)[1].splitlines()[2:]
    count.check(f"{name}: every font is embedded, and is Noto Sans or B612",
                fonts and all(re.search(r"\+(NotoSans|B612)", row) and " yes " in row[40:] for row in fonts), "\n".join(fonts))
    count.check(f"{name}: has a title, a language and a structure",
                pdf.info.get("Title", "").strip() != "" and pdf.info.get("Tagged", "").strip() == "yes" and
                re.search(rb"/Lang \([a-z]{2}\)", pdf.path.read_bytes()) is not None, pdf.info)
    got = [round(float(part), 1) for part in re.findall(r"[\d.]+", pdf.info["Page size"])[:2]]
    count.equal(f"{name}: has the size of its paper", got, [round(size[0], 1), round(size[1], 1)])
    caution = {"es": "no es un sistema de alarma", "pl": "nie jest system alarmowy"}
    words = next((w for l, w in caution.items() if f"/Lang ({l})".encode() in pdf.path.read_bytes()), "not an alarm system")
    pages = pdf.pages if "record" in name or "downtime" in name else pdf.pages[-1:]
    count.check(f"{name}: the caution stands on it", all(words.lower() in flat(page).lower() for page in pages))


A4, LETTER, CARD = (210 * MM, 297 * MM), (612, 792), (85.6 * MM, 53.98 * MM)


def every_print(count, program, prints):
    for case, kinds in KINDS.items():
        for kind in kinds:
            sound(count, f"{kind} {case}", prints[kind, case], A4)
    for paper, size in (("letter", LETTER), ("card", CARD)):
        for kind in ("card",) if paper == "card" else ("record", "leaflet", "card", "downtime"):
            case = "" if kind == "downtime" else "A"
            pdf = Pdf(program, program.folder, kind, case, "--paper", paper)
            sound(count, f"{kind} on {paper}", pdf, size)
    sound(count, "downtime sheet", prints["downtime", ""], A4)
    for kind, case in (("record", "B"), ("leaflet", "A"), ("card", "A"), ("downtime", "")):
        again = Pdf(program, os.path.join(program.folder, "again"), kind, case)
        count.check(f"{kind}: the same case gives the same bytes", again.path.read_bytes() == prints[kind, case].path.read_bytes())
    exported = program.call("export", "B", "--format", "pdf", "--data", program.data)
    count.check("export --format pdf gives the same record", exported.raw == prints["record", "B"].path.read_bytes(), exported.err)
    for kind, case, flags, part in (("leaflet", "A", ["--language", "nl"], "print.sheets"), ("card", "C", [], "No balloon"),
                                    ("record", "ZZ", [], "no case"), ("sheets", "A", [], "allowed are record"),
                                    ("record", "A", ["--paper", "a5"], "allowed are a4")):
        refused = program.call("print", kind, case, "-o", os.path.join(program.folder, "x.pdf"), "--data", program.data, *flags)
        count.check(f"print {kind} {case} {' '.join(flags)} is refused in one sentence", refused.code != 0 and part in refused.err,
                    refused.err)


def tokens(text):
    """Words of a text, without rules and margin marks; long codes may break across lines, so they are judged apart."""
    return [w for w in text.split() if not re.fullmatch(r"[=-]{5,}|!!", w) and len(w) < 40]


def record_says_the_same(count, program, prints):
    for case in KINDS:
        text = program.text(case)
        pdf = prints["record", case]
        for name, said, printed in (("every word of the text stands in the PDF as often", text.split("\nSealed ")[0], pdf.text),
                                    ("page one of the text is page one of the PDF", page_one(text), pdf.pages[0])):
            missing = collections.Counter(tokens(said)) - collections.Counter(tokens(printed))
            together = re.sub(r"\s+", "", printed)  # a line may break inside "mg/kg"
            lost = {word: n for word, n in missing.items() if "/" not in word or together.count(word) < said.count(word)}
            count.check(f"record {case}: {name}", not lost, lost)
        codes = re.findall(r"\b[0-9a-f]{64,128}\b", text)
        close = re.sub(r"\s+", "", pdf.text)
        count.check(f"record {case}: hash, signature and key stand in it", len(codes) >= 3 and all(c in close for c in codes))
        sealed = [number for number, page in enumerate(pdf.pages, 1) for word in ("Hash", "Public key", "How to check") if re.search(rf"^\s*{word}\s", page, re.M)]
        last = [n for n in sealed if n == sealed[-1]]
        count.check(f"record {case}: the seal is not torn across pages", len(last) == 3, sealed)
        for number, page in enumerate(pdf.pages, 1):
            head = "\n".join(page.strip("\n").splitlines()[:3])
            good = f"Page {number} of {len(pdf.pages)}" in head and re.search(r"R-2026-\d{4}", head)
            count.check(f"record {case}: page {number} bears its number and that of the record", bool(good), head)
        for drug in program.show(case).get("sedation", {}).get("doses", []):
            words = f"{drug['total']} {drug['unit'].replace('ug', 'mcg')}"
            count.holds(f"record {case}: the total of {drug['drug']} stands in it", words, pdf.text)


def reader_of_page_one(count, prints):
    """From case B's page one alone; 8-practice.md section 5."""
    page = flat(prints["record", "B"].pages[0])
    for name, words in (("two holds at Arrival", r"Hold absolute, since 09:50, .*clear fluid.* Hold relative, since 09:50: ibuprofen"),
                        ("the override with its proviso", r"[Oo]verridden.*[Pp]roviso"),
                        ("how the proviso closed", r"[Pp]roviso.*(answered|yes)"),
                        ("when the counts parted", r"11:27:43"), ("the correction", r"\+50 mL.*11:31:40|11:31:40.*\+50 mL"),
                        ("the agreed volume", r"Final volume 550 mL"), ("who said and who entered", r"said by .+?, entered by "),
                        ("two count holds", r"[Cc]ounts? differ.*(matter|scale)")):
        count.check(f"a reader of case B's page one finds {name}", re.search(words, page) is not None, page[:3000])


def dose_rows(count, program, folder):
    """So many doses that their table breaks over pages, with a long name: no row is split, each page has the head."""
    case = Case(program, "M", family_name="Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh")
    case.until("go")
    case.run([("noor", "dose", case.now + 30 * i, {"drug": "propofol", "amount": 10 + i % 7, "unit": "mg", "sure": True})
              for i in range(150)])
    for paper in ("a4", "letter"):
        pdf = Pdf(program, folder, "record", "M", "--paper", paper)
        part = pdf.text.split("Route")
        count.check(f"doses on {paper}: the table breaks, and each page has its head", len(part) >= 4)
        rows = re.findall(r"^\s*\d\d:\d\d:\d\d\s+Propofol\s+\d+ mg\s+into a vein\s+\S+", pdf.text, re.M)
        count.equal(f"doses on {paper}: every row stands whole on its page", len(rows), 150)
    return pdf


def addenda(count, program, folder):
    """What comes after the seal stands on page one of every later copy; the sealed words stay as they were."""
    before = Pdf(program, folder, "record", "C")
    done = program.script([{"at": "2026-11-26T09:00:00+00:00", "by": "ilse", "case": "C", "do": "addendum",
                            "text": "Histology: no malignancy, Helicobacter positive."}])
    count.check("an addendum is taken", done.code == 0, done.out + done.err)
    after = Pdf(program, os.path.join(program.folder, "again"), "record", "C")
    count.holds("the addendum stands on page one", "Helicobacter positive", after.pages[0])
    count.holds("the addendum stands at the end as well, after what was sealed", "Nothing above was changed", after.text)
    count.lacks("the print says that its words are the sealed ones", "Not the sealed text", after.text)
    lost = collections.Counter(tokens("".join(before.pages))) - collections.Counter(tokens("".join(after.pages)))
    count.check("no word of the earlier copy is lost", not [w for w in lost if w not in ("Page", "of") and not w.isdigit()], lost)


def leaflet_signs(count, prints):
    path, half = prints["leaflet", "A"].path, A4[0] / 2
    left, right = (flat(text_of(path, "-x", str(int(x)), "-y", "0", "-W", str(int(half)), "-H", "842")) for x in (0, half))
    left, right = left.split("Emergency number now")[1], right.split("Call us the same day")[1]
    for row, where, words in SIGNS:
        block = left if where == "emergency" else right
        count.check(f"leaflet: \"{row}\" stands in its block", all(w in block for w in words), block[:500])
    count.check("leaflet: the phone stands in the block of the same day", "01632 960 100" in right, right[:300])


def leaflets(count, program, prints, folder):
    a = flat(prints["leaflet", "A"].text)
    # 8-practice.md section 5, "Dates given".
    for words in ("Wed 25 to Fri 27 Nov", "Sat 28 Nov to Fri 11 Dec", "Sat 12 to Fri 18 Dec", "from Sat 19 Dec",
                  "Until Thu 26 Nov, 12:00", "Thu 26 Nov and Wed 2 Dec", "Tue 30 Mar 2027", "Tue 25 May 2027",
                  "until Tue 8 Dec", "Balloon of 500 mL, placed Wed 25 Nov 2026", "For Marta Quill",
                  "sheet version 3 of 2026-11-02 · approved by Dr Ilse Varga"):
        count.holds(f"leaflet A says {words}", words, a)
    leaflet_signs(count, prints)
    count.equal("leaflet A is one sheet", len(prints["leaflet", "A"].pages), 1)
    english = json.loads((ROOT / "assets/leaflet/en.json").read_text())
    for language, words in (("es", ["De vuelta a casa con su balón", "mar 25 de mayo de 2027"]),
                            ("pl", ["Powrót do domu z balonem", "wt. 25 maja 2027"])):
        pdf = Pdf(program, folder, "leaflet", "A", "--language", language)
        sound(count, f"leaflet in {language}", pdf, A4)
        count.equal(f"leaflet in {language} is one sheet", len(pdf.pages), 1)
        for part in words:
            count.holds(f"leaflet in {language} says {part}", part, pdf.text)
        mixed = [key for key, text in english.items() if key.startswith(("emergency.", "same-day.", "food.")) and len(text) > 8
                 and text.split("{")[0].strip() and text.split("{")[0].strip() in flat(pdf.text)]
        count.equal(f"leaflet in {language} has no English in it", mixed, [])
        card = Pdf(program, folder, "card", "A", "--language", language)
        sound(count, f"card in {language}", card, A4)
    count.holds("the sheet of a patient who reads Spanish is in Spanish by itself", "No se ha colocado".lower()[6:],
                flat(prints["leaflet", "C"].text).lower())
    count.lacks("without dye the sheet has no line about urine", "urine", _without_dye(program, folder).text)
    sizes = [float(s) for s in re.findall(r'size="([\d.]+)"', run("pdftohtml", "-xml", "-i", "-stdout", prints["leaflet", "A"].path)[1])]
    count.check("leaflet A: its type is large", len(sizes) > 0 and max(sizes) >= 18, sizes)


def _without_dye(program, folder):
    case = Case(program, "N", family_name="Nodye", room="Room 2")
    case.until("ready")
    case.say("tomas", "dye", none=True)
    case.run([("tomas", "syringe-in", case.now + 20 * i, {}) for i in range(10)])
    case.say("tomas", "device-off")
    return Pdf(program, folder, "leaflet", "N")


def symbol_box(path):
    """Where ZXing found a symbol: its corners' bounding box, and what it says."""
    out = run("ZXingReader", path)[1]
    corners = [tuple(map(int, c)) for c in re.findall(r"(\d+)x(\d+)", out.split("Position:")[-1].split("\n")[0])] if "Position:" in out else []
    return corners, out


def read_by(reader, path):
    if reader == "zxing":
        code, out, _ = run("ZXingReader", "-bytes", path)
        return out
    if reader == "dmtx":
        return run("dmtxread", "-N", "1", "-G", "29", "-m", "8000", path)[1]
    return run("zbarimg", "-q", "--raw", "-Sdisable", "-Sqrcode.enable", path)[1]


def stained(image, box, where, share):
    """A round stain over a share of the symbol's area, dark or light, at a place inside it."""
    width, height, data = image
    (left, top), (right, bottom) = box
    side = (right - left + bottom - top) / 2
    radius = side * math.sqrt(share / math.pi)
    x0, y0, grey = left + side * where[0], top + side * where[1], where[2]
    copy = bytearray(data)
    for y in range(max(0, int(y0 - radius)), min(height, int(y0 + radius) + 1)):
        for x in range(max(0, int(x0 - radius)), min(width, int(x0 + radius) + 1)):
            if (x - x0) ** 2 + (y - y0) ** 2 <= radius ** 2:
                copy[y * width + x] = grey
    return width, height, copy


# Stains in the data of a symbol: finder patterns are what every reader needs to see it at all.
PLACES = {"qr": [(0.55, 0.55, 0), (0.72, 0.62, 255), (0.5, 0.8, 0)], "matrix": [(0.55, 0.5, 255), (0.6, 0.4, 0), (0.45, 0.55, 255)]}


def codes(count, program, folder):
    """Both codes of case A's card at 300 dpi, by two readers each that share no code, whole and stained."""
    facts = ("BALLOON CARD 1\nPlaced: 2026-11-25\nOut by: 2027-05-25\nVolume: 500 mL\nDye: 5 mL methylene blue\nLot: DW-2641\n"
             "Serial: 0007731\nDevice: 02001234026413\nClinic: Harrow Mere Day Unit\nPhone: 01632 960 100\n")
    facts += f"Check: {binascii.crc_hqx(facts.encode(), 0xFFFF):04X}"
    label = "0102001234026413\x1d?17280531\x1d?10DW-2641\x1d210007731"
    for paper in ("card", "a4"):
        pdf = Pdf(program, folder, "card", "A", "--paper", paper)
        for page, kind, readers in ((1, "qr", ("zxing", "zbar")), (2, "matrix", ("zxing", "dmtx"))):
            if paper == "a4":
                image = half_of(pdf.pixels(300), page)
            else:
                image = pdf.pixels(300, page)
            path = written(pathlib.Path(folder) / f"{paper}-{kind}.pgm", *image)
            if kind == "matrix":  # a reader is pointed at it: the upper right quarter of the side
                image = part_of(image, 0.66, 1.0, 0.0, 0.5)
                path = written(path, *image)
            images = {"whole": path}
            corners, out = symbol_box(path)
            count.check(f"{kind} on {paper}: ZXing finds it", len(corners) == 4, out)
            if paper == "card" and len(corners) == 4:
                box = (tuple(map(min, zip(*corners))), tuple(map(max, zip(*corners))))
                for share in (10, 6):
                    for i, where in enumerate(PLACES[kind]):
                        file = path.with_suffix(f".{share}.{i}.pgm")
                        images[f"{share} % under stain {i + 1}"] = written(file, *stained(image, box, where, share / 100))
            for state, file in images.items():
                read = []
                for reader in readers:
                    got = read_by(reader, file)
                    if kind == "qr":
                        good = all(line in got for line in facts.split("\n"))
                    else:
                        seen = re.sub(r"[\x1d]|<GS>|\\x1D", "", got)
                        good = re.search("0102001234026413" "17280531" "10DW-2641" "210007731", seen) is not None
                    read.append((reader, good, got[:300]))
                if kind == "matrix" and state.startswith("10"):
                    # A Data Matrix of this size mends 14 of its 72 codewords (ISO/IEC 16022, from memory), and a stain
                    # over a tenth touches more than a tenth of them: one reader must manage, the other may give up.
                    count.check(f"{kind} on {paper}, {state}: a reader reads it", any(good for _, good, _ in read), read)
                    continue
                for reader, good, got in read:
                    count.check(f"{kind} on {paper}, {state}: {reader} reads it", good, got)


def part_of(image, left, right, top, bottom):
    """A rectangle of a picture, by shares of its sides."""
    width, height, data = image
    x0, x1 = int(width * left), int(width * right)
    rows = range(int(height * top), int(height * bottom))
    return x1 - x0, len(rows), bytearray(b"".join(bytes(data[y * width + x0:y * width + x1]) for y in rows))


def half_of(image, page):
    """The front or the back of the card on a sheet, cut out."""
    width, height = A4
    left = (width - 2 * CARD[0]) / 2 + (page - 1) * CARD[0]
    return part_of(image, left / width, (left + CARD[0]) / width, 60 / height, (60 + CARD[1]) / height)


def printer(count, program):
    """A pretended lp: what it was given, what is said when it refuses, hangs up or is missing; the PDF stays."""
    bin_folder = pathlib.Path(program.folder) / "bin"
    bin_folder.mkdir()
    lp = bin_folder / "lp"
    kept = pathlib.Path(program.data) / "prints/A-leaflet.pdf"

    def call(script, *flags):
        if script is None:
            lp.unlink(missing_ok=True)
        else:
            lp.write_text("#!/bin/sh\n" + script)
            lp.chmod(0o755)
        path = str(bin_folder) + (":/bin" if script is not None else "")
        return run(program.binary, "print", "leaflet", "A", "--lp", "--data", program.data, *flags,
                   env={**os.environ, "PATH": path})
    code, out, err = call('printf "%s|" "$@" > "$0.said"; echo "request id is office-7 (1 file(s))"', "--printer", "office")
    count.check("a printer that takes it: exit 0 and what lp said", code == 0 and "office-7" in out, out + err)
    count.equal("lp gets the printer and the file", (bin_folder / "lp.said").read_text(), f"-d|office|--|{kept}|")
    count.check("the PDF stands in prints/, for its user alone",
                kept.exists() and stat.S_IMODE(kept.stat().st_mode) == 0o600 and stat.S_IMODE(kept.parent.stat().st_mode) == 0o700)
    kept.unlink()
    code, out, err = call('echo "lp: Error - No default destination." >&2; exit 1')
    count.check("a printer that refuses: exit 1, its words, and where the PDF is",
                code == 1 and "No default destination" in err and str(kept) in err and kept.exists(), err)
    kept.unlink()
    code, out, err = call(None)
    count.check("no printing at all: exit 1, said so, the PDF kept", code == 1 and "lp is missing" in err and kept.exists(), err)
    code, out, err = run(program.binary, "print", "leaflet", "A", "-o", "/proc/none/x.pdf", "--data", program.data)
    count.check("a file that cannot be written: exit 3 and one sentence", code == 3 and "cannot be written" in err, err)


def golden(count, prints, folder, program):
    """Pictures at 50 dpi: on average no more than 1.5 of 255 away, and at most 0.5 % of the pixels by more than 64."""
    shots = {"record": prints["record", "A"], "leaflet": prints["leaflet", "A"],
             "card": Pdf(program, folder, "card", "A", "--paper", "card"), "downtime": prints["downtime", ""]}
    for name, pdf in shots.items():
        width, height, got = pdf.pixels(120 if name == "card" else 50)
        file = GOLDEN / f"{name}.png"
        if os.environ.get("BRIMLINE_NEW_GOLDEN") == "yes":
            path = written(pathlib.Path(folder) / f"{name}.pgm", width, height, got)
            run("convert", path, "-define", "png:exclude-chunks=date,time", file)
        raw = subprocess.run(["convert", str(file), "-depth", "8", "pgm:-"], capture_output=True, timeout=60).stdout
        known = pgm(raw) if raw else (0, 0, b"")
        same = known[:2] == (width, height)
        away = [abs(a - b) for a, b in zip(known[2], got)] if same else [255]
        mean, far = sum(away) / len(away), sum(1 for d in away if d > 64) / len(away)
        count.check(f"golden {name}: looks as it did", same and mean <= 1.5 and far <= 0.005, f"mean {mean:.2f}, far {far:.4f}")


def long_names(count, program, folder):
    """Names at the longest that people have, and beyond: nothing is lost from the record, and no sheet runs over."""
    name = "Æthelstan-Ōkubo y Żółkiewska-Brzęczyszczykiewicz de la Santísima Trinidad von Habsburg-Lothringen"
    case = Case(program, "L", family_name=name)
    case.until("ready")
    case.say("tomas", "dye", agent="methylene blue", ml=5, in_first_syringe=True)
    case.run([("tomas", "syringe-in", case.now + 20 * i, {}) for i in range(10)])
    case.say("tomas", "device-off")
    for kind in ("record", "leaflet", "card"):
        for language in ([], ["--language", "es"], ["--language", "pl"]) if kind != "record" else ([],):
            pdf = Pdf(program, folder, kind, "L", *language)
            sound(count, f"{kind} {' '.join(language)} with a long name", pdf, A4)
            if kind != "card":
                count.holds(f"{kind} {' '.join(language)}: the long name stands whole", name, pdf.text)
            if kind == "leaflet":
                count.equal(f"leaflet {' '.join(language)} with a long name is one sheet", len(pdf.pages), 1)


def main():
    count = Count()
    for tool in ("qpdf", "pdffonts", "pdftotext", "pdftoppm", "pdfinfo", "pdftohtml", "ZXingReader", "dmtxread", "zbarimg", "convert"):
        count.check(f"{tool} is installed", shutil.which(tool) is not None, "third_party/install test")
    program = Program(binary_path(), DEMO / "policy")
    folder = os.path.join(program.folder, "out")
    os.makedirs(os.path.join(program.folder, "again"))
    os.makedirs(folder)
    for file in ("people", "case-d-placed", "case-a", "case-b", "case-c", "case-d", "case-e"):
        done = program.script(DEMO / f"{file}.jsonl")
        count.check(f"{file} runs", done.code == 0, done.err)
    prints = {(kind, case): Pdf(program, folder, kind, case) for case, kinds in KINDS.items() for kind in kinds}
    prints["downtime", ""] = Pdf(program, folder, "downtime", "")
    every_print(count, program, prints)
    record_says_the_same(count, program, prints)
    reader_of_page_one(count, prints)
    leaflets(count, program, prints, folder)
    codes(count, program, folder)
    printer(count, program)
    addenda(count, program, folder)
    golden(count, prints, folder, program)
    more = Program(binary_path(), DEMO / "policy")
    done = more.script(DEMO / "people.jsonl")
    count.check("people of the second store run", done.code == 0, done.err)
    dose_rows(count, more, folder)
    long_names(count, more, folder)
    if os.environ.get("BRIMLINE_KEEP") != "yes":
        program.end()
        more.end()
    else:
        print(program.folder)
    count.end()


if __name__ == "__main__":
    sys.exit(main())
