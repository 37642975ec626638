#!/usr/bin/env python3
"""House rules as tests: what a compiler does not check about this tree. Python's standard library only.

Each rule is one test; the last line is "N passed, N failed". Run from anywhere.
"""
import os
import re
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
CODE = (".h", ".cpp")
PRODUCT = ("core/", "app/")
PURE = ("core/units/", "core/clinic/", "core/rules/", "core/label/", "core/case/", "core/desk/", "core/record/")
LONGEST_FUNCTION, LONGEST_LINE, LONGEST_FILE = 70, 120, 500
IMPURE = re.compile(
    r"\b(system_clock|steady_clock|high_resolution_clock|gettimeofday|clock_gettime|localtime\w*|random_device|"
    r"getenv|sleep_for|sleep_until|usleep|[io]?fstream|fopen|filesystem|std::cout|std::cerr|std::clog|printf|"
    r"std::j?thread|std::mutex|std::async|setlocale|std::locale|time\(nullptr\))\b")
FORBIDDEN_NAMES = re.compile(r"(^|/)(utils?|helpers?|managers?|commons?|misc)(\.|/|$)")
UNFINISHED = re.compile(r"\b(TO" r"DO|FIX" r"ME|XX" r"X|HA" r"CK)\b")
MACHINE_PATH = re.compile(r"(?<![\w/.])/(?:work|farm|root|home/\w+)/")


def tracked():
    out = subprocess.run(["git", "-C", ROOT, "ls-files", "-z"], capture_output=True, text=True, check=True).stdout
    return [name for name in out.split("\0") if name and os.path.exists(os.path.join(ROOT, name))]


def text_of(name):
    with open(os.path.join(ROOT, name), "rb") as file:
        data = file.read()
    return None if b"\0" in data[:8000] else data.decode("utf-8", "replace")


FILES = tracked()
SOURCES = {name: text_of(name) for name in FILES if name.endswith(CODE)}


def without_comments(text):
    text = re.sub(r'"(?:\\.|[^"\\\n])*"', '""', text)
    text = re.sub(r"//[^\n]*", "", text)
    return re.sub(r"/\*.*?\*/", lambda m: "\n" * m.group().count("\n"), text, flags=re.S)


def functions(text):
    """(first line, length) of each outermost brace block whose head ends like a function's."""
    clean = without_comments(re.sub(r"'(?:\\.|[^'\\\n])'", "' '", text))
    found, stack, head_from = [], [], 0
    for at, char in enumerate(clean):
        if char == "{":
            head = clean[head_from:at].strip()
            is_function = bool(re.search(r"\)\s*(const|noexcept|override|final|->\s*[\w:<>,&* ]+|:\s[^;{}]*)*\s*$", head))
            is_scope = bool(re.search(r"\b(namespace|class|struct|enum|union)\b[^()]*$", head)) or head.endswith("=")
            stack.append((at, is_function and not is_scope and not any(f for _, f, _ in stack),
                          head_from + len(clean[head_from:at]) - len(clean[head_from:at].lstrip())))
            head_from = at + 1
        elif char == "}" and stack:
            start, is_function, head_start = stack.pop()
            if is_function:
                first = clean.count("\n", 0, head_start) + 1
                found.append((first, clean.count("\n", 0, at) + 1 - first + 1))
            head_from = at + 1
        elif char == ";":
            head_from = at + 1
    return found


def every_file_says_what_it_is_for():
    for name, text in SOURCES.items():
        if not text.startswith("//"):
            yield f"{name}: does not open with what it is for"


def no_function_is_longer_than_the_house_allows():
    for name, text in SOURCES.items():
        if name.startswith(PRODUCT):
            for line, length in functions(text):
                if length > LONGEST_FUNCTION:
                    yield f"{name}:{line}: {length} lines, {LONGEST_FUNCTION} are allowed"


