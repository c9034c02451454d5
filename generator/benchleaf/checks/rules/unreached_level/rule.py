"""A step that nobody can reach is done by force, or with an opening that nobody wrote down and nobody closes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.astray import astray
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.reach import FASTENER, hidden, reached
from benchleaf.findings import Level
from benchleaf.model.action import Fit, Heat, Replace
from benchleaf.model.step import GoTo

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.reach import Under
    from benchleaf.dryrun.trace import Moment, Route, Trace
    from benchleaf.model.words import Said

_JUDGED = frozenset({"work", "prove", "elsewhere"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step that comes to what is still covered, and each `go_to` that leaves from between two levels."""
    for path in trace.paths():
        assumed: set[str] = set()
        for moment in path:
            for name, under in _covered(trace, moment):
                if under.cover not in assumed:
                    assumed.add(under.cover)
                    yield _hit(trace, moment, name, under)
            assumed = {cover for cover in assumed if moment.after.is_in(cover)}
    for route in trace.routes:
        if isinstance(route.end, GoTo):
            yield from _handed_on(trace, route, route.end)


def _covered(trace: Trace, moment: Moment) -> Iterator[tuple[Said, Under]]:
    action = moment.step.action
    if action is None or moment.kind not in _JUDGED:
        return  # How a level is opened says what covers what; how it is closed is not compared in its order.
    comes_in = isinstance(action, Fit | Replace) or (isinstance(action, Heat) and action.kind == "solder")
    for kind, name in reached(trace.world.parts, action):
        under = hidden(trace.world, moment.before, kind, name.text, comes_in=comes_in)
        if under is not None:
            yield name, under


def _hit(trace: Trace, moment: Moment, name: Said, under: Under) -> Hit:
    device, action = trace.world.device, moment.step.action
    kind = next((kind for kind, one in reached(trace.world.parts, action) if one is name), "") if action else ""
    deepest = next((one.level for one in trace.world.under.get((kind, name.text), ())), under.level)
    open_then = {level.id for level in device.way_to(trace.procedure.access.text)} if device else set()
    if moment.kind == "prove":
        cure = "Write it under `steps`, while the device is open."
    elif deepest in open_then:
        cure = f"Take `{under.cover}` off before this step, or write this one before it goes back."
    else:
        cure = f"Write `access: {deepest}`, or take `{under.cover}` off in a step before this one."
    lie = "lie" if kind == FASTENER else "lies"
    return Hit(
        name.place,
        f"`{name}` {lie} under `{under.cover}`, which the opening of `{under.level}` takes off, and the device is not "
        "at that level here: nobody reaches it without force",
        cure,
        step=moment.step,
        about=under.cover,
    )


def _handed_on(trace: Trace, route: Route, way: GoTo) -> Iterator[Hit]:
    found = list(astray(trace, route))
    if found:
        yield Hit(
            way.procedure.place,
            f"The work goes on in `{way.procedure}` with {listed(one.what for one in found)}: it begins with a device "
            "that is whole, dry, cool and off at its level, and was never tried on one like this",
            f"{' '.join(dict.fromkeys(one.cure for one in found))} Do so before this check, or end it with a `stop`.",
            step=route.check.step,
            about=way.procedure.text,
        )


RULE = Rule("unreached-level", Level.ERROR, watch=watch)
