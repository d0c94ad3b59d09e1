"""What the demos show, and what their READMEs tell to try, comes out as told.

    results.py TRUNNION SCHEMA DEMOS

Each case is a demo, as it is or with single places of its plan changed, and what does not meet its
set value then: (check, body, obstacle or item, moves counted from 0, state) each, and nothing else.
The reasons stand in the READMEs of the demos. Where TRUNNION_TEST_SCALE is below 1, as under the
sanitizers, the demos as they are, and that share of the others, other ones in each run: drawn with a
seed that is printed and that TRUNNION_TEST_SEED repeats."""

import json
import math
import os
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile

import jsonschema

trunnion, schema_file, demos = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
schema = jsonschema.Draft202012Validator(json.loads(pathlib.Path(schema_file).read_text("utf-8")))


def entry_of(plan, kind, name):
    return next(entry for entry in plan[kind] if entry["id"] == name)


def move_of(plan, index):
    return plan["programme"][0]["moves"][index]


def as_it_is(plan):
    pass


def bring_stands_closer(plan):
    entry_of(plan, "structures", "stand-north")["at"]["position"][1] -= 0.25
    entry_of(plan, "structures", "stand-south")["at"]["position"][1] += 0.25


def hoist_higher(plan):
    move_of(plan, 3)["by"] += 0.4
    move_of(plan, 8)["by"] -= 0.4


def hang_as_drawn(plan):
    plan["programme"][0]["hangs"] = "as-drawn"


def blow_harder(plan):
    plan["wind"]["speed"] = 5


def take_smaller_trolley(plan):
    entry_of(plan, "gear", "tail-trolley")["capacity"]["mass"] = 45000


def tip_and_stand_farther(plan, by_m):
    move_of(plan, 3)["by"][1] += by_m
    entry_of(plan, "structures", "stands")["at"]["position"][1] += by_m


def tip_farther(plan):
    tip_and_stand_farther(plan, 0.4)


def tip_too_far(plan):
    tip_and_stand_farther(plan, 1)


def lay_level(plan):
    move_of(plan, 6)["by"] = -90


def know_less(plan):
    entry_of(plan, "components", "leaf")["cog_box"][:2] = [0.02, 0.02]


def put_lugs_plumb(plan):
    entry_of(plan, "components", "leaf")["cog"][1] = -0.1


def hold_heel_early(plan):
    plan["programme"][0]["rigging"]["tail"]["moves"] = [5, 7]


def take_smaller_heel_trolley(plan):
    entry_of(plan, "gear", "heel-trolley")["capacity"]["mass"] = 35000


def take_smaller_legs(plan):
    for sling in plan["programme"][0]["rigging"]["main"]["slings"]:
        sling["wll"] = 45000


def take_smaller_leg_shackles(plan):
    for sling in plan["programme"][0]["rigging"]["main"]["slings"]:
        sling["shackle"]["wll"] = 55000


def leave_out_capacity(plan):
    del entry_of(plan, "gear", "crane")["capacity"]


def move_tail_crane(plan):
    entry_of(plan, "gear", "tail-crane")["at"]["position"][1] += 0.6


def take_smaller_sling(plan):
    plan["programme"][0]["rigging"]["tail"]["slings"][0]["wll"] = 40000


def take_smaller_shackle(plan):
    plan["programme"][0]["rigging"]["tail"]["slings"][0]["shackle"]["wll"] = 55000


def widen_box(plan):
    entry_of(plan, "components", "stripper")["cog_box"][1] = 0.01


def pull_ropes_less(plan):
    entry_of(plan, "gear", "tail-crane")["out_of_plumb"]["most_deg"] = 0.5


def watch_head_less(plan):
    plan["loads"]["out_of_level"]["height"] = 0.05


def watch_hooks_less(plan):
    plan["loads"]["out_of_level"]["height"] = 0.02


def take_smaller_counterweight(plan):
    entry_of(plan, "gear", "tail-crane")["counterweight"]["tail_radius"] = 4.1


def go_on_swinging(plan):
    del plan["programme"][0]["moves"][7]