def no_line_and_no_file_is_too_long():
    for name, text in SOURCES.items():
        lines = text.split("\n")
        if len(lines) > LONGEST_FILE:
            yield f"{name}: {len(lines)} lines, {LONGEST_FILE} are allowed"
        for number, line in enumerate(lines, 1):
            if len(line) > LONGEST_LINE:
                yield f"{name}:{number}: {len(line)} columns, {LONGEST_LINE} are allowed"


def the_core_is_pure():
    for name, text in SOURCES.items():
        if name.startswith(PURE):
            for number, line in enumerate(without_comments(text).split("\n"), 1):
                if IMPURE.search(line):
                    yield f"{name}:{number}: {IMPURE.search(line).group()} has no place in the pure core"


def includes_go_one_way():
    for name, text in SOURCES.items():
        for include in re.findall(r'#include [<"]([^>"]+)', text):
            if name.startswith("core/") and (include.startswith("app/") or include in ("imgui.h", "glad/gl.h")
                                             or include.startswith("GLFW/")):
                yield f"{name}: core includes {include}"
            if name.startswith(PURE) and (include.startswith(("core/store/", "core/print/", "sodium"))
                                          or include == "sqlite3.h"):
                yield f"{name}: the pure core includes {include}"
            if name.startswith("app/") and not name.startswith("app/kiosk/") and (
                    include in ("imgui.h", "glad/gl.h") or include.startswith("GLFW/")):
                yield f"{name}: only app/kiosk knows {include}"
            if name.startswith(("app/kiosk/touch/", "app/kiosk/screens/")) and include.startswith(("GLFW/", "glad/")):
                yield f"{name}: what is drawn knows no window ({include})"


def names_say_what_they_hold():
    for name in FILES:
        if FORBIDDEN_NAMES.search(name):
            yield f"{name}: this name says nothing"


def nothing_is_left_unfinished():
    for name in FILES:
        text = text_of(name)
        if text is None or name == "LICENSE":
            continue
        for number, line in enumerate(text.split("\n"), 1):
            if UNFINISHED.search(line):
                yield f"{name}:{number}: {UNFINISHED.search(line).group()}"


def no_path_of_a_machine_stands_in_the_tree():
    for name in FILES:
        text = text_of(name)
        if text is not None and MACHINE_PATH.search(text):
            yield f"{name}: {MACHINE_PATH.search(text).group()}"


def the_top_level_is_the_agreed_one():
    allowed = {"CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "LICENSE", "app", "core", "assets",
               "tests", "third_party", "demo"}
    for top in sorted({name.split("/")[0] for name in FILES}):
        if top not in allowed and not top.startswith("."):
            yield f"{top}: does not belong to the top level"


def the_caution_stands_in_the_readme():
    readme = " ".join(text_of("README.md").replace("\n> ", " ").split()) if "README.md" in FILES else ""
    for part in ("it does not decide, dose or diagnose", "not a certified medical device", "not an alarm system"):
        if part not in readme:
            yield f"README.md: the caution is missing: {part}"


def no_screen_holds_a_sentence():
    """Words stand in assets/words by key: a literal with a space is a sentence."""
    for name, text in SOURCES.items():
        if name.startswith("app/kiosk/screens/"):
            code = re.sub(r"//[^\n]*", "", text)
            for number, line in enumerate(code.split("\n"), 1):
                if "#include" in line or "assert(" in line:
                    continue
                for literal in re.findall(r'"((?:\\.|[^"\\])*)"', line):
                    if re.search(r"[A-Za-z]{2,} [A-Za-z]{2,}", literal):
                        yield f"{name}:{number}: \"{literal}\" belongs into assets/words"


def no_word_of_the_reference_day_stands_in_product_code():
    words = re.compile(r"\b(Quill|Brandt|Ferr[aá]n|[ÅA]sg[åa]rd|[ŻZ][óo][łl]tek|Varga|Reyle|Adeyemi|Castell|Holm|"
                       r"DW-264\d|HM-\d{4}|Harrow)\b")
    for name, text in SOURCES.items():
        if name.startswith(PRODUCT):
            for number, line in enumerate(re.sub(r"//[^\n]*", "", text).split("\n"), 1):
                if words.search(line):
                    yield f"{name}:{number}: {words.search(line).group()}"


