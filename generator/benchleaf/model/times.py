"""How long a step lasts, how long a procedure keeps hands busy and how long it waits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.action import Bath, Heat, Wait

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.model.step import Step
    from benchleaf.units.quantity import Duration

# A step that says nothing of its time takes between nothing and this (the format's own rule), in seconds.
UNSAID = 60.0


@dataclass(frozen=True, slots=True)
class Span:
    """An interval of time, s."""

    low: float = 0.0
    high: float = 0.0

    def __add__(self, other: Span) -> Span:
        """Return both one after the other."""
        return Span(self.low + other.low, self.high + other.high)


def span(step: Step) -> Span:
    """
    Return how long *step* lasts: its wait, or its heating with pauses, or `takes`; without any 0 to 60 s.

    `takes` includes the others and may not be less; where it is, the longer stands.
    """
    own = _own(step)
    if step.takes is None:
        return own or Span(0.0, UNSAID)
    taken = _said(step.takes)
    return taken if own is None else Span(max(own.low, taken.low), max(own.high, taken.high))


def _own(step: Step) -> Span | None:
    match step.action:
        case Wait() | Bath() as action:
            return _said(action.lasts)
        case Heat() as action:
            touches = _said(action.lasts, action.times)
            return touches + _said(action.pause, action.times - 1) if action.pause and action.times > 1 else touches
        case _:
            return None


def _said(written: Duration, times: int = 1) -> Span:
    # A tolerance may reach below nothing (`1 min ± 2 min`); time does not.
    return Span(max(written.low, 0.0) * times, written.high * times)


def waits(step: Step) -> bool:
    """Whether nobody's hands are needed while *step* lasts."""
    return isinstance(step.action, Wait | Bath)


def total(steps: Iterable[Step]) -> tuple[Span, Span]:
    """Return the hands-on time and the waiting time of *steps*, one straight pass."""
    low, high = [0.0, 0.0], [0.0, 0.0]
    for step in steps:
        lasts, whose = span(step), int(waits(step))
        low[whose] += lasts.low
        high[whose] += lasts.high
    return Span(low[0], high[0]), Span(low[1], high[1])