CASES = [
    ("pump-column", as_it_is, []),
    # The slings beside the stands, when the tilt begins.
    ("pump-column", bring_stands_closer,
     [("clearance", "drop-a", "stand-south", [1], "short"),
      ("clearance", "drop-b", "stand-north", [1], "short")]),
    # From the hoist until the column is down again.
    ("pump-column", hoist_higher, [("headroom", "tower", None, [3, 4, 5, 6, 7, 8], "short")]),
    # From where the trolley lets go.
    ("pump-column", hang_as_drawn,
     [("attitude", "load", "lean", [2, 3, 4, 5, 6, 7, 8, 9, 10], "outside")]),
    ("pump-column", blow_harder,
     [("clearance", "load", "collar", [8, 10], "short"),
      ("clearance", "load", "discharge-pipe", [10], "short"),
      ("clearance", "load", "well/wall", [8, 9, 10], "short"),
      ("hoist-lines", "tower", None, [8], "outside")]),
    # Without the hold over the well it is lowered as the travels left it; that for the shims is too
    # short to bring it to rest.
    ("pump-column", go_on_swinging,
     [("clearance", "load", "collar", [7, 9], "short"),
      ("clearance", "load", "discharge-pipe", [9], "short"),
      ("clearance", "load", "well/wall", [7, 8, 9], "short"),
      ("hoist-lines", "tower", None, [7], "outside")]),
    # At the end of the tilt, with the centre of gravity at the worst corner of its box.
    ("pump-column", take_smaller_trolley, [("capacity", "tail-trolley", None, [1], "outside")]),
    # At the end of the tilt, where a degree makes more than the column weighs; and what it turns the
    # column by takes it closer to the stands and its hook out of plumb.
    ("pump-column", watch_head_less,
     [("capacity", "tail-trolley", None, [1], "outside"),
      ("clearance", "load", "stand-north", [1], "short"),
      ("clearance", "load", "stand-south", [1], "short"),
      ("ground", "tail-trolley", None, [1], "outside"),
      ("hoist-lines", "tower", None, [1], "outside"),
      ("load-share", "tail-trolley", "tail-height", [1], "over-tail"),
      ("load-share", "tower", "main-out-of-level", [1], "over-tail")]),
    ("lock-gate", as_it_is, [("clearance", "load", "workshop/canopy", [6], "short")]),
    ("lock-gate", tip_farther, []),
    # Where the tilt begins, beyond the end of the track.
    ("lock-gate", tip_too_far,
     [("hoist-lines", "crane", None, [6], "outside"),
      ("reach", "heel-trolley", "track", [6], "outside")]),
    ("lock-gate", lay_level,
     [("clearance", "load", "workshop/canopy", [6], "short"),
      ("resting-stability", "load", None, [None], "not-resting"),
      ("seat", "load", "stands/east", [None], "not-resting"),
      ("seat", "load", "stands/west", [None], "not-resting")]),
    # Until the trolley holds its heel; and the trolley may have to hold it down at first.
    ("lock-gate", know_less,
     [("attitude", "load", "lean", [0, 1, 2, 3, 4, 5], "outside"),
      ("clearance", "load", "workshop/canopy", [6], "short"),
      ("load-share", "heel-trolley", "tail", [6], "slack")]),
    ("lock-gate", put_lugs_plumb,
     [("clearance", "load", "workshop/canopy", [6], "short"),
      ("load-share", "heel-trolley", "tail", [6], "slack")]),
    # Both hold the upright leaf by points that are all but plumb over each other.
    ("lock-gate", hold_heel_early,
     [("capacity", "heel-trolley", None, [5], "outside"),
      ("clearance", "load", "workshop/canopy", [5, 6], "short"),
      ("hoist-lines", "crane", None, [5], "outside"),
      ("load-share", "crane", "main-out-of-level", [5], "unknown"),
      ("load-share", "heel-trolley", "tail-out-of-level", [5], "unknown"),
      ("reach", "heel-trolley", "track", [5], "outside")]),
    # At the end of the tilt, and while the leaf lies.
    ("lock-gate", take_smaller_heel_trolley,
     [("capacity", "heel-trolley", None, [6, 7], "outside"),
      ("clearance", "load", "workshop/canopy", [6], "short")]),
    # Until the tilt has begun.
    ("lock-gate", take_smaller_legs,
     [("clearance", "load", "workshop/canopy", [6], "short"),
      ("slings", "sling-east", "tension", [0, 1, 2, 3, 4, 5, 6], "outside"),
      ("slings", "sling-west", "tension", [0, 1, 2, 3, 4, 5, 6], "outside")]),
    ("lock-gate", take_smaller_leg_shackles,
     [("clearance", "load", "workshop/canopy", [6], "short"),
      ("slings", "sling-east", "shackle", [0, 1, 2, 3, 4, 5, 6], "outside"),
      ("slings", "sling-west", "shackle", [0, 1, 2, 3, 4, 5, 6], "outside")]),
    ("lock-gate", leave_out_capacity,
     [("capacity", "crane", None, [0, 1, 2, 3, 4, 5, 6, 7], "unknown"),
      ("clearance", "load", "workshop/canopy", [6], "short"),
      ("reach", "crane", "radius", [0, 1, 2, 3, 4, 5, 6, 7], "unknown")]),
    ("valve-assembly", as_it_is, []),
    ("column-tandem", as_it_is,
     [("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    ("column-tandem", move_tail_crane, []),
    ("column-tandem", take_smaller_counterweight, []),
    # Wherever the main hook alone holds the column; and nothing is taken off the tilt for its lean.
    ("column-tandem", hang_as_drawn,
     [("attitude", "load", "lean", [3, 4, 5, 6], "outside"),
      ("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("load-share", "tail-crane", "out-of-plane", [2], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    # While the column lies.
    ("column-tandem", take_smaller_sling,
     [("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("slings", "tail-sling", "tension", [0, 1, 2], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    # Drawn straight, but the column leans.
    ("column-tandem", take_smaller_shackle,
     [("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("slings", "tail-sling", "shackle", [0, 1, 2], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    # While the column lies; in the tilt what its lean takes off covers this one too.
    ("column-tandem", widen_box,
     [("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("load-share", "tail-crane", "out-of-plane", [0, 1], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    # At the end of the tilt, where 20 mm turn the column by half a degree.
    ("column-tandem", watch_hooks_less,
     [("clearance", "load", "tail-crane/rope", [2], "short"),
      ("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("hoist-lines", "main-crane", None, [2], "outside"),
      ("hoist-lines", "tail-crane", None, [2], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
    # At the end of the tilt.
    ("column-tandem", pull_ropes_less,
     [("clearance", "tail-crane/counterweight", "rack/post-4", [2], "short"),
      ("hoist-lines", "tail-crane", None, [2], "outside"),
      ("tail-swing", "tail-crane", "rack/post-4", [None], "short")]),
]


def short_of(results):
    """What does not meet its set value, moves of one kind together."""
    found = {}
    for lift in results["lifts"]:
        for finding in lift["findings"]:
            if finding["verdict"] not in ("pass", "note"):
                key = (finding["check"], finding["body"],
                       finding.get("obstacle") or finding.get("item"), finding["state"])
                found.setdefault(key, []).append(finding.get("move"))
    return sorted((*key[:3], moves, key[3]) for key, moves in found.items())


def check(name, change):
    """The exit status and the results of the demo with its plan changed."""
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder) / name
        shutil.copytree(demos / name, place)
        file = place / f"{name}.trunnion"
        plan = json.loads(file.read_text("utf-8"))
        change(plan)
        file.write_text(json.dumps(plan), "utf-8")
        run = subprocess.run([trunnion, "check", file, "--json", "-"], capture_output=True,
                             encoding="utf-8", timeout=300)
    return run.returncode, run.stdout, run.stderr


valid = set()


def schema_faults(results):
    """What the schema says of them, where an earlier case did not have the same finding: a change
    leaves most as they were, and to hold one against the schema takes longer than to find it."""
    new = {json.dumps(finding) for lift in results["lifts"] for finding in lift["findings"]} - valid
    lifts = [{**lift, "findings": [finding for finding in lift["findings"] if json.dumps(finding) in new]}
             for lift in results["lifts"]]
    faults = list(schema.iter_errors({**results, "lifts": lifts}))
    if not faults:
        valid.update(new)
    return [f"schema: {fault.json_path}: {fault.message[:200]}" for fault in faults]


def faults_of(name, change, expected):
    status, out, err = check(name, change)
    if status != (1 if expected else 0):
        yield f"exit status {status}: {err}"
    if status > 1:
        return
    results = json.loads(out)
    yield from schema_faults(results)
    found = short_of(results)
    if found != sorted(expected):
        yield f"found {found}"
    if name == "column-tandem" and change is as_it_is:
        yield from late_tail_faults(results)
    if name == "lock-gate" and change is as_it_is:
        yield from growing_tail_faults(results)


def finding_of(results, check_name, body, move, item=None):
    return next(finding for lift in results["lifts"] for finding in lift["findings"]
                if (finding["check"], finding["body"], finding.get("move"), finding.get("item"))
                == (check_name, body, move, item))


def late_tail_faults(results):
    """The tail of the column is heaviest as the tilt begins; its crane is used most late in it."""
    share = finding_of(results, "load-share", "tail-crane", 2, "tail")
    start = finding_of(results, "capacity", "tail-crane", 0)
    governing = finding_of(results, "capacity", "tail-crane", 2)
    most_deg = 90 * governing["progress"]
    if not share["progress"] < 0.001:
        yield f"the tail load is greatest at {90 * share['progress']}°"
    if not 70 < most_deg < 80:
        yield f"the tail crane is used most at {most_deg}°"
    if not governing["utilisation"] > start["utilisation"] + 0.1:
        yield f"{governing['utilisation']} at {most_deg}°, {start['utilisation']} at the start"
    if not governing["value"] < start["value"]:
        yield f"{governing['value']} kg at {most_deg}°, {start['value']} kg at the start"


def growing_tail_faults(results):
    """The heel of the leaf bears from the first moment, by its centre of gravity beside the lugs,
    and most as the leaf lies: W (3.64 sin t + 0.003 cos t) / (7.75 sin t + 0.1 cos t), with the centre
    of gravity where its box, 2 mm and 0.15 m to each side, makes it least and most."""
    share = finding_of(results, "load-share", "heel-trolley", 6, "tail")
    weight = 62400 * 1.05
    turned = math.radians(92.9)
    most = weight * ((3.79 * math.sin(turned) + 0.001 * math.cos(turned))
                     / (7.75 * math.sin(turned) + 0.1 * math.cos(turned)))
    if not (math.isclose(share["value"], most, rel_tol=1e-3) and share["progress"] > 0.999):
        yield f"the tail carries {share['value']} kg at {92.9 * share['progress']}°, not {most} kg"
    items = {item["what"]: item["value"] for item in share["items"]}
    if not (math.isclose(items["least"], weight * 0.01, rel_tol=1e-3) and items["least-turned"] < 0.01):
        yield f"the tail carries {items['least']} kg at {items['least-turned']}°, not {weight * 0.01} kg"


def some_of(cases, share, seed):
    """Those without a change, and that share of the others, one at least."""
    changed = [case for case in cases if case[1] is not as_it_is]
    drawn = random.Random(seed).sample(changed, max(1, round(share * len(changed))))
    return [case for case in cases if case[1] is as_it_is or case in drawn]


failed = 0
seed = int(os.environ.get("TRUNNION_TEST_SEED", random.SystemRandom().randrange(2**32)))
cases = some_of(CASES, min(float(os.environ.get("TRUNNION_TEST_SCALE", 1)), 1), seed)
print(f"# TRUNNION_TEST_SEED={seed}")
print(f"1..{len(cases)}", flush=True)
for number, (name, change, expected) in enumerate(cases, 1):
    faults = list(faults_of(name, change, expected))
    failed += bool(faults)
    print(f"{'not ok' if faults else 'ok'} {number} - {name}, {change.__name__}")
    for fault in faults:
        print("# " + fault.replace("\n", "\n# "))
sys.exit(1 if failed else 0)
