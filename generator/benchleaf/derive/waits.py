"""How long a thing stays wet or hot, where it begins and in the waits after it; and what a wait is for."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from benchleaf.derive.number import Number, between, estimated, scaled
from benchleaf.derive.passing import unseen
from benchleaf.dryrun.hot import lies, out_of_the_air
from benchleaf.model.action import Heat, Wait
from benchleaf.units.show import shown_ends

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from benchleaf.dryrun.state import Hot, Wet
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.physics.types import Estimate

End = Literal["dry", "clear", "cool", "cured"]
"""What a wait brings about: a part is dry or cool, a bond is firm, nothing that burns is left where no part is wet."""


@dataclass(frozen=True, slots=True)
class Needed:
    """
    What the wait `step` needs until `on` is at its `end`: the slowest of all that comes to that end in it.

    Its ends are rounded as they are shown: variants that differ in less are alike.
    """

    step: str
    end: End
    on: str
    needed: Number


def never(what: str) -> Number:
    """Return the time of what no formula holds for."""
    return between(0.0, math.inf, "s", f"no formula holds: someone must see that it is {what}", "none")


def dries(trace: Trace, moment: Moment, name: str, liquid: Wet) -> Number:
    """Return how long *liquid* on the part *name* has still to dry: in a wait in its air, else in that of the bench."""
    step = moment.step if isinstance(moment.step.action, Wait) else None
    time = trace.nature.drying_estimate(trace.world, name, liquid, step)
    return scaled(estimated(time), liquid.left) if time else never("dry")


def cools(trace: Trace, began: Moment | None, name: str, hot: Hot) -> tuple[Number, Number]:
    """Return how long *name*, *hot* since the moment *began*, stays so: until it can be handed over, and for a hand."""
    times = _times(trace, began, name) if began else None
    if times is None:
        return never("cool"), never("cool")
    return _rest(times[0], hot, hot.cool), _rest(times[1], hot, hot.hand)


def heated_by(trace: Trace, moment: Moment, name: str) -> Moment | None:
    """Return the last moment before *moment* that made *name* hot."""
    found = None
    for one in trace.straight:
        if one is moment:
            break
        hot = one.after.hot.get(name)
        if hot is not None and hot is not one.before.hot.get(name) and hot.elapsed == 0.0:
            found = one
    return found


def needs(trace: Trace, moment: Moment) -> Iterator[Needed]:
    """Yield what the wait in *moment* is for: what it is said to be for, or else all that comes to its end in it."""
    action, before = moment.step.action, moment.before
    if not isinstance(action, Wait) or not (before.wet or before.fumes or before.hot or before.setting):
        return
    wanted: dict[str, tuple[End, ...]] = {"dry": ("dry", "clear"), "cool": ("cool",), "cured": ("cured",)}
    for end in wanted.get(action.until or "", ("dry", "clear", "cool", "cured")):
        found = list(_ENDS[end](trace, moment).items())
        if action.until is None:
            found = [(on, time) for on, time in found if time.high <= action.lasts.low]
        slowest = max(found, key=lambda one: one[1].high, default=None)
        if slowest:
            low, high = shown_ends(slowest[1].low, slowest[1].high)
            yield Needed(moment.step.id, end, slowest[0], replace(slowest[1], value=high, low=low, high=high))


def _dry(trace: Trace, moment: Moment) -> dict[str, Number]:
    return {name: dries(trace, moment, name, wet) for name, wet in moment.before.wet.items()}


def clears(trace: Trace, moment: Moment) -> dict[str, Number]:
    """Return how long what burns still lies where no part is wet with it, as the carrier of a flux does."""
    found: dict[str, Number] = {}
    for (part, _), fume in unseen(moment.before).items():
        time = dries(trace, moment, part, fume.wet)
        # Of two liquids on one part the slower one counts.
        found[part] = max(found.get(part, time), time, key=lambda one: one.high)
    return found


def _cool(trace: Trace, moment: Moment) -> dict[str, Number]:
    action = moment.step.action
    if isinstance(action, Wait) and action.at is not None:
        return {}  # Warm air cools nothing.
    return {name: cools(trace, heated_by(trace, moment, name), name, hot)[0] for name, hot in moment.before.hot.items()}


def _cured(_: Trace, moment: Moment) -> dict[str, Number]:
    return {name: between(left, left, "s", "given", "the adhesive") for name, left in moment.before.setting.items()}


_ENDS: dict[End, Callable[[Trace, Moment], Mapping[str, Number]]] = {
    "dry": _dry, "clear": clears, "cool": _cool, "cured": _cured,
}  # fmt: skip


def _times(trace: Trace, moment: Moment, name: str) -> tuple[Estimate, Estimate] | None:
    match moment.step.action:
        case Heat() as heat:
            return trace.nature.cooling(trace.world, name, heat, lies(trace.world, moment.after, name))
        case Wait(at=at) if at is not None:
            return out_of_the_air(trace.world, trace.nature, moment.after, name, at.high)
        case _:
            return None


def _rest(time: Estimate, hot: Hot, worst: float) -> Number:
    """Return what is left of *time*; the state knows the bad end, which an earlier heat may have set."""
    high = max(0.0, worst - hot.elapsed)
    value, low = (min(high, max(0.0, end - hot.elapsed)) for end in (time.central, time.low))
    how = f"{time.method}; less the time that has passed" if hot.elapsed else time.method
    return Number(value, time.unit, low, high, how, time.source)
