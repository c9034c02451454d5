"""A level is closed by many procedures: what its closing forgets, every one of them leaves out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.ledger import brings_in, misspelt, named, never_left, owed, takes_out, too_much, way_back
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.levels import closed_again
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.levels import Level as Performed
    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield, for each level and variant, what the closing does not give back, and what it gives back too much."""
    for level in closed_again(base):
        unclear = misspelt(level.world, level.moments)
        yield from _forgotten(level, unclear)
        yield from _beyond(level, unclear)


def _forgotten(level: Performed, unclear: frozenset[str]) -> Iterator[Hit]:
    for thing in owed(level.world, level.before, level.after):
        moment = next((moment for moment in reversed(level.moments) if takes_out(moment, thing)), None)
        if moment is not None and moment.step.action is not None and thing.kind not in unclear:
            yield Hit(
                moment.step.action.place,
                f"When `{level.access.id}` is opened {named(thing)} leaves its place, and it is not back when it is "
                "closed: every procedure that opens it hands the device back without",
                f"Write {way_back(thing)} under `closing`.",
                (level.world.variant,),
                step=moment.step,
            )


def _beyond(level: Performed, unclear: frozenset[str]) -> Iterator[Hit]:
    found = [(moment, thing) for moment in level.moments for _, thing in never_left(level.world, moment)]
    for thing in too_much(level.world, level.before, level.after):
        found += [(moment, thing) for moment in level.moments if brings_in(moment, thing)][-1:]
    for moment, thing in found:
        if moment.step.action is not None and thing.kind not in unclear:
            yield Hit(
                moment.step.action.place,
                f"When `{level.access.id}` is closed {named(thing)} goes back, and did not leave its place when it was "
                "opened: nobody at the bench has it in hand",
                "Write the step that takes it out under `opening`, or take this one away.",
                (level.world.variant,),
                step=moment.step,
            )


RULE = Rule("lopsided-closing", Level.ERROR, check)
