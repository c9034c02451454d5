"""Every hazard of a trace, in the order of its steps."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards import (
    battery,
    biological,
    chemical,
    data,
    esd,
    eye,
    fumes,
    glass,
    heat,
    ignition,
    lead,
    magnet,
    property_,
    sharp,
    stored_energy,
    vapour,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.dryrun.hazards.kind import Hazard
    from benchleaf.dryrun.trace import Trace

# In the order of gravity, which is the order of messages before one step.
ROOMS = (
    battery, stored_energy, ignition, lead, heat, vapour, fumes, chemical, glass, eye, sharp, biological,
    data, property_, esd, magnet,
)  # fmt: skip
_ORDER = ("danger", "warning", "caution", "notice")


@lru_cache(maxsize=4)
def hazards(trace: Trace) -> tuple[Hazard, ...]:
    """Return all hazards of the straight pass of *trace*: by where they begin, then by their signal word."""
    found = chain.from_iterable(room.hazards(trace) for room in ROOMS)
    return tuple(sorted(found, key=lambda one: (one.first, _ORDER.index(one.signal))))


@lru_cache(maxsize=4)
def said_once(trace: Trace) -> tuple[Hazard, ...]:
    """Return the hazards of *trace* as they are told: each once for as long as the same words hold."""
    return tuple(_once(hazards(trace)))


def at_most_dangers(trace: Trace) -> int:
    """
    Return how many DANGERs can stand before one step of *trace* at most.

    Only what is known to be damaged is certain to do harm, and no step tells two of one pack.
    """
    return sum(reason == battery.CERTAIN for reason in trace.start.damaged.values())


def _once(found: Iterable[Hazard]) -> list[Hazard]:
    """Leave out what is already in force in the same words: the one that lasts longer stands."""
    said: list[Hazard] = []
    for one in found:
        before = next((other for other in said if _same(other, one) and one.first <= other.last + 1), None)
        if before is None:
            said.append(one)
        elif one.last > before.last:
            said[said.index(before)] = replace(before, last=one.last)
    return said


def _same(one: Hazard, other: Hazard) -> bool:
    return (one.hazard, one.signal, one.what, one.avoid, one.numbers) == (
        other.hazard, other.signal, other.what, other.avoid, other.numbers
    )  # fmt: skip
