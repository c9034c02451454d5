"""The third column of the sheet: what a step changed, in the shop's words."""

from __future__ import annotations

import math

import pytest

from benchleaf.derive.news import Air, News, Now, Tray
from benchleaf.derive.numbering import items
from benchleaf.pages.compose.after import said
from tests import make
from tests.compose.drawing import column, sheet

DEVICE = make.check({}).base.devices["wader"]


def shown(news: News) -> str:
    """Return one line of the column with its notes."""
    state = said(DEVICE, items(DEVICE), news)
    if state is None:
        return ""
    notes = " | ".join("".join(piece.text for piece in line) for line in state.notes)
    return f"{state.lead}{state.strong}{state.tail}{f' | {notes}' if notes else ''}"


@pytest.mark.parametrize(
    ("news", "text"),
    [
        (Now("power off"), "Power off"),
        (Now("isolated"), "Battery isolated"),
        (Now("joined", ("lamp",)), "Lamp: joined"),
        (Now("unplugged", ("lamp-plug",)), "Lamp plug: out"),
        (Now("fed"), "Fed from outside"),
        (Tray("case-screw", 4, 4, 4), "Tray: 4 of 4 T4, item A"),
        (Tray("case-screw", 2, 4, 7), "Tray: 2 of 4 T4, item A; 7 in all"),
        (Tray("case-screw", 0, 4, 3), "Tray: 0 of 4 T4, item A; 3 in all"),
        (Tray("case-screw", 0, 4, 0), "Tray empty"),
        (Now("out", ("lens",), out=1), "Lens: out"),
        (Now("out", ("lens",), out=3), "Lens: out; 3 out in all"),
        (Now("in", ("lens",), out=1), "Lens: in; 1 part still out"),
        (Now("new", ("lens",), out=2), "Lens: new; 2 parts still out"),
        (Now("in", ("lens",), out=0), "Lens: in; all parts in"),
        (Now("in", ("lens",)), "Lens: in"),
        (Now("stored", ("lens",)), "Lens: off the bench"),
        (Now("set aside", ("lens",)), "Lens: off the bench, not to be used again"),
        (Now("wet", ("lens",), 184.0, burns=True), "Lens: wet, flammable | left alone, dry in 4 min at the most"),
        (Now("wet", ("lens",), math.inf), "Lens: wet | nobody can say when it is dry"),
        (Now("wet", ("lens", "lamp"), 59.2), "Lens and Lamp: wet | left alone, dry in 60 s at the most"),
        (Now("dry", ("lens", "lamp", "buzzer")), "Lens and 2 more: dry"),
        (Now("fuming", ("",), 60.0), "Bench: flammable vapour | left alone, clear in 60 s at the most"),
        (Now("clear", ("",)), "Bench: no vapour left"),
        (Now("hot", ("lens",), 7200.0), "Lens: hot | cool in 120 min at the most"),
        (Now("setting", ("lens-bond",), 1800.0), "Lens bond: setting | firm in 30 min at the most"),
        (Now("level", ("open",)), "Level: open"),
        (Now("photo"), "Photographed"),
        (Air(0.1201), "Bench air: 13 % of the limit"),
        (Air(0.0099), ""),
    ],
    ids=repr,
)
def test_words(news: News, text: str) -> None:
    """Each change is one short line; times are rounded up, so that nobody waits too little."""
    assert text == shown(news)


def test_column() -> None:
    """The column of a step holds what the dry run says that it changed, and nothing where it changed nothing."""
    page = sheet("""\
  - {do: Brush it., solvent: {material: isopropanol, volume: 0.2 mL, on: lamp, area: 2 cm²}}
  - {do: Blow it dry., wait: {for: 4 min, until: dry}}
  - {do: Look on.}""")

    assert ["Power off"] == column(page, "open-opening-1", "after")
    assert ["Tray: 4 of 4 T4 , item A"] == column(page, "open-opening-2", "after")
    assert ["Battery isolated"] == column(page, "open-opening-4", "after")
    assert ["Level: open"] == column(page, "open-opening-5", "after")
    assert [
        ["Lamp: wet , flammable left alone, dry in 4 min at the most", "Bench air: 1.6 % of the limit"],
        ["Lamp: dry"],
        [],
    ] == [column(page, f"steps-{number}", "after") for number in (1, 2, 3)]


def test_variants_that_differ() -> None:
    """Where variants differ, each line says whose it is."""
    page = sheet("""\
  - {do: Lift it out., remove: buzzer, only: [w2]}
  - {do: Lift the lens., remove: lens}""")

    assert ["Lens: out; 2 out in all Wader W1 only", "Lens: out; 3 out in all Wader W2 only"] == [
        text.replace(" ;", ";") for text in column(page, "steps-2", "after")
    ]


def test_any_device() -> None:
    """A procedure for any device has its states too."""
    text = "title: Example\nsteps:\n  - {do: Shut it down., power: off}\n  - {do: Wait., wait: {for: 1 h}}\n"

    outcome = make.check({f"{make.DOCS}/repairs/any/example.yml": text}).outcomes["any", "example"]

    assert {"steps-1": ((Now("power off"), ()),), "steps-2": ()} == outcome.after
