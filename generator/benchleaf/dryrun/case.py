"""
The vapour that a procedure shuts into a case, as data: a trace that does nothing at the bench can burn in there.

Computed once and remembered by what goes in: rules judge by it and pages show it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.model.action import Fit, Remove, Replace
from benchleaf.model.device import CLOSED
from benchleaf.physics import vapour_cures
from benchleaf.physics.types import Celsius, CubicMetres, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import Fume, Fumes, State
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Access


# A flux is put on by the drop and its carrier boils off under the iron: that much is how soldering is done.
CARRIER = 0.3e-6  # m³
_ROUNDING = 1 + 1e-9


@dataclass(frozen=True, slots=True)
class Shut:
    """
    A case that is shut in a step: what can still burn inside it, as a share of the lower explosive limit.

    `volume` is the free air inside, m³, and None where the level does not say it: then nothing is known of the share.
    """

    moment: Moment
    level: Access
    volume: float | None
    fumes: tuple[tuple[tuple[str, str], Fume], ...]
    share: float | None
    allowed: float

    @property
    def too_much(self) -> bool:
        """Whether what is inside is more than may be shut in."""
        return bool(self.fumes) and (self.share is None or self.share > self.allowed)


def shut_cases(world: World, nature: Nature, path: Sequence[Moment]) -> Iterator[Shut]:
    """Yield each case that *path* shuts, with what can still burn inside."""
    shut: dict[str, int | None] = {}
    for number, moment in enumerate(path):
        level = moment.level
        if moment.kind != "closing" or level is None:
            continue
        if level.id not in shut:
            shut[level.id] = _shuts(path, level)
        if number == shut[level.id]:
            inside = tuple(
                (key, fume) for key, fume in moment.before.fumes.items() if _is_inside(world, moment.before, key[0])
            )
            volume = level.volume.low if level.volume else None
            share = None if volume is None else _share(world, nature, inside, volume)
            yield Shut(moment, level, volume, inside, share, nature.constants.vapour.share_case.central)


def _is_inside(world: World, state: State, part: str) -> bool:
    return not part or (part in world.parts and state.is_in(part))


def _shuts(path: Sequence[Moment], level: Access) -> int | None:
    """
    Return where on *path* the case of *level* is shut: where the last part of its opening comes back.

    A level inside another one shuts no case of its own unless it says how much air is in it.
    """
    if level.volume is None and level.parent.text != CLOSED:
        return None
    taken = {step.action.part.text for step in level.opening if isinstance(step.action, Remove)}
    closing = [at for at, moment in enumerate(path) if moment.kind == "closing" and moment.level is level]
    lids = [
        at for at in closing if isinstance(action := path[at].step.action, Fit | Replace) and action.part.text in taken
    ]
    return (lids or closing)[-1]


def _share(world: World, nature: Nature, inside: Sequence[tuple[tuple[str, str], Fume]], volume: float) -> float:
    """Return the share of the lower explosive limit that what is inside makes; several vapours add up."""
    return sum(
        _case_share(substance.id, left * part, volume, nature.temperature)
        for (name, liquid), fume in inside
        for left in [remaining(world, nature, name, fume)]
        for substance, part in nature.components(liquid)
        if substance.lel and left * part > 0
    )


def remaining(world: World, nature: Nature, name: str, fume: Fume) -> float:
    """Return how much of the liquid of *fume* on part *name* is left, m³ at the bad end."""
    wet = fume.wet
    if wet.volume is not None:
        return wet.volume * wet.left
    film = nature.constants.drying.flooded.central
    return (nature.wetted(world, name, wet) or 0.0) * film * wet.left


def without_small_carriers(world: World, nature: Nature, fumes: Fumes) -> Fumes:
    """Return *fumes* that nobody has seen dry, without the carriers of flux where they are a drop together."""
    seen_wet = tuple(entry for entry in fumes if not entry[1].seen)
    carried = sum(
        remaining(world, nature, part, fume) * share
        for (part, liquid), fume in seen_wet
        if fume.carrier
        for substance, share in nature.components(liquid)
        if substance.flammable
    )
    return tuple(entry for entry in seen_wet if not entry[1].carrier) if carried <= CARRIER * _ROUNDING else seen_wet


@lru_cache(maxsize=4096)
def _case_share(substance: str, liquid: float, case: float, temperature: float) -> float:
    try:
        share = vapour_cures.case_share(
            SUBSTANCES[substance], CubicMetres(liquid), CubicMetres(case), Celsius(temperature)
        )
    except OutOfRange:
        return float("inf")
    return float(share)
