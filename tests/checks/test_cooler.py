"""What a finding about a warm neighbour names is enough when it is written in, and a little less is not."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.make import DOCS, TOOLS, check

if TYPE_CHECKING:
    from benchleaf.findings import Finding

DEVICE = """\
title: Stilt level
board: {{part: main-board, thickness: 0.8 mm}}
parts:
  main-board: {{title: Main board, kind: board, near: {{}}}}
  display: {{title: Display, kind: display, heat_limit: 70 °C}}
  port: {{title: Port, kind: socket, part_of: main-board, heat_limit: 250 °C, near: {{display: {near}}}}}
"""
PROCEDURE = "title: Example\npurpose: inspection\nsteps:\n"
AIR = "hot-air: {title: Hot-air station, kind: hot-air, range: 100–480 °C, contact: 8 mm}\n"
IRON = "solder: {{part: port, tool: iron, at: 350 °C, for: {lasts} s, times: {times}, pause: {pause} s}}"
BLOW = "solder: {{part: port, tool: hot-air, at: 380 °C, for: {lasts} s, reaches: 240 °C{shield}}}"
MAT = "heat: {{on: port, tool: heat-mat, at: {at} °C, for: 8 min{hold}}}"


def found(near: str, *steps: str) -> list[Finding]:
    """Return what is found about neighbours when *steps* heat a port whose display is *near*."""
    work = "".join(f"  - {{do: Do it., {step}}}\n" for step in steps)
    files = {
        f"{DOCS}/devices/stilt.yml": DEVICE.format(near=near),
        f"{DOCS}/repairs/stilt/example.yml": PROCEDURE + work,
        f"{DOCS}/tools.yml": TOOLS + AIR,
    }
    return [finding for finding in check(files).findings if finding.rule == "overheated-neighbour"]


def named(finding: Finding, pattern: str) -> int:
    """Return the number that the finding's help names after *pattern*."""
    match = re.search(pattern + r"(\d+)", finding.help)
    assert match is not None, finding.help
    return int(match[1])


@pytest.mark.parametrize("near", [20, 24])
def test_pause(near: int) -> None:
    """The pause that is named is long enough, and a second less is not."""
    (finding,) = found(f"{near} mm", IRON.format(lasts=3, times=9, pause=4))
    pause = named(finding, "`pause: ")

    assert [] == found(f"{near} mm", IRON.format(lasts=3, times=9, pause=pause))
    assert found(f"{near} mm", IRON.format(lasts=3, times=9, pause=pause - 1))


def test_touches() -> None:
    """Where no pause helps, the number of touches that is named does, and one more does not."""
    (finding,) = found("16 mm", IRON.format(lasts=5, times=20, pause=4))
    times = named(finding, "`times: ")

    assert [] == found("16 mm", IRON.format(lasts=5, times=times, pause=4))
    assert found("16 mm", IRON.format(lasts=5, times=times + 1, pause=4))


def test_distance() -> None:
    """Where nothing else helps, the distance that is named is far enough, and so is a longer one."""
    step = IRON.format(lasts=3, times=9, pause=4)
    (finding,) = found("5 mm", step)
    away = named(finding, "From ")

    assert [] == found(f"{away} mm", step) + found(f"{away + 1} mm", step) + found(f"{away + 40} mm", step)
    assert found(f"{away - 1} mm", step)


def test_shield() -> None:
    """Where the stream of hot air is to blame, the shield that is named takes the finding away."""
    (finding,) = found("50 mm", BLOW.format(lasts=60, shield=""))

    assert finding.help.startswith("Write `shield: foil`")
    assert [] == found("50 mm", BLOW.format(lasts=60, shield=", shield: foil"))


