"""Every hazard of a trace, in the order of its steps."""

from __future__ import annotations

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
