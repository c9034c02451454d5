"""The time, the ramp or the temperature that a finding about a profile names cures it, and a little beyond does not."""

from __future__ import annotations

import re

import pytest

from tests.make import DOCS, TOOLS, check

DEVICE = """\
title: Stint
board: {{part: main-board, thickness: {thickness}, solder: {solder}}}
parts:
  lid:        {{title: Lid, kind: shell}}
  main-board: {{title: Main board, kind: board, heat_limit: 300 °C, near: {{}}}}
  chip:       {{title: Chip, kind: package, part_of: main-board, heat_limit: {limit}, near: {{}}}}
access:
  open:
    title: Lid off
    opening: [{{do: Lift the lid., remove: lid}}]
    closing: [{{do: Set the lid down., fit: lid}}]
"""
HOT_AIR = "hot-air: {title: Hot-air station, kind: hot-air, range: 100–480 °C, contact: 8 mm}\n"
HOT_PLATE = "hot-plate: {title: Heating plate, kind: plate, range: 40–300 °C}\n"
HEAD = "title: Example\naccess: open\narrives: {power: off}\nsteps:\n"
CHIP = "heat: {{on: chip, tool: hot-air, at: 380 °C, for: {}, reaches: {}}}"
AIR = "solder: {{part: chip, tool: hot-air, at: 380 °C, for: {lasts}{again}, reaches: {reaches}}}"


def helps(action: str, thickness: str = "0.8 mm", solder: str = "sac305", limit: str = "250 °C") -> list[str]:
    """Return what is advised about the profile of *action*."""
    files = {
        f"{DOCS}/devices/stint.yml": DEVICE.format(thickness=thickness, solder=solder, limit=limit),
        f"{DOCS}/repairs/stint/example.yml": f"{HEAD}  - {{do: Heat it., {action}}}\n",
        f"{DOCS}/tools.yml": TOOLS + HOT_AIR + HOT_PLATE,
    }
    return [one.help for one in check(files).findings if one.rule == "harsh-profile"]


@pytest.mark.parametrize("thickness", ["0.8 mm", "1.6 mm"])
@pytest.mark.parametrize("solder", ["sac305", "sn63pb37"])
@pytest.mark.parametrize("again", ["", ", times: 2, pause: 5 min"])
def test_longest_time(thickness: str, solder: str, again: str) -> None:
    """The time at the most that is named keeps a package within the profile, and 5 % more does not."""
    reaches = "210–220 °C" if solder == "sn63pb37" else "230–240 °C"
    [advice] = helps(AIR.format(lasts="10 min", again=again, reaches=reaches), thickness, solder)
    named = re.fullmatch(r"Write at most (\d+) s\.", advice)
    assert named

    assert [] == helps(AIR.format(lasts=f"{named[1]} s", again=again, reaches=reaches), thickness, solder)
    assert [advice] == helps(
        AIR.format(lasts=f"{int(named[1]) * 1.05:.0f} s", again=again, reaches=reaches), thickness, solder
    )


@pytest.mark.parametrize("reaches", ["150–160 °C", "230–240 °C"])
def test_shortest_time(reaches: str) -> None:
    """The time at the least that is named is gentle enough, and a second less is not."""
    [advice] = helps(AIR.format(lasts="10–20 s", again="", reaches=reaches))
    named = re.fullmatch(r"Write at least (\d+) s\.", advice)
    assert named

    assert [] == helps(AIR.format(lasts=f"{named[1]} s", again="", reaches=reaches))
    assert [advice] == helps(AIR.format(lasts=f"{int(named[1]) - 1} s", again="", reaches=reaches))


def test_time_and_temperature_near_the_peak() -> None:
    """Both ways out that are named of being close to the limit for too long are ways out."""
    [advice] = helps(AIR.format(lasts="120 s", again="", reaches="244–249 °C"))
    named = re.fullmatch(r"Write at most (\d+) s\. Or stop at (\d+) °C\.", advice)
    assert named

    assert [] == helps(AIR.format(lasts=f"{named[1]} s", again="", reaches="244–249 °C"))
    assert [] == helps(AIR.format(lasts="120 s", again="", reaches=f"{named[2]} °C"))


@pytest.mark.parametrize("seconds", [90, 40, 20])
def test_time_at_a_limit_that_has_one(seconds: int) -> None:
    """What a body bears for a time is cured by the time and by the temperature that are named."""
    limit = f"{{at: 245 °C, for: {seconds} s}}"
    [advice] = helps(CHIP.format("100 s", "243 °C"), limit=limit)
    named = re.fullmatch(r"Write at most ([0-9.]+) s\. Or stay below (\d+) °C\.", advice)
    assert named

    assert "at most" not in " ".join(helps(CHIP.format(f"{named[1]} s", "243 °C"), limit=limit))
    assert [] == helps(CHIP.format("100 s", f"{named[2]} °C"), limit=limit)


def test_no_time_is_short_enough() -> None:
    """Where a part takes longer to cool than it bears, only the temperature is a way out."""
    [advice] = helps(CHIP.format("100 s", "243 °C"), limit="{at: 245 °C, for: 5 s}")

    assert advice == "However short it is, it takes too long to cool. Or stay below 240 °C."


def test_ramp_of_a_plate() -> None:
    """A ramp that is written is held against the limit, and the named one is within it."""
    step = "heat: {{on: main-board, tool: hot-plate, at: 150 °C, for: 5 min, ramp: {}}}"

    assert ["Write at most 3 K/s."] == helps(step.format("4 K/s"))
    assert [] == helps(step.format("3 K/s"))


@pytest.mark.parametrize("solder", ["sn42bi58", "sac305"])
def test_nobody_measures(solder: str) -> None:
    """Without what a part reaches there is no time to judge, and an alloy that no standard speaks of has no table."""
    reaches = ", reaches: 200 °C" if solder == "sn42bi58" else ""

    assert [] == helps(f"solder: {{part: chip, tool: hot-air, at: 380 °C, for: 9 min{reaches}}}", solder=solder)


def test_board_that_no_formula_holds_for() -> None:
    """On a board that is not thin nobody can say how a package falls, and nothing is said of it."""
    assert [] == helps(AIR.format(lasts="9 min", again="", reaches="230–240 °C"), thickness="5 mm")
