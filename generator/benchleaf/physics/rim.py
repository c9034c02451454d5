"""
What the rim of a small board gives back: a board of known size is mirrored at its sides.

A side that loses nothing acts as a mirror: the board and its pictures fill the plane, each with the same hot spot. The
sum over all pictures of what a spot brings on an endless board is a bound: at the spot itself it is at least as hot as
the tool, through the sides nothing flows, and the comparison principle holds. Nobody says where on the board a part is:
one at the rim is taken to be in the middle of the shorter side, any other in the middle of the board, and its neighbour
in the worst direction.

Against finite differences on rectangles of 60 x 90, 40 x 60, 70 x 110 and 30 x 120 mm (k 50, h 8, 0.8 mm; nine touches
of an iron, 60 s of hot air; 8 to 60 mm away): never below where the part is there or in the middle of the longer side,
1.0 to 2.9 times the truth. Elsewhere the truth can be more, if the tool touches perfectly: 10 mm from a corner 1.1
times the bound, with the whole spot 5 mm inside the rim 1.15 times (60 x 90 mm, iron, 25 mm: 102 K and 90 K here), 6 mm
inside a corner 1.35 times (70 x 110 mm, 60 mm: 37 K and 28 K). A real contact takes 1.2 to 3.5 times off.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from operator import ge, le
from typing import TYPE_CHECKING

from benchleaf.physics.plate import Spot, steady, step
from benchleaf.physics.types import Fraction, Metres, Seconds, above

if TYPE_CHECKING:
    from benchleaf.physics.plate import Plate

_DIRECTIONS = 9
# Pictures farther away than this, m, bring nothing; where more than so many are nearer, all are as hot as the tool.
_FAR = 0.4
_MANY = 60
_NARROWEST = 5e-3
_FIRST, _LAST, _AGES = 0.05, 1e4, 200
_PACE = math.log(_LAST / _FIRST) / (_AGES - 1)


@dataclass(frozen=True, slots=True)
class Walls:
    """
    The mirrors round a heated spot: pictures stand `width` apart across, `period` apart along.

    A neighbour is at most half the width away across, and `reach` along.
    """

    width: Metres
    period: Metres
    reach: Metres


def walls(size: tuple[Metres, Metres], *, at_edge: bool) -> Walls:
    """Return the mirrors of a board of *size* round a part in its middle, or in the middle of its shorter side."""
    short, long = sorted(size)
    above("the width of the board", short * 1e3, _NARROWEST * 1e3, "mm", "a part sits on a board")
    if at_edge:
        return Walls(short, Metres(2 * long), long)
    return Walls(short, long, Metres(long / 2))


def _receivers(mirrors: Walls, distance: float) -> list[tuple[float, float]]:
    """Return where a neighbour can be: in all directions; where none is so far away, in the farthest corner."""
    half, reach = mirrors.width / 2, mirrors.reach
    angles = [math.pi / 2 * index / _DIRECTIONS for index in range(_DIRECTIONS + 1)]
    around = [(distance * math.sin(angle), distance * math.cos(angle)) for angle in angles]
    across, along = distance**2 - half**2, distance**2 - reach**2
    around += [(half, math.sqrt(across))] if across > 0 else []
    around += [(math.sqrt(along), reach)] if along > 0 else []
    slack = 1 + 1e-9
    return [(x, y) for x, y in around if x <= half * slack and y <= reach * slack] or [(half, reach)]


@lru_cache(maxsize=1024)
def _away(mirrors: Walls, distance: Metres) -> tuple[tuple[float, ...], ...]:
    """Return, for each place of the neighbour, how far the spot and its pictures are."""
    across, along = int(_FAR / mirrors.width) + 1, int(_FAR / mirrors.period) + 1
    return tuple(
        tuple(
            far
            for n in range(-across, across + 1)
            for m in range(-along, along + 1)
            if 0 < (far := math.hypot(x - n * mirrors.width, y - m * mirrors.period)) < _FAR
        )
        for x, y in _receivers(mirrors, distance)
    )


@lru_cache(maxsize=1024)
def mirrored_steady(plate: Plate, spot: Spot, mirrors: Walls) -> Fraction:
    """Return a bound on `plate.steady` on a board with sides."""
    best = 0.0
    for pictures in _away(mirrors, spot.distance):
        if len(pictures) > _MANY:
            return Fraction(1.0)
        best = max(best, math.fsum(steady(plate, Spot(spot.radius, Metres(far))) for far in pictures))
    return Fraction(min(1.0, best))


def mirrored_step(plate: Plate, spot: Spot, mirrors: Walls, t: Seconds) -> Fraction:
    """Return a bound on `plate.step` on a board with sides: the sum of its pictures, by straight lines in a table."""
    when = min(math.log(max(t, _SOONEST) / _SOONEST) / _STRIDE, _TIMES - 1.0)
    index = min(int(when), _TIMES - 2)
    part = when - index
    early, late = _sums(plate, spot, mirrors, index), _sums(plate, spot, mirrors, index + 1)
    return Fraction(min(1.0, max(here + (there - here) * part for here, there in zip(early, late, strict=True))))


@lru_cache(maxsize=4096)
def _sums(plate: Plate, spot: Spot, mirrors: Walls, index: int) -> tuple[float, ...]:
    """Return the sum over all pictures at one of the times of the table, for each place of the neighbour."""
    shares = _steps(plate, spot.radius, index)
    if any(len(pictures) > _MANY for pictures in _away(mirrors, spot.distance)):
        return (1.0,)
    return tuple(
        math.fsum(shares[ring] + (shares[ring + 1] - shares[ring]) * rest for ring, rest in pictures)
        for pictures in _rings(mirrors, spot.distance)
    )


@lru_cache(maxsize=1024)
def _rings(mirrors: Walls, distance: Metres) -> tuple[tuple[tuple[int, float], ...], ...]:
    """Return where in the table's distances each of `_away` lies: after which of them, and how far on."""

    def lies(far: float) -> tuple[int, float]:
        place = max(0.0, min(math.log(far / _NEAREST) / _WIDENING, _RINGS - 1.0))
        ring = min(int(place), _RINGS - 2)
        return ring, place - ring

    return tuple(tuple(map(lies, pictures)) for pictures in _away(mirrors, distance))


