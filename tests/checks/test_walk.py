"""Every step with what a rule may ask of it: for which variants it is done, and which names it gives."""

from __future__ import annotations

import re

import pytest

from benchleaf.checks.walk import every_step, go_tos, mentions
from benchleaf.model.build_action import ACTIONS as KNOWN
from tests.make import DOCS, EXAMPLE, check

# One action of each kind, each name in it a word of its own that means nothing.
ACTIONS = [
    "supply: {from: usb, at: 5 V, limit: 0.5 A, into: x-into, needs: [x-needed, x-wanted]}",
    "unplug: x-plug",
    "plug: x-plug",
    "unscrew: {x-screw: 1, x-bolt: {count: 2}}",
    "screw: {x-screw: 1, x-bolt: {count: 2, torque: 7 cN·m}}",
    "remove: x-part",
    "fit: x-part",
    "replace: x-part",
    "release: {bond: x-bond, by: [pry], with: x-tool}",
    "bond: {bond: x-bond, with: x-material}",
    "heat: {tool: x-tool, at: 70 °C, for: 5 min, on: x-part, hold: {part: x-held, below: 45 °C, with: x-meter}}",
    "desolder: {part: x-part, tool: x-tool, at: 350 °C, for: 5 s}",
    "solder: {part: x-part, tool: x-tool, at: 350 °C, for: 5 s}",
    "solvent: {material: x-material, volume: 1 mL, on: x-part}",
    "bath: {material: x-material, on: x-part, for: 4 min, tool: x-tool}",
    "work: {kind: brush, on: x-part}",
    "discharge: x-part",
    "store: {part: x-part, as: reuse}",
    "wait: {for: 4 min, at: 60 °C, with: x-tool}",
    "use: [x-tool, x-other]",
    "apply: {x-material: 1 g, x-other: 1 mL}",
    "check: {measure: voltage, with: x-meter, expect: 3 V, if_not: {go_to: x-procedure}}",
    "check: {gone: x-symptom, if_not: {repeat: x-step, then: {go_to: x-procedure}}}",
    "check: {leak: ≤ 50 Pa, with: x-meter, if_not: {stop: It leaks.}}",
]


@pytest.mark.parametrize("action", ACTIONS, ids=lambda action: action.split(":")[0])
def test_no_name_is_passed_over(action: str) -> None:
    """Every name that a step gives, in whatever field, is looked up, and found where it stands if it means nothing."""
    line = f"  - {{do: Do it., {action}}}"

    checked = check({EXAMPLE: f"title: Example\narrives: {{power: off}}\nsteps:\n{line}\n"})
    # A feed that is not taken away is a fault of its own, and not of a name.
    findings = [finding for finding in checked.findings if finding.rule != "unfinished-handover"]

    written = [(match.group(), match.start() + 1) for match in re.finditer("x-[a-z]+", line)]
    assert written == [(line[f.place.column - 1 : f.place.end - 1], f.place.column) for f in findings]
    assert {"unknown-reference"} == {finding.rule for finding in findings}


def test_every_action_is_tried() -> None:
    """The list above has each action of the format that gives a name."""
    tried = {action.split(":")[0] for action in ACTIONS}

    assert set(KNOWN) == (tried - {"use", "apply", "check"}) | {"power"}


def test_variants_of_a_step() -> None:
    """A step is done on the variants that its own `only`, its procedure and its level let through."""
    steps = "  - do: Look.\n  - {do: Look., only: [w1]}\n  - {do: Look., only: [w1, w2]}\n"
    text = f"title: Example\nvariants: [w2]\nsteps:\n{steps}"

    spots = [
        spot for spot in every_step(check({EXAMPLE: text}).base) if spot.procedure and spot.procedure.id == "example"
    ]

    assert [("w2",), (), ("w2",)] == [spot.variants for spot in spots]


def test_variants_of_a_step_of_a_level() -> None:
    """A level that some variants do not have is not opened on them, whatever its steps say."""
    text = (
        "title: Skiff\nvariants: {s1: {title: One}, s2: {title: Two}, s3: {title: Three}}\naccess:\n"
        "  open: {title: Open, only: [s1, s2], opening: [{do: Look.}, {do: Look., only: [s2, s3]}], closing: []}\n"
    )

    spots = [spot for spot in every_step(check({f"{DOCS}/devices/skiff.yml": text}).base) if spot.device]

    assert [("s1", "s2"), ("s2",)] == [spot.variants for spot in spots if spot.device and spot.device.id == "skiff"]


def test_withdrawn_procedure() -> None:
    """The steps of a withdrawn procedure are not walked."""
    base = check({EXAMPLE: "title: Example\nstatus: withdrawn\nsteps:\n  - do: Look.\n"}).base

    assert "example" not in {spot.procedure.id for spot in every_step(base) if spot.procedure}


def test_go_tos() -> None:
    """A failed check leads on at once, or when all its repeats have failed, or not at all."""
    ways = ["{go_to: other}", "{repeat: steps-1, then: {go_to: other}}", "{repeat: steps-1}", "{stop: Fetch help.}"]
    steps = "".join(f"  - {{do: Look., check: {{look: It is whole., if_not: {way}}}}}\n" for way in ways)
    base = check({EXAMPLE: f"title: Example\nsteps:\n{steps}"}).base

    found = [[name.text for name in go_tos(step.check)] for step in base.procedures["wader", "example"].steps]

    assert [["other"], ["other"], [], []] == found


def test_step_without_names() -> None:
    """A step that names nothing mentions nothing."""
    base = check({EXAMPLE: "title: Example\nsteps:\n  - {do: Switch it on., power: on}\n"}).base

    assert [] == list(mentions(base.procedures["wader", "example"].steps[0]))
