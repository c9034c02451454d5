"""What follows from the model: numbers of steps, times, what is true after a step, what is counted back."""

from __future__ import annotations

import math

import pytest

from benchleaf.derive.after import after
from benchleaf.derive.lasting import lasting
from benchleaf.derive.ledger import Ledger, ledger
from benchleaf.derive.needs import equipment, settings, spares, steps_that_use
from benchleaf.derive.numbering import items, numbered
from benchleaf.derive.usage import answers, usage
from benchleaf.model.times import Span, span, total
from tests import make
from tests.model.test_model import procedure, step

TWO_PACKS = make.WADER.replace(
    "\nboard:", "\n  spare: {part: lamp, plug: lamp-plug, chemistry: nimh, cells: 1}\nboard:"
)


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
        ("do: Wait., wait: {for: '> 5 min'}", 300, math.inf),
        ("do: Wait., wait: {for: '< 5 min'}", 0, 300),
        ("do: Solder., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s, pause: '> 4 s'}", 2, 2),
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


def told(text: str, device: str = make.WADER) -> dict[str, list[str]]:
    """Return what is said after each step of a procedure at level open, by the step's id."""
    base = make.check({f"{make.DOCS}/devices/wader.yml": device, make.EXAMPLE: text}).base
    found = base.procedures["wader", "example"]
    facts = after(base.devices["wader"], found, numbered(base.devices["wader"], found))
    return {
        name: [
            f"{one.lead}{one.strong}{one.tail}" + "".join(f" ({who})" for who in variants) for one, variants in several
        ]
        for name, several in facts.items()
    }


def counted(text: str) -> Ledger:
    """Return what is counted back at the end of a procedure, for the first variant."""
    device = make.check({}).base.devices["wader"]
    return ledger(device, numbered(device, procedure(text)), "w1")


def test_state_of_one_battery_of_several() -> None:
    """Where a device has two batteries, pulling one plug does not say that all is isolated."""
    said = told("title: Example\naccess: open\nsteps:\n  - {do: Unplug it., unplug: lamp-plug}\n", TWO_PACKS)

    assert ["Battery: isolated"] == said["open-opening-5"]
    assert ["Lamp: isolated"] == said["steps-1"]


def test_state_for_some_variants() -> None:
    """What is true after a step for some variants alone names them."""
    said = told("""\
title: Example
access: open
steps:
  - {do: Wet it., solvent: {material: isopropanol, volume: 1 mL, on: buzzer}, only: [w2]}
  - {do: Wait., wait: {for: 1 h, until: dry}}
""")

    assert ["Buzzer: dry (w2)"] == said["steps-2"]


def test_state_of_a_new_part() -> None:
    """A new part is neither wet nor hot, whatever the old one was."""
    said = told("""\
title: Example
access: open
steps:
  - {do: Wet it., solvent: {material: isopropanol, volume: 1 mL, on: lamp}}
  - {do: Lay a new lamp in., replace: lamp}
  - {do: Wait., wait: {for: 1 h, until: dry}}
""")

    assert ["Lamp: new"] == said["steps-2"]
    assert [] == said["steps-3"]


def test_state_of_other_actions() -> None:
    """What leaves, returns, is stored, discharged, freed, renewed or recorded is said in a few words."""
    said = told("""\
title: Example
access: open
steps:
  - {do: Lift the lens., remove: lens, record: photo}
  - {do: Put it away., store: {part: lens, as: do-not-use}}
  - {do: Free it., release: {bond: lens-bond, by: [heat]}}
  - {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}
  - {do: Bridge it., discharge: lamp}
  - {do: Lay it in., fit: lens}
  - {do: Take the socket off., desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}
  - {do: Feed it., supply: {from: usb, at: 5 V, limit: 0.5 A, into: lamp-socket}}
  - {do: Stop feeding it., supply: off}
""")

    assert [
        ["Lens: out", "Photographed"],
        ["Lens: off the bench, not to be used again"],
        ["Lens bond: free"],
        ["Lens bond: renewed"],
        ["Lamp: discharged"],
        ["Lens: in"],
        ["Lamp socket: off, and hot"],
        ["Fed from outside"],
        ["No feed from outside"],
    ] == [said[f"steps-{number}"] for number in range(1, 10)]


def test_what_stays_out_is_not_counted_back() -> None:
    """A part that is handed back without, and a battery that stays isolated, are no lines of the count."""
    counts = counted("""\
title: Example
access: open
hands_back: {without: [lens], because: It is broken.}
steps:
  - {do: Lift the lens., remove: lens}
""")

    assert ("back-shell",) == counts.parts


def test_battery_that_stays_isolated() -> None:
    """A battery is counted as joined only where a step joins it."""
    device = make.WADER.replace("      - {do: Plug the battery in., plug: battery-plug}\n", "")
    base = make.check({f"{make.DOCS}/devices/wader.yml": device}).base
    rows = numbered(base.devices["wader"], base.procedures["wader", "replace-lamp"])

    assert () == ledger(base.devices["wader"], rows, "w1").batteries


def test_screws_that_come_out_twice() -> None:
    """The same screws, taken out twice, are counted once; those that do not come back are missing from the count."""
    counts = counted("""\
title: Example
steps:
  - {do: Take four out., unscrew: {case-screw: 4}}
  - {do: Drive four., screw: {case-screw: 4}}
  - {do: Take three out., unscrew: {case-screw: 3}}
  - {do: Drive two., screw: {case-screw: 2}}
""")

    assert (("case-screw", 3, 4),) == counts.screws


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
