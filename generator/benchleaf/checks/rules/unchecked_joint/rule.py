"""A cold joint holds until the device is back in the field, and under a cover nobody sees it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.covering import cover, covers
from benchleaf.checks.joints import remade
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Heat, Replace

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.step import Check

_SHUT = "the device is closed"


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each joint that is covered, or closed in, with no check after it was last made."""
    if next(trace.acts(Heat), None) is None:
        return
    for path in trace.paths(whole=True):
        yield from _unchecked(trace, path, whole=True)
    if any(route.end is not None and route.extra for route in trace.routes):
        for path in trace.paths():
            yield from _unchecked(trace, path, whole=False)


def _unchecked(trace: Trace, path: Sequence[Moment], *, whole: bool) -> Iterator[Hit]:
    """Yield the hits of *path*; only one that goes on to the end closes what is open at its own end."""
    made: dict[str, tuple[Moment, Heat]] = {}
    part_of_work: tuple[str, str] | None = None
    for moment in path:
        if not made and not isinstance(moment.step.action, Heat):
            continue  # Nothing waits for a check, and nothing is made.
        if made and part_of_work is not None and _list(moment) != part_of_work:
            yield from (_hit(*one, _SHUT) for one in made.values())
            made = {}
        part_of_work = _list(moment)
        over = cover(moment)
        hidden = [part for part in made if over is not None and covers(trace.world, moment, over, part)]
        yield from (_hit(*made.pop(part), f"`{over}` covers them") for part in hidden)
        _work(trace, moment, made)
        if _sees(moment.step.check):
            made = {}
    if whole:
        yield from (_hit(*one, _SHUT) for one in made.values())


def _list(moment: Moment) -> tuple[str, str]:
    """Return in which part of the work *moment* is: a check that a closing makes for itself is not one of a joint."""
    kind = "work" if moment.kind == "opening" else moment.kind
    return kind, moment.level.id if moment.level and kind != "work" else ""


def _work(trace: Trace, moment: Moment, made: dict[str, tuple[Moment, Heat]]) -> None:
    """Enter what *moment* does to joints into *made*: those that wait for a check."""
    action = moment.step.action
    if isinstance(action, Replace):
        for member in trace.world.family.get(action.part.text, ()):
            made.pop(member, None)
    elif isinstance(action, Heat):
        if action.kind == "desolder":
            made.pop(action.on.text, None)
        elif remade(trace.world, trace.nature, moment.step, action):
            made[action.on.text] = (moment, action)


def _sees(check: Check | None) -> bool:
    """Whether *check* tells a bad joint: a look at more than whether it is dry or cool, or an electrical reading."""
    if check is None:
        return False
    if check.kind == "look":
        return check.shows is None
    return check.kind == "measure" and check.what.text != "temperature"


def _hit(moment: Moment, action: Heat, before: str) -> Hit:
    return Hit(
        action.place,
        f"The joints of `{action.on}` are made here and nobody checks them before {before}: a cold joint or a bridge "
        "is found by the customer",
        "Write a check after this step and before that one, such as `check: {look: Each joint is wetted and none is "
        "bridged., if_not: ...}`, or a measurement.",
        step=moment.step,
        about=action.on.text,
    )


RULE = Rule("unchecked-joint", Level.ERROR, watch=watch)
