"""A check that fails and does not say how to go on leaves a person alone with an opened device."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each check that has no way on when it fails."""
    for spot in every_step(base):
        looked = spot.step.check
        if looked is not None and looked.if_not is None:
            yield Hit(
                looked.place,
                "This check does not say what to do when it fails: whoever sees it fail would go on, or guess",
                "Write `if_not: {stop: ...}` with what becomes of the device, or a `go_to`, or a `repeat`.",
                step=spot.step,
            )


RULE = Rule("dead-end-check", Level.ERROR, check)
