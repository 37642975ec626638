"""Validators of other people from npm, installed by the lock file beside them. A missing tool is a failure, not a skip."""
import hashlib
import json
import os
import pathlib
import shutil
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
NPM = HERE.parent / "npm"
ROOT = HERE.parents[2]


def stop(words):
    print(words)
    print("0 passed, 1 failed")
    sys.exit(1)


def node_modules():
    """The folder of the modules, installed there by `npm ci` unless the lock file is the one they were made from."""
    for tool in ("node", "npm"):
        if not shutil.which(tool):
            stop(f"{tool} is missing; third_party/install test installs it.")
    place = ROOT / "build" / "npm"
    mark = place / "installed"
    locked = hashlib.sha256((NPM / "package-lock.json").read_bytes() + (NPM / "package.json").read_bytes()).hexdigest()
    if not mark.exists() or mark.read_text() != locked:
        place.mkdir(parents=True, exist_ok=True)
        for name in ("package.json", "package-lock.json"):
            shutil.copy(NPM / name, place / name)
        done = subprocess.run(["npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts"], cwd=place, capture_output=True, text=True)
        if done.returncode:
            stop("npm ci did not install the validators:\n" + done.stderr[-2000:])
        mark.write_text(locked)
    return place / "node_modules"


class FhirValidators:
    """Judges documents in one run of Node: name -> {validator: [faults]}."""

    NAMES = ("fhir", "schema", "fhirpath", "ucum", "walk")

    def __init__(self):
        self.modules = node_modules()

    def judge(self, documents):
        lines = "".join(json.dumps({"name": name, "bundle": bundle}) + "\n" for name, bundle in documents)
        run = subprocess.run(["node", str(NPM / "check_fhir.js"), str(self.modules), "-"], input=lines.encode(),
                             capture_output=True, timeout=3600, env={**os.environ, "NODE_NO_WARNINGS": "1"})
        if run.returncode:
            stop("the validators broke off:\n" + run.stderr.decode()[-2000:])
        judged = [json.loads(line) for line in run.stdout.decode().splitlines()]
        return {one["file"]: one["faults"] for one in judged}
