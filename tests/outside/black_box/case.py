"""A case driven to a stage with as few commands as that takes, for tests that are about one command."""
import datetime
import json

PIN = {"ilse": "381946", "tomas": "625083", "noor": "917354", "wren": "540872", "pia": "470215"}
START = datetime.datetime(2026, 11, 25, 9, 0, tzinfo=datetime.timezone.utc).timestamp()

# Each stage is the stages before it and these commands: who, what, fields.
STAGES = {
    "booked": [],
    "identified": [("wren", "identity", {"identifiers": ["name", "born"]}), ("wren", "consent", {"signed": True})],
    "go": [("noor", "start-sedation", {}), ("tomas", "scope-in", {}), ("tomas", "go", {"said_by": "ilse"})],
    "ready": [("tomas", "plan", {"said_by": "ilse", "band_low_ml": 500, "band_high_ml": 600, "aim_ml": 500, "ceiling_ml": 700}),
              ("tomas", "device", {"how": "scan", "raw": "(01)02001234026413(17)280531(10)DW-2641(21)0007731"}),
              ("tomas", "saline", {"method": "row", "laid_out": 12}), ("tomas", "position-seen", {"said_by": "ilse"}),
              ("tomas", "ready-to-fill", {})],
    "filled": [("tomas", "syringe-in", {})] * 10,
}


def clock(second):
    """RFC 3339 in UTC, with milliseconds where there are any."""
    moment = datetime.datetime.fromtimestamp(round(second, 3), datetime.timezone.utc)
    return moment.strftime("%Y-%m-%dT%H:%M:%S") + (f".{moment.microsecond // 1000:03}" if moment.microsecond else "") + "+00:00"


def seq_of(answer):
    return answer["seq"][0]


class Case:
    """One case of a program; `now` runs on by 20 s with each command."""

    def __init__(self, program, name, family_name="Probe", people=None, pins=None, room="Room 1"):
        self.p, self.name, self.now = program, name, START
        self.people, self.pins = people or {}, pins or PIN
        self.family_name, self.room = family_name, room
        self.reached = []

    def at(self, second):
        self.now = second
        return self

    def run(self, commands, *flags):
        """Several commands as one script: (who, what, when, fields)."""
        lines = []
        for by, do, when, fields in commands:
            line = {"at": clock(when), "by": self.people.get(by, by), "case": self.name, "do": do, **fields}
            if "said_by" in line:
                line["said_by"] = self.people.get(line["said_by"], line["said_by"])
            lines.append({key: value for key, value in line.items() if value is not None})
        self.now = max([self.now] + [when for _, _, when, _ in commands]) + 20
        return self.p.script("".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines), *flags)

    def say(self, by, do, at=None, **fields):
        return self.run([(by, do, self.now if at is None else at, fields)])

    def until(self, stage):
        """Runs what is missing up to that stage; it must all be recorded."""
        commands = []
        if not self.reached:
            patient = {"number": "HM-9001",
                       "family_name": self.family_name, "given_name": "Ada", "born": "1980-01-01", "sex_at_birth": "f"}
            commands.append(("pia", "book", {"kind": "placement", "patient": patient, "planned": "2026-11-25T09:30:00+00:00",
                                             "room": self.room}))
        for name, more in STAGES.items():
            if name not in self.reached:
                self.reached.append(name)
                commands += more
            if name == stage:
                break
        timed = [(by, do, self.now + 20 * i, fields) for i, (by, do, fields) in enumerate(commands)]
        done = self.run(timed)
        assert done.code == 0, f"{self.name} did not reach {stage}: {done.err}"
        return self

    def sign_and_seal(self, pin=None):
        signs = [("wren", "nursing"), ("noor", "sedation"), ("ilse", "physician")]
        for by, part in signs:
            self.say(by, "sign", part=part, pin=self.pins[self.people.get(by, by)])
        return self.say("ilse", "seal", pin=pin or self.pins[self.people.get("ilse", "ilse")])

    def show(self, at=None):
        return self.p.show(self.name, at)
