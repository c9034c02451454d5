"""
Many touches with pauses: bounds on what a place beside them reaches, also after the last one.

Between two touches the spot is free: it is neither held hot nor held at the temperature of the room. So the truth
lies between two sums, by the comparison principle of the heat equation:

* below: each touch adds step(t) - step(t - on), as if the spot were held cold in the pauses;
* above: at each moment the lower of a hold without pauses, and of the heat that each touch by itself would give to a
  cold board, spread from the edge of the spot.

Against finite volumes on a radial plate: below <= truth <= above in every case tried, above is 0 to 55 % high, and
the square root of their product is within -12 and +19 % of the truth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from benchleaf.physics.ages import Ages
from benchleaf.physics.curve import step_curve
from benchleaf.physics.plate import Plate, Spot, dose, steady, step
from benchleaf.physics.rim import brought, mirrored_steady, mirrored_step
from benchleaf.physics.types import Kelvins, Metres, Seconds, above, within

if TYPE_CHECKING:
    from benchleaf.physics.rim import Walls

_SLICES = 6
_CELLS = 150
_MOST_TOUCHES = 1000
_NONE = Seconds(0.0)


@dataclass(frozen=True, slots=True)
class Touches:
    """A tool set down `times` times: how much hotter than the board, on what radius, for how long, from when."""

    rise: Kelvins
    radius: Metres
    on: Seconds
    times: int = 1
    pause: Seconds = _NONE
    start: Seconds = _NONE

    def __post_init__(self) -> None:
        """Refuse touches that heat nothing."""
        above("the rise of the source", self.rise, 0, "K", "a tool no hotter than the room heats nothing")
        above("the time of a touch", self.on, 0, "s", "nothing has happened yet")
        within("the number of touches", self.times, (1, _MOST_TOUCHES), "", "more take too long to sum")

    @property
    def starts(self) -> tuple[float, ...]:
        """When each touch begins."""
        return tuple(self.start + index * (self.on + self.pause) for index in range(self.times))

    @property
    def end(self) -> float:
        """When the last touch ends."""
        return self.start + self.times * self.on + (self.times - 1) * self.pause


@dataclass(frozen=True, slots=True)
class Source:
    """
    One heated place, seen from a neighbour at `distance` from its edge: all that is done to it, in one list.

    `mirrors` are the sides of the board, None for a board without end; `share` is what the neighbour takes of what the
    board has there (1 where it is part of the board).
    """

    distance: Metres
    touches: tuple[Touches, ...]
    mirrors: Walls | None = None
    share: float = 1.0

    @property
    def hottest(self) -> Kelvins:
        """The highest rise of its touches."""
        return Kelvins(max(touch.rise for touch in self.touches))

    @property
    def widest(self) -> Spot:
        """Its widest spot: a wider one at the same distance from the edge heats more."""
        return Spot(Metres(max(touch.radius for touch in self.touches)), self.distance)


@dataclass(frozen=True, slots=True)
class _Grid:
    """The moments looked at: from 0 until the farthest place has seen its peak."""

    width: float
    cells: int


def _grid(plate: Plate, sources: tuple[Source, ...], later: float = 0.0, coarse: int = 1) -> _Grid:
    """Return the grid, or one *coarse* times as wide, each of whose cells covers whole cells of the first."""
    horizon = later + max(
        max(touch.end + touch.on + touch.pause for touch in source.touches)
        + Ages.of(plate, source.distance, source.mirrors).peak
        for source in sources
    )
    width = max(1.0, horizon / _CELLS)
    return _Grid(width * coarse, math.ceil(math.ceil(horizon / width) / coarse))


def _ages(plate: Plate, source: Source) -> Ages:
    return Ages.of(plate, source.distance, source.mirrors)


def cheap_bound(plate: Plate, sources: tuple[Source, ...]) -> Kelvins:
    """Return a bound that takes no time to have: every place held for ever, or all heat at once. Bad end: high."""
    return Kelvins(min(sum(_cheap(plate, source) for source in sources), _hottest(sources)))


def _cheap(plate: Plate, source: Source) -> float:
    if source.mirrors is None:
        return source.share * source.hottest * steady(plate, source.widest)
    held = source.hottest * mirrored_steady(plate, source.widest, source.mirrors)
    most = brought(plate, source.mirrors, source.distance)
    given = sum(touch.rise * touch.times * math.fsum(slices(plate, touch.radius, touch.on)) for touch in source.touches)
    return source.share * min(held, given * most.most(most.peak, most.peak))


def _hottest(sources: tuple[Source, ...]) -> float:
    return max(source.hottest for source in sources)


@lru_cache(maxsize=512)
def highest(plate: Plate, sources: tuple[Source, ...], coarse: int = 1) -> Kelvins:
    """
    Return the upper bound over all time on the rise at a neighbour of all *sources*. Bad end: high.

    On cells of time that are *coarse* times as wide it is never lower, and takes that much less time.

    With several places the sum of their bounds, each at the same moment: each place alone is bounded by its own, and
    their sum is as hot as each tool where that tool stands.
    """
    grid = _grid(plate, sources, coarse=coarse)
    spread = [_spread(plate, source, grid) for source in sources]
    known: list[dict[int, float]] = [{} for _ in sources]

    def held(number: int, cell: int) -> float:
        if cell not in known[number]:
            known[number][cell] = _held(plate, sources[number], Seconds((cell + 1) * grid.width))
        return known[number][cell]

    def could_be(cell: int) -> float:
        """Return a bound on the cell from what is known: a hold of a longer time is never cooler."""
        return sum(
            min([spread[n][cell], *(value for later, value in known[n].items() if later >= cell)]) * sources[n].share
            for n in range(len(sources))
        )

    best = 0.0
    for cell in sorted(range(grid.cells), key=lambda cell: -sum(column[cell] for column in spread)):
        if could_be(cell) > best:
            best = max(best, sum(
                source.share * min(spread[n][cell], held(n, cell), source.hottest)
                for n, source in enumerate(sources)
            ))  # fmt: skip
    return Kelvins(min(best, _hottest(sources)))


@dataclass(frozen=True, slots=True)
class Layer:
    """A battery over the board: the contact that it takes heat through and the loss at its back, W/m²K; J/m²K."""

    contact: float
    back: float
    capacity: float


@lru_cache(maxsize=512)
def highest_behind(plate: Plate, sources: tuple[Source, ...], layer: Layer, coarse: int = 1) -> Kelvins:
    """
    Return the upper bound on the rise of a *layer* that takes its heat from the board where that is hottest.

    C dT/dt = U (board - T) - h T with the upper bound of the board, as if the layer took nothing off it. Bad end: high.
    *coarse* as in `highest`: while the board is taken to be at one temperature the layer is hottest at the end of it.
    """
    pace = (layer.contact + layer.back) / layer.capacity
    share = layer.contact / (layer.contact + layer.back)
    grid = _grid(plate, sources, 3 / pace, coarse)
    spread = [_spread(plate, source, grid) for source in sources]
    follows, most = -math.expm1(-pace * grid.width), _hottest(sources)
    rise = peak = 0.0
    for cell in range(grid.cells):
        moment = Seconds((cell + 1) * grid.width)
        board = sum(min(spread[n][cell], _held(plate, source, moment)) for n, source in enumerate(sources))
        rise += follows * (share * min(board, most) - rise)
        peak = max(peak, rise)
    return Kelvins(peak)


def _held(plate: Plate, source: Source, t: Seconds) -> float:
    """Return the rise if the hottest, widest tool had been held there from the first moment on."""
    begins = min(touch.start for touch in source.touches)
    if t <= begins:
        return 0.0
    lasts, mirrors = Seconds(t - begins), source.mirrors
    if mirrors is None:
        return source.hottest * step(plate, source.widest, lasts)
    return source.hottest * mirrored_step(plate, source.widest, mirrors, lasts)


def _spread(plate: Plate, source: Source, grid: _Grid) -> list[float]:
    """Return, for each cell of time, the most that the heat of all touches can have brought there."""
    ages = _ages(plate, source)
    cells = [0.0] * grid.cells
    for touch in source.touches:
        # Touches that begin equally late in their cells bring the same, cell by cell: most do, as times are whole.
        known: dict[float, list[float]] = {}
        for start in touch.starts:
            first = int(start / grid.width)
            late = round(start - first * grid.width, 9)
            if late not in known:
                known[late] = _spread_by_one(plate, touch, late, grid, ages)
            for cell, brings in enumerate(known[late][: grid.cells - first], start=first):
                cells[cell] += brings
    return cells


def _spread_by_one(plate: Plate, touch: Touches, start: float, grid: _Grid, ages: Ages) -> list[float]:
    """Return what one touch that begins at *start*, in the first cell, can have brought by each cell of time."""
    cells = [0.0] * grid.cells
    for number, heat in enumerate(slices(plate, touch.radius, touch.on)):
        begin = start + number * touch.on / _SLICES
        end = begin + touch.on / _SLICES
        given = touch.rise * heat
        for cell in range(int(begin / grid.width), grid.cells):
            # The heat is some age between these two when the moment lies somewhere in the cell.
            youngest = cell * grid.width - end
            oldest = (cell + 1) * grid.width - begin
            if oldest <= ages.rises_until:
                cells[cell] += given * ages.at(oldest)
            elif youngest >= ages.falls_from:
                cells[cell] += given * ages.at(youngest)
            else:
                cells[cell] += given * ages.most(max(0.0, youngest), oldest)
    return cells


@lru_cache(maxsize=512)
def slices(plate: Plate, radius: Metres, on: Seconds) -> tuple[float, ...]:
    """Return the heat that each sixth of a touch puts into a cold board, J/K."""
    sums = [dose(plate, radius, Seconds(number * on / _SLICES)) for number in range(_SLICES + 1)]
    return tuple(after - before for before, after in pairwise(sums))


@lru_cache(maxsize=512)
def lowest_peak(plate: Plate, sources: tuple[Source, ...]) -> Kelvins:
    """
    Return the highest moment of the lower bound. The kind end: no verdict of harm may rest on it alone.

    It is a bound for one place; with several it leaves out that a warm board takes less heat, and is an estimate.
    """
    grid = _grid(plate, sources)
    until = grid.width * grid.cells
    spots = {Spot(touch.radius, source.distance) for source in sources for touch in source.touches}
    curves = {spot: step_curve(plate, spot, until) for spot in spots}
    pulses = [
        (touch.rise, touch.on, touch.starts, curves[Spot(touch.radius, source.distance)])
        for source in sources
        for touch in source.touches
    ]
    peak = max(
        sum(
            rise * (curve(moment - start) - curve(moment - start - on))
            for rise, on, starts, curve in pulses
            for start in starts
            if start < moment
        )
        for moment in (cell * grid.width for cell in range(1, grid.cells + 1))
    )
    return Kelvins(min(peak, _hottest(sources)))


@lru_cache(maxsize=512)
def left_after(plate: Plate, sources: tuple[Source, ...], t: Seconds) -> Kelvins:
    """Return a bound on what is left of the rise at the moment *t*, counted from the first start. Bad end: high."""
    total = 0.0
    for source in sources:
        most, dosed = _ages(plate, source).most, 0.0
        for touch in source.touches:
            for start in touch.starts:
                for number, heat in enumerate(slices(plate, touch.radius, touch.on)):
                    oldest = t - start - number * touch.on / _SLICES
                    youngest = max(0.0, oldest - touch.on / _SLICES)
                    dosed += touch.rise * heat * most(youngest, oldest)
        total += source.share * min(dosed, _held(plate, source, t), source.hottest)
    return Kelvins(min(total, _hottest(sources)))
