"""Runs the plans of this folder and compares what comes of them; see README.md.

    run.py TRUNNION SCHEMA [FOLDER ...]"""

import json
import pathlib
import subprocess
import sys

import jsonschema

trunnion, schema_file = sys.argv[1:3]
here = pathlib.Path(__file__).parent
folders = [pathlib.Path(name) for name in sys.argv[3:]] or sorted(
    path.parent for path in here.glob("*/expect.json"))
schema = jsonschema.Draft202012Validator(json.loads(pathlib.Path(schema_file).read_text("utf-8")))
names = ("lift", "check", "move", "body", "obstacle", "end", "item")


def differs(found, expected):
    """What is wrong with a value, or None."""
    if isinstance(expected, dict):
        good = isinstance(found, (int, float)) and expected.get("min", found) <= found <= expected.get("max", found)
        return None if good else f"{found} is not within {expected}"
    if isinstance(expected, list):
        if not isinstance(found, list) or len(found) != len(expected):
            return f"{found} is not like {expected}"
        return next(filter(None, map(differs, found, expected)), None)
    return None if found == expected and type(found) is type(expected) else f"{found} is not {expected}"


def named_like(finding, entry):
    return all(finding.get(name) == entry[name] for name in names if name in entry)


def faults_of_entry(entry, findings):
    found = [finding for finding in findings if named_like(finding, entry)]
    if len(found) != 1:
        yield f"{len(found)} findings are like {entry}"
        return
    for key, expected in entry.items():
        if key in names:
            continue
        fault = differs(found[0].get(key, "absent"), expected)
        if fault:
            yield f"{entry}: {key}: {fault}"


def faults_of_results(text, expect):
    results = json.loads(text)
    yield from (f"schema: {error.json_path}: {error.message[:200]}" for error in schema.iter_errors(results))
    if results["verdict"] != expect.get("verdict"):
        yield f"the verdict is {results['verdict']}"
    findings = [{"lift": lift["lift"], **finding} for lift in results["lifts"] for finding in lift["findings"]]
    for entry in expect.get("findings", []):
        yield from faults_of_entry(entry, findings)
    for finding in findings:
        listed = any(named_like(finding, entry) for entry in expect.get("findings", []))
        if finding["verdict"] not in ("pass", "note") and not listed:
            yield f"not expected: {finding}"


def check(folder, jobs):
    plan = folder / "plan.trunnion"
    return subprocess.run([trunnion, "check", plan, "--json", "-", "--jobs", jobs],
                          capture_output=True, encoding="utf-8", timeout=300)


def faults_of(folder):
    expect = json.loads((folder / "expect.json").read_text("utf-8"))
    run = check(folder, "1")
    if run.returncode != expect["exit"]:
        yield f"exit status {run.returncode}: {run.stderr}"
        return
    for message in expect.get("messages", []):
        if message not in run.stderr:
            yield f"“{message}” is not in: {run.stderr}"
    if expect["exit"] > 1:
        if run.stdout:
            yield "there are results"
        return
    yield from faults_of_results(run.stdout, expect)
    if check(folder, "3").stdout != run.stdout:
        yield "three threads write something else than one"


failed = 0
print(f"1..{len(folders)}")
for number, folder in enumerate(folders, 1):
    faults = list(faults_of(folder))
    failed += bool(faults)
    print(f"{'not ok' if faults else 'ok'} {number} - {folder.name}")
    for fault in faults:
        print("# " + fault.replace("\n", "\n# "))
sys.exit(1 if failed else 0)
