"""What is hot: each part as it is made, the pads that a part has left, and all that was in a warm cabinet."""

from __future__ import annotations

import math

import pytest

from benchleaf.dryrun.hazards import heat
from tests import make
from tests.dryrun.made import after, trace

WET = "- {do: Rinse it., bath: {material: deionised-water, on: main-board, for: 1 min}}\n"
OVEN = "- {{do: Dry it., wait: {{for: {lasts}, until: dry, at: {at}, with: drying-oven}}}}\n"
LIFT = "- {do: Lift the socket., desolder: {part: lamp-socket, tool: iron, at: 350 °C, for: 3 s}}\n"
ROOM, COOL = 21.0, 48.0


def oven(at: str = "60 °C", lasts: str = "1 h") -> str:
    """Return a step that dries in the cabinet."""
    return OVEN.format(at=at, lasts=lasts)


def test_device_out_of_the_cabinet() -> None:
    """What is in the open device comes out as warm as the air, and holds it as long as a whole device does."""
    hot = after(WET + oven()).hot

    # The back shell lies beside it.
    assert {"battery", "main-board", "lamp", "lamp-socket", "lens"} == set(hot)
    assert {60.0} == {one.peak for one in hot.values()}
    assert 1900 * math.log((60 - ROOM) / (COOL - ROOM)) == pytest.approx(hot["main-board"].cool)


# Part and board both 39 K above the room, 40 s and, for 1 mm at 8 W/m²K, 125 s: the two equations, stepped a thousandth
# of a second at a time, come down to 27 K after 84.24 s.
def test_board_alone_out_of_the_cabinet() -> None:
    """A board that is out goes in alone, with what is on it, and cools as a board does."""
    hot = after(WET + oven(), access="bare-board").hot

    assert {"main-board", "lamp-socket"} == set(hot)
    assert 84.24 == pytest.approx(hot["main-board"].cool, rel=0.005)


def test_cooling_begins_when_the_door_opens() -> None:
    """However long it was in there, it cools from the end of the step on, and is cool after the time it needs."""
    wait = after(WET + oven(lasts="9 h")).hot["lens"].cool

    assert after(f"{WET}{oven()}- {{do: Let it cool., wait: {{for: {wait - 1:.0f} s, until: cool}}}}").hot
    assert not after(f"{WET}{oven()}- {{do: Let it cool., wait: {{for: {wait + 1:.0f} s, until: cool}}}}").hot


@pytest.mark.parametrize("step", [oven("48 °C"), "- {do: Wait., wait: {for: 1 h}}\n"])
def test_air_that_is_no_warmer_than_a_hand_bears(step: str) -> None:
    """What comes out of air of 48 °C or less is not hot."""
    assert {} == after(WET + step).hot


@pytest.mark.parametrize(
    ("steps", "access", "spoilt"),
    [
        (WET + oven("65 °C"), "open", {"pack": "too hot"}),
        (WET + oven("60 °C"), "open", {}),
        (WET + oven("65 °C"), "bare-board", {}),
        (oven("65 °C"), "bare-board", {"pack": "too hot"}),
        ("- {do: Lift the pack out., remove: battery}\n" + WET + oven("65 °C"), "open", {}),
    ],
)
def test_pack_in_the_cabinet(steps: str, access: str, spoilt: dict[str, str]) -> None:
    """A pack is spoilt by air above its limit where it is in the device that dries, and beside it it is not."""
    assert spoilt == after(steps, access=access).damaged


def test_bond_that_cures_in_the_cabinet() -> None:
    """A bond that cures brings the device into the cabinet that it is part of."""
    steps = "- {do: Glue it., bond: {bond: lens-bond, with: lens-adhesive}}\n"

    assert "lens" in after(steps + oven(lasts="10 min"), access="bare-board").hot


def test_pads_that_a_part_has_left() -> None:
    """Where a part was lifted off hot, the board is as hot as the part."""
    hot = after(LIFT).hot

    assert {"lamp-socket", "main-board"} == set(hot)
    assert hot["main-board"].peak == hot["lamp-socket"].peak
    # The board spreads its heat, the part has only the air.
    assert hot["main-board"].cool < hot["lamp-socket"].cool


def test_board_cools_alike_wherever_it_lies() -> None:
    """A board that is out is still a board: its pads take no longer than in the device."""
    touch = "- {do: Clean the pads., heat: {tool: iron, at: 350 °C, for: 3 s, on: main-board}}\n"

    assert after(touch).hot["main-board"] == after(touch, access="bare-board").hot["main-board"]


def test_each_part_burns_a_hand_as_it_is_made() -> None:
    """Of parts that were heated together, one of glass may be taken before one of metal."""
    wader = make.WADER.replace(
        "bonds:\n", "  bezel:       {title: Bezel, kind: other, part_of: lens, made_of: steel}\nbonds:\n"
    )
    steps = "- {do: Warm the lens., heat: {tool: heat-mat, at: 75 °C, for: 4 min, on: lens}}\n"

    hot = after(steps, wader=wader).hot

    assert hot["lens"].hand < hot["bezel"].hand < hot["bezel"].cool == hot["lens"].cool


def test_a_short_heat_does_not_shorten_a_long_one() -> None:
    """A part that is heated again a little stays hot for as long as it would have."""
    plate = "- {do: Warm it., heat: {tool: heat-mat, at: 110 °C, for: 4 min, on: main-board}}\n"
    touch = "- {do: Touch it., heat: {tool: iron, at: 110 °C, for: 1 s, on: main-board}}\n"

    assert after(plate).hot["main-board"] == after(plate + touch).hot["main-board"]


def test_hazard_of_the_cabinet() -> None:
    """What comes hot out of the cabinet is a hazard until it bears a hand, and the message says for how long."""
    made = trace(f"{WET}{oven()}- {{do: Let it cool., wait: {{for: 20 min}}}}\n- {{do: Look on., takes: 1 min}}")

    [found] = heat.hazards(made)

    assert "What was in the drying cabinet at {setting} stays too hot for a hand for {cooling}." == found.what
    assert ["steps-2", "steps-3"] == [at.step.id for at in made.straight[found.first : found.last + 1]]
    assert 60 == found.numbers["setting"].central
    assert 1900 * math.log((60 - ROOM) / (51 - ROOM)) == pytest.approx(found.numbers["cooling"].worst)
