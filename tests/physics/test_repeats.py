"""Touches with pauses: the bounds, against a board cut into rings whose spot is held when on and free when off."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.physics.plate import Plate
from benchleaf.physics.repeats import Source, Touches, cheap_bound, highest, left_after, lowest_peak
from benchleaf.physics.rim import walls
from benchleaf.physics.types import Kelvins, Metres, OutOfRange, Seconds
from tests.physics.oracles import Rings


class Row(NamedTuple):
    """A train of touches, the truth by finite volumes, and where the bounds were found by another program."""

    name: str
    rise: float
    r: float
    r0: float
    on: float
    off: float
    times: int
    k: float
    h: float
    truth: float
    when: float
    below: float | None
    above: float

    @property
    def plate(self) -> Plate:
        """The board."""
        return Plate(self.k, 2.0e6, self.h, Metres(0.8e-3))

    @property
    def touches(self) -> Touches:
        """The train."""
        return Touches(Kelvins(self.rise), Metres(self.r0 / 1e3), Seconds(self.on), self.times, Seconds(self.off))

    @property
    def source(self) -> tuple[Source, ...]:
        """The train as one heated place."""
        return (Source(Metres((self.r - self.r0) / 1e3), (self.touches,)),)


# Finite volumes, the spot held when on and free when off; bounds by another program of the same formula (2M), 3 %.
# R4's lower bound was tabled as 14.6, the value at the end of the touch; the formula's own maximum is 15.8 at 70 s, so
# that cell is left out.
ROWS = [
    Row("R1", 329, 15, 1, 3, 4, 9, 20, 10, 50.3, 61, 34.9, 70.7),
    Row("R2", 329, 39, 1, 3, 4, 9, 50, 8, 22.9, 65, 16.2, 28.9),
    Row("R3", 318, 81, 1, 3, 5, 4, 50, 8, 2.59, 61, 1.73, 2.93),
    Row("R4", 224, 64, 4, 60, 0, 1, 50, 8, 16.2, 73, None, 18.1),
    Row("R5", 329, 10, 1, 3, 30, 3, 50, 8, 69.1, 69, 63.9, 103.6),
    Row("R6", 329, 39, 1, 3, 0, 1, 50, 8, 4.78, 15, 3.48, 5.10),
]
rows = pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)


@pytest.mark.outside
@rows
def test_bounds_hold_the_truth(row: Row) -> None:
    """The lower bound is not above the tabled truth, nor the upper one below it."""
    assert lowest_peak(row.plate, row.source) <= 1.005 * row.truth
    assert highest(row.plate, row.source) >= 0.995 * row.truth


@pytest.mark.outside
@rows
def test_upper_bound(row: Row) -> None:
    """The upper bound is what another program of the formula found."""
    assert row.above == pytest.approx(highest(row.plate, row.source), rel=0.03)


@pytest.mark.outside
@pytest.mark.parametrize("row", [row for row in ROWS if row.below is not None], ids=lambda row: row.name)
def test_lower_bound(row: Row) -> None:
    """The lower bound is what another program of the formula found, and so is the value between."""
    assert row.below is not None
    below, above = lowest_peak(row.plate, row.source), highest(row.plate, row.source)

    assert row.below == pytest.approx(below, rel=0.03)
    assert math.sqrt(row.below * row.above) == pytest.approx(math.sqrt(below * above), rel=0.03)


@pytest.mark.outside
@rows
def test_truth_again(row: Row) -> None:
    """A board cut into rings here reaches the tabled truth within 1 %, and lies between the bounds."""
    rings = Rings(row.plate, row.r0 / 1e3, 0.3)

    truth = rings.peak(row.touches, row.r / 1e3, row.when * 1.15)

    assert row.truth == pytest.approx(truth, rel=0.01)
    assert lowest_peak(row.plate, row.source) <= 1.005 * truth
    assert highest(row.plate, row.source) >= 0.995 * truth


@pytest.mark.outside
@pytest.mark.parametrize(
    ("r", "r0", "on", "off", "times"),
    [(12, 1, 2, 2, 15), (25, 1.5, 5, 10, 4), (30, 4, 30, 30, 2), (50, 2, 4, 0.5, 10)],
)
def test_bracket_in_other_cases(r: float, r0: float, on: float, off: float, times: int) -> None:
    """In trains that nobody tabled the truth also lies between, and their mean is within a quarter of it."""
    row = Row("", 250, r, r0, on, off, times, 30, 9, 0, 0, None, 0)
    truth = Rings(row.plate, r0 / 1e3, 0.3).peak(row.touches, r / 1e3, row.touches.end + 60)
    below, above = lowest_peak(row.plate, row.source), highest(row.plate, row.source)

    assert below <= 1.005 * truth
    assert above >= 0.995 * truth
    assert math.sqrt(below * above) == pytest.approx(truth, rel=0.25)


@pytest.mark.outside
def test_what_is_left() -> None:
    """What the bound says is left after the last touch is never less than finite volumes show, nor twice as much."""
    row = ROWS[1]
    times, seen = Rings(row.plate, 1e-3, 0.3).history(row.touches, 39e-3, row.touches.end + 240)
    looked = [row.touches.end + after for after in (60.0, 180.0, 240.0)]
    truths = [float(np.interp(moment, times, seen)) for moment in looked]

    left = [left_after(row.plate, row.source, Seconds(moment)) for moment in looked]

    assert all(truth <= bound <= 2 * truth for truth, bound in zip(truths, left, strict=True))


def test_far_neighbour_warms_after_the_touch() -> None:
    """A far place is hotter some time after one short touch than at the end of it."""
    row = ROWS[5]
    at_end = left_after(row.plate, row.source, Seconds(3.0))

    assert at_end < 0.2 < highest(row.plate, row.source)


def test_second_place_adds() -> None:
    """Two places heated after each other warm a neighbour more than either, and less than both at their worst."""
    row = ROWS[1]
    later = Touches(Kelvins(224.0), Metres(4e-3), Seconds(30.0), start=Seconds(120.0))
    other = (Source(Metres(30e-3), (later,)),)

    both = highest(row.plate, row.source + other)
    alone = highest(row.plate, row.source), highest(row.plate, other)

    assert max(alone) < both <= sum(alone) * 1.02


def test_second_step_at_one_place_adds() -> None:
    """A second step on the same part adds to what the first one left."""
    row = ROWS[1]
    again = Touches(Kelvins(329.0), Metres(1e-3), Seconds(3.0), 9, Seconds(4.0), Seconds(90.0))
    both = (Source(row.source[0].distance, (row.touches, again)),)

    assert highest(row.plate, row.source) < highest(row.plate, both)


def test_never_beyond_the_source() -> None:
    """However many sources and whatever the rim gives back, nothing gets hotter than the hottest of them."""
    sides = walls((Metres(30e-3), Metres(30e-3)), at_edge=False)
    near = Source(Metres(1e-4), (Touches(Kelvins(200.0), Metres(4e-3), Seconds(300.0)),), sides)

    assert 200.0 == highest(ROWS[1].plate, (near, near))
    assert 200.0 == cheap_bound(ROWS[1].plate, (near, near))


@rows
def test_cheap_bound(row: Row) -> None:
    """The bound that costs nothing is never below the one that costs something."""
    assert highest(row.plate, row.source) <= cheap_bound(row.plate, row.source)


@settings(deadline=None, max_examples=25)
@given(
    near=st.floats(2e-3, 60e-3),
    farther=st.floats(1.05, 2.0),
    on=st.floats(1.0, 60.0),
    times=st.integers(1, 10),
)
def test_farther_is_cooler(near: float, farther: float, on: float, times: int) -> None:
    """A neighbour farther away is never hotter."""
    plate = Plate(50.0, 2.0e6, 8.0, Metres(0.8e-3))
    touches = (Touches(Kelvins(300.0), Metres(1e-3), Seconds(on), times, Seconds(4.0)),)

    far = highest(plate, (Source(Metres(near * farther), touches),))

    # The grid of time is another one at another distance, and worth a percent.
    assert far <= 1.01 * highest(plate, (Source(Metres(near), touches),))


@settings(deadline=None, max_examples=20)
@given(on=st.floats(1.0, 40.0), longer=st.floats(1.1, 3.0), times=st.integers(1, 8))
def test_longer_is_hotter(on: float, longer: float, times: int) -> None:
    """Longer touches, or one more of them, never leave a neighbour cooler."""
    plate = Plate(20.0, 2.0e6, 10.0, Metres(0.8e-3))

    def bound(lasts: float, count: int) -> float:
        touches = Touches(Kelvins(300.0), Metres(1e-3), Seconds(lasts), count, Seconds(3.0))
        return highest(plate, (Source(Metres(15e-3), (touches,)),))

    assert bound(on, times) <= 1.01 * bound(on * longer, times)
    assert bound(on, times) <= 1.01 * bound(on, times + 1)


def test_too_many_touches() -> None:
    """A number of touches that would take for ever to sum is refused."""
    with pytest.raises(OutOfRange, match="the number of touches"):
        Touches(Kelvins(300.0), Metres(1e-3), Seconds(1.0), 2000)
