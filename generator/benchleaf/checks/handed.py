"""How a procedure hands the device over: at the end of its steps, on each way that leads there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.dryrun.case import shut_cases

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.dryrun.case import Shut
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.step import Step

_BEFORE = {"opening", "work"}


@dataclass(frozen=True, slots=True)
class Handover:
    """The moments of opening and work on one way through, the state before the work, and the state at its end."""

    moments: tuple[Moment, ...]
    entry: State
    end: State

    def last(self, changes: Callable[[Moment], bool]) -> Moment | None:
        """Return the last moment that *changes*, or None where none does: it came so."""
        return next((moment for moment in reversed(self.moments) if changes(moment)), None)


def handovers(trace: Trace) -> Iterator[Handover]:
    """Yield each handover of *trace*: of the straight pass first, then of the repeats that go on."""
    for path in trace.paths(whole=True):
        moments = tuple(moment for moment in path if moment.kind in _BEFORE)
        opened = [moment for moment in moments if moment.kind == "opening"]
        entry = opened[-1].after if opened else trace.start
        yield Handover(moments, entry, moments[-1].after if moments else trace.start)


def after_closing(trace: Trace) -> Iterator[tuple[State, tuple[Moment, ...]]]:
    """Yield, for each way that goes on, the state in which the device is closed, and the moments of the proof."""
    for path in trace.paths(whole=True):
        moments = tuple(moment for moment in path if moment.kind == "prove")
        if moments:
            yield moments[0].before, moments


@lru_cache(maxsize=1)
def shut_in(trace: Trace) -> tuple[Shut, ...]:
    """Return each case that is shut with too much inside. Several rules ask, one after the other."""
    return tuple(_shut_in(trace))


def _shut_in(trace: Trace) -> Iterator[Shut]:
    """Yield them; what one case shuts in is not said of the next."""
    for path in trace.paths(whole=True):
        said: set[tuple[tuple[str, str], str]] = set()
        for case in shut_cases(trace.world, trace.nature, path):
            inside = {(key, fume.step) for key, fume in case.fumes}
            if case.too_much and not inside <= said:
                yield case
                said |= inside


def steps_by_id(trace: Trace) -> dict[str, Step]:
    """Return the steps of every way through by their ids."""
    return {moment.step.id: moment.step for moment in trace.every()}
