"""An oven without a vent gathers vapour round its own heater."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.ignition import drying_left, near
from benchleaf.checks.ignition_words import waiting, where
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.state import DISCARDED, STORED
from benchleaf.findings import Level
from benchleaf.model.action import Heat, Wait

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.state import Fumes
    from benchleaf.dryrun.trace import Moment, Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part that is still wet with what burns when it comes into an oven that is not made for it."""
    for moment, action in trace.acts(Wait, Heat):
        tool = trace.nature.tools.get(action.tool.text) if action.tool else None
        if tool is None or tool.kind != "oven" or (tool.vented and tool.rated_for_solvents):
            continue
        fumes = _inside(trace, moment, action)
        if fumes:
            lacks = "is not known to be vented" if not tool.vented else "is not rated for solvents"
            liquids = listed(dict.fromkeys(f"`{liquid}`" for (_, liquid), _ in fumes))
            trapped = any(fume.wet.trapped for _, fume in fumes)
            yield Hit(
                action.place,
                f"{liquids}, which burns, has not dried on {where(fumes)} when it comes into `{tool.id}`, which "
                f"{lacks}: the vapour gathers round the heater and bursts the door open",
                waiting(drying_left(trace, fumes), "before this step, on the bench", trapped=trapped),
                step=moment.step,
            )


def _inside(trace: Trace, moment: Moment, action: Wait | Heat) -> Fumes:
    """Return what can burn in the oven: the whole open device, or what is with the part that is heated."""
    before = moment.before
    gone = {STORED, DISCARDED}
    return tuple(
        (key, fume)
        for key, fume in before.fumes.items()
        if not fume.seen
        and before.away.get(key[0]) not in gone
        and (isinstance(action, Wait) or near(trace.world, before, key[0], action.on.text))
    )


RULE = Rule("unvented-oven", Level.ERROR, watch=watch, never_allowed=True)