# Numbers that code may compare with: no clinic may change them. File, words of the line, why.
FIXED = [
    ("app/kiosk/screens/airway_event.cpp", "highest_key = 97", "the first key of the strip of values"),
    ("app/kiosk/screens/airway_event.cpp", "keys_on_strip = 13", "keys that fit the strip"),
    ("app/kiosk/screens/arrival.cpp", ">= 54", "pixels: two lines of a heading"),
    ("app/kiosk/screens/arrival_fasting.cpp", "hour > 23", "hours of a day"),
    ("app/kiosk/screens/enter_room.cpp", "leap_year = 2000", "29 February is a birthday"),
    ("app/kiosk/screens/look_finding.cpp", "tenths = 10", "tenths of a centimetre"),
    ("core/case/sedation_view.cpp", "full = 100", "100 percent"),
    ("core/rules/airway.cpp", "bmi_limit = Decimal::of(35)", "the instrument's own (Chest 2016)"),
    ("core/rules/airway.cpp", "age_limit = 50", "the instrument's own (Chest 2016)"),
    ("core/rules/airway.cpp", "bmi >= Fraction{Decimal::of(40)}", "ASA classes, fixed"),
    ("core/rules/airway.cpp", "bmi >= Fraction{Decimal::of(30)}", "ASA classes, fixed"),
    ("core/rules/body.cpp", "Decimal::of(25)", "WHO classes, fixed"),
    ("core/rules/body.cpp", "Decimal::of(30), Decimal::of(35)", "WHO classes, fixed"),
    ("core/rules/body.cpp", "oldest_years = 120", "birth dates, fixed"),
    ("core/rules/padss.cpp", "full_share = 20", "the scale's own"),
    ("core/rules/padss.cpp", "half_share = 40", "the scale's own"),
    ("core/rules/padss.cpp", "rating <= 10", "the scale's own"),
    ("core/rules/depth.cpp", "severe_below = 75", "published classes, fixed"),
    ("core/rules/depth.cpp", "prolonged_below = 90", "published classes, fixed"),
    ("core/rules/depth.cpp", "minor_through = 90", "published classes, fixed"),
    ("core/rules/depth.cpp", "prolonged_after{60}", "published classes, fixed"),
    ("core/rules/recovery.cpp", "full_share = 20", "the scale's own"),
    ("core/rules/recovery.cpp", "half_share = 50", "the scale's own"),
    ("core/rules/recovery.cpp", "full_air_above = 92", "the scale's own"),
    ("core/rules/recovery.cpp", "half_above = 90", "the scale's own"),
    ("core/rules/dose.cpp", "of_millionths(100'000)", "how a dose per kg is written"),
    ("core/rules/vitals.cpp", "_bands{{", "published chart, fixed"),
    ("core/rules/physics.cpp", "100'000_mL", "what the arithmetic is proved for"),
    ("core/label/gs1.cpp", "ahead >= 51", "the century rule of labels"),
    ("core/case/codec_checks.cpp", "> 100", "a count that cannot be true"),
    ("core/case/codec_checks.cpp", "s.pieces > 50", "a count that cannot be true"),
    ("core/case/codec_values.cpp", "10'000'000", "the number of a line"),
    ("core/case/codec_values.cpp", "most_ml = 10'000", "a volume that cannot be true"),
    ("core/record/text_agreed.cpp", "glass_window{10}", "two people on one glass, fixed by design"),
    ("core/record/text_words.cpp", "< 60", "seconds of a minute"),
    ("core/record/text_words.cpp", "< 3600", "seconds of an hour"),
    ("core/case/decide/desk.cpp", "> 120", "birth dates, fixed"),
    ("core/case/decide/fill.cpp", "*says.syringes > 20", "a count that cannot be true"),
    ("core/case/decide/fill.cpp", "> 100", "a count that cannot be true"),
    ("core/case/decide/look_place.cpp", "Decimal::of(30)", "a size that cannot be true"),
    ("core/case/sedation_view.cpp", "full = 100", "per cent"),
    ("app/kiosk/screens/arrival.cpp", ">= 54", "pixels"),
    ("app/kiosk/screens/arrival_fasting.cpp", "> 23", "a clock's own"),
    ("app/kiosk/screens/enter_room.cpp", "leap_year = 2000", "the calendar's own"),
    ("app/kiosk/screens/airway_event.cpp", "highest_key = 97", "the keys of a strip"),
    ("app/kiosk/screens/airway_event.cpp", "keys_on_strip = 13", "the keys of a strip"),
    ("app/kiosk/screens/look_finding.cpp", "tenths = 10", "tenths"),
    ("app/kiosk/screens/book.cpp", "hour > 23 || minute > 59", "a clock's own"),
    ("app/kiosk/screens/symptoms.cpp", "worst = 10", "the end of the scale from 0 to 10"),
]
THRESHOLD = re.compile(
    r"\b(?:minutes|seconds|hours|days|months|years)\s*\w*\{\d{2,}\}|\b[\d']+_(?:mL|kg|mg)\b|(?<![<>-])[<>]=?\s*-?\d{2}[\d']*\b|"
    r"Decimal::of\(\d{2,}\)|of_millionths\([\d']{6,}\)|_bands\{\{|"
    r"constexpr (?:int|std::int64_t|minutes|seconds|std::chrono::\w+) \w+(?:\s*=\s*|\{)\d{2}[\d']*")
