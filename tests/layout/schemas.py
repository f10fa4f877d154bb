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
         "greentag-jurisdictions/1": "jurisdictions", "greentag-facts/1": "facts", "greentag-rules/1": "rules",
         "greentag-changes/1": "changes", "greentag-outline/1": "outline", "greentag-phrases/1": "phrases",
         "greentag-figures/1": "figures", "greentag-readings/1": "readings",
         "greentag-jobs/1": "jobs"}
checked = {}
for path in sorted([*project.glob("decks/**/*.json"), *project.glob("scenarios/**/*.json"),
                    *project.glob("docs/templates/**/*.json")]):
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


# Rules: one effect, conditions that can be read, an edition.
first = checked["rules"]["rules"][0]


def spoiled_rule(**members):
    document = copy.deepcopy(checked["rules"])
    document["rules"] = [{**{key: first[key] for key in ("id", "title", "why", "versions")}, **members}]
    return document


accepts("rules", spoiled_rule(requires="GFCI"), "a plain rule")
accepts("rules", spoiled_rule(permits="GFCI", when={"any": [{"a": "x"}, {"none": [{"b": True, "c": {"not": ["y"]}}]}],
                                                    "d": {"over": 1, "most": 2}, "e": {"before": "2026-09-01"}}),
        "a rule with every kind of condition")
refuses("rules", spoiled_rule(), "a rule without an effect")
refuses("rules", spoiled_rule(requires="GFCI", forbids="AFCI"), "a rule with two effects")
refuses("rules", spoiled_rule(requires="GFCI", when={"a": {"below": 6}}), "a range with an unknown end")
refuses("rules", spoiled_rule(requires="GFCI", when={"a": {}}), "a range without an end")
refuses("rules", spoiled_rule(requires="GFCI", when={"a": []}), "a condition on no word")
refuses("rules", spoiled_rule(requires="GFCI", when={"any": {"a": "x"}}), "alternatives that are no list")
refuses("rules", spoiled_rule(requires="GFCI", versions=[]), "a rule of no edition")
refuses("rules", spoiled_rule(requires="GFCI", exceptions=[{"when": {}, "why": "always holds"}]), "an exception to all")

# Amendments: each action with what it needs, and without what it cannot use.
brought = {**spoiled_rule(requires="GFCI")["rules"][0], "id": "local.rule"}


def amended(**members):
    document = copy.deepcopy(checked["jurisdictions"])
    document["jurisdictions"][0]["amendments"] = [{"id": "a", "basis": {"kind": "practice"}, **members}]
    return document


accepts("jurisdictions", amended(action="add", **{"with": brought, "from": "2026-01-01"}), "an addition")
accepts("jurisdictions", amended(action="delay", rule="a.b", until="2027-01-01"), "a delay")
refuses("jurisdictions", amended(action="delay", rule="a.b"), "a delay without an end")
refuses("jurisdictions", amended(action="delete", rule="a.b", **{"with": brought}), "a deletion that brings a rule")
refuses("jurisdictions", amended(action="add", rule="a.b", **{"with": brought}), "an addition that names a rule")
refuses("jurisdictions", amended(action="replace", **{"with": brought}), "a replacement of nothing")
refuses("jurisdictions", amended(action="drop", rule="a.b"), "an unknown action")

# Facts of the vocabulary: each kind with its own members.
for broken, what in (({"kind": "choice"}, "a choice without words"), ({"kind": "number"}, "a number without a range"),
                     ({"kind": "flag", "unit": "V"}, "a flag with a unit"), ({"kind": "colour"}, "an unknown kind")):
    document = copy.deepcopy(checked["facts"])
    document["facts"] = [{"name": "one", "does": "says one thing", **broken}]
    refuses("facts", document, what)

# Computed asks.
call = next(one for one in checked["scenarios"]["scenarios"])
ask = {"id": "a", "point": "box.volume", "form": "number", "text": "What volume do they need?",
       "compute": {"calculator": "box-fill", "facts": {"conductors": "{n}x12", "clamps": True}},
       "mistakes": [{"facts": {"clamps": "no"}, "mistake": "m"}, {"as": "answer_number / 2", "mistake": "m"}]}


