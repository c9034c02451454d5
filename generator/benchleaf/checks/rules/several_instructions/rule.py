"""Who looks up after the first of two acts does not know that there was a second."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.instruction import acts, is_compound, told
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase

_WITH_A_LOOK = 2  # One act, and one wait or look on it.


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each step, of those that check nothing, that tells one to do several things."""
    for spot in every_step(base):
        step = spot.step
        if step.check or not is_compound(step.do.text):
            continue
        changing, every = acts(step.do.text), told(step.do.text)
        too_many = changing if len(changing) > 1 else every if len(changing) == 1 and len(every) > _WITH_A_LOOK else ()
        if too_many:
            each = [f"`{verb}`" for verb in too_many]
            yield Hit(
                step.do.place,
                f"This step has {len(each)} instructions, {listed(each)}: who looks up after the first loses the rest",
                f"Write a step of its own for {listed(each[1:])}, with what it does and what it needs.",
                step=step,
            )


RULE = Rule("several-instructions", Level.WARNING, check)
