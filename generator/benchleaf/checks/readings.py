"""What steps read with an instrument, and whether the instrument can tell right from wrong."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.action import Heat
from benchleaf.units.quantity import Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.findings import Place
    from benchleaf.model.shop import Tool
    from benchleaf.model.step import Check, Step
    from benchleaf.model.words import Said

CHARGE = "ratio"
"""What an instrument measures to tell how full a battery is."""
_OF_A_BATTERY = {"charge": CHARGE, "temperature": "temperature"}
# A connection is a low resistance. A diode is none of it: the meter has to drive the current.
_ALSO = {"continuity": ("continuity", "resistance")}
# An instrument for time hangs on the wall.
_NEEDS_NONE = frozenset({"time"})
# A range that begins so far below its end begins with the least step: the instrument shows a zero (common practice, no
# source). One that begins higher begins where the instrument wakes up.
_LEAST = 0.01
_CLOSE = 1e-9  # Units are converted: 0.1 kΩ is 100 Ω.


@dataclass(frozen=True, slots=True)
class Reading:
    """
    A value that a step reads: `what` is measured, `expect` decides.

    `named` is the instrument that has to read it; where it is None, one of the step's `use` does. `write` is how an
    instrument is named at this place.
    """

    step: Step
    what: str
    expect: Quantity
    named: Said | None
    place: Place
    write: str = "with: {}"

    @property
    def instruments(self) -> tuple[Said, ...]:
        """The tools that may read it."""
        return (self.named,) if self.named else self.step.use


def readings(step: Step) -> Iterator[Reading]:
    """Yield each value that *step* reads: in its check, and while it heats."""
    if step.check:
        yield from _checked(step, step.check)
    action = step.action
    if isinstance(action, Heat):
        if action.reaches:
            yield Reading(step, "temperature", action.reaches, None, action.place, "use: [{}]")
        if action.hold:
            hold = action.hold
            yield Reading(step, "temperature", hold.below, hold.instrument, hold.part.place)


def _checked(step: Step, check: Check) -> Iterator[Reading]:
    what = {"measure": check.what.text, "leak": "pressure", "battery": _OF_A_BATTERY.get(check.what.text)}.get(
        check.kind
    )
    if what and isinstance(check.expect, Quantity) and (what not in _NEEDS_NONE or check.instrument):
        yield Reading(step, what, check.expect, check.instrument, check.what.place)


def is_read(reading: Reading, tools: Mapping[str, Tool]) -> bool:
    """Whether an instrument that is named for *reading* can tell right from wrong."""
    return any(can_read(tools[name.text], reading) for name in reading.instruments if name.text in tools)


def can_read(tool: Tool, reading: Reading) -> bool:
    """Whether *tool* measures what *reading* is of, in its range and finely enough."""
    return bool(in_range(tool, reading)) and not too_coarse(tool, reading)


def reaches(tool: Tool, reading: Reading) -> tuple[Quantity, ...]:
    """Return the ranges in which *tool* measures what *reading* is of."""
    dimension = reading.expect.dimension
    if tool.kind == "meter" and not tool.measures and tool.range and tool.range.dimension == dimension:
        return (tool.range,)
    names = _ALSO.get(reading.what, (reading.what,))
    found = [tool.measures[name] for name in names if name in tool.measures]
    return tuple(reach for reach in found if reach.dimension == dimension)


def in_range(tool: Tool, reading: Reading) -> tuple[Quantity, ...]:
    """Return those ranges of *tool* that hold the ends which decide *reading*."""
    ends = _deciding(reading.expect)
    return tuple(reach for reach in reaches(tool, reading) if all(_holds(reach, end) for end in ends))


def _deciding(expect: Quantity) -> tuple[float, ...]:
    """Return the ends at which right turns into wrong: a range from nothing up has only its upper one."""
    ends = (end for end in (expect.low, expect.high) if math.isfinite(end))
    return tuple(end for end in ends if end or expect.dimension == "temperature" or expect.high <= 0)


def _holds(reach: Quantity, end: float) -> bool:
    # A single value is the most that can be read.
    low = -math.inf if reach.low == reach.high else reach.low
    if reach.dimension == "temperature":
        return low - _CLOSE <= end <= reach.high + _CLOSE
    if end == 0:
        return low <= _LEAST * reach.high
    # Turned round, the leads read the other sign.
    return low * (1 - _CLOSE) <= abs(end) <= reach.high * (1 + _CLOSE)


def too_coarse(tool: Tool, reading: Reading) -> bool:
    """Whether the marks of *tool* lie too far apart: right and wrong would read alike."""
    step, expect = tool.resolution, reading.expect
    if step is None or step.dimension != expect.dimension or not step.high or math.isinf(expect.high - expect.low):
        return False
    width = expect.high - expect.low
    if width:
        return width < step.high * (1 - _CLOSE)
    marks = expect.high / step.high
    return abs(marks - round(marks)) > _CLOSE * max(1.0, abs(marks))
