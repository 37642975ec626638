#!/usr/bin/env python3
"""The promises of the journal against a disk that fails and files that are damaged, through the command line alone:
power cut at any write or sync, one that fails once or from then on, a full disk, bits flipped, files cut, missing,
foreign or older, SQL past the triggers, a folder that may only be read, two programs at once, a wall clock that jumps.
Usage: damage.py [PROGRAM] (or BRIMLINE=PROGRAM). The seed is printed, BRIMLINE_SEED repeats it; BRIMLINE_DAMAGE=ROUNDS
for more than the sample of tests/run."""
import errno
import json
import os
import pathlib
import random
import shutil
import signal
import sqlite3
import subprocess
import tempfile
import time

from black_box.disk import KILLED, Disk, compiled, random_points
from black_box.program import Count, Program, Run, binary_path

from day import DEMO

ROUNDS = int(os.environ.get("BRIMLINE_DAMAGE", "24"))
READING = (["verify"], ["export", "--all", "--format", "json"], ["export", "A"], ["show", "A"], ["register"], ["list"], ["audit"])
NOTE = [{"at": "2026-11-26T09:00:00+00:00", "by": "pia", "do": "recall", "lot": "DW-9999", "note": "none of ours"},
        {"at": "2026-11-26T09:01:00+00:00", "by": "pia", "do": "recall", "lot": "DW-9998", "note": "none of ours"}]


def files_of(folder):
    """All that lies there, by name; the lock holds nothing."""
    return {p.name: p.read_bytes() for p in sorted(pathlib.Path(folder).iterdir()) if p.is_file() and p.name != "brimline.lock"}


def put(path, content):
    """Whole, although the key may not be written."""
    path = pathlib.Path(path)
    if path.exists():
        os.chmod(path, 0o600)
    path.write_bytes(content)
    os.chmod(path, 0o400 if path.name == "sign.key" else 0o600)


def lay_out(folder, files):
    shutil.rmtree(folder, ignore_errors=True)
    os.mkdir(folder, 0o700)
    for name, content in files.items():
        put(pathlib.Path(folder) / name, content)


def is_plain(run):
    """It ended by itself, and when it failed it said so in words of its own."""
    words = run.err + run.out
    calm = 0 <= run.code <= 3 and "terminate called" not in words and "std::" not in words and "SQLITE_" not in words
    return calm and (run.code == 0 or len(words.strip()) > 10)


class Damaged:
    """A whole store that is damaged again and again."""

    def __init__(self, count, program, files):
        self.count, self.p, self.files = count, program, files
        self.data = pathlib.Path(program.folder).resolve() / "damaged"

    def call(self, *words, given=None):
        return self.p.call(*words, "--data", str(self.data), given=given)

    def fresh(self):
        lay_out(self.data, self.files)

    def note(self):
            return self.call("script", "-", given=(json.dumps(NOTE[0]) + "\n").encode())

    def told(self, name, words, writes=False):
        """`verify` names it in these words, all reading commands end calmly, nothing is written and nothing mends itself."""
        before = files_of(self.data)
        verified = self.call("verify")
        self.count.check(f"{name}: verify says so", verified.code in (1, 3) and words in verified.out + verified.err,
                         f"exit {verified.code}: {verified.out[:300]} {verified.err[:300]}")
        rough = [(w, r.code, r.err[-200:]) for w in READING for r in [self.call(*w)] if not is_plain(r)]
        self.count.equal(f"{name}: no reading command dies", rough, [])
        if not writes:
            refused = self.note()
            self.count.check(f"{name}: nothing is entered any more, in one sentence",
                             refused.code == 3 and "recorded" not in refused.out and refused.err.count("\n") <= 1 and refused.err,
                             f"exit {refused.code}: {refused.out[:200]} {refused.err[:300]}")
        after = files_of(self.data)
        self.count.equal(f"{name}: nothing mended itself", [k for k in {**before, **after} if before.get(k) != after.get(k)], [])

    def exported(self):
        return self.call("export", "--all", "--format", "json")

    def sql(self, text):
        """Past the triggers: they are taken away, and made again as they were."""
        link = sqlite3.connect(self.data / "brimline.db", isolation_level=None)
        triggers = link.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            link.execute(f"DROP TRIGGER {name}")
        link.executescript(text)
        for _, sql in triggers:
            link.execute(sql)
        link.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        link.close()


