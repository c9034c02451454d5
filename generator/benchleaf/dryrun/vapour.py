"""
The vapour of a procedure in the air of the bench, as data: after each release.

Computed once and remembered by what goes in: rules judge by it and pages show it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.library.value import Status, Value
from benchleaf.physics import vapour
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
    is the lower explosive limit, ppm, None where the vapour does not burn.
    """

    substance: str
    liquid: float
    mean: Estimate
    short: Value | None
    day: Estimate
    eight: Value | None
    peak: Estimate
    explosive: float | None


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
        puffs = tuple((release.volume, now - release.at) for _, release in own)
        mean, day, peak, explosive = _computed(name, puffs, room, nature.constants)
        short, eight = _limits(nature, name, tuple(release.material for _, release in own))
        yield Gas(name, liquid, mean, short, day, eight, peak, explosive)


@lru_cache(maxsize=4096)
def _computed(
    name: str, puffs: tuple[tuple[float, float], ...], room: Room, constants: Constants
) -> tuple[Estimate, Estimate, Estimate, float | None]:
    """
    Return the worst 15-minute mean, the 8-hour mean and the peak of *puffs*, each a volume and how long ago.

    A window that holds the last puff may hold the earlier ones of its quarter of an hour as well, and begins at most
    that long before: each counts with the most that it can give.
    """
    substance, own = SUBSTANCES[name], constants.vapour
    aged = [(CubicMetres(volume), Seconds(max(0.0, ago - QUARTER_HOUR))) for volume, ago in puffs]
    mean = vapour.window_mean(substance, aged, room, own)
    whole = CubicMetres(sum(volume for volume, _ in puffs))
    day = vapour.day_mean(substance, whole, room, own)
    close = CubicMetres(sum(volume for volume, ago in puffs if ago < _CLOSE))
    peak = vapour.peak(substance, close, room, own)
    # What hung in the air before: a puff only falls, so it is now at most what it was in the quarter before.
    older = [(CubicMetres(volume), past) for (volume, ago), (_, past) in zip(puffs, aged, strict=True) if ago >= _CLOSE]
    peak = _sum(peak, vapour.window_mean(substance, older, room, own))
    explosive = vapour.lower_limit_ppm(substance) if substance.lel else None
    return mean, day, peak, explosive


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
    eight = Value(min(own), "ppm", "the shop's own limit", Status.PRACTICE)
    times = nature.constants.vapour.times_eight_hour.central
    thrice = Value(times * eight.value, "ppm", f"{times:g} x the shop's own limit", Status.PRACTICE)
    return min((limit for limit in (short, thrice) if limit), key=lambda limit: limit.value), eight