def test_time() -> None:
    """The time that is named for hot air is short enough, and a second more is not."""
    near = "{distance: 50 mm, via: air}"
    (finding,) = found("30 mm", BLOW.format(lasts=120, shield=", shield: foil"))
    lasts = named(finding, "`for: ")

    assert [] == found(near, BLOW.format(lasts=60, shield=", shield: cap"))
    assert [] == found("30 mm", BLOW.format(lasts=lasts, shield=", shield: foil"))
    assert found("30 mm", BLOW.format(lasts=lasts + 1, shield=", shield: foil"))


def test_setting_and_measurement() -> None:
    """Of a mat the setting that is named is low enough, and so is what it is kept below by measuring."""
    (finding,) = found("{via: touching}", MAT.format(at=90, hold=""))
    at, hold = named(finding, "`at: "), re.search(r"`(hold: .*?)`\.", finding.help)
    assert hold

    assert [] == found("{via: touching}", MAT.format(at=at, hold=""))
    assert found("{via: touching}", MAT.format(at=at + 1, hold=""))
    assert [] == found("{via: touching}", MAT.format(at=90, hold=f", {hold[1]}"))


def test_measurement_of_a_joint() -> None:
    """What is soldered can keep its neighbour by measuring too, where no number helps."""
    (finding,) = found("{via: touching}", IRON.format(lasts=2, times=1, pause=1))
    hold = re.search(r"`(hold: .*?)`\.", finding.help)
    assert hold

    assert finding.help.startswith("Keep it there by measuring")
    assert [] == found("{via: touching}", IRON.format(lasts=2, times=1, pause=1).replace("}", f", {hold[1]}}}"))


def test_two_measurements() -> None:
    """A step that measures another part already is told to take the neighbour out."""
    hold = ", hold: {part: main-board, below: 100 °C, with: thermocouple}"
    (finding,) = found("{via: touching}", IRON.format(lasts=2, times=1, pause=1).replace("}", f"{hold}}}"))

    assert finding.help == "Take `display` out before, or heat `port` away from it."


def test_sum_of_steps() -> None:
    """Two steps that each leave the neighbour below its limit are too much together, and the second one says so."""
    step = IRON.format(lasts=3, times=9, pause=4)
    (finding,) = found("28 mm", step, step)

    assert finding.place.line == 5
    assert "with what was heated before" in finding.message
    assert [] == found("28 mm", step, "wait: {for: 10 min}", step)


def test_every_fault_is_found() -> None:
    """Of two steps that each are too much both are found; what follows and is harmless by itself is not."""
    much, little = IRON.format(lasts=3, times=9, pause=4), IRON.format(lasts=1, times=1, pause=1)

    lines = [finding.place.line for finding in found("12 mm", much, "wait: {for: 10 min}", much, little)]

    assert [4, 6] == lines


@pytest.mark.parametrize(
    "step",
    [
        IRON.format(lasts=3, times=5000, pause=1),
        "heat: {on: port, tool: microscope, at: 300 °C, for: 30 s}",
    ],
)
def test_strange_steps(step: str) -> None:
    """Thousands of touches and tools that do not heat are judged as well, by the side that is safe."""
    assert 1 == len(found("10 mm", step))


@pytest.mark.parametrize("step", ["solder: {part: port, tool: iron, at: 20 °C, for: 9 s}", "wait: {for: 9 s}"])
def test_nothing_hot(step: str) -> None:
    """What is no hotter than the room warms nothing."""
    assert [] == found("{via: touching}", step)


def test_board_that_is_not_thin() -> None:
    """Where no formula holds the neighbour may be as hot as the source: it is measured, or far away does not help."""
    step = IRON.format(lasts=1, times=1, pause=1)
    files = {
        f"{DOCS}/devices/stilt.yml": DEVICE.format(near="90 mm").replace("0.8 mm", "5 mm"),
        f"{DOCS}/repairs/stilt/example.yml": f"{PROCEDURE}  - {{do: Do it., {step}}}\n",
    }
    (finding,) = (one for one in check(files).findings if one.rule == "overheated-neighbour")

    assert "350 °C" in finding.message
    assert finding.help.startswith("Keep it there by measuring")
