"""schemas.py PROJECT: the published schemas are themselves valid, accept what is shipped, and refuse broken documents."""
import copy
import json
import pathlib
import sys

from jsonschema import Draft202012Validator, RefResolver

project = pathlib.Path(sys.argv[1])
schemas = {}
for path in sorted((project / "docs" / "formats").glob("*.schema.json")):
    schema = json.loads(path.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    schemas[path.name.removesuffix(".schema.json")] = schema
store = {schema["$id"]: schema for schema in schemas.values()}
faults = 0


def validator(name):
    schema = schemas[name]
    return Draft202012Validator(schema, resolver=RefResolver(schema["$id"], schema, store=store))


def accepts(name, document, what):
    global faults
    for error in list(validator(name).iter_errors(document))[:5]:
        print(f"{what}: /{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}")
        faults += 1


def refuses(name, document, what):
    global faults
    if validator(name).is_valid(document):
        print(f"the schema of {name} accepts {what}")
        faults += 1


names = {"greentag-deck/1": "deck", "greentag-scenarios/1": "scenarios", "greentag-table/1": "table",
         "greentag-jurisdictions/1": "jurisdictions"}
checked = {}
for path in sorted([*project.glob("decks/**/*.json"), *project.glob("scenarios/**/*.json")]):
    document = json.loads(path.read_text(encoding="utf-8"))
    name = names[document["format"]]
    accepts(name, document, str(path.relative_to(project)))
    checked[name] = document

for name, document in checked.items():
    stray = copy.deepcopy(document)
    stray["strayField"] = 1
    refuses(name, stray, "a field nobody knows")
    for field in schemas[name]["required"]:
        lacking = copy.deepcopy(document)
        del lacking[field]
        refuses(name, lacking, f"a document without {field}")
deck = copy.deepcopy(checked["deck"])
deck["points"][0]["questions"][0]["form"] = "guess"
refuses("deck", deck, "an unknown form")
deck = copy.deepcopy(checked["deck"])
deck["points"][0]["versions"][0]["basis"] = {"kind": "published"}
refuses("deck", deck, "a published basis without a source")

print(f"{len(checked)} formats, {faults} faults")
sys.exit(1 if faults or set(checked) != set(names.values()) else 0)
