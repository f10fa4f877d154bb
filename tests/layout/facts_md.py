"""facts_md.py PROJECT [BINARY] [--write]: docs/formats/facts.md and case.schema.json say what decks/rules/facts.json says.

With --write both are written anew from the vocabulary; without it they are compared. With the program's binary the
answers of the examples in facts.md are written anew, or compared, as well."""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

write = "--write" in sys.argv
arguments = [one for one in sys.argv[1:] if one != "--write"]
project = pathlib.Path(arguments[0])
vocabulary = json.loads((project / "decks/rules/facts.json").read_text(encoding="utf-8"))
page = project / "docs/formats/facts.md"
schema_file = project / "docs/formats/case.schema.json"
BEGIN = "<!-- from here on written by tests/layout/facts_md.py --write -->"
NUMBER = "^[0-9]+([./-][0-9]+)*( .+)?$"


def number_text(value):
    return f"{value:g}"


def range_text(fact):
    unit = "" if fact["unit"] == "count" else f" {fact['unit']}"
    none = ", or `none`" if fact.get("none") else ""
    return f"{number_text(fact['least'])} to {number_text(fact['most'])}{unit}{none}"


def kind_text(fact):
    if fact["kind"] == "flag":
        return "yes or no"
    if fact["kind"] == "date":
        return "a day such as `2026-09-01`"
    return range_text(fact) if fact["kind"] == "number" else "one word"


def words_text(words):
    return ", ".join(f"`{word}`" for word in words)


def conditions_text(condition):
    parts = []
    for fact, words in condition.items():
        words = words if isinstance(words, list) else [words]
        texts = [{True: "yes", False: "no"}.get(word, word) if isinstance(word, bool) else word for word in words]
        shown = "the same word" if texts == ["same"] else " or ".join(f"`{text}`" for text in texts)
        parts.append(f"`{fact}` is {shown}")
    return " and ".join(parts)


def generated():
    lines = [BEGIN, "", "## Results", "", "| result | what it is |", "|---|---|"]
    lines += [f"| `{one['name']}` | {one['does']} |" for one in vocabulary["results"]]
    lines += ["", "## Facts", "", "| fact | may be | what it says |", "|---|---|---|"]
    lines += [f"| `{one['name']}` | {kind_text(one)} | {one['does']} |" for one in vocabulary["facts"]]
    lines += ["", "## Words", "", "A group stands for any of its words.", ""]
    for fact in vocabulary["facts"]:
        if fact["kind"] != "choice":
            continue
        lines += [f"### {fact['name']}", "", words_text(fact["choices"]), ""]
        for group, words in fact.get("groups", {}).items():
            lines += [f"- group `{group}`: {words_text(words)}"]
        lines += [""] if fact.get("groups") else []
    lines += ["## What follows", "", "Drawn by itself, so it need not be said; facts that contradict it are told.", ""]
    for one in vocabulary.get("implies", []):
        lines += [f"- when {conditions_text(one['when'])}, then {conditions_text(one['then'])}"]
    for one in vocabulary.get("ceilings", []):
        lines += [f"- `{one['fact']}` is never over `{one['not_over']}`"]
    return "\n".join(lines) + "\n"


def value_schema(fact):
    if fact["kind"] == "flag":
        return {"enum": [True, False, "yes", "no"]}
    if fact["kind"] == "date":
        return {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
    if fact["kind"] == "choice":
        numbers = [int(word) for word in fact["choices"] if word.isdigit()]
        return {"enum": fact["choices"] + numbers + list(fact.get("groups", {}))}
    typed = [{"type": "number", "minimum": fact["least"], "maximum": fact["most"]},
             {"type": "string", "pattern": NUMBER, "description": "A number, with its unit or one that converts."}]
    return {"oneOf": typed + [{"const": "none"}] if fact.get("none") else typed}


def case_schema():
    facts = {one["name"]: {"description": one["does"], **value_schema(one)} for one in vocabulary["facts"]}
    editions = ["2017", "2020", "2023", "2026"]
    beside = {
        "id": {"type": ["string", "number", "null"], "description": "Given back with the answer."},
        "edition": {"enum": editions + [int(one) for one in editions]},
        "jurisdiction": {"type": "string", "description": "Its adopted edition and its amendments count."},
        "date": {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$",
                 "description": "The day that is asked about; today without it."},
        "ask": {"type": "array", "minItems": 1, "items": {"enum": [one["name"] for one in vocabulary["results"]]},
                "description": "Only these results are looked at."}}
    return {"$schema": "https://json-schema.org/draft/2020-12/schema",
            "$id": "https://greentag.example/formats/case.schema.json",
            "title": "Greentag case",
            "description": "The facts of one case for 'greentag require': --facts holds one, --batch one on each line. "
                           "Written by tests/layout/facts_md.py --write from decks/rules/facts.json.",
            "type": "object", "additionalProperties": False, "properties": {**beside, **facts}}


EXAMPLE = re.compile(r"(`greentag ([^`]*--batch)`[^`]*```json\n(.*?)```[^`]*```json\n)(.*?)```", re.S)


def answers(binary, verb, given):
    """What the program writes for these lines."""
    with tempfile.TemporaryDirectory() as home:
        done = subprocess.run([binary, *verb.split()], input=given, text=True, capture_output=True, timeout=60,
                              env={"GREENTAG_HOME": home}, check=False)
    return done.stdout


def try_out(binary, text):
    faults = 0
    found = list(EXAMPLE.finditer(text))
    for _, verb, given, wanted in (one.groups() for one in found):
        gives = answers(binary, verb, given)
        if gives != wanted:
            print(f"greentag {verb} gives\n{gives}in place of\n{wanted}")
            faults += 1
    if len(found) < 2:
        print("facts.md shows fewer than two examples")
        faults += 1
    return faults


def main():
    text = page.read_text(encoding="utf-8")
    prose = text.split(BEGIN)[0]
    schema = json.dumps(case_schema(), indent=2, ensure_ascii=False) + "\n"
    if write:
        if len(arguments) > 1:
            prose = EXAMPLE.sub(lambda one: one[1] + answers(arguments[1], one[2], one[3]) + "```", prose)
        page.write_text(prose + generated(), encoding="utf-8")
        schema_file.write_text(schema, encoding="utf-8")
        return 0
    faults = 0
    for path, wanted in ((page, prose + generated()), (schema_file, schema)):
        if path.read_text(encoding="utf-8") != wanted:
            print(f"{path.relative_to(project)} is behind decks/rules/facts.json: run tests/layout/facts_md.py . --write")
            faults += 1
    # What the prose names has to be there too: in code marks, words joined by an underline are facts.
    known = {one["name"] for part in ("facts", "results") for one in vocabulary[part]}
    for name in re.findall(r"`([a-z]+(?:_[a-z]+)+)`", prose):
        if name not in known:
            print(f"facts.md names the fact {name}, which the vocabulary lacks")
            faults += 1
    if len(arguments) > 1:
        faults += try_out(arguments[1], text)
    return 1 if faults else 0


sys.exit(main())
