"""The numbers that a step's fields give, each with its field, and whether a number in a text is the same."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model import action as act
from benchleaf.units.dimensions import CURRENCY, DIMENSIONS, spellings
from benchleaf.units.parse import NotAQuantity, parse
from benchleaf.units.quantity import Duration, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.walk import Spot
    from benchleaf.model.step import Check, Step

_LAST = re.compile(r"([0-9]+)(?:\.([0-9]+))?")
_EXACT = 1e-9
_ROUGHLY = 0.1  # A whole time, with its pauses, is said in round numbers.


@dataclass(frozen=True, slots=True)
class Given:
    """
    A number that a field gives. `role` says what it is of the step: at, for, pause, amount, torque, expect, when ...

    `material` is what an amount is of. `written` is what stands in the field.
    """

    field: str
    role: str
    quantity: Quantity
    material: str = ""

    @property
    def written(self) -> str:
        """The field's value as the author wrote it."""
        return self.quantity.text


def given(spot: Spot) -> tuple[Given, ...]:
    """Return the numbers that the fields of a step give, and the torque of its screws where the device gives it."""
    step = spot.step
    numbers = [*_of_action(spot), *_of_check(step.check)]
    numbers += [Given(f"apply.{a.material}", "amount", a.amount, a.material.text) for a in step.apply]
    if step.takes:
        numbers.append(Given("takes", "takes", step.takes))
    return tuple(numbers)


def _of_action(spot: Spot) -> Iterator[Given]:
    match spot.step.action:
        case act.Heat() as heat:
            yield from _of_heat(heat)
        case act.Solvent() as solvent:
            yield Given("solvent.volume", "amount", solvent.volume, solvent.material.text)
            yield from _maybe("solvent.area", "area", solvent.area)
        case act.Bath() as bath:
            yield Given("bath.for", "for", bath.lasts)
            yield from _maybe("bath.at", "at", bath.at)
        case act.Wait() as wait:
            yield Given("wait.for", "for", wait.lasts)
            yield from _maybe("wait.at", "at", wait.at)
            yield from _maybe("wait.air_speed", "speed", wait.air_speed)
        case act.Supply() as supply:
            yield from _maybe("supply.at", "voltage", supply.at)
            yield from _maybe("supply.limit", "current", supply.limit)
        case act.Screw() | act.Unscrew() as screws:
            yield from _of_screws(spot, screws)
        case _:
            pass


def _of_heat(heat: act.Heat) -> Iterator[Given]:
    yield Given(f"{heat.kind}.at", "at", heat.at)
    yield Given(f"{heat.kind}.for", "for", heat.lasts)
    yield from _maybe(f"{heat.kind}.pause", "pause", heat.pause)
    yield from _maybe(f"{heat.kind}.reaches", "reaches", heat.reaches)
    yield from _maybe(f"{heat.kind}.ramp", "ramp", heat.ramp)
    if heat.hold:
        yield Given(f"{heat.kind}.hold.below", "below", heat.hold.below)
    if heat.times > 1:
        yield Given(f"{heat.kind}.times", "whole", _whole(heat))


def _whole(heat: act.Heat) -> Duration:
    """Return how long all touches last, from without pauses to with them, as round numbers say it."""
    pause = heat.pause.high if heat.pause else 0.0
    low, high = heat.lasts.low * heat.times, heat.lasts.high * heat.times + pause * (heat.times - 1)
    return Duration(low * (1 - _ROUGHLY), high * (1 + _ROUGHLY), "", "s")


def _of_screws(spot: Spot, action: act.Screw | act.Unscrew) -> Iterator[Given]:
    for screws in action.screws:
        known = spot.device.fasteners.get(screws.fastener.text) if spot.device else None
        torque = screws.torque or (known.torque if known else None)
        yield from _maybe(f"the torque of {screws.fastener}", "torque", torque)


def _of_check(check: Check | None) -> Iterator[Given]:
    if check and isinstance(check.expect, Quantity):
        yield Given("check.expect" if check.kind != "leak" else "check.leak", "expect", check.expect)
    for name, text in (check.when if check else {}).items():
        quantity = _any(text)
        if quantity:
            yield Given(f"check.when.{name}", "when", quantity)


def _any(text: str) -> Quantity | None:
    try:
        return parse(text, *DIMENSIONS)
    except NotAQuantity:
        return None


def _maybe(field: str, role: str, quantity: Quantity | None) -> Iterator[Given]:
    if quantity:
        yield Given(field, role, quantity)


def same(said: Quantity, there: Quantity) -> bool:
    """
    Whether a number in a text says what a field says: it is the same, or lies within the field's interval.

    In another unit it may be rounded: by half of the last place that it shows, zeros at its end not counted.
    """
    if said.dimension != there.dimension:
        return False
    ends = [abs(end) for end in (said.low, said.high, there.low, there.high) if abs(end) != float("inf")]
    off = _EXACT * max(ends, default=0.0) + (_place(said) / 2 if said.unit != there.unit else 0.0)
    return there.low - off <= said.low and said.high <= there.high + off


def _place(said: Quantity) -> float:
    """Return the worth of the last place that *said* shows."""
    if said.dimension in CURRENCY:
        return 0.0
    finest = 0.0
    for whole, part in _LAST.findall(said.text):
        zeros = len(whole) - len(whole.rstrip("0")) if not part and whole.strip("0") else 0
        finest = max(finest, 10.0 ** (zeros - len(part)))
    unit = spellings(said.dimension).get(said.unit)
    return finest * (unit.factor if unit else 1.0) * (1 + _EXACT)


def tool_of(step: Step) -> str | None:
    """Return the name of the tool that a step heats or waits with."""
    tool = step.action.tool if isinstance(step.action, act.Heat | act.Bath | act.Wait) else None
    return tool.text if tool else None
