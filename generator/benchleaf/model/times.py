"""How long a step lasts, how long a procedure keeps hands busy and how long it waits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.action import Bath, Heat, Wait

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.model.step import Step

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
    taken = Span(step.takes.low, step.takes.high)
    return taken if own is None else Span(max(own.low, taken.low), max(own.high, taken.high))


def _own(step: Step) -> Span | None:
    match step.action:
        case Wait() | Bath() as action:
            return Span(action.lasts.low, action.lasts.high)
        case Heat() as action:
            pauses = max(action.times - 1, 0)
            low, high = (action.pause.low, action.pause.high) if action.pause else (0.0, 0.0)
            return Span(
                action.lasts.low * action.times + low * pauses, action.lasts.high * action.times + high * pauses
            )
        case _:
            return None


def waits(step: Step) -> bool:
    """Whether nobody's hands are needed while *step* lasts."""
    return isinstance(step.action, Wait | Bath)


def total(steps: Iterable[Step]) -> tuple[Span, Span]:
    """Return the hands-on time and the waiting time of *steps*, one straight pass."""
    hands, waiting = Span(), Span()
    for step in steps:
        if waits(step):
            waiting += span(step)
        else:
            hands += span(step)
    return hands, waiting