def asking(facts=None, **members):
    document = copy.deepcopy(checked["scenarios"])
    document["scenarios"] = [{**call, "facts": facts or {"n": {"from": 2, "to": 6, "step": 2}, "m": {"is": "{=2*n}"}},
                              "only": ["n > 2"], "asks": [{**ask, **members}] * 3}]
    return document


accepts("scenarios", asking(), "a computed ask")
accepts("scenarios", asking(form="choose", says="{value} or more", phrases={"yes": "It fits"}, places=1, within=0.5),
        "a computed choice")
accepts("scenarios", asking(form="choose", compute={"rules": {"location": "{room}"}, "asked": ["GFCI"]}), "an ask of rules")
refuses("scenarios", asking(form="recall"), "a computed recall")
refuses("scenarios", asking(right="one"), "a computed ask with an authored answer")
refuses("scenarios", asking(compute={"calculator": "box-fill"}), "a calculator without facts")
refuses("scenarios", asking(compute={"rules": {"a": "b"}}), "rules without what is asked")
refuses("scenarios", asking(mistakes=[{"mistake": "m"}]), "a mistake that leads nowhere")
refuses("scenarios", asking(mistakes=[{"value": 2.0, "mistake": "m"}]), "an authored wrong number")
refuses("scenarios", asking(facts={"n": {"from": 2, "to": 6}}), "a range without steps")

refuses("phrases", {"format": "greentag-phrases/1", "phrases": [{"text": "a phrase"}]}, "a phrase without a reason")
refuses("phrases", {"format": "greentag-phrases/1", "phrases": [{"text": "alone", "reason": "because"}]}, "one word")

# Outlines: numbers or ranges, shares, and sections that say what belongs to them.
def outlined(section=None, **members):
    document = copy.deepcopy(checked["outline"])
    document.update(members)
    if section is not None:
        document["sections"] = [{"id": "a", "title": "A", "questions": 5, **section}]
    return document


accepts("outline", outlined({"tags": ["box"], "articles": ["90", "210.8(A)(1)", "300 to 398", "210.50 to 210.71"],
                             "pass": 0.5}, questions={"min": 5, "max": 9}, **{"pass": {"right": 4}}), "an outline in full")
accepts("outline", outlined({"uncovered": "no points yet"}), "a section that has nothing yet")
refuses("outline", outlined({}), "a section that goes by nothing")
refuses("outline", outlined({"articles": ["box"]}), "a part of no code")
refuses("outline", outlined({"tags": ["box"], "questions": {"min": 1}}), "a range without an end")
refuses("outline", outlined({"tags": ["box"], "pass": 0}), "a section passed with nothing")
for broken, what in (({"minutes": 0}, "no time"), ({"pass": 1.01}, "a share over the whole"), ({"pass": 0}, "no share"),
                     ({"pass": {"right": 0}}, "no right answer"), ({"book": "shut"}, "an unknown state of the book"),
                     ({"id": "A trial"}, "an id with a blank"), ({"sections": []}, "no section"),
                     ({"basis": {"kind": "published"}}, "a published basis without a source")):
    refuses("outline", outlined(**broken), what)

# Cases, as they are handed to 'require': every one of the reference, and none with anything else in it.
cases = 0
for path in sorted(project.glob("tests/reference/rules_*.json")):
    for one in json.loads(path.read_text(encoding="utf-8"))["cases"]:
        accepts("case", {"id": one["case"], "edition": one["edition"], "ask": one["asked"], **one["facts"]},
                f"{path.name} {one['case']}")
        cases += 1
if cases == 0:
    print("there are no cases to try the schema of case on")
    faults += 1
for broken, what in (({"colour": "red"}, "an unknown fact"), ({"location": "moon"}, "an unknown word"),
                     ({"volts": "none"}, "no voltage at all"), ({"volts": -1}, "a negative voltage"),
                     ({"edition": "2019"}, "an unknown edition"), ({"ask": ["XFCI"]}, "an unknown result"),
                     ({"public": "maybe"}, "a flag that is neither"), ({"install_date": "soon"}, "a day that is none")):
    refuses("case", broken, what)

print(f"{len(checked)} formats, {faults} faults")
sys.exit(1 if faults or set(checked) != set(names.values()) else 0)
