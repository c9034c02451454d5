"""The third warning before one step is not read any more, and the worst may be it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.dryrun.hazards.every import at_most_dangers, said_once
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.hazards.kind import Hazard
    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase

MOST = 2
"""Cautions of an author's own before one step (common practice, no source)."""


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each step with more than two cautions of its author's own: at the first that is too many."""
    for spot in every_step(base):
        cautions = spot.step.cautions
        if len(cautions) > MOST:
            yield Hit(
                cautions[MOST].text.place,
                f"{len(cautions)} cautions stand before this step: nobody reads so many, and the worst may go unread",
                f"Keep the {MOST} gravest, say the others before the step where each begins, or put them in `why`.",
                step=spot.step,
            )


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step before which more than one DANGER is told."""
    if at_most_dangers(trace) < MOST:
        return
    by_step: dict[int, list[Hazard]] = {}
    for one in said_once(trace):
        if one.signal == "danger":
            by_step.setdefault(one.first, []).append(one)
    for number, dangers in by_step.items():
        if len(dangers) > 1:
            yield _hit(trace, number, dangers)


def _hit(trace: Trace, number: int, dangers: list[Hazard]) -> Hit:
    step = trace.straight[number].step
    own = step.place.path == trace.procedure.path
    what = listed([one.hazard if one.numbers else one.what.rstrip(".") for one in dangers])
    return Hit(
        (step.action.place if step.action else step.do.place) if own else trace.procedure.title.place,
        f"{len(dangers)} DANGER messages stand before `{step.id}`: {what}. "
        "One of them is met with the mind on the other",
        "Renew or make safe one of them at a time, in a procedure of its own, and lead from the one to the next.",
        step=step,
    )


RULE = Rule("crowded-warnings", Level.WARNING, check, watch=watch)
