"""
The vapour of a procedure in the air of the bench, as data: after each release.

Computed once and remembered by what goes in: rules judge by it and pages show it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.library.value import Status, Value
from benchleaf.physics import vapour, vapour_cures
from benchleaf.physics.types import Celsius, CubicMetres, Estimate, MetresPerSecond, OutOfRange, PerSecond, Seconds
from benchleaf.physics.vapour import QUARTER_HOUR, Room

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import Release
    from benchleaf.dryrun.trace import Moment
    from benchleaf.physics.constants import Constants


@dataclass(frozen=True, slots=True)
class Gas:
    """
    One substance in the air of the bench when a step has released it, with all that was released before.

    `liquid` is what this step released, m³; `mean` the worst 15 minutes, `day` the mean of 8 hours, `peak` the highest
    within seconds, all ppm. `short` and `eight` are the limits of the two means, None where there is none; `explosive`
    is the lower explosive limit, ppm, None where the vapour does not burn. `most` is how much the step may release
    beside what was released before, m³ rounded down; infinite where no limit is known.
    """

    substance: str
    liquid: float
    mean: Estimate
    short: Value | None
    day: Estimate
    eight: Value | None
    peak: Estimate
    explosive: float | None
    most: float

    @property
    def above_short(self) -> bool:
        """Whether the 15-minute mean is above its limit at the bad end."""
        return self.short is not None and self.mean.worst > self.short.value

    @property
    def above_eight(self) -> bool:
        """Whether the 8-hour mean is above its limit at the bad end."""
        return self.eight is not None and self.day.worst > self.eight.value


@dataclass(frozen=True, slots=True)
class Air:
    """The air of the bench after the releases of one step; `share` is how much of the explosive limit is there."""

    moment: Moment
    gases: tuple[Gas, ...]
    allowed: float

    @property
    def share(self) -> float:
        """The peak as a share of the lower explosive limit at the bad end; several vapours add up (Le Chatelier)."""
        return sum(gas.peak.worst / gas.explosive for gas in self.gases if gas.explosive)

    @property
    def too_much(self) -> bool:
        """Whether any limit is passed."""
        return self.share > self.allowed or any(gas.above_short or gas.above_eight for gas in self.gases)

    @property
    def of_limits(self) -> float:
        """What is there as a share of the limit that it comes nearest to, at the bad end: 1 is all of it."""
        means = ((gas.mean, gas.short) for gas in self.gases)
        days = ((gas.day, gas.eight) for gas in self.gases)
        shares = [mean.worst / limit.value for mean, limit in (*means, *days) if limit]
        return max([self.share / self.allowed, *shares])


@lru_cache(maxsize=256)
def _room(volume: float, air_changes: float, temperature: float, air_speed: float) -> Room | None:
    try:
        return Room(
            CubicMetres(volume), PerSecond(air_changes), Celsius(temperature), MetresPerSecond(air_speed)
        )  # fmt: skip
    except OutOfRange:
        return None


def at_the_bench(nature: Nature, path: Sequence[Moment]) -> Iterator[Air]:
    """Yield the air of the bench after each step of *path* that releases something."""
    here = _room(nature.room_volume, nature.air_changes, nature.temperature, nature.air_speed)
    if here is None:
        return
    for moment in path:
        before, after = moment.before.releases, moment.after.releases
        if len(after) > len(before):
            gases = tuple(_gases(nature, here, after, len(before)))
            if gases:
                yield Air(moment, gases, nature.constants.vapour.share_bench.central)


def _gases(nature: Nature, room: Room, releases: Sequence[Release], before: int) -> Iterator[Gas]:
    now = releases[-1].at
    # The air of the room holds water anyway.
    fresh = {release.substance for release in releases[before:] if not SUBSTANCES[release.substance].is_water}
    for name in sorted(fresh):
        own = [(number, release) for number, release in enumerate(releases) if release.substance == name]
        liquid = sum(release.volume for number, release in own if number >= before)
        earlier = tuple((release.volume, now - release.at) for number, release in own if number < before)
        short, eight = _limits(nature, name, tuple(release.material for _, release in own))
        yield _gas(name, liquid, earlier, short, eight, room, nature.constants)


@lru_cache(maxsize=4096)
def _gas(  # noqa: PLR0913, PLR0917  (the arguments are what the answer is remembered by)
    name: str, liquid: float, earlier: tuple[tuple[float, float], ...], short: Value | None, eight: Value | None,
    room: Room, constants: Constants,
) -> Gas:  # fmt: skip
    """
    Return the gas after a release of *liquid*, with *earlier* ones, each a volume and how long ago.

    A window that holds this release may hold the earlier ones of its quarter of an hour as well, and begins at most
    that long before: each counts with the most that it can give.
    """
    substance, own = SUBSTANCES[name], constants.vapour
    this, past = CubicMetres(liquid), sum(volume for volume, _ in earlier)
    aged = [(CubicMetres(volume), Seconds(max(0.0, ago - QUARTER_HOUR))) for volume, ago in earlier]
    rest = vapour.window_mean(substance, aged, room, own)
    mean = _sum(vapour.short_mean(substance, this, room, own), rest)
    day = vapour.day_mean(substance, CubicMetres(liquid + past), room, own)
    close = sum(volume for volume, ago in earlier if ago < _CLOSE)
    # What hung in the air before: a puff only falls, so it is now at most what it was in the quarter before.
    older = [one for one, (_, ago) in zip(aged, earlier, strict=True) if ago >= _CLOSE]
    left = vapour.window_mean(substance, older, room, own)
    peak = _sum(vapour.peak(substance, CubicMetres(liquid + close), room, own), left)
    explosive = vapour.lower_limit_ppm(substance) if substance.lel else None
    most = [math.inf]
    if short:
        most.append(vapour_cures.most_liquid_short(substance, max(_LITTLE, short.value - rest.worst), room, own))
    if eight:
        most.append(vapour_cures.most_liquid_day(substance, eight.value, room, own) - past)
    if explosive:
        free = max(0.0, 1 - left.worst / (own.share_bench.central * explosive))
        most.append(vapour_cures.most_liquid_peak(substance, room, own) * free - close)
    return Gas(name, liquid, mean, short, day, eight, peak, explosive, max(0.0, min(most)))


@dataclass(frozen=True, slots=True)
class Vapour:
    """A substance that was released: its volumes, m³, each with when, s; its 15-minute and explosive limits, ppm."""

    substance: str
    puffs: tuple[tuple[float, float], ...]
    short: float
    explosive: float


def released(nature: Nature, releases: Sequence[Release]) -> tuple[Vapour, ...]:
    """Return what was released, by substance; a limit that nobody knows is infinite, and water is left out."""
    found = []
    for name in sorted({release.substance for release in releases if not SUBSTANCES[release.substance].is_water}):
        own = [release for release in releases if release.substance == name]
        short, _ = _limits(nature, name, tuple(release.material for release in own))
        explosive = vapour.lower_limit_ppm(SUBSTANCES[name]) if SUBSTANCES[name].lel else math.inf
        puffs = tuple((release.volume, release.at) for release in own)
        found.append(Vapour(name, puffs, short.value if short else math.inf, explosive))
    return tuple(found)


def share_at(nature: Nature, gases: Sequence[Vapour], now: float) -> float:
    """
    Return what hangs in the air of the bench at *now*, s, as a share of the limit that it comes nearest to, bad end.

    It is the mean of the quarter of an hour that begins then, and what of it burns: of what was released within the
    last minute, the highest within seconds. What counts for a whole day stands on the page of the procedure.
    """
    here = _room(nature.room_volume, nature.air_changes, nature.temperature, nature.air_speed) if gases else None
    if here is None:
        return 0.0
    burning, share = 0.0, 0.0
    for gas in gases:
        aged = tuple((volume, max(0.0, now - at)) for volume, at in gas.puffs)
        mean, highest = _hanging(gas.substance, aged, here, nature.constants)
        share = max(share, mean / gas.short)
        burning += highest / gas.explosive
    return max(share, burning / nature.constants.vapour.share_bench.central)


@lru_cache(maxsize=4096)
def _hanging(
    name: str, puffs: tuple[tuple[float, float], ...], room: Room, constants: Constants
) -> tuple[float, float]:
    """Return the mean of the next quarter of an hour and the most within seconds, ppm, bad end; volumes and ages in."""
    substance, own = SUBSTANCES[name], constants.vapour
    aged = tuple((CubicMetres(volume), Seconds(ago)) for volume, ago in puffs)
    mean = vapour.window_mean(substance, aged, room, own).worst
    close = sum(volume for volume, ago in puffs if ago < _CLOSE)
    highest = vapour.peak(substance, CubicMetres(close), room, own).worst if close else 0.0
    older = tuple(
        (CubicMetres(volume), Seconds(max(0.0, ago - QUARTER_HOUR))) for volume, ago in puffs if ago >= _CLOSE
    )
    left = vapour.window_mean(substance, older, room, own).worst if older else 0.0
    return mean, highest + left


_LITTLE = 1e-9  # ppm: what is left of a limit that earlier releases have used up


def _sum(one: Estimate, other: Estimate) -> Estimate:
    return replace(one, central=one.central + other.central, low=one.low + other.low, high=one.high + other.high)


# After a minute the near field has emptied into the room (rate 0.25 /s at 0.1 m/s, 0.13 /s at 0.05 m/s).
_CLOSE = 60.0


def _limits(nature: Nature, name: str, materials: tuple[str, ...]) -> tuple[Value | None, Value | None]:
    """Return the limits of the two means: the shop's own for a material stands for its 8-hour limit."""
    exposure = SUBSTANCES[name].exposure
    short = vapour.short_limit(exposure, nature.exposure_policy, nature.constants.vapour)
    eight = vapour.eight_hour_limit(exposure, nature.exposure_policy)
    own = [
        known.exposure_limit.low * 1e6
        for material in (*materials, name)
        if (known := nature.materials.get(material)) and known.exposure_limit
    ]
    if not own:
        return short, eight
    eight = Value(max(_LITTLE, min(own)), "ppm", "the shop's own limit", Status.PRACTICE)
    times = nature.constants.vapour.times_eight_hour.central
    thrice = Value(times * eight.value, "ppm", f"{times:g} x the shop's own limit", Status.PRACTICE)
    return min((limit for limit in (short, thrice) if limit), key=lambda limit: limit.value), eight
