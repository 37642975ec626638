#!/usr/bin/env python3
"""Backup, restore and rehearse through the command line: the day goes out as one encrypted file and comes back hash by
hash; passphrases, other files and full folders are refused. Usage: backup.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import json
import os
import pathlib

from black_box.program import Count, Program, binary_path

from day import DEMO


def hashes(p, data):
    run = p.call("export", "--all", "--format", "json", "--data", data)
    return [(e["kind"], e["hash"]) for e in run.answers]


def main():
    count = Count()
    p = Program(binary_path(), DEMO / "policy")
    runs = [p.script(DEMO / f"{name}.jsonl").code for name in ("people", "case-a")]
    count.equal("people and case A run", runs, [0, 0])
    folder = pathlib.Path(p.folder)
    secret, other, empty = folder / "secret", folder / "other", folder / "none"
    secret.write_text("four plain words here\n")
    other.write_text("four other words here\n")
    empty.write_text("\n")
    file, back = folder / "day.backup", folder / "back"
    use = ("--passphrase-file", secret)

    run = p.call("backup", file, "--data", p.data, *use)
    count.equal("backup is made and says so", (run.code, "read back and checked" in run.out), (0, True))
    count.equal("the backup is for its owner alone", oct(os.stat(file).st_mode & 0o777), "0o600")
    count.check("no name stands in it", b"Quill" not in file.read_bytes())
    run = p.call("restore", file, "--data", back, *use)
    count.equal("restore into a new folder", run.code, 0)
    count.equal("every event is there with its hash, in order", hashes(p, back), hashes(p, p.data))
    count.equal("the restored store is verified without damage", p.call("verify", "--data", back).code, 0)
    live = json.loads(p.call("show", "A", "--data", p.data, "--at", "2026-11-25T12:30:00+00:00").out)
    kept = json.loads(p.call("show", "A", "--data", back, "--at", "2026-11-25T12:30:00+00:00").out)
    count.equal("the case stands there as it stood", kept, live)
    here, there = ([*p.call("export", "A", "--data", data).out.splitlines()] for data in (p.data, back))
    own = [line for line in here + there if line.startswith("file key ")]
    count.equal("its record is the same text but for the key of the kiosk that signs files",
                [line for line in there if line not in own], [line for line in here if line not in own])
    count.equal("each kiosk signs files with a key of its own", len(set(own)), 2)
    again = Program(binary_path(), DEMO / "policy")
    again.data = str(back)
    run = again.script([{"at": "2026-11-26T09:00:00+00:00", "by": "pia", "do": "call", "entry": "A", "outcome": "reached"},
                        {"at": "2026-11-26T09:01:00+00:00", "by": "wren", "case": "A", "do": "addendum", "text": "called"}])
    total = len(hashes(p, p.data))
    count.equal("the restored store goes on, numbered after what came with it",
                (run.code, [a.get("seq") for a in run.answers]), (0, [[total + 1], [total + 2]]))
    count.equal("and is still undamaged", again.verify().code, 0)
    run = again.script(DEMO / "case-c.jsonl")
    count.equal("a whole new case can be entered there", (run.code, run.err), (0, ""))
    count.equal("its record continues the numbers", again.show("C")["sealed"]["number"], "R-2026-0002")
    count.equal("all of it is verified", again.verify().code, 0)

    run = p.call("restore", file, "--data", back, *use)
    count.equal("a full folder is refused", (run.code, "not empty" in run.err), (2, True))
    run = p.call("restore", file, "--data", folder / "x", "--passphrase-file", other)
    count.equal("another passphrase is refused", (run.code, "passphrase" in run.err, (folder / "x").exists()), (1, True, False))
    run = p.call("restore", secret, "--data", folder / "x", *use)
    count.equal("another file is refused", (run.code, "no Brimline backup" in run.err), (1, True))
    run = p.call("restore", folder / "nowhere", "--data", folder / "x", *use)
    count.equal("a missing file is refused", run.code, 3)
    run = p.call("backup", folder / "y", "--data", p.data, "--passphrase-file", empty)
    count.equal("an empty passphrase is bad usage", (run.code, (folder / "y").exists()), (2, False))
    run = p.call("backup", secret, "--data", p.data, *use)
    count.equal("a file that is no backup is not replaced", (run.code, secret.read_text()), (3, "four plain words here\n"))

    run = p.call("self-test", "--data", p.data)
    count.equal("the self-test knows the backup, and that nobody rehearsed it",
                (run.code, "0 days old" in run.out, "never done" in run.out), (0, True, True))
    run = p.call("rehearse", file, "--data", p.data, *use)
    count.equal("the rehearsal finds every event again", (run.code, "comes back" in run.out), (0, True))
    run = p.call("self-test", "--data", p.data)
    count.equal("the self-test tells of the drill", (run.code, "all as here" in run.out), (0, True))
    kinds = [k for k, _ in hashes(p, p.data)]
    count.equal("its result is an event", kinds[-1], "backup-rehearsed")
    count.equal("nothing clear is left behind", sorted(os.listdir(pathlib.Path(p.data) / "backup")), ["last"])
    empty = p.call("self-test", "--data", folder / "no-store")
    count.equal("the self-test of no store is red with a sentence", (empty.code, empty.out.startswith("STOP")), (1, True))
    stranger = Program(binary_path(), DEMO / "policy")
    stranger.script(DEMO / "people.jsonl")
    run = stranger.call("rehearse", file, "--data", stranger.data, *use)
    count.equal("a backup of another journal is told apart", (run.code, "missing in the live journal" in run.err), (1, True))
    cut = folder / "cut.backup"
    cut.write_bytes(file.read_bytes()[:-100])
    count.equal("a cut backup does not pass the rehearsal", p.call("rehearse", cut, "--data", p.data, *use).code, 1)
    count.equal("after all this the journal is undamaged", p.verify().code, 0)
    for one in (p, again, stranger):
        one.end()
    count.end()


if __name__ == "__main__":
    main()
