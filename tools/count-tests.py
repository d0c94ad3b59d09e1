#!/usr/bin/python3
"""Counts what a run of `meson test` showed.

    /usr/bin/python3 tools/count-tests.py BUILD/meson-logs/testlog.json

prints "PASSED FAILED" on standard output, and what failed on standard error. Meson's own sum counts
programs; here each TAP subtest counts. A program that speaks TAP counts as many tests as it planned
or reported, whichever is more: what it planned and did not report (a crash, say) has failed. A
skipped test has shown nothing, so it has failed too. When the program as a whole failed but no test
of it did, that is one failed test more. Any other program is one test.
"""
import json
import re
import sys

RESULT = re.compile(r"^(not )?ok\b(.*)$")
PLAN = re.compile(r"^1\.\.(\d+)\s*(#.*)?$")
DIRECTIVE = re.compile(r"#\s*(skip|todo)\b", re.IGNORECASE)


def count_program(record):
    """Returns how many passed, and the names of those that failed."""
    passed, failed, planned = 0, [], None
    for line in (record.get("stdout") or "").splitlines():
        plan = PLAN.match(line)
        if plan:
            planned = int(plan.group(1))
        result = RESULT.match(line)
        if not result:
            continue
        if result.group(1) or DIRECTIVE.search(result.group(2)):
            failed.append(line)
        else:
            passed += 1
    program_passed = record["result"] == "OK"
    if planned is None and passed + len(failed) == 0:
        return (1, []) if program_passed else (0, [record["result"]])
    if planned is not None:
        failed += ["planned, but not reported"] * (planned - passed - len(failed))
    if not program_passed and not failed:
        failed.append(record["result"])
    return passed, failed


def show_reasons(record):
    """What a program that failed said of its random seed, to repeat it, and of its end."""
    for line in (record.get("stdout") or "").splitlines():
        if line.startswith("# random seed:") or line.startswith("Bail out!"):
            print(f"  {line}", file=sys.stderr)


def main(path):
    total_passed = total_failed = 0
    with open(path, encoding="utf-8", errors="replace") as log:
        for line in log:
            record = json.loads(line)
            passed, failed = count_program(record)
            total_passed += passed
            total_failed += len(failed)
            for name in failed:
                print(f"failed: {record['name']}: {name}", file=sys.stderr)
            if failed:
                show_reasons(record)
    print(total_passed, total_failed)


main(sys.argv[1])
