#!/usr/bin/env python3
"""Dates and zones against other people's implementations: months and years by dateutil's relativedelta (Debian
python3-dateutil) over a whole cycle of 400 years, wall clocks by Python's zoneinfo, both from the published rules of the
calendar and from tzdata. Usage: calendar_zones.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import datetime
import random
import zoneinfo

from black_box.cases import Cases, with_debian
from black_box.program import Count, Program, binary_path

with_debian("dateutil")
from dateutil.relativedelta import relativedelta  # noqa: E402

UTC = datetime.timezone.utc
DAY = datetime.timedelta(days=1)
ZONES = ["Europe/London", "Europe/Berlin", "Europe/Dublin", "Europe/Lisbon", "America/New_York", "America/St_Johns",
         "America/Sao_Paulo", "Asia/Kolkata", "Asia/Kathmandu", "Australia/Sydney", "Australia/Lord_Howe", "Pacific/Auckland",
         "Pacific/Apia", "Africa/Casablanca", "UTC"]


def months(cases):
    first = datetime.date(2000, 1, 1)
    for n in range(146097):  # the Gregorian cycle
        day = first + n * DAY
        due = day + relativedelta(months=6)
        cases.add("due-date", {"placement_date": day.isoformat(), "months": 6},
                  {"due": due.isoformat(), "days_between": (due - day).days})
    cases.all_hold("six months from every day of 400 years, by dateutil")
    for n in range(0, 146097, 11):
        day = first + n * DAY
        for count in (1, 2, 3, 4, 5, 9, 12):
            due = day + relativedelta(months=count)
            back = due - relativedelta(months=count)
            cases.add("due-date", {"placement_date": day.isoformat(), "months": count, "then_months": -count},
                      {"due": due.isoformat(), "back": back.isoformat()})
        kept = day + relativedelta(years=15)
        cases.add("record-retention", {"last_sealed": day.isoformat(), "years": 15}, {"keep_through": kept.isoformat()})
    cases.all_hold("other spans of months and years, there and back, by dateutil")


def ages(cases):
    """dateutil counts the birthday of 29 February on 28 February; the house on 1 March: those days are left out."""
    chance = random.Random(20261125)
    for _ in range(20000):
        birth = datetime.date(1930, 1, 1) + chance.randrange(33000) * DAY
        on = birth + chance.randrange(40000) * DAY
        if birth.month == 2 and birth.day == 29 and on.month == 2 and on.day == 28:
            continue
        cases.add("age", {"birth": birth.isoformat(), "on": on.isoformat()}, {"age_years": relativedelta(on, birth).years})
    cases.all_hold("completed years by dateutil")


def plans(cases):
    """Open days and diet by Python's own calendar."""
    for n in range(0, 1500):
        placed = datetime.date(2026, 1, 1) + n * DAY
        closed = {placed + k * DAY for k in (1, 29, 181)}
        due = placed + relativedelta(months=6)
        while due.isoweekday() > 5 or due in closed:
            due -= DAY
        cases.add("removal-book-by", {"due": (placed + relativedelta(months=6)).isoformat(),
                                      "closed_dates": sorted(d.isoformat() for d in closed)}, {"book_by": due.isoformat()})
        expected = {}
        for name, day in [("phone", placed + DAY), ("week 1", placed + 7 * DAY),
                          *[(f"month {m}", placed + relativedelta(months=m)) for m in (1, 2, 3, 4, 5, 9, 12)]]:
            while day.isoweekday() > 5 or day in closed:
                day += DAY
            expected[name] = day.isoformat()
        cases.add("visit-plan", {"placement_date": placed.isoformat(), "open_weekdays": "Mon-Fri",
                                 "closed_dates": sorted(d.isoformat() for d in closed)}, expected)
    cases.all_hold("open days and visits by Python's calendar")


def readings(zone, local):
    """The moments that show this wall clock: none, one or two, by zoneinfo's fold."""
    found = []
    for fold in (0, 1):
        moment = local.replace(tzinfo=zone, fold=fold).astimezone(UTC)
        if moment.astimezone(zone).replace(tzinfo=None) == local and moment not in found:
            found.append(moment)
    return sorted(found)