_SOONEST, _TIMES, _NEAREST, _RINGS = 0.5, 40, 5e-4, 48
_STRIDE = math.log(2e4 / _SOONEST) / (_TIMES - 1)
_WIDENING = math.log(_FAR / _NEAREST) / (_RINGS - 1)


@lru_cache(maxsize=2048)
def _steps(plate: Plate, radius: Metres, index: int) -> tuple[float, ...]:
    """Return `plate.step` at one of the times of the table, for each of its distances."""
    t = Seconds(_SOONEST * math.exp(_STRIDE * index))
    return tuple(step(plate, Spot(radius, Metres(_NEAREST * math.exp(_WIDENING * ring))), t) for ring in range(_RINGS))


@dataclass(frozen=True, slots=True)
class Brought:
    """What a joule brings to a neighbour on a board with sides, by its age: a curve through a table."""

    values: tuple[float, ...]
    """At the ages of the table, each the same times as old as the one before."""

    @property
    def peak(self) -> Seconds:
        """The age at which it brings most."""
        return Seconds(_FIRST * math.exp(_PACE * self._highest))

    @property
    def rises_and_falls(self) -> bool:
        """Whether it does so once: it brings more the older it gets until its peak, and then less."""
        before, after = self.values[: self._highest + 1], self.values[self._highest :]
        return all(map(le, before, before[1:])) and all(map(ge, after, after[1:]))

    @property
    def _highest(self) -> int:
        return max(range(_AGES), key=self.values.__getitem__)

    def at(self, age: float) -> float:
        """Return what it brings at one age."""
        # Asked a hundred thousand times for one base: hence no calls.
        place = 0.0 if age <= _FIRST else min(math.log(age / _FIRST) / _PACE, _AGES - 1.0)
        here = min(int(place), _AGES - 2)
        low = self.values[here]
        return low + (self.values[here + 1] - low) * (place - here)

    def most(self, youngest: float, oldest: float) -> float:
        """Return the most that it brings between two ages."""
        low, high = (min(int(_place(age)), _AGES - 2) for age in (youngest, oldest))
        return max(self.at(youngest), self.at(oldest), *self.values[low + 1 : high + 1])


def _place(age: float) -> float:
    return 0.0 if age <= _FIRST else min(math.log(age / _FIRST) / _PACE, _AGES - 1.0)


@lru_cache(maxsize=256)
def brought(plate: Plate, mirrors: Walls, distance: Metres) -> Brought:
    """
    Return `plate.arriving` on a board with sides, in the worst direction for each age.

    The pictures of a point stand in rows and columns: their sum is the product of one sum across and one along.
    """
    strength = 1 / (4 * math.pi * plate.conductivity * plate.thickness)
    places = _receivers(mirrors, distance)

    def at(age: float) -> float:
        spread = 4 * plate.diffusivity * age
        best = max(_row(x, mirrors.width, spread) * _row(y, mirrors.period, spread) for x, y in places)
        return strength * best * math.exp(-plate.loss_rate * age) / age

    return Brought(tuple(at(_FIRST * math.exp(_PACE * index)) for index in range(_AGES)))


def _row(place: float, apart: float, spread: float) -> float:
    """
    Return the sum of exp(-(place - n apart)²/spread) over all whole n.

    Where the pictures stand close, the same by Poisson's summation: sqrt(pi spread)/apart (1 + 2 sum of
    exp(-pi² m² spread/apart²) cos(2 pi m place/apart)), of which three terms are all that a float holds.
    """
    if spread > 0.3 * apart**2:
        fades, turns = -(math.pi**2) * spread / apart**2, 2 * math.pi * place / apart
        waves = math.fsum(math.exp(fades * m * m) * math.cos(turns * m) for m in (1, 2, 3))
        return math.sqrt(math.pi * spread) / apart * (1 + 2 * waves)
    reach = math.sqrt(40 * spread)
    first, last = math.ceil((place - reach) / apart), math.floor((place + reach) / apart)
    return math.fsum(math.exp(-((place - n * apart) ** 2) / spread) for n in range(first, last + 1))
