#!/usr/bin/env python3
"""demo/screens writes every picture that it names, at 1280x800, and every page of the kiosk is among them.
Usage: screens.py [PROGRAM] (or BRIMLINE=PROGRAM)."""
import os
import pathlib
import re
import struct
import subprocess
import tempfile

from black_box.program import Count

ROOT = pathlib.Path(__file__).resolve().parents[2]


def pages():
    """The names of all pages, as app/kiosk/screens/scene.h has them."""
    text = (ROOT / "app/kiosk/screens/scene.h").read_text(encoding="utf-8")
    names = re.search(r"names_of\(Page\)\s*\{(.*?)\};", text, re.S).group(1)
    return set(re.findall(r'"([a-z-]+)"', names))


def size_of(file):
    head = file.read_bytes()[:24]
    return struct.unpack(">II", head[16:24]) if head[:8] == b"\x89PNG\r\n\x1a\n" else None


def main():
    count = Count()
    paints = re.findall(r"^paint (\S+) (?:\S+) \S+ (\S+)", (ROOT / "demo/screens").read_text(encoding="utf-8"), re.M)
    count.check("demo/screens names its pictures", len(paints) >= 80, len(paints))
    count.equal("no picture is named twice", len({name for name, _ in paints}), len(paints))
    count.equal("every page of the kiosk is painted", pages() - {word for paint in paints for word in paint}, set())
    with tempfile.TemporaryDirectory() as folder:
        run = subprocess.run([ROOT / "demo/screens", folder], capture_output=True, text=True, check=False,
                             env={**os.environ, "BRIMLINE_COLOURS": "by-place"})
        count.equal("demo/screens ends well", (run.returncode, run.stderr[-300:]), (0, ""))
        written = {file.stem: file for file in pathlib.Path(folder).glob("*.png")}
        count.equal("every picture is there", {name for name, _ in paints} - set(written), set())
        count.equal("each is 1280x800", {name: size_of(file) for name, file in written.items() if size_of(file) != (1280, 800)}, {})
        same = {}
        for name, file in written.items():
            same.setdefault(file.read_bytes(), []).append(name)
        count.equal("no two are the same picture", [names for names in same.values() if len(names) > 1], [])
    count.end()


if __name__ == "__main__":
    main()
