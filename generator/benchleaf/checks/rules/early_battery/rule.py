"""A battery cannot be switched off: from the moment it is joined, whatever is not ready is fed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.readiness import (
    HOT,
    UNPLUGGED,
    WET,
    are,
    by_kind,
    cure,
    joins,
    unplugged,
    wet_or_hot,
    with_left_over,
)
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Plug, Replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchleaf.checks.readiness import Trouble
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_WHY = {
    WET: "current through the liquid eats the tracks, and a vapour may catch fire",
    HOT: "the pack lies beside the heat, and soft solder moves under current",
    UNPLUGGED: "a plug that goes in later makes and breaks live contacts",
}


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each battery that is joined while something inside is wet, hot or unplugged."""
    for path in trace.paths():
        for number, (moment, left) in enumerate(with_left_over(trace.world, path)):
            batteries = joins(moment, trace.world)
            if not batteries or moment.step.action is None:
                continue
            found = wet_or_hot(trace.world, moment.before) | unplugged(trace.world, moment.before)
            ready = _new(trace.world, moment) | _never_back(found, path[number + 1 :])
            for how, names in by_kind(one for one in found - left if one.name not in ready).items():
                yield Hit(
                    moment.step.action.place,
                    f"{listed(f'`{name}`' for name in batteries)} is joined while {are(names, how)}: {_WHY[how]}",
                    cure(trace.world, trace.nature, moment.before, how, names),
                    step=moment.step,
                    about=how,
                )


def _new(world: World, moment: Moment) -> frozenset[str]:
    action = moment.step.action
    return world.family.get(action.part.text, frozenset()) if isinstance(action, Replace) else frozenset()


def _never_back(found: Iterable[Trouble], later: Sequence[Moment]) -> frozenset[str]:
    """Return the connectors among *found* that do not go in *later*: that they are left out has rules of its own."""
    back = {at.step.action.connector.text for at in later if isinstance(at.step.action, Plug)}
    return frozenset(one.name for one in found if one.how == UNPLUGGED and one.name not in back)


RULE = Rule("early-battery", Level.ERROR, watch=watch)
