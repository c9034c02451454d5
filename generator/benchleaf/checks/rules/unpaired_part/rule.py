"""A new part that nobody makes known to its device works, and works wrongly, with the figures of the old one."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.state import DISCARDED
from benchleaf.findings import Level
from benchleaf.model.action import Fit, Heat, Replace, Work

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.words import Said

_PAIRING = frozenset({"pair", "align"})
# A pair of tweezers pairs nothing.
_SAID = re.compile(r"\b(?:re-?)?(?:pair(?!s? of\b)(?:s|ed|ing)?|calibrat\w+)\b", re.IGNORECASE)


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each paired part that is renewed and with whose pairing no later step deals."""
    tied = {name: said for name, part in trace.world.parts.items() if (said := part.paired.get(trace.world.variant))}
    for path in trace.paths(whole=True) if tied else ():
        for name, said in tied.items():
            last = next(
                (number for number in range(len(path) - 1, -1, -1) if _renewed(trace, path[number], name)), None
            )
            part = _new_one(path[last]) if last is not None else None
            if last is None or part is None or _is_dealt_with(path[last + 1 :], {name, part.text}):
                continue
            with_it = "" if part.text == name else f" with `{name}`, which is part of it,"
            yield Hit(
                part.place,
                f"`{part}`{with_it} is a new one here, and no later step deals with its pairing: {said.rstrip('.')}",
                f"Write a step after this one that makes it known to the device: `work: {{kind: pair, on: {name}}}`.",
                step=path[last].step,
                about=name,
            )


def _renewed(trace: Trace, moment: Moment, name: str) -> bool:
    """Whether *moment* brings in a new *name*, alone or with what it is part of."""
    part = _new_one(moment)
    return part is not None and name in moment.before.moving(part.text, trace.world.family)


def _new_one(moment: Moment) -> Said | None:
    """Return the part of which *moment* brings in another than the one that was in."""
    match moment.step.action:
        case Replace(part=part):
            return part
        case Fit(part=part) | Heat(kind="solder", on=part) if moment.before.away.get(part.text) == DISCARDED:
            return part  # The old one lies where it is not taken from again.
        case _:
            return None


def _is_dealt_with(later: Sequence[Moment], names: set[str]) -> bool:
    return any(_deals(moment, names) for moment in later)


def _deals(moment: Moment, names: set[str]) -> bool:
    step = moment.step
    if isinstance(step.action, Work) and step.action.kind in _PAIRING and step.action.on is not None:
        return step.action.on.text in names
    return (step.check is not None or step.record is not None) and _SAID.search(step.do.text) is not None


RULE = Rule("unpaired-part", Level.ERROR, watch=watch)
