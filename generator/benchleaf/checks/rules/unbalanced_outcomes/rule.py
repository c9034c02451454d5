"""Shares that do not make a whole lead the plan to the wrong test, and the technician to the wrong part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed, nearest
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.diagnosis import Diagnosis, Outcome, Test
    from benchleaf.model.knowledge import KnowledgeBase

_NEAR_ENOUGH = 0.001 + 1e-9  # The second is the error of adding up: 0.334 + 0.333 + 0.334 is near enough.


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each cause for which the outcomes of a test do not sum to 1, and each outcome that leaves a cause out."""
    for diagnosis in base.diagnoses.values():
        for test in diagnosis.tests:
            for outcome in test.outcomes:
                lacking = _left_out(outcome, diagnosis) - _meant(outcome, diagnosis)
                if lacking:
                    yield _silent(test, outcome, [cause.id for cause in diagnosis.causes if cause.id in lacking])
            left_out = {name for outcome in test.outcomes for name in _left_out(outcome, diagnosis)}
            yield from (_uneven(test, cause.id) for cause in diagnosis.causes
                        if cause.id not in left_out and abs(_total(test, cause.id) - 1) > _NEAR_ENOUGH)  # fmt: skip


def _left_out(outcome: Outcome, diagnosis: Diagnosis) -> set[str]:
    return {cause.id for cause in diagnosis.causes} - outcome.given.keys()


def _meant(outcome: Outcome, diagnosis: Diagnosis) -> set[str | None]:
    """Return the causes that *outcome* seems to mean by names that are none: `unknown-reference` speaks of these."""
    causes = [cause.id for cause in diagnosis.causes]
    return {nearest(name, causes) for name in outcome.given if name not in causes}


def _total(test: Test, cause: str) -> float:
    return sum(outcome.given[cause] for outcome in test.outcomes)


def _share(value: float) -> str:
    """Return a share as one writes it, without the error of adding up."""
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _silent(test: Test, outcome: Outcome, causes: list[str]) -> Hit:
    """Return what is said where *outcome* leaves *causes* out, with the share that the others leave to it."""
    rest = max(0.0, 1 - sum(other.given.get(causes[0], 0.0) for other in test.outcomes))
    names = listed([f"`{cause}`" for cause in causes])
    return Hit(
        outcome.place,
        f"The outcome `{outcome.id}` gives no share to {names}: the plan could not weigh what it shows",
        f"Write its share under `given`; 0 says that it never comes to this. The others leave `{causes[0]}: "
        f"{_share(rest)}`.",
    )


def _uneven(test: Test, cause: str) -> Hit:
    """Return what is said where the shares of *cause* do not sum to 1, placed where the first of them is written."""
    total, first = _total(test, cause), test.outcomes[0]
    rest = round(1 - sum(outcome.given[cause] for outcome in test.outcomes[1:]), 6)
    place = next(name.place for name in first.given_at if name.text == cause)
    cure = f"With the others as they are, this one would be {_share(rest)}. " if rest >= 0 else ""
    return Hit(
        place,
        f"The outcomes of `{test.id}` sum to {_share(total)} for `{cause}`, not to 1: the plan would weigh it wrongly",
        f"{cure}Write shares that sum to 1.",
    )


RULE = Rule("unbalanced-outcomes", Level.ERROR, check)
