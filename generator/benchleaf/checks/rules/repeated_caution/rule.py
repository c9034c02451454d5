"""Who reads the same warning twice stops reading warnings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.text.cautions import says_more
from benchleaf.dryrun.hazards.every import said_once
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.hazards.kind import Hazard
    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Place
    from benchleaf.model.step import Caution, Step

# What the opening of a level says is read in procedures in which it is no repetition. This alone is told in all.
_IN_EVERY_OPENING = frozenset({"esd"})


def compare(traces: Sequence[Trace]) -> Iterator[Hit]:
    """Yield each caution that says no more than a message that is in force, on all variants that perform its step."""
    steps: dict[Place, list[tuple[Trace, int]]] = {}
    for trace in traces:
        for number, moment in enumerate(trace.straight):
            if moment.step.cautions:
                steps.setdefault(moment.step.place, []).append((trace, number))
    for performed in steps.values():
        first, number = performed[0]
        moment = first.straight[number]
        for caution in moment.step.cautions:
            if moment.level is not None and caution.hazard not in _IN_EVERY_OPENING:
                continue
            found = [_told(trace, at, caution) for trace, at in performed]
            if all(found):
                variants = sorted({name for trace, _ in performed for name in trace.variants if trace.world.device})
                yield _hit(moment.step, caution, [step for step in found if step], tuple(variants))


def _told(trace: Trace, number: int, caution: Caution) -> str | None:
    """Return the step before which a message stands that says all of *caution* and is in force in step *number*."""
    for one in said_once(trace):
        if one.hazard == caution.hazard and one.first <= number <= one.last and not _adds(caution, one):
            return trace.straight[one.first].step.id
    return None


def _adds(caution: Caution, one: Hazard) -> bool:
    return says_more(caution.text.text, one.hazard, f"{one.what} {one.happens} {one.avoid}", one.numbers)


def _hit(step: Step, caution: Caution, told: Sequence[str], variants: tuple[str, ...]) -> Hit:
    where = listed([f"`{name}`" for name in dict.fromkeys(told)])
    here = "before this step" if set(told) == {step.id} else f"before {where}, and is in force here"
    article = "an" if caution.hazard[0] in "aeiou" else "a"
    return Hit(
        caution.text.place,
        f"The page gives {article} `{caution.hazard}` message by itself {here}: "
        "what is read twice is soon not read at all",
        "Leave this caution out, or write what only you know: a number, a tool, a part, a place.",
        variants,
        step=step,
    )


RULE = Rule("repeated-caution", Level.NOTE, compare=compare)
