"""A meter reads resistance by a current of its own: a source in the same circuit falsifies it, or burns the meter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.acted import part_of
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.sources import isolation, sources
from benchleaf.dryrun.inside import in_place
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace

_BY_ITS_OWN_CURRENT = {"resistance": "The resistance", "continuity": "The continuity", "diode": "A diode"}
_CLOSED = frozenset({"closing", "prove"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each reading that a meter takes by its own current while a battery or a feed is joined."""
    for moment in trace.every():
        check = moment.step.check
        if check is None or check.kind != "measure" or check.what.text not in _BY_ITS_OWN_CURRENT:
            continue
        joined = _joined(trace, moment)
        if joined:
            yield Hit(
                check.what.place,
                f"{_BY_ITS_OWN_CURRENT[check.what.text]} is measured while {listed(joined)} "
                f"{'are' if joined[1:] else 'is'} joined: the reading means nothing, and the meter may burn",
                _help(trace, moment),
                step=moment.step,
            )


def _joined(trace: Trace, moment: Moment) -> tuple[str, ...]:
    """Return what feeds what is measured: nothing, where that is a part that has left the device."""
    part = part_of(moment.step.action)
    if part is not None and part.text in trace.world.parts and not in_place(trace.world, moment.after, part.text):
        return ()
    if trace.world.device is None and not moment.after.supplied:
        return ("the battery of the closed device",)
    return sources(trace.world, moment.after)


def _help(trace: Trace, moment: Moment) -> str:
    if trace.world.device is None:
        return "Write this check in a procedure of the device, after the step that isolates its battery."
    if moment.kind in _CLOSED and moment.after.joined(trace.world.batteries):
        return "Write this check under `steps`, while the battery is isolated."
    return f"{isolation(trace.world, moment.after)} before this step."


RULE = Rule("live-ohms", Level.ERROR, watch=watch)
