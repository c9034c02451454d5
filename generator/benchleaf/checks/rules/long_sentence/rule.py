"""A sentence that is too long to be kept in mind is read twice, or half."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.sentences import longest, may_be_over
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Step
    from benchleaf.model.words import Said

MOST = 20
"""Words: ASD-STE100 Issue 9, rule 5.1 (two summaries by others, which agree; the standard itself was not seen)."""


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each instruction, of a step or of a diagnosis's test, that has a sentence of over 20 words."""
    for spot in every_step(base):
        yield from _long(spot.step.do, spot.step)
    for diagnosis in base.diagnoses.values():
        for test in diagnosis.tests:
            yield from _long(test.do, None)


def _long(do: Said, step: Step | None) -> Iterator[Hit]:
    count = longest(do.text) if may_be_over(do.text, MOST) else 0
    if count > MOST:
        rest = "another step, or in `why`" if step else "another test"
        yield Hit(
            do.place,
            f"This sentence has {count} words: one who looks up from the work to read it loses the place",
            f"Say it in {MOST} words at most, and put the rest in {rest}.",
            step=step,
        )


RULE = Rule("long-sentence", Level.WARNING, check)
