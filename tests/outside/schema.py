#!/usr/bin/env python3
"""The published JSON Schema of events against Debian's python3-jsonschema: every event of both days fits, every kind of event
has a definition, and one broken field of each kind is refused. Usage: schema.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import copy
import json
import random

from black_box.cases import with_debian

with_debian("jsonschema")

import jsonschema  # noqa: E402

from black_box.program import ROOT, Count, Program, binary_path  # noqa: E402

DEMO = ROOT / "demo"
SCHEMA = ROOT / "assets" / "schema" / "event.schema.json"
MOMENT = "2026-11-25T09:38:23+00:00"


def events_of(policy, folder, names):
    program = Program(binary_path(), policy)
    for name in names:
        assert program.script(folder / f"{name}.jsonl").code == 0, name
    events = program.call("export", "--all", "--format", "json", "--data", program.data).answers
    program.end()
    return events


def made_up(schema, whole, chance):
    """A value that fits a schema of ours, for kinds that no day has."""
    if "$ref" in schema:
        return made_up(whole["$defs"][schema["$ref"].split("/")[-1]], whole, chance)
    if "anyOf" in schema:
        return made_up(chance.choice(schema["anyOf"]), whole, chance)
    if "enum" in schema:
        return chance.choice(schema["enum"])
    if "const" in schema:
        return schema["const"]
    kind = schema.get("type")
    if kind == "object":
        if "properties" not in schema:
            return {"a": made_up(schema["additionalProperties"], whole, chance)} if isinstance(schema.get("additionalProperties"), dict) else {}
        needed = schema.get("required", [])
        return {name: made_up(part, whole, chance) for name, part in schema["properties"].items()
                if name in needed or (not name.startswith("@") and chance.random() < 0.5)}
    if kind == "array":
        return [made_up(schema["items"], whole, chance)]
    if kind == "string":
        pattern = schema.get("pattern", "")
        return MOMENT if "T[0-9]" in pattern else "2026-11-25" if "-[0-9]{2}$" in pattern else "25 11" if "unknown" in pattern else "words"
    return {"integer": 3, "number": 2.5, "boolean": True}[kind]


def broken(event, definition):
    """Copies of an event with one fault each."""
    payload = event["payload"]
    yield "a field that there is not", {**event, "payload": {**payload, "no_such_field": 1}}
    for name in definition.get("required", []):
        less = {k: v for k, v in payload.items() if k != name}
        yield f"without {name}", {**event, "payload": less}
    for name, value in payload.items():
        if name in definition["properties"]:
            yield f"{name} as a list of lists", {**event, "payload": {**payload, name: [[value]]}}
            if "enum" in definition["properties"][name]:
                yield f"{name} as an unknown word", {**event, "payload": {**payload, name: "no-such-word"}}
            if "pattern" in definition["properties"][name]:
                yield f"{name} as no moment or date", {**event, "payload": {**payload, name: "yesterday"}}
    yield "an unknown kind", {**event, "kind": "no-such-kind"}
    yield "a short hash", {**event, "hash": "ab"}
    yield "nobody", {**event, "by": ""}


def main():
    count = Count()
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    printed = Program(binary_path()).call("export", "--schema")
    count.check("the published schema is the program's own", printed.raw == SCHEMA.read_bytes())
    jsonschema.Draft202012Validator.check_schema(schema)
    judge = jsonschema.Draft202012Validator(schema)
    events = events_of(DEMO / "policy", DEMO, ["people", "case-d-placed", "case-a", "case-b", "case-c", "case-d", "case-e"])
    events += events_of(DEMO / "second-day" / "policy", DEMO / "second-day", ["people", "case-k", "case-l", "case-m"])
    wrong = [(e["seq"], e["kind"], [x.message[:120] for x in judge.iter_errors(e)][:2]) for e in events if not judge.is_valid(e)]
    count.check(f"all {len(events)} events of both days fit", events and not wrong, wrong[:5])
    seen = {e["kind"]: e for e in events}
    kinds = schema["properties"]["kind"]["enum"]
    count.equal("every kind has a definition", sorted(kinds), sorted(schema["$defs"]))
    print(f"  {len(kinds)} kinds, {len(seen)} of them on the two days")
    chance = random.Random(20261125)
    faults = 0
    for kind in kinds:
        event = copy.deepcopy(seen.get(kind)) or {**seen["scope-in"], "kind": kind, "payload": made_up(schema["$defs"][kind], schema, chance)}
        count.check(f"{kind}: an event of this kind fits", judge.is_valid(event), [x.message[:200] for x in judge.iter_errors(event)][:3])
        passed = [name for name, bad in broken(event, schema["$defs"][kind]) if judge.is_valid(bad)]
        faults += len(list(broken(event, schema["$defs"][kind])))
        count.check(f"{kind}: every single fault is refused", not passed, passed)
    print(f"  {faults} broken events")
    count.end()


if __name__ == "__main__":
    main()
