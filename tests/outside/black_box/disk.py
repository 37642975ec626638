"""A store by the program itself on a disk that fails: the shim of tests/outside/shim compiled, and what is left looked at."""
import json
import os
import pathlib
import random
import shutil
import signal
import sqlite3
import subprocess
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
SECTOR = 512


def compiled(folder):
    """The shim as a library in this folder."""
    library = pathlib.Path(folder) / "disk.so"
    subprocess.run(["gcc", "-shared", "-fPIC", "-O1", "-o", str(library), str(HERE.parent / "shim" / "disk.c"), "-ldl"], check=True)
    return library


def whole_lines(out):
    """Answers; a line without its end was not told yet."""
    return [json.loads(line) for line in out.decode().split("\n")[:-1]]


def told_seqs(answers):
    return [seq for answer in answers for seq in answer.get("seq", [])]


def told_hashes(answers):
    return {answer["seq"][-1]: answer["hash"] for answer in answers if answer.get("seq")}


def groups_of(data):
    """Events by command, (number, part, parts, person), read past the program on a copy."""
    copy = pathlib.Path(tempfile.mkdtemp(prefix="brimline-look-"))  # elsewhere: the store's own disk may be full
    shutil.copytree(data, copy, dirs_exist_ok=True)
    link = sqlite3.connect(copy / "brimline.db")
    groups = {}
    for seq, command, part, parts, person in link.execute("SELECT seq, command, part, parts, person FROM journal ORDER BY seq"):
        groups.setdefault(command, []).append((seq, part, parts, person))
    link.close()
    shutil.rmtree(copy)
    return list(groups.values())


class Disk:
    """The program on a store that begins as `base`, with the shim before it."""

    def __init__(self, program, base, library):
        self.program, self.base, self.library = program, base, library
        self.data = pathlib.Path(program.folder).resolve() / "disk"
        self.shadow = pathlib.Path(program.folder).resolve() / "synced"
        self.counted = pathlib.Path(program.folder).resolve() / "counted"

    def run(self, script, mode="", **more):
        """Answers and exit code of a script on a fresh copy of the base."""
        for folder in (self.data, self.shadow):
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(self.base, folder)
        return self.go_on(script, mode, **more)

    def go_on(self, script, mode="", **more):
        env = {**os.environ, "LD_PRELOAD": str(self.library), "SHIM_FOLDER": str(self.data), "SHIM_MODE": mode,
               "SHIM_SHADOW": str(self.shadow), "SHIM_COUNT": str(self.counted), **{f"SHIM_{k}": str(v) for k, v in more.items()}}
        words = [self.program.binary, "script", str(script), "--data", str(self.data), "--policy", str(self.program.policy)]
        done = subprocess.run(words, env=env, capture_output=True, timeout=120)
        return whole_lines(done.stdout), done.returncode, done.stderr.decode()

    def counts(self):
        return tuple(map(int, self.counted.read_text().split()))

    def after_cut(self, chance):
        """What the disk may hold after a cut: of each sector not synced the old or the new, each file short or long."""
        everything = chance.choice([0.0, 1.0, 0.5, 0.5])
        for name in sorted({p.name for p in self.data.iterdir() if p.is_file()} - {"brimline.lock"}):
            new = (self.data / name).read_bytes()
            old = (self.shadow / name).read_bytes() if (self.shadow / name).exists() else b""
            length = len(new) if chance.random() < everything else len(old)
            mixed = bytearray()
            for at in range(0, length, SECTOR):
                piece = new if chance.random() < everything else old
                mixed += piece[at:at + SECTOR].ljust(min(SECTOR, length - at), b"\0")
            os.chmod(self.data / name, 0o600)
            (self.data / name).write_bytes(bytes(mixed))
            os.chmod(self.data / name, 0o400 if name == "sign.key" else 0o600)

    def call(self, *words):
        return self.program.call(*words, "--data", str(self.data))

    def wrong(self, answers, may_have=1):
        """What is wrong with the store after these answers were told; empty when nothing is."""
        verified = self.call("verify")
        if verified.code != 0:
            return "not sound: " + verified.out[:300] + verified.err[:300]
        there = {e["seq"]: e["hash"] for e in self.call("export", "--all", "--format", "json").answers}
        lost = [s for s in told_seqs(answers) if s not in there]
        lost += [s for s, h in told_hashes(answers).items() if there.get(s) != h]
        if lost:
            return f"acknowledged and lost: {lost}"
        groups = groups_of(self.data)
        if any([x[1] for x in g] != list(range(g[0][2])) for g in groups):
            return "a command is there by half"
        seqs = sorted(s for g in groups for s, *_ in g)
        if seqs != list(range(1, len(seqs) + 1)) or len(set(told_seqs(answers))) != len(told_seqs(answers)):
            return "a number is missing or there twice"
        last = max(told_seqs(answers), default=None)
        more = [g for g in groups if last is not None and g[0][0] > last and g[0][3] != "kiosk"]
        return "" if len(more) <= may_have else f"{len(more)} commands more than were told"


def random_points(chance, count, most):
    return sorted(chance.sample(range(1, count + 1), min(count, most)))


KILLED = -signal.SIGKILL
__all__ = ["Disk", "KILLED", "compiled", "random_points", "random"]
