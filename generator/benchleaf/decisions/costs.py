"""
What steps cost in the shop's money: minutes times labour, and the price of each part that is replaced.

A step's minutes are the midpoint of its time, the end that is given where the other is open. A wait counts with no more
than half an hour: whoever must wait longer takes up other work (common practice, no source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.action import Replace
from benchleaf.model.times import span, waits
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.model.device import Access, Device
    from benchleaf.model.step import Step

LONGEST_STAND = 1800.0
"""How long a wait keeps somebody at the bench at the most, s."""


@dataclass(frozen=True, slots=True)
class Work:
    """Time at the bench (s), money for parts, the longest lead time of a part (s), parts whose price nobody wrote."""

    time: float = 0.0
    parts: float = 0.0
    lead_time: float = 0.0
    unpriced: tuple[str, ...] = ()

    def __add__(self, other: Work) -> Work:
        """Return both one after the other."""
        return Work(self.time + other.time, self.parts + other.parts, max(self.lead_time, other.lead_time),
                    tuple(dict.fromkeys(self.unpriced + other.unpriced)))  # fmt: skip


def work(device: Device, variant: str, steps: Iterable[Step]) -> Work:
    """Return what *steps* take on *variant*, one straight pass."""
    done = Work()
    for step in steps:
        if applies(step.only, variant):
            done += Work(minutes(step)) + _renewed(device, step)
    return done


def minutes(step: Step) -> float:
    """Return the midpoint of the time that *step* takes, s; of a long wait only what one stands by."""
    lasts = span(step)
    middle = (lasts.low + lasts.high) / 2 if math.isfinite(lasts.high) else lasts.low
    return min(middle, LONGEST_STAND) if waits(step) else middle


def _renewed(device: Device, step: Step) -> Work:
    if not isinstance(step.action, Replace):
        return Work()
    part = device.parts.get(step.action.part.text)
    if part is None or part.price is None:
        return Work(unpriced=(step.action.part.text,))
    return Work(parts=part.price.middle, lead_time=part.lead_time.middle if part.lead_time else 0.0)


def way(device: Device, variant: str, here: str, there: str) -> Work:
    """Return what it takes to go from one level to another: closings up to the common level, openings down."""
    up, down = (_levels(device, variant, level) for level in (here, there))
    common = sum(1 for one, other in zip(up, down, strict=False) if one.id == other.id)
    done = Work()
    for level in reversed(up[common:]):
        done += work(device, variant, level.closing)
    for level in down[common:]:
        done += work(device, variant, level.opening)
    return done


def _levels(device: Device, variant: str, level: str) -> list[Access]:
    return [one for one in device.way_to(level) if applies(one.only, variant)]
