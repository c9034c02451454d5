"""Safety messages from the hazards of a trace: said before the step where one begins, once for as long as it lasts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.every import said_once
from benchleaf.physics.types import End
from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits, time_at_least

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.dryrun.hazards.kind import Hazard
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.physics.types import Estimate


@dataclass(frozen=True, slots=True)
class Callout:
    """
    A safety message: what the hazard is, what happens, how to avoid it, in the shop's units.

    It stands before `step` and is in force until after `until`. `method` names its computation on the page of methods,
    "" where nothing is computed.
    """

    hazard: str
    signal: str
    step: str
    until: str
    what: str
    happens: str
    avoid: str
    numbers: Mapping[str, Estimate]
    method: str


def callouts(trace: Trace, units: Mapping[str, str]) -> tuple[Callout, ...]:
    """Return the messages of *trace* in the order of its steps, with temperatures in the shop's *units*."""
    return tuple(_callout(one, trace.straight, units) for one in said_once(trace))


def _callout(one: Hazard, moments: tuple[Moment, ...], units: Mapping[str, str]) -> Callout:
    shown = {name: spoken(number, units) for name, number in one.numbers.items()}
    what, happens, avoid = (text.format_map(shown) for text in (one.what, one.happens, one.avoid))
    return Callout(
        one.hazard, one.signal, moments[one.first].step.id, moments[one.last].step.id, what, happens, avoid,
        one.numbers, one.method if one.numbers else "",
    )  # fmt: skip


def spoken(number: Estimate, units: Mapping[str, str]) -> str:
    """Return the bad end of *number* as a person reads it; an estimate says that it is one by its range."""
    wanted, worse = number.unit, math.floor if number.bad is End.LOW else math.ceil
    if wanted == "°C":
        unit = spellings("temperature").get(units.get("temperature", "°C"), spellings("temperature")["°C"])
        worst = unit.from_base(number.worst)
        if number.method != "given":  # Tenths of a degree would claim more than an estimate knows.
            return f"about {math.ceil(round(worst, 6))} {unit.symbol}"
        return f"{digits(worst, 3, worse)} {unit.symbol}"
    if wanted == "s":
        text = time_at_least(number.worst)
    elif wanted == "1":
        text = f"{digits(number.worst * 100, 2, math.ceil)} %"
    else:
        text = f"{digits(number.worst, 3, worse)} {wanted}"
    return text if number.method == "given" else f"about {text}"
