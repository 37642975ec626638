#!/usr/bin/env python3
"""The real kiosk under a virtual display, touched by XTest: syringes counted, the program killed in the middle and
started again (at the day's own spacing: about three minutes), a burst of taps kept as questions. What counts is what the journal says afterwards.
Usage: fill_by_finger.py [PROGRAM] (or BRIMLINE=PROGRAM). BRIMLINE_PICTURES=DIR keeps screenshots."""
import ctypes
import datetime
import json
import os
import pathlib
import signal
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "outside"))
from black_box.program import Count, Program, binary_path  # noqa: E402

# Where things stand on the page of 1280x800 (app/kiosk/touch/layout.h and the pages).
CORNER = (1064, 740)
SYRINGE_IN = (1064, 600)
TOMAS = (634, 220)
PUSHED_NONE = (1064, 281)
GO_ON_FILLING = (292, 740)
PIN = "625083"


def pin_key(digit):
    column, row = (1, 3) if digit == "0" else ((int(digit) - 1) % 3, (int(digit) - 1) // 3)
    return 864 + column * 137 + 62, 264 + row * 103 + 45


class Display:
    """A virtual X server with a finger."""

    def __init__(self):
        read, write = os.pipe()
        self.server = subprocess.Popen(["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x800x24", "-nolisten", "tcp"],
                                       pass_fds=[write], stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as numbers:
            self.name = ":" + numbers.readline().strip()
        self.x11 = ctypes.CDLL("libX11.so.6")
        self.test = ctypes.CDLL("libXtst.so.6")
        self.x11.XOpenDisplay.restype = ctypes.c_void_p
        self.x11.XFlush.argtypes = [ctypes.c_void_p]
        self.test.XTestFakeMotionEvent.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_int, ctypes.c_int, ctypes.c_ulong]
        self.test.XTestFakeButtonEvent.argtypes = [ctypes.c_void_p, ctypes.c_uint, ctypes.c_int, ctypes.c_ulong]
        self.link = self.x11.XOpenDisplay(self.name.encode())

    def finger(self, place, hold=0.03):
        self.test.XTestFakeMotionEvent(self.link, -1, place[0], place[1], 0)
        self.test.XTestFakeButtonEvent(self.link, 1, 1, 0)
        self.x11.XFlush(self.link)
        time.sleep(hold)
        self.test.XTestFakeButtonEvent(self.link, 1, 0, 0)
        self.x11.XFlush(self.link)

    def picture(self, name):
        folder = os.environ.get("BRIMLINE_PICTURES")
        if folder:
            subprocess.run(["xwd", "-root", "-silent", "-display", self.name, "-out", f"{folder}/{name}.xwd"], check=False)

    def end(self):
        self.server.terminate()
        self.server.wait()


class Kiosk:
    """The program with its window; `clock` is the time of day it starts at."""

    def __init__(self, program, display, clock):
        self.display = display
        self.running = subprocess.Popen(
            [program.binary, "kiosk", "--data", program.data, "--window", "1280x800", "--clock", f"2026-11-25T{clock}+00:00"],
            env={**os.environ, "DISPLAY": display.name}, stderr=subprocess.PIPE)
        time.sleep(2.5)

    def alive(self):
        return self.running.poll() is None

    def sign_in_and_open(self):
        """By taps: the name, six digits, then the case that the corner of the list offers."""
        self.display.finger(TOMAS)
        time.sleep(0.3)
        for digit in PIN:
            self.display.finger(pin_key(digit))
            time.sleep(0.25)
        time.sleep(1.5)
        self.display.finger(CORNER)
        time.sleep(1.5)

    def kill(self):
        self.running.send_signal(signal.SIGKILL)
        self.running.wait()

    def close(self):
        self.running.terminate()
        self.running.wait()


def gaps_of_the_day():
    """Seconds between the syringes of case A, as its script has them."""
    lines = map(json.loads, (ROOT / "demo" / "case-a.jsonl").read_text().splitlines())
    taps = [datetime.datetime.fromisoformat(line["at"]) for line in lines if line.get("do") == "syringe-in"]
    return [(later - first).total_seconds() for first, later in zip(taps, taps[1:])]


def ready_to_fill(binary):
    """A store of its own with the demo's people and case A up to "ready to fill"."""
    program = Program(binary, ROOT / "demo" / "policy")
    program.script(ROOT / "demo" / "people.jsonl")
    lines = []
    for line in (ROOT / "demo" / "case-a.jsonl").read_text().splitlines():
        lines.append(line)
        if json.loads(line).get("do") == "ready-to-fill":
            break
    done = program.script("\n".join(lines) + "\n")
    return program, done.code


def questions_of(shown):
    return len(shown.get("fill", {}).get("questions", []))


def tap_at(display, gaps):
    """Taps *Syringe in* once, and again after each gap."""
    display.finger(SYRINGE_IN)
    for gap in gaps:
        time.sleep(gap)
        display.finger(SYRINGE_IN)
    time.sleep(1.1)


def killed_in_the_middle(count, binary, display):
    program, code = ready_to_fill(binary)
    gaps = gaps_of_the_day()
    count.equal("the day has ten syringes", len(gaps) + 1, 10)
    count.equal("case A is ready to fill in the store of the test", code, 0)
    kiosk = Kiosk(program, display, "09:38:00")
    count.check("the kiosk runs in its window", kiosk.alive(), kiosk.running.stderr.read().decode() if not kiosk.alive() else "")
    display.picture("sign-in")
    kiosk.sign_in_and_open()
    display.picture("fill-at-first")
    tap_at(display, gaps[:6])
    display.picture("fill-seven")
    kiosk.kill()
    shown = program.show("A")
    count.equal("seven taps are seven syringes after the program was killed", shown.get("fill", {}).get("syringes"), 7)
    count.equal("seven syringes are 350 mL after the program was killed", shown.get("fill", {}).get("running_ml"), 350)
    count.equal("no tap of seven became a question", questions_of(shown), 0)
    count.equal("the store of a killed kiosk is sound", program.verify().code, 0)

    again = Kiosk(program, display, "09:45:00")
    again.sign_in_and_open()
    display.picture("resume")
    display.finger(PUSHED_NONE)
    time.sleep(1.2)
    display.finger(GO_ON_FILLING)
    time.sleep(1.5)
    tap_at(display, gaps[7:])
    display.picture("fill-ten")
    again.close()  # a running kiosk alone holds its store
    shown = program.show("A")
    count.equal("ten syringes are counted over both runs", shown.get("fill", {}).get("syringes"), 10)
    count.equal("ten syringes are 500 mL over both runs", shown.get("fill", {}).get("running_ml"), 500)
    kinds = [event.get("kind") for event in program.events("A") if event.get("kind") in ("syringe-in", "went-on-filling")]
    count.equal("after seven syringes the question was answered once, then three followed", kinds,
                7 * ["syringe-in"] + ["went-on-filling"] + 3 * ["syringe-in"])
    count.equal("the store of both runs is sound", program.verify().code, 0)
    program.end()


def burst(count, binary, display, name, kill):
    program, _ = ready_to_fill(binary)
    kiosk = Kiosk(program, display, "09:38:00")
    kiosk.sign_in_and_open()
    for _ in range(10):
        display.finger(SYRINGE_IN, hold=0.02)
        time.sleep(0.08)
    time.sleep(1.0)
    display.picture(f"burst-{name}")
    kiosk.kill() if kill else kiosk.close()
    shown = program.show("A")
    count.equal(f"a burst of ten is one counted syringe, {name}", shown.get("fill", {}).get("syringes"), 1)
    count.equal(f"a burst of ten keeps nine questions, {name}", questions_of(shown), 9)
    count.equal(f"a burst of ten may be 500 mL, {name}", shown.get("fill", {}).get("possible_ml"), 500)
    count.equal(f"the store of a burst is sound, {name}", program.verify().code, 0)
    program.end()


def says_why(count, binary):
    program = Program(binary)
    bad = program.call("kiosk", "--data", program.data, "--window", "wide")
    count.equal("a window size that is none is bad usage", bad.code, 2)
    count.check("one sentence says what a window size is", bad.err.count("\n") == 1 and "1280x800" in bad.err, bad.err)
    bad = program.call("kiosk", "--data", program.data, "--clock", "soon")
    count.equal("a clock without a time is bad usage", bad.code, 2)
    env = {key: value for key, value in os.environ.items() if key not in ("DISPLAY", "WAYLAND_DISPLAY")}
    done = subprocess.run([program.binary, "--version"], env=env, capture_output=True, check=False)
    count.equal("the version needs no display", done.returncode, 0)
    done = subprocess.run([program.binary, "kiosk", "--data", program.data, "--window", "1280x800"], env=env,
                          capture_output=True, timeout=60, check=False)
    count.equal("without a display the kiosk ends as failed", done.returncode, 3)
    count.check("without a display one sentence says so", b"display" in done.stderr.lower(), done.stderr.decode())
    program.end()


def main():
    binary = binary_path()
    count = Count()
    display = Display()
    try:
        killed_in_the_middle(count, binary, display)
        burst(count, binary, display, "closed", kill=False)
        burst(count, binary, display, "killed", kill=True)
        says_why(count, binary)
    finally:
        display.end()
    count.end()


if __name__ == "__main__":
    main()
