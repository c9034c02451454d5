"""What follows from the model: numbers of steps, times, what is true after a step, what is counted back."""

from __future__ import annotations

import pytest

from benchleaf.derive.after import after
from benchleaf.derive.lasting import lasting
from benchleaf.derive.ledger import ledger
from benchleaf.derive.numbering import numbered
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


def test_state_after() -> None:
    """After a step stands what it says: the tray by item letter, the battery, what is wet and dry again."""
    device = make.check({}).base.devices["wader"]
    found = procedure("""\
title: Example
access: open
steps:
  - {do: Brush it., solvent: {material: isopropanol, volume: 0.2 mL, on: lamp-socket}}
  - {do: Blow it dry., wait: {for: 2 min, until: dry}}
""")

    told = {name: [f"{one.lead}{one.strong}{one.tail}" for one, _ in facts]
            for name, facts in after(device, found, numbered(device, found)).items()}  # fmt: skip

    assert ["Power off"] == told["open-opening-1"]
    assert ["Tray: 4 × A"] == told["open-opening-2"]
    assert ["Battery isolated"] == told["open-opening-5"]
    assert ["Lamp socket: wet"] == told["steps-1"]
    assert ["Lamp socket: dry"] == told["steps-2"]
    assert ["Tray empty"] == told["open-closing-3"]


def test_counted_back() -> None:
    """What the opening takes off is counted back."""
    base = make.check({}).base
    device = base.devices["wader"]
    rows = numbered(device, base.procedures["wader", "replace-lamp"])

    counts = ledger(device, rows, "w1")

    assert (("case-screw", 4, 4),) == counts.screws
    assert ("back-shell",) == counts.parts
    assert ("lamp",) == counts.renewed


def test_who_answers() -> None:
    """A symptom on a device is answered by what fixes it there; drafts answer nothing in public."""
    draft = "title: Example\nfixes: [no-light]\nsteps:\n  - {do: Look on.}\n"
    base = make.check({make.EXAMPLE: draft}).base

    assert ["replace-lamp"] == [found.id for found in answers(usage(base), "no-light", "wader")]
    assert 2 == len(answers(usage(base, drafts=True), "no-light", "wader"))