def text(local):
    return local.strftime("%Y-%m-%d %H:%M")


def clocks(cases):
    chance = random.Random(25112026)
    skipped = twice = 0
    for name in ZONES:
        zone = zoneinfo.ZoneInfo(name)
        times = [datetime.datetime(2000, 1, 1) + datetime.timedelta(minutes=chance.randrange(50 * 365 * 1440)) for _ in range(400)]
        times += list(around_changes(zone))
        for local in times:
            moments = readings(zone, local)
            skipped += not moments
            twice += len(moments) == 2
            inputs = {"kind": "clear-fluid", "last_local": text(local), "tz": name, "required_min": 120}
            if not moments:
                cases.add("fasting-dst", inputs, {"refused": True, "reason": "no-such-local-time"})
                continue
            for answered, moment in ((None, moments[-1]), ("first", moments[0])):
                until = moment + datetime.timedelta(minutes=120)
                cases.add("fasting-dst", {**inputs, "answered": answered},
                          {"earliest_utc": until.strftime("%Y-%m-%dT%H:%M:%SZ"), "earliest_local": text(until.astimezone(zone))})
            until = moments[-1] + datetime.timedelta(hours=24)
            cases.add("after-sedation-limits", {"zone": name, "discharged_local": text(local), "hours": 24},
                      {"until_utc": until.strftime("%Y-%m-%dT%H:%M:%SZ"), "until_local": text(until.astimezone(zone))})
            released = moments[0]
            cases.add("due-date", {"zone": name, "released_utc": released.strftime("%Y-%m-%dT%H:%M:%SZ"), "months": 6},
                      {"placement_date": released.astimezone(zone).date().isoformat()})
    cases.count.check("the readings include skipped and doubled ones", skipped > 100 and twice > 100, (skipped, twice))
    cases.all_hold(f"wall clocks of {len(ZONES)} zones by zoneinfo, around every change of 2015 to 2040")


def around_changes(zone):
    """Wall-clock readings beside and inside every change of the offset."""
    at = datetime.datetime(2015, 1, 1, tzinfo=UTC)
    end = datetime.datetime(2040, 1, 1, tzinfo=UTC)
    while at < end:
        later = at + datetime.timedelta(hours=12)
        if at.astimezone(zone).utcoffset() != later.astimezone(zone).utcoffset():
            low, high = at, later
            while high - low > datetime.timedelta(minutes=1):
                middle = low + (high - low) / 2
                middle = middle.replace(second=0, microsecond=0)
                if middle.astimezone(zone).utcoffset() == at.astimezone(zone).utcoffset():
                    low = middle
                else:
                    high = middle
            for minutes in (-61, -31, -30, -1, 0, 1, 29, 30, 59, 60):
                base = low.astimezone(zone).replace(tzinfo=None) + datetime.timedelta(minutes=1)
                yield base + datetime.timedelta(minutes=minutes)
        at = later


def spans(cases):
    """Elapsed minutes between two unambiguous readings, by zoneinfo."""
    chance = random.Random(11252026)
    for name in ZONES:
        zone = zoneinfo.ZoneInfo(name)
        for _ in range(300):
            last = datetime.datetime(2015, 1, 1) + datetime.timedelta(minutes=chance.randrange(25 * 365 * 1440))
            at = last + datetime.timedelta(minutes=chance.randrange(3 * 1440))
            one, two = readings(zone, last), readings(zone, at)
            if len(one) == 1 and len(two) == 1:
                elapsed = int((two[0] - one[0]).total_seconds()) // 60
                if elapsed >= 0:
                    cases.add("fasting", {"kind": "fatty-meal", "last_local": text(last), "at_local": text(at), "tz": name,
                                          "required_min": 480}, {"elapsed_min": elapsed, "met": elapsed >= 480})
    cases.all_hold("elapsed minutes across clock changes by zoneinfo")


def main():
    count = Count()
    program = Program(binary_path())
    cases = Cases(program, count)
    for part in [months, ages, plans, clocks, spans]:
        part(cases)
    program.end()
    for name in sorted(count.names):
        print(f"checked: {name}")
    count.end()


if __name__ == "__main__":
    main()
