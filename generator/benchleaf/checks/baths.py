"""Baths, and what has to come after one: fresh liquid that carries the dirt away, and time or warmth that dries."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.library.substances import SUBSTANCES
from benchleaf.model.action import Bath, Solvent, Wait

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace

_WORK = frozenset({"opening", "work"})


@dataclass(frozen=True, slots=True)
class Bathed:
    """A bath of one way through, and whether it still wants a rinse or a drying when the work is handed over."""

    moment: Moment
    action: Bath
    unrinsed: bool
    undried: bool


@lru_cache(maxsize=1)
def baths(trace: Trace) -> tuple[Bathed, ...]:
    """Return each bath of each way that goes on to the end. Several rules ask, one after the other."""
    return tuple(_baths(trace)) if any(trace.acts(Bath)) else ()


def _baths(trace: Trace) -> Iterator[Bathed]:
    for path in trace.paths(whole=True):
        moments = [moment for moment in path if moment.kind in _WORK]
        for number, moment in enumerate(moments):
            action = moment.step.action
            if isinstance(action, Bath) and _known(trace, action):
                later = moments[number + 1 :]
                unrinsed = _leaves_dirt(trace, action) and not any(_reaches(trace, one, action) for one in later)
                yield Bathed(moment, action, unrinsed, _undried(trace, action, moments, later))


def _known(trace: Trace, action: Bath) -> bool:
    return action.on.text in trace.world.parts and trace.nature.knows(action.material.text)


def _is_tank(trace: Trace, action: Bath) -> bool:
    return action.tool is not None and trace.nature.kind(action.tool.text) == "tank"


def _leaves_dirt(trace: Trace, action: Bath) -> bool:
    """Whether what the bath loosened, or the cleaner itself, stays on the part: not so in a fresh pure liquid."""
    return _is_tank(trace, action) or action.material.text not in SUBSTANCES


def _reaches(trace: Trace, moment: Moment, bath: Bath) -> bool:
    """Whether a later liquid comes to what was bathed: it is a rinse, or a bath that wants one itself."""
    action = moment.step.action
    if not isinstance(action, Bath) and not (isinstance(action, Solvent) and action.material.text in SUBSTANCES):
        return False
    on = action.on.text
    return on == bath.on.text or bath.on.text in trace.world.family.get(on, frozenset())


def _undried(trace: Trace, bath: Bath, moments: Sequence[Moment], later: Sequence[Moment]) -> bool:
    """Whether the part is still wet at the end, no later liquid is to blame, and no step is there to dry it."""
    end = moments[-1].after
    wetted = trace.world.family.get(bath.on.text, frozenset({bath.on.text}))
    if not wetted & set(end.wet) or any(isinstance(one.step.action, Bath | Solvent) for one in later):
        return False
    return not any(_dries(moment) for moment in later)


def _dries(moment: Moment) -> bool:
    action, check = moment.step.action, moment.step.check
    return (isinstance(action, Wait) and action.until == "dry") or (check is not None and check.shows == "dry")
