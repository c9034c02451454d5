"""Two numbers for one thing: the technician follows the one that is read first, and the dry run the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.claims import claimed, tied
from benchleaf.checks.text.given import given, same
from benchleaf.checks.text.quantities import found
from benchleaf.checks.text.screws import agree, counts
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level
from benchleaf.model.action import Screw, Unscrew
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.text.given import Given
    from benchleaf.checks.text.quantities import Found
    from benchleaf.checks.walk import Spot
    from benchleaf.findings import Place
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Step

_COST = "the technician follows the one that is read first"


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each number of an instruction, a reason or a look that surely says something else than the step's field."""
    for spot in every_step(base):
        step = spot.step
        why, why_place = step.why or "", step.why_place or step.place
        look = step.check.what if step.check and step.check.kind == "look" else None
        yield from _screws(spot)
        if not found(step.do.text) and not found(why) and not (look and found(look.text)):
            continue
        numbers = given(spot)
        yield from _differing(step, step.do.place, "text", numbers, claimed(base, step, step.do.text, numbers))
        yield from _differing(step, why_place, "reason", numbers, tied(base, step, why, numbers))
        if look:
            yield from _differing(step, look.place, "check", numbers, tied(base, step, look.text, numbers))


def _differing(
    step: Step, place: Place, where: str, numbers: tuple[Given, ...], claims: Iterator[tuple[Found, Given]]
) -> Iterator[Hit]:
    for said, field in claims:
        if not any(same(said.quantity, other.quantity) for other in _alike(field, numbers)):
            number, there = tidy(said.quantity.text), tidy(field.written)
            yield Hit(
                place,
                f"The {where} says {number}, and `{field.field}` is {there}: {_COST}",
                f"Write {there} in the text, or {number} in the field, whichever is right.",
                step=step,
            )


def _alike(field: Given, numbers: tuple[Given, ...]) -> list[Given]:
    """Return the fields that a number which claims *field* may mean as well: no pause is a time of work."""
    roles = {"pause": {"pause"}, "for": {"for", "whole", "takes"}}.get(field.role)
    return [other for other in numbers if roles is None or other.role in roles]


def _screws(spot: Spot) -> Iterator[Hit]:
    step = spot.step
    if not isinstance(step.action, Screw | Unscrew):
        return
    there = [screws.count for screws in step.action.screws]
    word = "unscrew" if isinstance(step.action, Unscrew) else "screw"
    for said in counts(step.do.text):
        if not agree(said, there):
            number, total = " and ".join(str(one) for one in said), " and ".join(str(count) for count in there)
            yield Hit(
                step.do.place,
                f"The text says {number} {'screw' if said == (1,) else 'screws'}, and `{word}` counts {total}: {_COST}",
                f"Write {total} in the text, or {number} in the field, whichever is right.",
                step=step,
            )


RULE = Rule("contradicting-number", Level.ERROR, check)
