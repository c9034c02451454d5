"""A package that is heated too fast or too long cracks inside, and a joint that is too hot lifts its pad: unseen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.harsh_air import hot_air
from benchleaf.checks.harsh_iron import iron
from benchleaf.checks.names import listed
from benchleaf.checks.reflow import held, passes
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.beside import LAID_ON
from benchleaf.dryrun.bodies import bodies
from benchleaf.findings import Level
from benchleaf.model.action import Heat
from benchleaf.physics import hand_reflow, profile
from benchleaf.physics.types import Celsius, Estimate, OutOfRange, Seconds
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.reflow import Pass
    from benchleaf.dryrun.bodies import Body
    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.device import Part
    from benchleaf.physics.hand_reflow import Held


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each heating outside the profile of a package, and each iron outside that of a joint without a limit."""
    for one in passes(trace):
        yield from _ramp(one)
        yield from _peak(trace, one)
        yield from _above_liquidus(trace, one)
        yield from _near_peak(trace, one)
    for body in bodies(trace.world, trace.nature, trace.every()):
        yield from _dwell(trace, body)
    yield from iron(trace)
    yield from hot_air(trace)


def _ramp(one: Pass) -> Iterator[Hit]:
    names, own = _named(one.parts), one.action.ramp
    why = f"packages are rated for {one.ramp:g} K/s at the most (J-STD-020): they crack inside, where nobody sees it"
    if own is not None and own.high > one.ramp:
        warm = "warms" if len(one.parts) == 1 else "warm"
        yield _hit(one, f"{names} {warm} at {own.text}, and {why}", f"Write at most {one.ramp:g} K/s.", "ramp")
    elif own is None and one.held is not None and hand_reflow.mean_ramp(one.held) > one.ramp:
        least = hand_reflow.shortest_heating(one.held, one.ramp)
        yield _hit(
            one,
            f"{names} may come to {one.held.reaches:g} °C in {one.action.lasts.text}: no way there is gentler than "
            f"{digits(hand_reflow.mean_ramp(one.held), 2, math.floor)} K/s, and {why}",
            f"Write at least {digits(least, 2, math.ceil)} s.",
            "ramp",
        )


def _peak(trace: Trace, one: Pass) -> Iterator[Hit]:
    """Yield packages that nobody gives a limit and that get hotter than any is rated for."""
    most, reached = profile.highest_class(lead_free=one.lead_free), trace.nature.source(one.action)
    parts = [part for part in one.parts if part.heat_limit is None]
    if parts and reached > most:
        yield _hit(
            one,
            f"{_named(parts)} may come to {reached:g} °C, and no package is rated above {most:g} °C (J-STD-020)",
            f"Measure it and write at most `reaches: {most:g} °C`, and give its own `heat_limit`.",
            "peak",
        )


def _above_liquidus(trace: Trace, one: Pass) -> Iterator[Hit]:
    if one.held is None or one.limits is None or one.held.reaches <= one.limits.liquidus.value:
        return
    level, most = Celsius(one.limits.liquidus.value), Seconds(one.limits.above_liquidus.value)
    found = _time_above(trace, one.held, level)
    if found is not None and found.worst > most:
        yield _hit(
            one,
            f"{_named(one.parts)} may stay above {level:g} °C for {_range(found)}, and packages are rated for "
            f"{most:g} s in one pass (J-STD-020): what is glued and bonded inside lets go",
            _shorter(trace, one.held, level, most),
            "time above liquidus",
        )


def _near_peak(trace: Trace, one: Pass) -> Iterator[Hit]:
    """Yield packages that are close to their limit for too long, where the limit itself says no time."""
    if one.held is None or one.limits is None:
        return
    most = Seconds(one.limits.near_peak.cautious.value)
    for part in one.parts:
        if part.heat_limit is None or part.heat_limit.lasts is not None or one.held.reaches > part.heat_limit.at.low:
            continue
        level = Celsius(part.heat_limit.at.low - profile.NEAR_PEAK)
        found = _time_above(trace, one.held, level)
        if one.held.reaches > level and found is not None and found.worst > most:
            yield _hit(
                one,
                f"`{part.id}` bears {part.heat_limit.at.text} and may stay within {profile.NEAR_PEAK:g} K of it for "
                f"{_range(found)}; packages are rated for {most:g} s there (J-STD-020)",
                f"{_shorter(trace, one.held, level, most)} Or stop at {math.floor(level)} °C.",
                f"near peak {part.id}",
            )


def _dwell(trace: Trace, body: Body) -> Iterator[Hit]:
    """Yield a part that is at the limit of its body for longer than the limit says."""
    lasts, level = body.limit.lasts, Celsius(body.limit.at.low - profile.NEAR_PEAK)
    if lasts is None or body.too_hot or body.reached <= level:
        return
    action, most = body.action, Seconds(lasts.low)
    measured = None
    if isinstance(action, Heat) and trace.nature.kind(action.tool.text) not in LAID_ON:
        # A body that is no package may follow its tool at once.
        measured = held(trace, action, math.inf)
    times = action.times if isinstance(action, Heat) else 1
    pauses = (times - 1) * action.pause.high if isinstance(action, Heat) and action.pause else 0.0
    found = _time_above(trace, measured, level) if measured else None
    worst = found.worst if found else times * action.lasts.high + pauses
    if worst > most:
        cure = (
            _shorter(trace, measured, level, most) if measured and found else _at_most((most - pauses) / times, times)
        )
        yield Hit(
            action.place,
            f"`{body.part}` bears {body.limit.at.text} for {lasts.text}, and may be within {profile.NEAR_PEAK:g} K of "
            f"it for {_range(found) if found else f'{digits(worst, 3, math.ceil)} s'}",
            f"{cure} Or stay below {math.floor(level)} °C.",
            step=body.moment.step,
            about=f"dwell {body.part}",
        )


def _time_above(trace: Trace, one: Held, level: Celsius) -> Estimate | None:
    try:
        return hand_reflow.time_above(one, level, trace.nature.constants)
    except OutOfRange:
        return None  # On a board that is not thin nobody can say how it falls.


def _shorter(trace: Trace, one: Held, level: Celsius, most: Seconds) -> str:
    return _at_most(hand_reflow.longest_heating(one, level, most, trace.nature.constants), one.times)


def _at_most(seconds: float, times: int) -> str:
    if seconds < 1:
        return (
            "However short it is, it takes too long to cool."
            if times == 1
            else "Let it cool before it is heated again."
        )
    return f"Write at most {digits(seconds, 2 if seconds < 100 else 3, math.floor)} s."


def _range(found: Estimate) -> str:
    low, high = digits(found.low, 3, math.floor), digits(found.high, 3, math.ceil)
    return f"up to {high} s (an estimate: {low}–{high} s)"


def _named(parts: tuple[Part, ...] | list[Part]) -> str:
    return listed(f"`{part.id}`" for part in parts)


def _hit(one: Pass, message: str, cure: str, about: str) -> Hit:
    return Hit(one.action.place, message, cure, step=one.moment.step, about=about)


RULE = Rule("harsh-profile", Level.ERROR, watch=watch)
