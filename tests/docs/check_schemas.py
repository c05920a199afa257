"""Every example in docs/examples fits its schema in docs/, an export of the example does too, and the
schemas refuse what they should.

usage: check_schemas.py DOCS_FOLDER PRINT_EXPORT_PROGRAM
"""

import copy
import json
import pathlib
import subprocess
import sys

from jsonschema import Draft202012Validator

PAIRS = [
    ("exchange", "document"),
    ("task", "task"),
    ("analysis", "analysis"),
    ("inspect", "inspect"),
]


def objects(value, path=()):
    """Paths of all objects inside a document."""
    if isinstance(value, dict):
        yield path
        for key, item in value.items():
            yield from objects(item, path + (key,))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from objects(item, path + (index,))


def at(value, path):
    for step in path:
        value = value[step]
    return value


def faults_of(validator, document, name):
    return [f"{name} {list(e.absolute_path)}: {e.message[:200]}" for e in validator.iter_errors(document)]


def unknown_keys_let_through(validator, document, name):
    """Objects of `document` that take a key the contract does not have."""
    free = {"numbers", "workmanship_by_component"}  # maps: any key is right
    for path in objects(document):
        if path and path[-1] in free:
            continue
        changed = copy.deepcopy(document)
        at(changed, path)["no_such_key"] = 1
        if validator.is_valid(changed):
            yield f"{name} {list(path)}: an unknown key is let through"


def main():
    docs = pathlib.Path(sys.argv[1])
    faults = []
    for schema_name, example_name in PAIRS:
        schema = json.loads((docs / f"{schema_name}.schema.json").read_text("utf-8"))
        Draft202012Validator.check_schema(schema)
        validator = Draft202012Validator(schema)
        example = json.loads((docs / "examples" / f"{example_name}.json").read_text("utf-8"))
        faults += faults_of(validator, example, example_name)
        faults += unknown_keys_let_through(validator, example, example_name)
        if schema_name == "exchange":
            export = subprocess.run(
                [sys.argv[2], str(docs / "examples" / "document.json")],
                check=True, capture_output=True).stdout
            faults += faults_of(validator, json.loads(export), "export")
            without_basis = copy.deepcopy(example)
            del without_basis["readings"][0]["basis"]
            if validator.is_valid(without_basis):
                faults.append("exchange: a reading without a basis is let through")
    print("\n".join(faults) or "all examples fit their schemas")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
