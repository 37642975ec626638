#!/usr/bin/env python3
"""Three years of an invented clinic as a script: placements, removals, calls, closings, so that register, audit and lot
search show real life. Everybody and everything in it is made up; the same number gives the same clinic.
Usage: register.py [BALLOONS] | brimline script - --data DIR --policy demo/policy (after demo/people.jsonl)"""
import datetime
import json
import random
import sys

FIRST, LAST = datetime.date(2023, 12, 4), datetime.date(2026, 11, 20)
FAMILY = ["Am", "Bel", "Cor", "Dun", "Ell", "Fen", "Gar", "Hol", "Ire", "Jas", "Kel", "Lor", "Mar", "Nor", "Ost", "Pell", "Quin",
          "Ros", "Sal", "Tor", "Urs", "Ven", "Wes", "Yar", "Zel"]
ENDS = ["ander", "by", "croft", "dale", "eno", "field", "gate", "ham", "ik", "low", "more", "ner", "osz", "ster", "ton", "wick"]
GIVEN = {"f": ["Ada", "Bea", "Clara", "Dina", "Eva", "Fia", "Greta", "Hana", "Ida", "Juna"],
         "m": ["Aron", "Boris", "Cem", "David", "Emil", "Finn", "Georg", "Hugo", "Ivo", "Jan"]}


def add_months(day, months):
    month = day.month - 1 + months
    year, month = day.year + month // 12, month % 12 + 1
    last = (datetime.date(year + month // 12, month % 12 + 1, 1) - datetime.timedelta(days=1)).day
    return datetime.date(year, month, min(day.day, last))


class Clinic:
    def __init__(self, seed):
        self.chance = random.Random(seed)
        self.lines = []

    def say(self, day, clock, by, do, case=None, **fields):
        line = {"at": f"{day}T{clock}+00:00", "by": by}
        said_by = fields.pop("said_by", None)
        if said_by:
            line["said_by"] = said_by
        if case:
            line["case"] = case
        line["do"] = do
        line.update(fields)
        self.lines.append(line)

    def patient(self, n):
        sex = self.chance.choice("fm")
        born = datetime.date(self.chance.randint(1956, 2004), self.chance.randint(1, 12), self.chance.randint(1, 28))
        return {"number": f"HM-{10000 + n}", "family_name": self.chance.choice(FAMILY) + self.chance.choice(ENDS),
                "given_name": self.chance.choice(GIVEN[sex]), "born": str(born), "sex_at_birth": sex,
                "phone": f"01632 960 {self.chance.randint(0, 999):03}"}

    def placement(self, n, day, hour):
        case, patient = f"R{n:04}", self.patient(n)
        weight = self.chance.randint(780, 1400) / 10
        height = self.chance.randint(155, 192)
        syringes = self.chance.choice([10, 10, 10, 11, 11, 12])
        self.say(day, f"{hour}:00:00", "pia", "book", case, kind="placement", patient=patient, planned=f"{day}T{hour}:30:00+00:00", room="Room 1")
        self.say(day, f"{hour}:05:00", "wren", "identity", case, identifiers=["name", "born"])
        self.say(day, f"{hour}:05:30", "wren", "consent", case, signed=True)
        self.say(day, f"{hour}:06:00", "wren", "measure", case, weight_kg=weight, weight_basis="measured", height_cm=height)
        self.say(day, f"{hour}:10:00", "noor", "start-sedation", case)
        self.say(day, f"{hour}:12:00", "tomas", "go", case, said_by="ilse")
        lot = f"DW-{1800 + (day - FIRST).days}"
        self.say(day, f"{hour}:13:00", "tomas", "device", case, raw=f"(01)02001234026413(17)290531(10){lot}(21){n:07}")
        self.say(day, f"{hour}:14:00", "tomas", "plan", case, said_by="ilse", band_low_ml=500, band_high_ml=600, aim_ml=syringes * 50)
        self.say(day, f"{hour}:15:00", "tomas", "position-seen", case, said_by="ilse")
        second = 16 * 60
        for _ in range(syringes):
            self.say(day, f"{hour}:{second // 60:02}:{second % 60:02}", "tomas", "syringe-in", case)
            second += self.chance.randint(17, 31)
        self.say(day, f"{hour}:24:00", "tomas", "count-check", case, said_by="ilse", count=syringes)
        self.say(day, f"{hour}:25:00", "noor", "read-back", case, said_by="ilse", ml=syringes * 50)
        self.say(day, f"{hour}:26:00", "tomas", "device-off", case)
        self.say(day, f"{hour}:59:00", "wren", "discharge", case, disposition="home")
        return case, patient, (weight, height), syringes * 50

    def removal(self, n, day, hour, case, patient, body, filled):
        name, (weight, height) = f"X{n:04}", body
        self.say(day, f"{hour}:00:00", "pia", "book", name, kind="removal", patient=patient, planned=f"{day}T{hour}:30:00+00:00", room="Room 2", entry=case)
        lost = self.chance.randint(20, 220) / 1000
        self.say(day, f"{hour}:05:00", "wren", "measure", name, weight_kg=round(weight * (1 - lost), 1), weight_basis="measured", height_cm=height)
        self.say(day, f"{hour}:10:00", "noor", "start-sedation", name)
        self.say(day, f"{hour}:12:00", "tomas", "canister", name, ml=10, moment="start")
        self.say(day, f"{hour}:13:00", "tomas", "puncture", name)
        out = filled + self.chance.choice([-110, -20, -10, -5, 0, 0, 5, 10])
        self.say(day, f"{hour}:17:00", "tomas", "canister", name, ml=10 + out, moment="end")
        self.say(day, f"{hour}:18:00", "tomas", "seen-empty", name, said_by="ilse")
        self.say(day, f"{hour}:20:00", "tomas", "out", name, complete=True, kept=False)
        self.say(day, f"{hour}:59:00", "wren", "discharge", name, disposition="home")

    def life(self, n, day, placed):
        """What became of one balloon: mostly out in time, some late, some by another way, a few not reached."""
        case, patient, body, filled = placed
        due = add_months(day, 6)
        fate = self.chance.random()
        out = due - datetime.timedelta(days=self.chance.randint(1, 25))
        if fate > 0.97:
            out = day + datetime.timedelta(days=self.chance.randint(20, 120))  # early
        elif fate > 0.90:
            out = due + datetime.timedelta(days=self.chance.randint(1, 40))  # late
        if fate < 0.02:
            for k, way in enumerate(["phone", "phone", "letter"]):
                at = due + datetime.timedelta(days=k + 1)
                if at <= LAST:
                    self.say(at, "15:00:00", "pia", "call", entry=case, way=way, outcome="not-reached")
        elif fate < 0.04:
            if due <= LAST:
                self.say(due, "15:30:00", "pia", "close-entry", entry=case, outcome="out-elsewhere", known_from="letter of another clinic",
                         proof=self.chance.choice(["document", "none"]))
        elif out <= LAST:
            self.removal(n, out, f"{12 + n % 3}", case, patient, body, filled)


def main():
    balloons = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    clinic = Clinic(20231204)
    days = (LAST - FIRST).days
    for n in range(1, balloons + 1):
        day = FIRST + datetime.timedelta(days=days * n // (balloons + 1))
        clinic.life(n, day, clinic.placement(n, day, f"{8 + n % 4:02}"))
    clinic.lines.sort(key=lambda line: line["at"])
    for line in clinic.lines:
        print(json.dumps(line, ensure_ascii=False))


if __name__ == "__main__":
    main()
