"""A device that is switched on before it is ready is lost in the moment in which the repair seemed done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.readiness import (
    HOT,
    MISSING,
    UNPLUGGED,
    WET,
    Trouble,
    absent,
    are,
    by_kind,
    cure,
    joins,
    made_again,
    unplugged,
    wet_or_hot,
    with_left_over,
)
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.inside import in_place
from benchleaf.findings import Level
from benchleaf.model.action import Power, Supply

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace

_WHY = {
    WET: "current through the liquid eats the tracks, and a vapour may catch fire",
    HOT: "soft solder moves under current, and a hot part takes less of it",
    UNPLUGGED: "what hangs on it does not work, and plugging it in under power kills both sides",
    MISSING: "what the rest drives or reads is not there",
}


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step that energises the device while something inside is not ready for it."""
    if not any(_energises(action) for _, action in trace.acts(Power, Supply)):
        return
    for path in trace.paths():
        said: frozenset[Trouble] = frozenset()
        closed: frozenset[Trouble] | None = None
        for moment, left in with_left_over(trace.world, path):
            action, state = moment.step.action, moment.before
            if moment.kind == "prove" and closed is None:
                closed = absent(trace, state) | unplugged(trace.world, state)  # Not put back: said of the closing.
            if isinstance(action, Power) and action.on:
                found = wet_or_hot(trace.world, state) | _needed(trace, state)
            elif isinstance(action, Supply) and action.source:
                found = wet_or_hot(trace.world, state) | _listed(trace, state, action)
            else:
                found = frozenset()
            for how, names in by_kind(found - said - left - (closed or frozenset())).items():
                yield Hit(
                    action.place if action else moment.step.place,
                    f"The device is energised while {are(names, how)}: {_WHY[how]}",
                    cure(trace.world, trace.nature, state, how, names),
                    step=moment.step,
                    about=how,
                )
            said = _told(trace, moment, said)


def _energises(action: Power | Supply) -> bool:
    return action.on if isinstance(action, Power) else bool(action.source)


def _told(trace: Trace, moment: Moment, said: frozenset[Trouble]) -> frozenset[Trouble]:
    """Return what was said when a battery was joined, and is still so; an exception made there says nothing here."""
    if joins(moment, trace.world) and not any(allow.rule.text == "early-battery" for allow in moment.step.allow):
        said |= wet_or_hot(trace.world, moment.before) | unplugged(trace.world, moment.before)
    still = said and said & (wet_or_hot(trace.world, moment.after) | unplugged(trace.world, moment.after))
    return frozenset(one for one in still if not made_again(moment, one)) if still else still


def _needed(trace: Trace, state: State) -> frozenset[Trouble]:
    if state.supplied:
        return _listed(trace, state, state.supplied)
    world = trace.world
    found = absent(trace, state) | unplugged(world, state)
    if world.batteries and not state.joined(world.batteries):
        found |= {Trouble(UNPLUGGED, plug) for plug in world.plugs if plug in state.unplugged}
    return found


def _listed(trace: Trace, state: State, supply: Supply) -> frozenset[Trouble]:
    needs = [part.text for part in supply.needs if part.text in trace.world.parts]
    return frozenset(Trouble(MISSING, name) for name in needs if not in_place(trace.world, state, name))


RULE = Rule("unready-power", Level.ERROR, watch=watch)
