"""What would keep a neighbour below its limit: each number is tried in the sum before it is named."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from benchleaf.dryrun.beside import LAID_ON
from benchleaf.dryrun.warmth import warmed_by
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from benchleaf.dryrun.state import Beside, Touch
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.warmth import Warmed
    from benchleaf.model.action import Heat

# Nobody waits longer between two touches, s, or touches a joint for less; hot air needs a while to melt anything.
_LONGEST_PAUSE, _SHORTEST_TOUCH, _SHORTEST_BLOW = 120, 2, 20
_COLDEST_HEATER = 40  # °C: below that nothing softens.
_FARTHEST = 400  # mm: no board of a bench is longer.


def cure(trace: Trace, moment: Moment, action: Heat, one: Warmed, limit: float) -> str:
    """Return what to write so that the neighbour of *one* stays below *limit*, °C, at the bad end too."""
    numbers = next(_numbers(trace, moment, one, limit), None)
    measured = _measured(trace, action, one, limit)
    ways = [way for way in (numbers, measured) if way]
    if not ways:
        return f"Take `{one.part}` out before, or heat `{one.heated}` away from it."
    return " Or ".join([ways[0], *(way[0].lower() + way[1:] for way in ways[1:])])


def _numbers(trace: Trace, moment: Moment, one: Warmed, limit: float) -> Iterator[str]:
    """Yield cures by a number, the one that costs the work least first."""

    def holds(**change: Any) -> bool:  # noqa: ANN401  (the fields of a Touch)
        return _changed(trace, moment, one, **change).stays_below(limit)

    last = moment.after.touches[-1]
    if last.tool_kind == "hot-air" and not last.shielded and holds(shielded=True):
        yield "Write `shield: foil`: it keeps the stream of air off."
    if last.tool_kind in LAID_ON:
        found = _last(math.ceil(last.setting) - 1, _COLDEST_HEATER, lambda at: holds(setting=at, source=at))
        if found is not None:
            yield f"Write at most `at: {found} °C`."
        return
    if last.times > 1:
        pause = _first(math.ceil(last.pause), _LONGEST_PAUSE, lambda pause: holds(pause=float(pause)))
        if pause is not None:
            yield f"Write `pause: {pause} s` or more."
        times = _last(last.times - 1, 1, lambda times: holds(times=times))
        if times is not None:
            yield f"Write at most `times: {times}`."
    shortest = _SHORTEST_TOUCH if last.tool_kind == "iron" else _SHORTEST_BLOW
    lasts = _last(math.ceil(min(last.lasts, 1e4)) - 1, shortest, lambda lasts: holds(lasts=float(lasts)))
    if lasts is not None:
        yield f"Write at most `for: {lasts} s`."
    away = _distance(trace, moment, one, limit)
    if away is not None:
        yield f"From {away} mm on it would bear this: measure again how far it is."


def _measured(trace: Trace, action: Heat, one: Warmed, limit: float) -> str | None:
    """Return how a measurement would keep it, or None where the step measures something else already."""
    below = f"{digits(limit, 3, math.floor)} °C"
    if limit < one.room or (action.hold is not None and action.hold.part.text != one.part):
        return None
    if action.hold is not None:
        return f"Write at most `below: {below}` in its `hold`."
    meter = next((name for name, tool in trace.nature.tools.items() if "temperature" in tool.measures), "thermocouple")
    return f"Keep it there by measuring: `hold: {{part: {one.part}, below: {below}, with: {meter}}}`."


def _changed(trace: Trace, moment: Moment, one: Warmed, **change: Any) -> Warmed:  # noqa: ANN401  (the fields of a Touch)
    """Return *one* as it would be with other touches of its step, however often the step is performed."""
    last = moment.after.touches[-1]
    return _again(trace, moment, one, lambda touch: replace(touch, **change) if _alike(touch, last) else touch)


def _again(trace: Trace, moment: Moment, one: Warmed, new: Callable[[Touch], Touch]) -> Warmed:
    """Return *one* with each touch made new, and as much time between two of them as there was."""
    touches: list[Touch] = []
    end = shown = 0.0
    for touch in moment.after.touches:
        touches.append(replace(new(touch), start=shown + max(0.0, touch.start - end)))
        end, shown = touch.end, touches[-1].end
    beside = next(entry for entry in touches[-1].beside if entry.part == one.part)
    return warmed_by(trace.world, trace.nature, tuple(touches), beside)


def _alike(touch: Touch, last: Touch) -> bool:
    """Whether two touches are one step performed twice."""
    return replace(touch, start=0.0, done=0.0, beside=()) == replace(last, start=0.0, done=0.0, beside=())


def _distance(trace: Trace, moment: Moment, one: Warmed, limit: float) -> int | None:
    """Return from how many whole millimetres on it would bear all that is done to the part beside it."""
    if one.distance == 0:
        return None

    def holds(far: int) -> bool:
        def moved(touch: Touch) -> Touch:
            return replace(touch, beside=tuple(_moved(touch.beside))) if touch.part == one.heated else touch

        def _moved(beside: Iterable[Beside]) -> Iterator[Beside]:
            for entry in beside:
                yield replace(entry, distance=far / 1e3) if entry.part == one.part else entry

        return _again(trace, moment, one, moved).stays_below(limit)

    return _first(math.ceil(one.distance * 1e3), _FARTHEST, holds)


def _first(low: int, high: int, holds: Callable[[int], bool]) -> int | None:
    """Return the first whole number from *low* to *high* that *holds*, or None where the last does not."""
    if high < low or not holds(high):
        return None
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle + 1, high)
    return high


def _last(high: int, low: int, holds: Callable[[int], bool]) -> int | None:
    """Return the last whole number from *high* down to *low* that *holds*, or None where not even the lowest does."""
    found = _first(-high, -low, lambda value: holds(-value))
    return None if found is None else -found
