"""A value that means nothing would be passed over in silence; `benchleaf.shape` finds those that a file shows alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.at_odds import facts_at_odds
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.variants import misnamed_variants
from benchleaf.checks.walk import in_use
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what only the whole base can tell: variants that are none, facts at odds, steps' names that a level has."""
    yield from misnamed_variants(base)
    yield from facts_at_odds(base)
    for procedure in in_use(base):
        device = base.devices.get(procedure.device)
        taken = {
            step.id: level.id
            for level in (device.way_to(procedure.access.text) if device else ())
            for step in (*level.opening, *level.closing)
        }
        for step in (*procedure.steps, *procedure.prove):
            if step.id in taken:
                yield Hit(
                    step.place,
                    f"`id` is {step.id}, and so is that of a step of the level `{taken[step.id]}`: on the bench record "
                    "the two would be one",
                    "Give this step another name: each step is known by its own.",
                )


RULE = Rule("wrong-value", Level.ERROR, check, never_allowed=True)
