"""A screw that breaks stays in the device, and a thread that strips holds nothing again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.torques import Asked, every_torque, in_unit_of
from benchleaf.dryrun.screws import bears
from benchleaf.findings import Level
from benchleaf.physics.torque import is_over
from benchleaf.physics.types import NewtonMetres, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each torque above what its screw or the thread it goes into bears, and each that cannot be judged."""
    for asked in every_torque(base):
        yield from _judged(asked)


def _judged(asked: Asked) -> Iterator[Hit]:
    screw = asked.fastener
    try:
        most = bears(screw)
    except OutOfRange as why:
        yield Hit(
            asked.place,
            f"Nobody can say whether `{screw.id}` bears {asked.torque.text}: {why}",
            "Correct the thread, the grade or what it goes into, or measure on a scrap part and allow this.",
            level=Level.WARNING,
            step=asked.step,
        )
        return
    if most is not None and is_over(NewtonMetres(asked.torque.high), most):
        weak = "screw may break off in its hole" if most.governs == "screw" else f"thread in {screw.into} may strip"
        yield Hit(
            asked.place,
            f"{asked.torque.text} is more than `{screw.id}` bears: the {weak}",
            f"Write at most {in_unit_of(most.recommended, asked.torque)}; it is an estimate on the safe side.",
            step=asked.step,
        )


RULE = Rule("over-torque", Level.ERROR, check)
