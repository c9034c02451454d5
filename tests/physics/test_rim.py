"""Small boards: against a rectangle cut into squares, and the tables against the sums that they stand for."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.physics.ages import Ages
from benchleaf.physics.heat import Board, Heated, neighbour_rise, rise_bound, rise_left
from benchleaf.physics.plate import Plate, Spot, kernel, steady, step
from benchleaf.physics.rim import brought, mirrored_steady, mirrored_step, walls
from benchleaf.physics.types import Metres, OutOfRange, Seconds
from tests.physics.cases import HEAT, hot_air, iron
from tests.physics.rectangles import Rectangle

WORST = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
SIZE = (Metres(40e-3), Metres(60e-3))
SMALL = Board(Metres(0.8e-3), SIZE)
GODWIT = Board(Metres(0.8e-3), (Metres(60e-3), Metres(90e-3)))
SPOT = Metres(1e-3)


# Finite differences on a rectangle with insulated sides, cells of 0.5 mm; k 50, h 8, 0.8 mm.
@pytest.mark.outside
@pytest.mark.parametrize("distance", [8, 25, 50])
@pytest.mark.parametrize(
    ("tool", "where", "at_edge"),
    [(iron, (20, 0), True), (iron, (0, 30), True), (iron, (20, 30), False), (hot_air, (20, 0), True)],
    ids=["short side", "long side", "middle", "hot air"],
)
def test_bound_on_a_rectangle(tool: type, where: tuple[float, float], at_edge: bool, distance: float) -> None:  # noqa: FBT001 (pytest gives it by name)
    """On a small rectangle the bound holds, and is at most twice as high as what a board cut into squares shows."""
    place: Heated = replace(tool(distance), at_edge=at_edge)
    # In the middle nothing is 50 mm away: the farthest corner stands for it.
    near = min(distance, math.hypot(max(where[0], 40 - where[0]), max(where[1], 60 - where[1])) - 4.5)
    truth = Rectangle(WORST, (0.04, 0.06), (where[0] / 1e3, where[1] / 1e3)).peak(place.touches[0], near / 1e3)

    found = neighbour_rise((place,), SMALL, HEAT)

    assert 0.99 * truth <= found.worst <= 2.0 * truth


# The same: 65 K at 25 mm from a joint at the rim of 60 x 90 mm, where a board without sides gives 52 K.
@pytest.mark.outside
def test_joint_at_the_shorter_side() -> None:
    """Near the shorter side a board without end is too cool, and the mirrored one is not."""
    place = replace(iron(25), at_edge=True)
    truth = Rectangle(WORST, (0.06, 0.09), (0.03, 0.0)).peak(place.touches[0], 25e-3)

    mirrored, endless = (neighbour_rise((place,), board, HEAT).worst for board in (GODWIT, replace(GODWIT, size=None)))

    assert 65 == pytest.approx(truth, abs=1)
    assert endless < 0.85 * truth < truth <= mirrored < 1.5 * truth


# The same with the central constants: k 20, h 10.
@pytest.mark.outside
@pytest.mark.parametrize("distance", [8, 15, 30, 45])
def test_estimate_on_a_rectangle(distance: float) -> None:
    """The estimate is within a fifth of what a board cut into squares shows, and that is within the ends."""
    place = replace(iron(distance), at_edge=True)
    plate = Plate(20.0, 2.0e6, 10.0, Metres(0.8e-3))
    truth = Rectangle(plate, (0.04, 0.06), (0.02, 0.0)).peak(place.touches[0], distance / 1e3)

    found = neighbour_rise((place,), SMALL, HEAT)

    assert truth == pytest.approx(found.central, rel=0.22)
    assert found.low < truth < found.high


@pytest.mark.parametrize("at_edge", [True, False])
def test_large_board_is_endless(at_edge: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """On a board of a metre the sides give nothing back."""
    board = Board(Metres(0.8e-3), (Metres(1.0), Metres(1.2)))
    place = replace(iron(25), at_edge=at_edge)

    found, endless = (neighbour_rise((place,), one, HEAT) for one in (board, replace(board, size=None)))

    assert endless.worst == pytest.approx(found.worst, rel=0.01)
    assert endless.central == pytest.approx(found.central, rel=0.01)


@pytest.mark.parametrize("t", [2.0, 30.0, 300.0])
def test_table_of_steps(t: float) -> None:
    """The table of steps gives the sum over the pictures: within two percent, and not below."""
    mirrors = walls(SIZE, at_edge=True)
    pictures = [math.hypot(20e-3 - n * 40e-3, m * 120e-3) for n in range(-9, 11) for m in range(-4, 5)]
    wanted = math.fsum(step(WORST, Spot(SPOT, Metres(one)), Seconds(t)) for one in pictures if one < 0.4)

    found = mirrored_step(WORST, Spot(SPOT, Metres(20e-3)), mirrors, Seconds(t))

    assert min(1.0, 0.995 * wanted) <= found


@pytest.mark.parametrize(("youngest", "oldest"), [(3.0, 3.0), (40.0, 41.0), (0.0, 400.0)])
def test_table_of_ages(youngest: float, oldest: float) -> None:
    """What a joule brings is the sum over the pictures, the most of all ages and directions."""
    mirrors = walls(SIZE, at_edge=False)
    ages = [max(youngest, 0.1) + (oldest - max(youngest, 0.1)) * index / 400 for index in range(401)]
    directions = [math.pi / 2 * index / 9 for index in range(10)]
    wanted = max(
        math.fsum(
            kernel(WORST, Metres(math.hypot(15e-3 * math.sin(angle) - n * 40e-3, 15e-3 * math.cos(angle) - m * 60e-3)),
                   Seconds(age))
            for n in range(-8, 9) for m in range(-6, 7)
        )
        for age in ages[:: 1 if youngest != oldest else 400] for angle in directions
    )  # fmt: skip

    assert wanted == pytest.approx(brought(WORST, mirrors, Metres(15e-3)).most(youngest, oldest), rel=0.02)


@pytest.mark.parametrize("millimetres", [2.0, 15.0, 60.0])
def test_most_of_two_ages_by_one_look(millimetres: float) -> None:
    """On one side of the peak the older or the younger age brings the most, as the whole table between them says."""
    ages = Ages.of(WORST, Metres(millimetres / 1e3), walls(SIZE, at_edge=False))

    for age in (0.3, 2.0, 9.0, 40.0, 170.0, 900.0):
        young, old = age, 1.3 * age
        if old <= ages.rises_until:
            assert ages.most(young, old) == ages.at(old)
        if young >= ages.falls_from:
            assert ages.most(young, old) == ages.at(young)
    assert ages.at(ages.peak) == pytest.approx(ages.most(0.0, 5000))


def test_steady() -> None:
    """Held for ever a mirrored board is hotter than an endless one, and never hotter than the tool."""
    mirrors, spot = walls((Metres(0.1), Metres(0.15)), at_edge=True), Spot(SPOT, Metres(40e-3))

    assert steady(WORST, spot) < mirrored_steady(WORST, spot, mirrors) <= 1
    assert 1.0 == mirrored_steady(WORST, spot, walls((Metres(0.01), Metres(0.01)), at_edge=False))


@settings(deadline=None, max_examples=20)
@given(near=st.floats(2, 60), farther=st.floats(2, 30), short=st.floats(20, 80), long=st.floats(80, 160))
def test_farther_is_cooler_on_a_small_board(near: float, farther: float, short: float, long: float) -> None:
    """On a small board too a neighbour farther away is never hotter, and the cheap bound never below."""
    board = Board(Metres(0.8e-3), (Metres(long / 1e3), Metres(short / 1e3)))

    close, far = (neighbour_rise((iron(one),), board, HEAT) for one in (near, near + farther))

    assert far.worst <= 1.02 * close.worst
    assert close.worst <= rise_bound((iron(near),), board, HEAT) * 1.001


def test_what_lies_beside_takes_less() -> None:
    """What is no part of the board takes ten elevenths of it at the most, and never less than on an endless one."""
    on, beside = (neighbour_rise((replace(iron(40), beside=one),), GODWIT, HEAT).worst for one in (False, True))
    endless = neighbour_rise((iron(40),), replace(GODWIT, size=None), HEAT).worst

    assert on * 10 / 11 == pytest.approx(beside)
    assert endless < beside


def test_what_is_left_on_a_small_board() -> None:
    """A small board keeps more of the heat, and loses it too."""
    small, endless = (
        [rise_left((iron(25),), board, Seconds(59.0 + after), HEAT) for after in (60, 180)]
        for board in (SMALL, replace(SMALL, size=None))
    )

    assert small[0] > endless[0] > 0
    assert small[0] > small[1] > endless[1]


@pytest.mark.parametrize("size", [(0.0, 0.06), (0.004, 0.06), (-0.04, 0.06)])
def test_no_board(size: tuple[float, float]) -> None:
    """A board that is narrower than a tool is refused."""
    with pytest.raises(OutOfRange, match="the width of the board"):
        walls((Metres(size[0]), Metres(size[1])), at_edge=False)
