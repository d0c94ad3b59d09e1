"""The shipped JSON Schemas: right by the metaschema of 2020-12, every property described, and of one
mind with the reader of plans.

    test-schema.py FOLDER_OF_SCHEMAS FOLDER_OF_EXAMPLES PROGRAM

PROGRAM --list prints faulty plans whose fault can be seen without looking at another place."""

import copy
import json
import pathlib
import subprocess
import sys

import jsonschema

schemas, examples, program = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), sys.argv[3]
count = 0
failed = 0


def check(good, name, detail=""):
    global count, failed
    count += 1
    failed += not good
    print(f"{'ok' if good else 'not ok'} {count} - {name}")
    if not good and detail:
        print("# " + str(detail).replace("\n", "\n# "))


def load(path):
    return json.loads(path.read_text(encoding="utf-8"))


def first_error(validator, document):
    error = next(iter(validator.iter_errors(document)), None)
    return error and f"{error.json_path}: {error.message[:300]}"


def undescribed(schema, path=""):
    """Where a property says nothing of what it is, itself or through what it refers to."""
    if isinstance(schema, dict):
        for name, part in schema.get("properties", {}).items():
            if isinstance(part, dict) and not {"description", "$ref", "const"} & part.keys():
                yield f"{path}/{name}"
        for name, part in schema.items():
            yield from undescribed(part, f"{path}/{name}")
    elif isinstance(schema, list):
        for index, part in enumerate(schema):
            yield from undescribed(part, f"{path}/{index}")


def validator_of(name):
    schema = load(schemas / name)
    try:
        jsonschema.Draft202012Validator.check_schema(schema)
        check(True, f"{name} keeps to the metaschema")
    except jsonschema.SchemaError as error:
        check(False, f"{name} keeps to the metaschema", error)
    check(schema["$schema"].endswith("/2020-12/schema"), f"{name} says 2020-12")
    bare = list(undescribed(schema))
    check(not bare, f"{name} describes every property", bare)
    return jsonschema.Draft202012Validator(schema)


def check_plans(validator):
    for path in sorted(examples.glob("*.trunnion")):
        error = first_error(validator, load(path))
        check(error is None, f"{path.name} is good", error)
    listed = json.loads(subprocess.run([program, "--list"], check=True, capture_output=True).stdout)
    check(len(listed) > 90, "there are faulty plans")
    for bad in listed:
        refused = not validator.is_valid(json.loads(bad["text"]))
        check(refused, "refused: " + bad["name"])


def check_results(validator):
    good = load(examples / "results.json")
    error = first_error(validator, good)
    check(error is None, "results.json is good", error)
    finding = ["lifts", 0, "findings", 0]
    faults = {
        "another format": (["format"], "trunnion-plan"),
        "an unknown verdict": (["verdict"], "safe"),
        "a note over all": (["verdict"], "note"),
        "no certified width": (["certified_to"], 0),
        "a sum that is none": (["plan", "sha256"], "abc"),
        "an unknown check": (finding + ["check"], "weather"),
        "a negative distance": (finding + ["lower"], -0.1),
        "a note on a clearance": (finding + ["verdict"], "note"),
        "a point in a plane": (finding + ["point_on_body"], [1, 2]),
        "progress beyond the move": (finding + ["progress"], 1.5),
        "an unknown part of an allowance": (finding + ["allowance_parts", 0, "what"], "luck"),
        "an allowance of no parts": (finding + ["allowance_parts"], []),
        "inside: false": (finding + ["inside"], False),
        "a state of another check": (["lifts", 0, "findings", 5, "state"], "short"),
    }
    for name, (path, value) in faults.items():
        bad = copy.deepcopy(good)
        place = bad
        for step in path[:-1]:
            place = place[step]
        place[path[-1]] = value
        check(not validator.is_valid(bad), "refused: " + name)
    for key in good["lifts"][0]["findings"][0]:
        if key in ("seated", "inside", "allowance_parts"):
            continue
        bad = copy.deepcopy(good)
        del bad["lifts"][0]["findings"][0][key]
        check(not validator.is_valid(bad), "refused: a clearance without " + key)


check_plans(validator_of("trunnion-plan.schema.json"))
check_results(validator_of("trunnion-results.schema.json"))
print(f"1..{count}")
sys.exit(1 if failed else 0)
