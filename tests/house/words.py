#!/usr/bin/env python3
"""The words of each language against the English ones: same keys in the same order, same placeholders, the plural
forms that the language needs, nothing left in English, nothing too long for the glass.

Each of these is one test a language; the last line is "N passed, N failed".
words.py [FOLDER] checks another folder than assets/words.
"""
import json
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDER = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "assets" / "words"
ENGLISH = "en"
# Plural forms of whole numbers by Unicode CLDR, from memory: (needed, allowed).
FORMS = {"es": ({"one", "other"}, {"one", "many", "other"}),
         "pl": ({"one", "few", "many", "other"}, {"one", "few", "many", "other"})}
LONGEST, LONG_FROM = 1.6, 16  # times the English text, where that has more characters than this
# What is no word of English: units, scales and codes; single letters, rows of keys and commands fall out by rule.
SIGNS = {"mL", "mg", "kg", "mcg", "mm", "cm", "min", "mmHg", "PIN", "SpO₂", "CO2", "MOAA", "ASA", "Mallampati"}
# Words that are spelt alike in both languages, in small letters. A word here that no text needs is a fault too.
ALIKE = {"es": {"no", "pedal", "fundus"},
         "pl": {"antrum", "bmi", "hr", "kiosk", "map", "opioid", "plan", "problem", "shift", "stop", "trend"}}


class Fault(Exception):
    """A file that cannot be compared at all."""


def read(file):
    def once(pairs):
        keys = [key for key, _ in pairs]
        twice = sorted({key for key in keys if keys.count(key) > 1}) if len(set(keys)) < len(keys) else []
        if twice:
            raise Fault(f"{file.name}: written twice: {', '.join(twice)}")
        return dict(pairs)
    try:
        words = json.loads(file.read_text(encoding="utf-8"), object_pairs_hook=once)
    except ValueError as error:
        raise Fault(f"{file.name} is not JSON: {error}") from error
    if not isinstance(words, dict):
        raise Fault(f"{file.name} is not one JSON object of keys and texts")
    for key, value in words.items():
        if not value or not all(isinstance(text, str) and text for text in forms_of(value).values()):
            raise Fault(f"{file.name}: {key} is no text and no plural forms with a text each")
    return words


def forms_of(value):
    return value if isinstance(value, dict) else {"other": value}


def pairs_of(english, words):
    """(key or key/form, English text, text) of what both have; a form that English lacks is compared with "other"."""
    for key, value in words.items():
        if key in english and key != "language":
            base = forms_of(english[key])
            for form, text in forms_of(value).items():
                name = f"{key}/{form}" if isinstance(value, dict) else key
                yield name, base.get(form, base["other"]), text


def keys(_, english, words):
    """same keys in the same order"""
    faults = [f"{key} is missing" for key in english if key not in words]
    faults += [f"{key} is not in the English file" for key in words if key not in english]
    if not faults and list(english) != list(words):
        at = next(mine for mine, theirs in zip(words, english) if mine != theirs)
        faults.append(f"{at} stands in another place than in the English file")
    return faults


def plural_forms(language, english, words):
    """the plural forms of the language"""
    needed, allowed = FORMS[language]
    faults = [] if words.get("language") == language else [f"language is not \"{language}\""]
    for key, value in words.items():
        if key in english and isinstance(english[key], dict) != isinstance(value, dict):
            faults.append(f"{key} has plural forms in one file only")
        elif isinstance(value, dict) and not needed <= set(value) <= allowed:
            faults.append(f"{key} has the forms {', '.join(value)}; needed are {', '.join(sorted(needed))}")
    return faults


def placeholders(_, english, words):
    """same placeholders"""
    def names(text):
        return set(re.findall(r"\{[^{}]*\}", text))
    return [f"{name} has {sorted(names(text))}, English {sorted(names(base))}"
            for name, base, text in pairs_of(english, words) if names(text) != names(base)]


def words_in(text):
    """Words of two letters or more, without placeholders and signs."""
    found = re.findall(r"[^\W\d_][\w₂]+", re.sub(r"\{[^{}]*\}", " ", text))
    return {word.lower() for word in found if word not in SIGNS}


def translated(language, english, words):
    """nothing left in English"""
    faults, used = [], set()
    for name, base, text in pairs_of(english, words):
        if text == base and not name.startswith("keyboard.") and not text.startswith("brimline "):
            left = words_in(text)
            used |= left
            if not left <= ALIKE[language]:
                faults.append(f"{name} is still \"{text}\"")
    return faults + [f"\"{word}\" on the list of words spelt alike is not needed"
                     for word in sorted(ALIKE[language] - used)]


def length(_, english, words):
    """no text too long"""
    return [f"{name} has {len(text)} characters, English {len(base)}: \"{text}\""
            for name, base, text in pairs_of(english, words)
            if len(base) > LONG_FROM and len(text) > LONGEST * len(base)]


def faults_of(check, language, english, words):
    if language not in FORMS:
        return ["its plural forms are not known here: add them to FORMS and ALIKE"]
    return check(language, english, words)


def main():
    passed = failed = 0
    files = sorted(file for file in FOLDER.glob("*.json") if file.stem != ENGLISH)
    if not files:
        print(f"FAILED: no language beside {ENGLISH}.json in {FOLDER}")
        failed += 1
    for file in files:
        try:
            english, words = read(FOLDER / f"{ENGLISH}.json"), read(file)
        except Fault as fault:
            print(f"FAILED: {fault}")
            failed += 1
            continue
        for check in (keys, plural_forms, placeholders, translated, length):
            faults = faults_of(check, file.stem, english, words)
            for fault in faults:
                print(f"FAILED: {file.name}, {check.__doc__}: {fault}")
            failed += bool(faults)
            passed += not faults
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


sys.exit(main())