def failing_disk(count, chance, p, base, library):
    disk = Disk(p, base, library)
    script = DEMO / "case-a.jsonl"
    answers, code, err = disk.run(script)
    count.equal("case A runs on a good disk", (code, err), (0, ""))
    writes, syncs = disk.counts()
    total = len(told_by(answers))
    count.check("the shim sees the disk", writes > 200 and syncs > 50, (writes, syncs))

    bad, killed = [], 0
    for at in random_points(chance, writes + syncs, ROUNDS * 2):
        answers, code, _ = disk.run(script, "cut", AT=at)
        killed += code == KILLED
        left = files_of(disk.data)
        for _ in range(3):
            for name, content in left.items():
                put(disk.data / name, content)
            disk.after_cut(chance)
            wrong = disk.wrong(answers)
            bad += [(at, wrong)] if wrong else []
    count.equal("power cut: every acknowledged line is there, once and whole, the store sound", bad[:3], [])
    count.check("power cut: the cuts came", killed > ROUNDS, killed)

    blind = 0
    for at in random_points(chance, writes, ROUNDS // 2):
        answers, code, _ = disk.run(script, "lie", AT=at)
        shutil.rmtree(disk.data)
        shutil.copytree(disk.shadow, disk.data)
        blind += disk.wrong(answers) != ""
    count.check("control: a disk that lies about its syncs loses what was acknowledged", blind > 0, blind)

    for name, mode, most in (("write", "write", writes), ("sync", "sync", syncs)):
        for error in (errno.EIO, errno.ENOSPC):
            for on in (0, 1):
                bad, pending = [], 0
                for at in random_points(chance, most, max(ROUNDS // 4, 3)):
                    answers, code, err = disk.run(script, mode, AT=at, ERROR=error, ON=on, DROP=chance.randint(0, 1))
                    last = answers[-1] if answers else {}
                    waits = last.get("result") == "pending"
                    pending += waits
                    wrong = disk.wrong(answers)
                    if code not in (0, 3) or (waits and (code != 3 or not last.get("say"))) or (code == 3 and not waits and not err):
                        wrong = f"exit {code}, last {last}, {err[:200]}"
                    if code == 0 and len(told_by(answers)) != total:
                        wrong = f"{len(told_by(answers))} entries instead of {total}"
                    bad += [(at, wrong)] if wrong else []
                what = f"a {name} that fails with {errno.errorcode[error]} {'from then on' if on else 'once'}"
                count.equal(f"{what}: nothing is lost, doubled or half there", bad[:3], [])
                if on:
                    count.check(f"{what}: lines stay pending", pending > 0, pending)

    bad, pending = [], 0
    for at in random_points(chance, writes, max(ROUNDS // 4, 3)):
        answers, code, err = disk.run(script, "full", AT=at, ERROR=errno.ENOSPC)
        wrong = disk.wrong(answers)
        waits = bool(answers) and answers[-1]["result"] == "pending"
        pending += waits
        left = [line for line in script.read_text().splitlines()][len([a for a in answers if a["result"] != "pending"]):]
        rest = pathlib.Path(p.folder) / "rest.jsonl"
        rest.write_text("\n".join(left) + "\n")
        if not wrong and waits:  # there is space again: the waiting line and the rest are entered, and nothing is there twice
            more, code, err = disk.go_on(rest)
            wrong = disk.wrong(answers[:-1] + more)
        bad += [(at, wrong)] if wrong else []
    count.equal("a disk that filled up: nothing is lost, and it goes on when there is space", bad[:3], [])
    count.check("a disk that filled up: lines stay pending", pending > 0, pending)


def first_start(count, chance, p, library):
    """A store that is being made when the power goes: there is none, or it is whole; the next start goes on."""
    nothing = pathlib.Path(p.folder).resolve() / "nothing"
    nothing.mkdir(mode=0o700)
    disk = Disk(p, nothing, library)
    script = DEMO / "people.jsonl"
    _, code, err = disk.run(script)
    count.equal("people run on a good disk", (code, err), (0, ""))
    lines = script.read_text().splitlines()
    bad, made = [], 0
    rest = pathlib.Path(p.folder) / "rest.jsonl"
    for at in random_points(chance, sum(disk.counts()), ROUNDS):
        answers, _, _ = disk.run(script, "cut", AT=at)
        disk.after_cut(chance)
        verified = disk.call("verify")
        none = verified.code == 3 and "There is no journal" in verified.err
        made += not none
        wrong = "" if none and not answers else disk.wrong(answers)
        exported = disk.call("export", "--all", "--format", "json") if not none else None
        there = {(e["payload"] or {}).get("id") for e in exported.answers} if exported else set()
        rest.write_text("".join(line + "\n" for line in lines if json.loads(line).get("id") not in there) or lines[-1] + "\n")
        more, code, err = disk.go_on(rest)
        if not wrong and (code not in (0, 1) or disk.call("verify").code != 0):
            wrong = f"the next start: exit {code} {err[:200]} {more[-1:]}"
        bad += [(at, wrong)] if wrong else []
    count.equal("power cut at the first start: none or a whole store, and the next start goes on", bad[:3], [])
    count.check("power cut at the first start: some were made", made > 0, made)


def told_by(answers):
    return [seq for answer in answers for seq in answer.get("seq", [])]


def small_tmpfs(count, p, base):
    """A file system of its own that is too small, where this user may mount one."""
    place = pathlib.Path(p.folder).resolve() / "small"
    place.mkdir()
    size = sum(f.stat().st_size for f in pathlib.Path(base).iterdir() if f.is_file())
    if os.geteuid() != 0 or subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size + 120_000}", "none", str(place)],
                                           capture_output=True).returncode != 0:
        print("no tmpfs may be mounted here: the full disk is that of the shim alone")
        return
    try:
        disk = Disk(p, base, "")
        disk.data = place / "data"
        shutil.copytree(base, disk.data)
        run = p.call("script", str(DEMO / "case-a.jsonl"), "--data", str(disk.data), "--policy", str(p.policy))
        answers = run.answers
        count.check("tmpfs: the full disk is told as pending, exit 3", run.code == 3 and answers[-1]["result"] == "pending",
                    (run.code, run.err[:200]))
        count.equal("tmpfs: what was told is there, once and whole", disk.wrong(answers), "")
    finally:
        subprocess.run(["umount", str(place)], check=False)


def made_by(binary, folder_name, kill=False):
    """A program and the files of a store with people and case A; with `kill` the last lines are in the log only."""
    p = Program(binary, DEMO / "policy")
    for name in ("people", "case-a"):
        p.script(DEMO / f"{name}.jsonl")
    return p, files_of(p.data), folder_name


def with_log(p, files):
    """The same store, and more lines killed so that they are in the log only."""
    data = pathlib.Path(p.folder).resolve() / "logged"
    lay_out(data, files)
    running = subprocess.Popen([p.binary, "script", str(DEMO / "case-c.jsonl"), "--data", str(data), "--policy", str(p.policy)],
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    for _ in range(30):
        running.stdout.readline()
    running.kill()
    running.communicate()
    return files_of(data)


def cut_and_missing(count, d, older, foreign, logged):
    db = d.files["brimline.db"]
    for left in (len(db) - 1, len(db) - 4096, len(db) // 2 // 4096 * 4096, len(db) // 2 + 77, 4096, 100, 1, 0):
        d.fresh()
        put(d.data / "brimline.db", db[:left])
        d.told(f"brimline.db cut to {left} bytes", "brimline.db")
    d.fresh()
    put(d.data / "brimline.db", db + b"\0" * 4096)
    d.told("brimline.db made longer", "brimline.db is not as long as it says")
    d.fresh()
    os.remove(d.data / "brimline.db")
    d.told("no brimline.db", "The journal brimline.db is missing")
    d.fresh()
    os.remove(d.data / "brimline.mark")
    d.told("no mark", "Acknowledged events may be missing: brimline.mark")
    for name, content in (("empty", b""), ("all zeros", bytes(1024)), ("cut", d.files["brimline.mark"][:300])):
        d.fresh()
        put(d.data / "brimline.mark", content)
        d.told(f"a mark that is {name}", "brimline.mark")
    d.fresh()
    put(d.data / "brimline.mark", foreign["brimline.mark"])
    d.told("the mark of another store", "acknowledged")
    d.fresh()
    put(d.data / "brimline.db", older["brimline.db"])
    d.told("an older brimline.db", "Acknowledged events are missing")
    count.equal("an older brimline.db is exported as it stands", d.exported().code, 0)
    d.fresh()
    put(d.data / "brimline.db", foreign["brimline.db"])
    d.told("the brimline.db of another store", "acknowledged")
    d.fresh()
    os.remove(d.data / "sign.key")
    d.told("no sign.key", "sign.key is missing")
    d.fresh()
    put(d.data / "sign.key", foreign["sign.key"])
    d.told("the sign.key of another store", "sign.key is not the key of this kiosk")
    d.fresh()
    put(d.data / "brimline.mark", older["brimline.mark"])
    count.equal("an older mark names an event that is there: nothing is damaged", d.call("verify").code, 0)
    d.fresh()
    put(d.data / "brimline.db-journal", b"x" * 600)
    d.told("a stray rollback journal", "brimline.db-journal")

    lay_out(d.data, logged)
    count.equal("a log that a killed program left is read", d.call("verify").code, 0)
    before = files_of(d.data)
    for words in READING:
        d.call(*words)
    count.check("and stays as it is", {k: v for k, v in files_of(d.data).items() if k != "brimline.db-shm"} == before)
    log = logged["brimline.db-wal"]
    os.remove(d.data / "brimline.db-wal")
    d.told("no log", "Acknowledged events are missing")
    for left in (len(log) // 4 * 3, len(log) // 2, 32, 0):
        lay_out(d.data, {**logged, "brimline.db-wal": log[:left]})
        d.told(f"a log cut to {left} bytes", "Acknowledged events are missing")
    lay_out(d.data, {**logged, "brimline.db": d.files["brimline.db"][:len(db) // 2]})
    d.told("half a data file beside its log", "brimline.db")


def past_the_triggers(count, d):
    head = "SELECT max(seq) FROM journal"
    tampered = (
        ("a word changed", "UPDATE journal SET payload = replace(payload, '1', '2') WHERE kind = 'vitals'", "was changed after it was written"),
        ("a person changed", f"UPDATE journal SET person = 'wren' WHERE seq = ({head}) - 3", "was changed after it was written"),
        ("a time changed", "UPDATE journal SET utc_us = utc_us + 1 WHERE seq = 40", "was changed after it was written"),
        ("an event in the middle taken out", "DELETE FROM journal WHERE seq = 50", "Number 50 is missing"),
        ("the last event taken out", f"DELETE FROM journal WHERE seq = ({head})", "Acknowledged events are missing"),
        ("two events exchanged", "UPDATE journal SET seq = 99999 WHERE seq = 50; UPDATE journal SET seq = 50 WHERE seq = 51; UPDATE journal SET seq = 51 WHERE seq = 99999", "5"),
        ("a sealed text changed", "UPDATE sealed SET body = CAST(replace(CAST(body AS TEXT), 'Quill', 'Quull') AS BLOB)", "was changed after it was sealed"),
        ("a signature changed", "UPDATE sealed SET signature = zeroblob(64)", "The signature of record"),
        ("a seal taken out", "DELETE FROM sealed", "seal"),
        ("a due date changed", "UPDATE balloon SET due = '2029-01-01'", "register"),
        ("a register entry taken out", "DELETE FROM balloon", "register"),
        ("a role given", "INSERT INTO person_role VALUES('noor', 'physician')", "role"),
        ("a PIN replaced by another's", "UPDATE person SET pin = (SELECT pin FROM person WHERE id = 'wren') WHERE id = 'tomas'", "PIN"),
        ("somebody added", "INSERT INTO person(id, name, pin) SELECT 'nobody', 'Nobody', pin FROM person WHERE id = 'wren'", "nobody"),
        ("somebody brought back or sent away", "UPDATE person SET active = 0 WHERE id = 'tomas'", "tomas"),
        ("a key put beside", "INSERT INTO sign_key VALUES(1, 7, randomblob(32))", "signing keys"),
        ("the kiosk's key replaced", "UPDATE kiosk SET sign_key = randomblob(32)", "key"),
        ("a table added", "CREATE TABLE more(a)", "was not made by Brimline"),
        ("a view added", "CREATE VIEW more AS SELECT * FROM journal", "was not made by Brimline"),
        ("an index taken away", "DROP INDEX balloon_due", "balloon_due is missing"),
        ("another kind of file", "PRAGMA application_id = 7", "does not carry Brimline's mark"),
        ("a version that never was", "PRAGMA user_version = 0", "version that never was"),
        ("a newer version", "PRAGMA user_version = 99", "newer version of Brimline"),
    )
    for name, sql, words in tampered:
        d.fresh()
        d.sql(sql)
        d.told(name, words, writes=name in not_needed)
    d.fresh()
    link = sqlite3.connect(d.data / "brimline.db")
    link.executescript("DROP TRIGGER journal_no_delete; PRAGMA wal_checkpoint(TRUNCATE)")
    link.close()
    d.told("a trigger taken away", "The trigger journal_no_delete is missing")


# The register follows from the events and is not needed to enter the next one: verify alone compares it.
not_needed = {"a due date changed", "a register entry taken out"}


def flipped_bits(count, chance, d, logged):
    silent, rough, changed, rounds = [], [], 0, ROUNDS * 4
    for files in (d.files, logged):
        lay_out(d.data, files)
        asked = [["export", "--all", "--format", "json"], ["show", "A"], ["register", "--all"], ["people", "list"]]
        whole = [d.call(*words).out for words in asked]
        for _ in range(rounds // 2):
            name = chance.choice(["brimline.db", "brimline.db", "brimline.mark", "sign.key", *(["brimline.db-wal"] * 4 if "brimline.db-wal" in files else [])])
            content = bytearray(files[name])
            at, bit = chance.randrange(len(content)), chance.randrange(8)
            content[at] ^= 1 << bit
            lay_out(d.data, {**files, name: bytes(content)})
            verified = d.call("verify")
            runs = [d.call(*words) for words in asked]
            rough += [(name, at, bit, r.code, r.err[-200:]) for r in [verified, *runs] if not is_plain(r)]
            differs = [r.out for r in runs] != whole
            changed += differs
            silent += [(name, at, bit)] if differs and verified.code == 0 else []
    count.equal("flipped bits: none changes what is told without a word", silent[:5], [])
    count.equal("flipped bits: no command dies of one", rough[:5], [])
    count.check("flipped bits: some change what is told", changed > 0, changed)
    print(f"{rounds} bits flipped, {changed} changed what is told, {len(silent)} silent")


def reading_only(count, d, logged):
    """For somebody for whom permissions count."""
    if os.geteuid() != 0:
        print("only root can lend a folder to another user: run as root for the folder that may only be read")
        return
    def as_other(*words, given=None):
        done = subprocess.run([d.p.binary, *words, "--data", str(d.data)], input=given, capture_output=True, timeout=60,
                              user=65534, group=65534, extra_groups=[])
        return Run(done)
    def lend():
        for path in [d.data, *d.data.iterdir()]:
            os.chown(path, 65534, 65534)
            os.chmod(path, 0o500 if path == d.data else 0o400)
    os.chmod(d.p.folder, 0o755)
    d.fresh()
    whole = d.exported().out
    lend()
    before = files_of(d.data)
    runs = [(words, as_other(*words)) for words in READING]
    count.equal("a folder that may only be read: all reading commands work", [(w, r.code, r.err[:200]) for w, r in runs if r.code != 0], [])
    count.check("and tell the same", runs[1][1].out == whole)
    refused = as_other("script", "-", given=(json.dumps(NOTE[0]) + "\n").encode())
    count.check("a command there is refused in one sentence", refused.code == 3 and refused.err.count("\n") == 1 and "recorded" not in refused.out,
                (refused.code, refused.out[:200], refused.err[:300]))
    count.check("and nothing is changed", files_of(d.data) == before)
    lay_out(d.data, logged)
    lend()
    runs = [(words, as_other(*words)) for words in READING]
    count.equal("with a log there it says where to read it, or reads it", [(w, r.code, r.err[:200]) for w, r in runs if not is_plain(r) or (r.code != 0 and "brimline.db-wal" not in r.err + r.out)], [])
    shutil.rmtree(d.data)


def two_at_once(count, p, files):
    data = pathlib.Path(p.folder).resolve() / "two"
    lay_out(data, files)
    first = subprocess.Popen([p.binary, "script", str(DEMO / "case-c.jsonl"), "--data", str(data), "--policy", str(p.policy)],
                             stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    begun = first.stdout.readline()
    first.send_signal(signal.SIGSTOP)  # it has the folder, and keeps it while others try
    run = p.call("script", "-", "--data", data, given=(json.dumps(NOTE[0]) + "\n").encode())
    count.check("a second program says so in one sentence and leaves",
                run.code == 3 and "already open on this tablet" in run.err and run.err.count("\n") == 1, (run.code, run.err))
    for words in READING:
        run = p.call(*words, "--data", data)
        count.check(f"{' '.join(words)} beside a script says so too", run.code == 3 and "already open on this tablet" in run.err,
                    (run.code, run.err))
    for words in (["backup", "x"], ["rehearse", "x"], ["people", "add", "x", "X", "--role", "nurse", "--by", "pia"]):
        run = p.call(*words, "--data", data, *(["--passphrase-file", str(DEMO / "README.md")] if "x" == words[-1] else []), given=b"000000\n")
        count.check(f"{words[0]} beside a script leaves calmly", is_plain(run) and run.code != 0, (run.code, run.err))
    first.send_signal(signal.SIGCONT)
    out, _ = first.communicate()
    lines = [json.loads(line) for line in (begun + out).splitlines()]
    count.equal("the first one was not disturbed", (first.returncode, {line["result"] for line in lines} <= {"recorded", "asked", "refused"}), (0, True))
    count.equal("and the store is sound", p.call("verify", "--data", data).code, 0)


def wall_clock(count, p, library):
    """Entries by the real clocks: the tick goes on while the wall clock jumps, and the jump is an entry of its own."""
    def with_clock(program, seconds, *words, given):
        env = {**os.environ, "LD_PRELOAD": str(library), "SHIM_CLOCK_S": str(seconds)}
        return Run(subprocess.run([program.binary, *words, "--data", program.data], input=given, env=env, capture_output=True, timeout=60))

    for name, seconds in (("back an hour", -3600), ("ahead two hours", 7200), ("back ten years", -315_360_000)):
        own = Program(p.binary)
        add = ("people", "add", "ada", "Ada", "--role", "coordinator")
        codes = [with_clock(own, 0, *add, given=b"402816\n").code]
        codes.append(with_clock(own, seconds, "people", "add", "bea", "Bea", "--role", "nurse", "--by", "ada", given=b"739154\n").code)
        note = json.dumps({"by": "ada", "do": "recall", "lot": "DW-9999", "note": "none of ours"}) + "\n"
        codes.append(with_clock(own, 0, "script", "-", given=note.encode()).code)
        told = own.call("export", "--all", "--format", "json", "--data", own.data).answers
        kinds = [e["kind"] for e in told if e["kind"] not in ("policy-adopted",)]
        count.equal(f"the clock goes {name}: entries are taken, the jump is one", (codes, kinds),
                    ([0, 0, 0], ["person-added", "clock-jump", "person-added", "recall"]))
        ticks = [e["tick_us"] for e in told]
        count.equal(f"the clock goes {name}: the tick does not", ticks, sorted(ticks))
        count.equal(f"the clock goes {name}: the store is sound", own.verify().code, 0)
        own.end()


def main():
    count = Count()
    seed = int(os.environ.get("BRIMLINE_SEED", time.time_ns() % 1_000_000_007))
    chance = random.Random(seed)
    print(f"seed {seed}")
    binary = binary_path()
    if os.access("/dev/shm", os.W_OK):
        tempfile.tempdir = "/dev/shm"  # what a sync does is the shim's, and hundreds of runs need no real disk
    p = Program(binary, DEMO / "policy")
    library = compiled(p.folder)
    count.equal("people run", p.script(DEMO / "people.jsonl").code, 0)
    base = pathlib.Path(p.folder).resolve() / "base"
    shutil.copytree(p.data, base)
    older = files_of(p.data)
    count.equal("case A runs", p.script(DEMO / "case-a.jsonl").code, 0)
    files = files_of(p.data)
    other = Program(binary, DEMO / "policy")
    for name in ("people", "case-a"):
        other.script(DEMO / f"{name}.jsonl")
    foreign = files_of(other.data)
    other.end()
    logged = with_log(p, files)
    failing_disk(count, chance, p, base, library)
    first_start(count, chance, p, library)
    small_tmpfs(count, p, base)
    d = Damaged(count, p, files)
    cut_and_missing(count, d, older, foreign, logged)
    past_the_triggers(count, d)
    flipped_bits(count, chance, d, logged)
    reading_only(count, d, logged)
    two_at_once(count, p, files)
    wall_clock(count, p, library)
    p.end()
    count.end()


if __name__ == "__main__":
    main()
