"""What follows from the model: numbers of steps, times, who uses what."""

from __future__ import annotations

import pytest

from benchleaf.derive.lasting import lasting
from benchleaf.derive.needs import equipment, settings, spares, steps_that_use
from benchleaf.derive.numbering import items, numbered
from benchleaf.derive.usage import answers, usage
from benchleaf.model.times import Span, span, total
from tests import make
from tests.model.test_model import procedure, step


def test_numbering() -> None:
    """Steps are numbered through by phase: open up, work, close up, prove; deeper levels close first."""
    base = make.check({}).base
    device = base.devices["wader"]
    example = procedure("title: Example\naccess: bare-board\nsteps:\n  - {do: Look on.}\nprove:\n  - {do: Look on.}\n")

    rows = numbered(device, example)

    assert ["O1", "O8", "W1", "C1", "C6", "P1"] == [rows[index].number for index in (0, 7, 8, 9, 14, 15)]
    assert ["bare-board"] * 3 + ["open"] * 3 == [row.level.id for row in rows if row.kind == "closing" and row.level]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("do: Look on.", 0, 60),
        ("do: Look on., takes: 2–3 min", 120, 180),
        ("do: Look on., takes: 0 s", 0, 0),
        ("do: Wait., wait: {for: 4 min}", 240, 240),
        ("do: Solder., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2–3 s, times: 9, pause: 4 s}", 50, 59),
        ("do: Wait., wait: {for: 1 min}, takes: 30–90 s", 60, 90),
        ("do: Wait., wait: {for: 1 min ± 2 min}", 0, 180),
        ("do: Bathe it., bath: {material: deionised-water, on: lamp, for: 3 min}", 180, 180),
    ],
)
def test_time_of_a_step(text: str, low: float, high: float) -> None:
    """A step lasts its wait, its touches with pauses, or what it says it takes, and never less than its own."""
    assert Span(low, high) == span(step(f"{{{text}}}"))


def test_hands_and_waiting() -> None:
    """Waiting is counted apart from the time that hands are needed."""
    found = procedure("title: Example\nsteps:\n  - {do: Look on., takes: 1 min}\n  - {do: Wait., wait: {for: 5 min}}\n")

    assert (Span(60, 60), Span(300, 300)) == total(found.steps)


def test_time_over_variants() -> None:
    """Where variants differ the interval reaches from the quickest to the slowest."""
    base = make.check({}).base
    found = procedure(
        "title: Example\nsteps:\n  - {do: Look on., takes: 1 min}\n  - {do: Look on., takes: 2 min, only: [w2]}\n"
    )

    hands, _ = lasting(numbered(base.devices["wader"], found), ("w1", "w2"))

    assert Span(60, 180) == hands


def test_who_answers() -> None:
    """A symptom on a device is answered by what fixes it there; drafts answer nothing in public."""
    draft = "title: Example\nfixes: [no-light]\nsteps:\n  - {do: Look on.}\n"
    base = make.check({make.EXAMPLE: draft}).base

    assert ["replace-lamp"] == [found.id for found in answers(usage(base), "no-light", "wader")]
    assert 2 == len(answers(usage(base, drafts=True), "no-light", "wader"))


def test_item_letters() -> None:
    """Fasteners are lettered in the order written, and after Z come AA and AB."""
    lines = "".join(f"  s{number}: {{title: Screw, count: 1}}\n" for number in range(28))
    device = f"title: Wader\nfasteners:\n{lines}"
    base = make.check({f"{make.DOCS}/devices/wader.yml": device}).base

    letters = items(base.devices["wader"])

    assert ["A", "Z", "AA", "AB"] == [letters[name] for name in ("s0", "s25", "s26", "s27")]


def test_spares_of_the_variant_that_takes_most() -> None:
    """What is put in for one variant or for the other is one spare, not two."""
    found = procedure("""\
title: Example
steps:
  - {do: Lay one in., replace: lamp, only: [w1]}
  - {do: Lay one in., replace: lamp, only: [w2]}
  - {do: Lay one in., replace: buzzer, only: [w2]}
""")
    rows = numbered(make.check({}).base.devices["wader"], found)

    assert {"lamp": 1, "buzzer": 1} == spares(rows, ("w1", "w2"))
    assert {"lamp": 1} == spares(rows, ("w1",))


def test_tools_and_what_they_are_set_to() -> None:
    """Tools come in the order they are needed, the level's first; set points by tool, torques by drive, each once."""
    base = make.check({}).base
    found = procedure("""\
title: Example
access: open
tools: [iron, driver-small]
materials: {isopropanol: 1 mL}
steps:
  - {do: Heat it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}
  - {do: Heat it again., solder: {part: lamp-socket, tool: iron, at: 623.15 K, for: 2 s}}
  - {do: Wipe it., apply: {isopropanol: 1 mL}}
""")
    rows = numbered(base.devices["wader"], found)

    said = settings(base.devices["wader"], rows)

    assert ("driver-small", "iron") == equipment(base, found)
    assert {"iron": ["350 °C"]} == {tool: [one.text for one in several] for tool, several in said.temperatures.items()}
    assert {"T4": ["12 cN·m"]} == {drive: [one.text for one in several] for drive, several in said.torques.items()}
    assert ["W3"] == [row.number for row in steps_that_use(rows, "isopropanol")]


def test_material_that_no_list_names() -> None:
    """A material that a step takes counts as used even where the procedure does not list it."""
    text = """\
title: Example
status: approved
steps:
  - {do: Wet it., solvent: {material: ethanol, volume: 1 mL, on: lamp}}
"""
    base = make.check({make.EXAMPLE: text}).base

    assert ["example"] == [found.id for found in usage(base).by_material["ethanol"]]
