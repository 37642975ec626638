#!/usr/bin/env python3
"""Case A by the program itself, killed with signal 9 at a random moment: every acknowledged line is there, whole and
once, and the store is sound. Usage: kill.py [PROGRAM] [ROUNDS] (or BRIMLINE=PROGRAM, BRIMLINE_KILLS=ROUNDS); the seed
is printed, BRIMLINE_SEED repeats it. Twenty rounds in tests/run, 500 in tests/faults/run."""
import json
import os
import pathlib
import random
import shutil
import sqlite3
import subprocess
import time

from black_box.program import Count, Program, binary_path

from day import DEMO

ROUNDS = int(os.environ.get("BRIMLINE_KILLS", "20"))


def commands_of(data):
    """Numbers of events by command, in order, read past the program."""
    copy = pathlib.Path(data).parent / "look"
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(data, copy)  # the journal is moved into the file here, not in the store itself
    link = sqlite3.connect(copy / "brimline.db")
    groups = {}
    for seq, command, part, parts, person in link.execute("SELECT seq, command, part, parts, person FROM journal ORDER BY seq"):
        groups.setdefault(command, []).append((seq, part, parts, person))
    link.close()
    return list(groups.values())


def killed_once(p, base, wait):
    """Runs case A on a copy of the store, kills it after `wait` seconds; its acknowledged lines."""
    shutil.rmtree(p.data, ignore_errors=True)
    shutil.copytree(base, p.data)
    running = subprocess.Popen([p.binary, "script", str(DEMO / "case-a.jsonl"), "--data", p.data, "--policy", str(p.policy)],
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    time.sleep(wait)
    running.kill()
    out, _ = running.communicate()
    answers = []
    for line in out.decode().split("\n")[:-1]:  # a line without its end was not told yet
        answers.append(json.loads(line))
    return answers, running.returncode


def main():
    count = Count()
    seed = int(os.environ.get("BRIMLINE_SEED", time.time_ns() % 1_000_000_007))
    chance = random.Random(seed)
    p = Program(binary_path(), DEMO / "policy")
    count.equal("people run", p.script(DEMO / "people.jsonl").code, 0)
    base = pathlib.Path(p.folder) / "base"
    shutil.copytree(p.data, base)
    shutil.rmtree(p.data)
    shutil.copytree(base, p.data)
    began = time.monotonic()
    count.equal("case A runs whole on the people", p.script(DEMO / "case-a.jsonl").code, 0)
    whole = time.monotonic() - began
    lost, doubled, halved, unsound, killed, most_more = [], [], [], [], 0, 0
    for turn in range(ROUNDS):
        answers, code = killed_once(p, base, chance.uniform(0, whole))
        killed += code == -9
        told = {seq: a["hash"] for a in answers for seq in a.get("seq", []) if seq == a["seq"][-1]}
        told_seqs = [seq for a in answers for seq in a.get("seq", [])]
        if p.verify().code != 0:
            unsound.append(turn)
        there = {e["seq"]: e["hash"] for e in p.call("export", "--all", "--format", "json", "--data", p.data).answers}
        lost += [(turn, s) for s in told_seqs if s not in there] + [(turn, s) for s, h in told.items() if there.get(s) != h]
        groups = commands_of(p.data)
        halved += [(turn, g[0][0]) for g in groups if [x[1] for x in g] != list(range(g[0][2]))]
        seqs = sorted(s for g in groups for s, *_ in g)
        doubled += [turn] if seqs != list(range(1, len(seqs) + 1)) or len(set(told_seqs)) != len(told_seqs) else []
        last = max(told_seqs, default=0)
        more = [g for g in groups if g[0][0] > last and g[0][3] != "kiosk"] if answers else []
        most_more = max(most_more, len(more))
    count.check(f"most rounds were killed in the middle (seed {seed})", killed > ROUNDS * 0.6, killed)
    count.equal("no acknowledged entry is lost", lost, [])
    count.equal("no entry is there twice and no number is missing", doubled, [])
    count.equal("no command is there by half", halved, [])
    count.equal("every store of a killed program is sound", unsound, [])
    count.check("at most one command more than was told is there", most_more <= 1, most_more)
    print(f"{ROUNDS} rounds, {killed} killed, case A takes {whole:.2f} s, seed {seed}")
    p.end()
    count.end()


if __name__ == "__main__":
    main()
