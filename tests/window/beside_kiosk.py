#!/usr/bin/env python3
"""A running kiosk and the command line beside it: reading commands look at its copy and say so, commands that write say
that the kiosk is open and leave, a second kiosk too; a signal to end leaves nothing behind; no core is ever dumped.
Usage: beside_kiosk.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import pathlib
import time

from fill_by_finger import Count, Display, Kiosk, ROOT, SYRINGE_IN, binary_path, ready_to_fill

DEMO_LINES = str(ROOT / "demo" / "case-c.jsonl")


def soon(is_so, seconds=20):
    end = time.monotonic() + seconds
    while not is_so() and time.monotonic() < end:
        time.sleep(0.1)
    return is_so()


def main():
    count = Count()
    display = Display()
    program, _ = ready_to_fill(binary_path())
    before = len(program.events("A"))
    kiosk = Kiosk(program, display, "09:38:00")
    count.check("the kiosk runs", kiosk.alive())
    count.check("a copy is there soon", soon(lambda: program.call("show", "A", "--data", program.data).code == 0))
    for words in (["show", "A"], ["export", "A"], ["register"], ["verify"], ["list"], ["people", "list"], ["key", "list"]):
        run = program.call(*words, "--data", program.data)
        count.equal(f"{' '.join(words)} works beside the kiosk", (run.code, "The kiosk is running" in run.err), (0, True))
    kiosk.sign_in_and_open()
    display.finger(SYRINGE_IN)
    count.check("an entry of the kiosk reaches the reading commands", soon(lambda: len(program.events("A")) > before))
    for words in (["people", "left", "noor", "--by", "pia"], ["key", "rotate", "--by", "pia"], ["script", DEMO_LINES],
                  ["kiosk", "--window", "1280x800"]):
        run = program.call(*words, "--data", program.data)
        count.check(f"{words[0]} {words[1][:6]} says that the kiosk is open and leaves",
                    run.code == 3 and "already open on this tablet" in run.err and run.err.count("\n") == 1, run.err)
    limits = pathlib.Path(f"/proc/{kiosk.running.pid}/limits").read_text()
    core = [line.split() for line in limits.splitlines() if line.startswith("Max core file size")][0]
    count.equal("no core is dumped, and nobody may ask for one", core[4:6], ["0", "0"])
    kiosk.kill()
    count.equal("a killed kiosk leaves its store to the command line", program.verify().code, 0)
    count.check("which then reads the store itself", "The kiosk is running" not in program.verify().err)
    display.end()
    program.end()
    count.end()


if __name__ == "__main__":
    main()
