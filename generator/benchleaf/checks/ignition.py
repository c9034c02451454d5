"""Where something that ignites comes to something that burns: in one device, or parts that left together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.dryrun.case import without_small_carriers
from benchleaf.dryrun.state import OUT
from benchleaf.model import action as act
from benchleaf.model.device import CLOSED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import Fume, Fumes, State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World
    from benchleaf.library.substance import Substance
    from benchleaf.model.action import Action

# What is found where a wet part is given current. An author can make an exception to these, and none to a fire.
_OF_WET_PARTS = frozenset({"early-battery", "unready-power", "unfinished-handover", "vapour-in-case"})


@dataclass(frozen=True, slots=True)
class Danger:
    """
    What burns, by part and liquid, when a source of ignition comes to it in `moment`.

    `setting` is what a tool is set to, °C, where one is; `selves` are the substances that it ignites without a spark;
    `live` says that the liquid itself is what comes, to a device that is on.
    """

    moment: Moment
    action: Action
    fumes: Fumes
    setting: float | None
    selves: tuple[Substance, ...]
    live: bool = False


@lru_cache(maxsize=1)
def dangers(trace: Trace) -> tuple[Danger, ...]:
    """Return each danger of *trace*, of all paths. Two rules ask, one after the other."""
    return tuple(_dangers(trace))


def _dangers(trace: Trace) -> Iterator[Danger]:
    if not any(moment.after.fumes for moment in trace.every()):
        return
    for moment in trace.every():
        action = moment.step.action
        reached = _reached(trace, moment)
        fumes = reached and without_small_carriers(trace.world, trace.nature, reached)
        if fumes and action is not None:
            yield _danger(trace.nature, moment, action, fumes)


def _reached(trace: Trace, moment: Moment) -> Fumes:
    """Return what burns within reach of what *moment* ignites with; nothing where it ignites nothing."""
    world, before = trace.world, moment.before
    match moment.step.action:
        case act.Heat(tool=tool, on=part) if trace.nature.kind(tool.text) != "oven":
            present = {**before.fumes, **_own(moment)}
            return tuple(entry for entry in present.items() if near(world, before, entry[0][0], part.text))
        case act.Power(on=True):
            return _inside(trace, moment)
        case act.Supply(source=source) if source is not None:
            return _inside(trace, moment)
        case act.Plug(connector=name) if name.text in world.plugs:
            return _inside(trace, moment)
        case act.Solvent() | act.Bath() if before.live and trace.procedure.access.text == CLOSED:
            return tuple(entry for entry in _own(moment).items() if before.is_in(entry[0][0]))
        case _:
            return ()


def _own(moment: Moment) -> dict[tuple[str, str], Fume]:
    """Return what the step itself puts on."""
    return {key: fume for key, fume in moment.after.fumes.items() if fume.step == moment.step.id and not fume.seen}


def _inside(trace: Trace, moment: Moment) -> Fumes:
    """
    Return what burns inside.

    A part that is wet is said to be so by others, and so is a flux that the closing shuts in, unless they were told
    not to.
    """
    before = moment.before
    found = tuple((key, fume) for key, fume in before.fumes.items() if before.is_in(key[0]) and not fume.seen)
    said = {key for key, _ in found if key[0] in before.wet or moment.kind == "closing"}
    if not said:
        return found
    excused = {at.step.id for at in trace.every() if any(allow.rule.text in _OF_WET_PARTS for allow in at.step.allow)}
    return tuple((key, fume) for key, fume in found if key not in said or excused & {moment.step.id, fume.step})


def near(world: World, state: State, one: str, other: str) -> bool:
    """Whether two parts are together: both in, or both left with one part; a part that nobody named is with any."""
    if not one or one == other:
        return True
    if state.is_in(one) and state.is_in(other):
        return True
    if state.away.get(one) != OUT or state.away.get(other) != OUT:
        return False
    return any(one in world.family[name] and other in world.family[name] for name in state.away if name in world.family)


def _danger(nature: Nature, moment: Moment, action: Action, fumes: Fumes) -> Danger:
    if not isinstance(action, act.Heat):
        return Danger(moment, action, fumes, None, (), live=isinstance(action, act.Solvent | act.Bath))
    setting = action.at.high
    selves = {
        substance.id: substance
        for (_, liquid), _ in fumes
        for substance, _ in nature.components(liquid)
        if substance.autoignition is not None and substance.autoignition.cautious.value <= setting
    }
    return Danger(moment, action, fumes, setting, tuple(selves.values()))


def drying_left(trace: Trace, fumes: Fumes) -> float:
    """Return how long *fumes* go on drying in the air of the bench, s at the bad end."""
    return max(fume.wet.left * trace.nature.drying(trace.world, part, fume.wet) for (part, _), fume in fumes)
