"""calculators_md.py PROJECT BINARY [--write]: docs/formats/calculators.md says what the calculators say of themselves.

With --write the page is written anew, its examples run through the program; without it the page is compared."""
import json
import pathlib
import subprocess
import sys
import tempfile

write = "--write" in sys.argv
project, binary = [one for one in sys.argv[1:] if one != "--write"]
page = pathlib.Path(project) / "docs/formats/calculators.md"

HEAD = """# Calculators

What each `greentag work` calculator may be told and what it answers. Written by tests/layout/calculators_md.py from the program itself; the examples are its own output.

- By hand: `greentag work box-fill --conductors 4x12 ...`; a fact named `pass_through` is the option `--pass-through`.
- From a script: `--facts FILE` reads one JSON object of facts, `--batch` JSON Lines, one answer for each line. `id`, `edition`, `jurisdiction` and `date` may stand beside the facts; `id` comes back with the answer. Wires are texts (`"4x12, 2x14"`), sizes are texts (`"1/0"`), lists are arrays of numbers.
- A fact that would change the answer and was not given comes back under `unknown`; it is never guessed. Facts that are left out for a stated reading say so below.
- What the facts make of a finished job (a breaker too large for its wire, a box too full) is a finding, not an error. An impossible fact (a length below nothing) is an error.

Training aid, no design tool: verify against the adopted code and local amendments; the inspector decides. Before any work: de-energise, lock out, prove dead with a tester checked on a known source.
"""

EXAMPLES = {
    "box-fill": "--conductors 4x12 --grounds 2x12 --devices 1x12 --clamps yes --box 20.3",
    "raceway-fill": "--raceway emt --conductors 6x12 --insulation thhn",
    "conductor": "--material cu --rating 90 --terminals 75 --ambient 40 --ccc 6 --size 8 --cable none --use general",
    "overcurrent": "--size 14 --rating 60 --material cu --insulation 90 --terminals 60 --ambient 30 --ccc 2 --cable nm",
    "voltage-drop": "--phases 1 --volts 120 --amps 12 --length 140 --material cu --size 12",
    "equipment-ground": "--device 40 --material cu --from 8 --to 4",
    "grounding-electrode": "--service-conductor 2/0 --service-material cu --material cu --electrode table",
    "bonding-jumper": "--kind main --supply-conductor 4/0 --supply-material al --material cu",
    "dwelling-load": "--method optional --area 1800 --range-kw 12 --fastened 1200 --fastened-240 4500 --dryer-kw 5 "
                     "--heating-va 9600 --heaters 1 --cooling-va 3600 --volts 240",
    "range-load": "--kw 14 --volts 240",
    "motor-circuit": "--hp 5 --volts 230 --phases 1 --device breaker --terminals 75",
    "burial-depth": "--method pvc --place general --dwelling yes --volts 120 --amps 20 --gfci yes --landscape no",
    "working-space": "--system single-phase-120-240 --opposite grounded --width 20",
    "support": "--method nm --box single-gang-nonmetallic --distance 10",
    "switching": "--arrangement single-pole-feed-at-switch --fault neutral-open.light-neutral",
}


def run(words):
    with tempfile.TemporaryDirectory() as home:
        done = subprocess.run([binary, "work", *words], text=True, capture_output=True, timeout=60, check=False,
                              env={"GREENTAG_HOME": home, "COLUMNS": "80"})
    return done.stdout + done.stderr


def cell(text):
    return text.replace("|", "\\|")


def section(calculator):
    name = calculator["calculator"]
    command = EXAMPLES[name]
    lines = ["", f"## {name}", f"{calculator['does'].capitalize()}. Answers {calculator['answers']}.", "",
             "| fact | may be | what it says |", "|---|---|---|"]
    lines += [f"| `{one['name']}` | {cell(one['may_be'])} | {cell(one['does'])} |" for one in calculator["facts"]]
    lines += ["", f"`greentag work {name} {command} --edition 2023`", "```text",
              run([name, *command.split(), "--edition", "2023"]).rstrip("\n"), "```"]
    return lines


def main():
    calculators = json.loads(run(["list", "--json"]))["calculators"]
    text = HEAD + "\n".join(line for one in calculators for line in section(one)) + "\n"
    if write:
        page.write_text(text, encoding="utf-8")
        return 0
    if page.read_text(encoding="utf-8") == text:
        return 0
    print("docs/formats/calculators.md is behind the program: run tests/layout/calculators_md.py . BINARY --write")
    return 1


sys.exit(main())
