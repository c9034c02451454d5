"""What the screws of a device bear, computed once for rules and facts."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.torque import Limits, limits
from benchleaf.physics.types import Metres

if TYPE_CHECKING:
    from benchleaf.model.device import Fastener


def bears(screw: Fastener) -> Limits | None:
    """
    Return what *screw* bears in its hole; None where its thread or grade is not given.

    Refuses, by `OutOfRange`, a thread, a grade or a material of which no strength is known.
    """
    if not (screw.thread and screw.grade):
        return None
    into = screw.into.text if screw.into else None
    return _bears(screw.thread, screw.grade, into, screw.engagement.low if screw.engagement else None)


@lru_cache(maxsize=1024)
def _bears(thread: str, grade: str, into: str | None, engagement: float | None) -> Limits:
    return limits(thread, grade, into, None if engagement is None else Metres(engagement), DEFAULT.torque)
