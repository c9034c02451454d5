"""A device that is on when it is opened is live under the first tool; one that seems dead may wake at a touch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.sources import isolation
from benchleaf.dryrun.inside import is_open
from benchleaf.findings import Level
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace

_NOT_SURE = frozenset({"dead", "unknown"})
# On the way to the battery these come first; what moves or wets a fed board has a rule of its own.
_ON_THE_WAY = (
    act.Power, act.Supply, act.Unscrew, act.Remove, act.Store, act.Wait, act.Heat,
    act.Solvent, act.Bath, act.Unplug, act.Plug,
)  # fmt: skip


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step that opens a device that is on, and work in a dead one before it is isolated."""
    for path in trace.paths():
        first = next((moment for moment in path if moment.before.live and _takes_apart(trace, moment)), None)
        if first is not None and first.step.action:
            doubt = ": nobody knows whether it is on" if trace.procedure.arrives.power == "unknown" else ""
            opened = _opens(trace, first)
            yield Hit(
                first.step.action.place,
                f"The device is opened and was not switched off before{doubt}: the first tool that slips meets a live "
                "board"
                if opened
                else f"A part is taken off and the device was not switched off before{doubt}: what it was joined to is "
                "live, or works without it",
                "Write a step with `power: off` before this one"
                + (", and `supply: off` where it is fed." if first.before.supplied else "."),
                step=first.step,
            )
        elif trace.procedure.arrives.power in _NOT_SURE:
            yield from _not_isolated(trace, path)


def _takes_apart(trace: Trace, moment: Moment) -> bool:
    """Whether the device is opened, or a part of the closed device comes off in the work."""
    if _opens(trace, moment):
        return True
    action, before = moment.step.action, moment.before
    comes_off = isinstance(action, act.Remove) or (isinstance(action, act.Replace) and before.is_in(action.part.text))
    if moment.kind != "work" or not comes_off or is_open(trace.world, before):
        return False
    # A pack that comes out takes the power with it.
    return isinstance(action, act.Remove | act.Replace) and action.part.text not in trace.world.packs


def _opens(trace: Trace, moment: Moment) -> bool:
    return not is_open(trace.world, moment.before) and is_open(trace.world, moment.after)


def _not_isolated(trace: Trace, path: tuple[Moment, ...]) -> Iterator[Hit]:
    for moment in path:
        action, state = moment.step.action, moment.before
        pluggable = [name for name in state.joined(trace.world.batteries) if trace.world.batteries[name].plug]
        if moment.kind != "work" or not is_open(trace.world, state):
            continue
        if not pluggable:
            return
        if action is not None and not isinstance(action, _ON_THE_WAY):
            yield Hit(
                action.place,
                f"The device arrived {trace.procedure.arrives.power} and is worked on before it is isolated: "
                "what seems dead may wake under the hand",
                f"{isolation(trace.world, state)} before this step.",
                step=moment.step,
            )
            return


RULE = Rule("never-powered-off", Level.ERROR, watch=watch)
