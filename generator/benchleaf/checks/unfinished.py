"""How a device is not ready to be closed: wet, hot, not cured, on, or with its battery joined."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import time_at_least
from benchleaf.checks.baths import baths
from benchleaf.checks.handed import shut_in
from benchleaf.checks.names import listed
from benchleaf.dryrun.inside import is_open
from benchleaf.dryrun.state import OUT
from benchleaf.model import action as act
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from benchleaf.checks.handed import Handover
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace

_MANY = 3
# What leaves a closed device as it is: it may be on meanwhile.
_HANDS_OFF = (act.Power, act.Supply, act.Wait, act.Work, act.Store)
# A pack of which nobody knows anything yet is looked at first.
_KNOWN_DAMAGE = frozenset({"swollen", "wet", "too hot"})
_THEN = "when the work is handed over"


@dataclass(frozen=True, slots=True)
class Unfinished:
    """One thing that is not ready, the last moment that made it so (None: it came so), and what is to be written."""

    kind: str
    moment: Moment | None
    what: str
    cure: str


def left_wet(trace: Trace, handed: Handover) -> Iterator[Unfinished]:
    """Yield what is still wet; what a case shuts in to burn, and a bath that nothing dries, have rules of their own."""
    world, nature, end = trace.world, trace.nature, handed.end
    vapour = {key for case in shut_in(trace) for key, _ in case.fumes}
    bathed = {member for bath in baths(trace) if bath.undried for member in world.family.get(bath.action.on.text, ())}
    names = [
        name
        for name, wet in end.wet.items()
        if _on_the_bench(trace, end, name)
        and nature.knows(wet.liquid)
        and (name, wet.liquid) not in vapour
        and name not in bathed
    ]
    for moment, some in _by_cause(handed, names, _wetter):
        seconds = max(nature.drying(world, name, end.wet[name]) * end.wet[name].left for name in some)
        liquids = listed(dict.fromkeys(f"`{end.wet[name].liquid}`" for name in some))
        what = f"{_are(some)} still wet from {liquids}{'' if moment else ', as it arrived,'} {_THEN}: it is shut in"
        yield Unfinished("wet", moment, what, _wait(seconds, "dry"))


def left_hot(trace: Trace, handed: Handover) -> Iterator[Unfinished]:
    """Yield what is still too hot to be closed in or held."""
    end = handed.end
    for moment, some in _by_cause(handed, [name for name in end.hot if _on_the_bench(trace, end, name)], _hotter):
        seconds = max(end.hot[name].cool - end.hot[name].elapsed for name in some)
        peak = digits(max(end.hot[name].peak for name in some), 3, math.ceil)
        what = f"{_are(some)} still hot, from up to {peak} °C, {_THEN}: it burns whoever closes the device"
        yield Unfinished("hot", moment, what, _wait(seconds, "cool"))


def left_setting(_: Trace, handed: Handover) -> Iterator[Unfinished]:
    """Yield each bond that does not bear handling yet."""
    for bond, seconds in sorted(handed.end.setting.items()):
        moment = handed.last(_slower(bond))
        what = f"`{bond}` has not cured {_THEN}: it opens when the device is handled"
        yield Unfinished(f"setting {bond}", moment, what, _wait(seconds, "cured"))


def left_on(trace: Trace, handed: Handover) -> Iterator[Unfinished]:
    """
    Yield a device that is handed over on, or fed.

    One that came so and was not opened may stay so if nobody worked on it; one that was opened so has its own rule.
    """
    if not handed.end.live:
        return
    moment = handed.last(lambda at: at.after.live and not at.before.live)
    if moment or _worked_on(trace, handed):
        way = "`supply: off`" if handed.end.supplied else "`power: off`"
        what = f"The device is on{'' if moment else ', as it came,'} {_THEN}: it is closed or carried off under power"
        when = "at the end" if moment else "at the beginning"
        yield Unfinished("on", moment, what, f"Write a step with {way} {when} of `steps`.")


def _worked_on(trace: Trace, handed: Handover) -> bool:
    """Whether somebody worked on the device without opening it."""
    if trace.world.device is None:
        return False
    worked = any(at.step.action and not isinstance(at.step.action, _HANDS_OFF) for at in handed.moments)
    return worked and not any(is_open(trace.world, at.after) for at in handed.moments)


def joined(trace: Trace, handed: Handover) -> Iterator[Unfinished]:
    """Yield each battery that is joined and was not when the level was reached."""
    world = trace.world
    for name in sorted(handed.entry.isolated - handed.end.isolated):
        moment = handed.last(_joins(name))
        plug = world.batteries[name].plug if name in world.batteries else None
        what = f"`{name}` is joined {_THEN}, and was isolated before: whoever closes the device works on a live board"
        yield Unfinished(
            f"joined {name}", moment, what, f"Write `unplug: {plug}` at the end of `steps`; the closing plugs it in."
        )


def left_lying(trace: Trace, handed: Handover) -> Iterator[Unfinished]:
    """Yield each damaged pack that came out and was not put away: the next hand takes it for a sound one."""
    lying: dict[str, Moment] = {}
    for moment in handed.moments:
        for pack, name in trace.world.packs.items():
            if _takes_out_damaged(moment, name, pack):
                lying.setdefault(pack, moment)
            elif isinstance(moment.step.action, act.Store | act.Fit) and moment.step.action.part.text == pack:
                lying.pop(pack, None)  # One that goes in again is another fault.
    for pack, moment in sorted(lying.items()):
        damage = moment.before.damaged[trace.world.packs[pack]]
        what = f"`{pack}`, {damage}, comes out here and lies on the bench {_THEN}: it may still burn"
        cure = f"Write `store: {{part: {pack}, as: do-not-use}}` after this step."
        yield Unfinished(f"lying {pack}", moment, what, cure)


def _takes_out_damaged(moment: Moment, name: str, pack: str) -> bool:
    action = moment.step.action
    moved = action.part.text if isinstance(action, act.Remove | act.Replace) else None
    return moved == pack and moment.before.is_in(pack) and moment.before.damaged.get(name) in _KNOWN_DAMAGE


def _slower(bond: str) -> Callable[[Moment], bool]:
    def changes(at: Moment) -> bool:
        before, after = at.before.setting.get(bond), at.after.setting.get(bond)
        return after is not None and (before is None or after > before)

    return changes


def _joins(name: str) -> Callable[[Moment], bool]:
    return lambda at: name in at.before.isolated and name not in at.after.isolated


def _on_the_bench(trace: Trace, state: State, name: str) -> bool:
    return name in trace.world.parts and state.away.get(name, OUT) == OUT


def _wetter(name: str, moment: Moment) -> bool:
    old, new = moment.before.wet.get(name), moment.after.wet.get(name)
    return new is not None and (old is None or new.liquid != old.liquid or new.left > old.left)


def _hotter(name: str, moment: Moment) -> bool:
    old, new = moment.before.hot.get(name), moment.after.hot.get(name)
    return new is not None and (old is None or new.elapsed < old.elapsed or new.cool > old.cool)


def _by_cause(
    handed: Handover, names: Iterable[str], changes: Callable[[str, Moment], bool]
) -> Iterator[tuple[Moment | None, list[str]]]:
    """Yield the moments that last changed *names*, each with those that it changed."""
    found: dict[int, tuple[Moment | None, list[str]]] = {}
    for name in sorted(names):
        moment = handed.last(partial(changes, name))
        found.setdefault(id(moment), (moment, []))[1].append(name)
    yield from found.values()


def _are(names: list[str]) -> str:
    some = [f"`{name}`" for name in names[:_MANY]]
    rest = len(names) - _MANY
    said = f"{', '.join(some)} and {rest} more" if rest > 0 else listed(some)
    return f"{said} {'is' if len(names) == 1 else 'are'}"


def _wait(seconds: float, until: str) -> str:
    if math.isinf(seconds):
        shows = f"Write a check with `shows: {until}`" if until != "cured" else "Give the adhesive its `fixture`"
        return f"Nobody can say how long this takes. {shows} before the end of `steps`."
    return f"Write `wait: {{for: {time_at_least(seconds)}, until: {until}}}` at the end of `steps`."