DECIDING = ("core/rules/", "core/label/", "core/case/", "core/desk/", "core/record/", "app/loop/", "app/kiosk/screens/")
PIXELS = re.compile(r"\b(?:rect|area|box|size)\.[wh]\b|\bfor \(|\bwidth\b|\bheight\b|\.size\(\)|milliseconds")


def no_threshold_stands_in_code():
    """Every threshold is a key of the policy; what is compared with a number in code is fixed, and listed with its reason."""
    used = set()
    for name, text in SOURCES.items():
        if not name.startswith(DECIDING):
            continue
        for number, line in enumerate(without_comments(text).split("\n"), 1):
            if not THRESHOLD.search(line) or PIXELS.search(line):
                continue
            reasons = [entry for entry in FIXED if entry[0] == name and entry[1] in line]
            used.update(reasons)
            if not reasons:
                yield f"{name}:{number}: {THRESHOLD.search(line).group()} belongs into assets/policy"
    for entry in FIXED:
        if entry not in used:
            yield f"tests/house/rules.py: \"{entry[1]}\" does not stand in {entry[0]} any more"


def no_date_is_reckoned_by_sql_or_a_local_clock():
    """SQLite's months overflow (31 March + 6 is 1 October there), and local clocks lose or gain an hour twice a year."""
    by_others = re.compile(r"\b(?:julianday|strftime|unixepoch|datetime|date)\s*\(\s*'|CURRENT_(?:DATE|TIME)|\bmktime\b|\blocaltime")
    for name, text in SOURCES.items():
        if name.startswith(PRODUCT):
            for number, line in enumerate(text.split("\n"), 1):
                if by_others.search(line):
                    yield f"{name}:{number}: {by_others.search(line).group()}"


RULES = [every_file_says_what_it_is_for, no_function_is_longer_than_the_house_allows, no_line_and_no_file_is_too_long,
         the_core_is_pure, includes_go_one_way, names_say_what_they_hold, nothing_is_left_unfinished,
         no_path_of_a_machine_stands_in_the_tree, the_top_level_is_the_agreed_one, the_caution_stands_in_the_readme,
         no_screen_holds_a_sentence, no_word_of_the_reference_day_stands_in_product_code, no_threshold_stands_in_code,
         no_date_is_reckoned_by_sql_or_a_local_clock]


def main():
    failed = 0
    for rule in RULES:
        faults = list(rule())
        failed += bool(faults)
        print(f"{'FAILED' if faults else 'passed'}: {rule.__name__.replace('_', ' ')}")
        for fault in faults[:20]:
            print(f"    {fault}")
    print(f"{len(RULES) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
