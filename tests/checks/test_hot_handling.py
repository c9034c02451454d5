"""The wait that a finding about a hot part names is long enough, and a shorter one is not."""

from __future__ import annotations

import re

import pytest

from tests.make import EXAMPLE, check

HEAD = """\
title: Example
access: {access}
tools: [iron, heat-mat, drying-oven]
materials: {{isopropanol: 0.2 mL, deionised-water: 0.2 mL}}
steps:
"""
IRON = (
    "  - {{do: Solder it., solder: {{part: lamp-socket, tool: iron, at: 350 °C, for: 3 s, times: {n}, pause: 4 s}}}}\n"
)
LIFT = "  - {do: Lift it., desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}\n"
MAT = "  - {{do: Warm it., heat: {{tool: heat-mat, at: {at} °C, for: 4 min, on: lens}}}}\n"
OVEN = (
    "  - {do: Rinse it., solvent: {material: deionised-water, volume: 0.2 mL, on: lamp-socket, area: 1 cm²}}\n"
    "  - {do: Dry it., wait: {for: 3 h, until: dry, at: 60 °C, with: drying-oven}}\n"
)
HAND = "  - {{do: Wipe it., work: {{kind: wipe, on: {part}}}}}\n"
BAG = "  - {do: Put it in the bag., store: {part: lamp-socket, as: reuse}}\n"
LIQUID = "  - {do: Brush it., solvent: {material: isopropanol, volume: 0.2 mL, on: lamp-socket, area: 1 cm²}}\n"
SHELL = "  - {do: Set it down., fit: back-shell}\n  - {do: Let it cool., wait: {for: 2 h, until: cool}}\n"
CASES = [
    pytest.param(IRON.format(n=1), HAND.format(part="lamp-socket"), "open", id="touch-hand"),
    pytest.param(IRON.format(n=9), HAND.format(part="lamp-socket"), "open", id="touches-hand"),
    pytest.param(IRON.format(n=9), HAND.format(part="lamp-socket"), "bare-board", id="board-out"),
    pytest.param(IRON.format(n=9), LIQUID, "open", id="touches-liquid"),
    pytest.param(IRON.format(n=9), SHELL, "open", id="touches-shell"),
    pytest.param(LIFT, HAND.format(part="main-board"), "open", id="pads-hand"),
    pytest.param(LIFT, BAG, "open", id="lifted-part"),
    pytest.param(MAT.format(at=75), HAND.format(part="lens"), "open", id="mat-hand"),
    pytest.param(MAT.format(at=90), HAND.format(part="lens"), "open", id="hotter-mat"),
    pytest.param(OVEN, HAND.format(part="lens"), "open", id="cabinet-device"),
    pytest.param(OVEN, HAND.format(part="lamp-socket"), "bare-board", id="cabinet-board"),
]


def helps(steps: str, access: str) -> list[str]:
    """Return what is advised about hot parts in *steps*."""
    found = check({EXAMPLE: HEAD.format(access=access) + steps}).findings
    return [one.help for one in found if one.rule == "hot-handling" and "w1" in one.variants]


@pytest.mark.parametrize("first", ["", "  - {do: Wait a little., wait: {for: 20 s}}\n"])
@pytest.mark.parametrize(("heat", "then", "access"), CASES)
def test_named_wait_cures(heat: str, then: str, access: str, first: str) -> None:
    """Written in, the wait that the finding names takes it away."""
    [advice] = helps(heat + first + then, access)
    named = re.search(r"`(wait: .+?)`", advice)
    assert named

    assert [] == helps(f"{heat}{first}  - {{do: Wait on., {named[1]}}}\n{then}", access)


@pytest.mark.parametrize(("heat", "then", "access"), CASES)
def test_shorter_wait_does_not_cure(heat: str, then: str, access: str) -> None:
    """A wait of two thirds of the named one leaves the finding."""
    [advice] = helps(heat + then, access)
    named = re.search(r"for: (\d+) (min|s)", advice)
    assert named
    seconds = int(named[1]) * (60 if named[2] == "min" else 1) * 2 // 3 - (40 if named[2] == "min" else 0)

    assert 1 == len(helps(f"{heat}  - {{do: Wait on., wait: {{for: {seconds} s}}}}\n{then}", access))


def test_nobody_knows_in_a_warm_room() -> None:
    """In a room in which nothing becomes cool by waiting, an eye has to see it."""
    files = {
        EXAMPLE: HEAD.format(access="open") + MAT.format(at=75) + HAND.format(part="lens"),
        "procedures/shop.yml": "name: Shop\nroom: {temperature: 45 °C}\n",
    }

    found = [one.help for one in check(files).findings if one.rule == "hot-handling"]

    assert ["Nobody can say how long this takes: write a check with `shows: cool` before this step."] == [
        one.split(" Or ")[0] for one in found
    ]
