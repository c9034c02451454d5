"""The numbers that a step gives in its own words: what is set, put on, waited for and measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.number import Number, given
from benchleaf.model import action as act
from benchleaf.units.quantity import Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.step import Step


def written(trace: Trace, step: Step) -> Iterator[tuple[str, Number]]:
    """Yield each number that *step* gives, by its field, and those that the device gives for what it names."""
    path = step.place.path
    for name, quantity in _of_action(step.action):
        if quantity is not None:
            yield name, given(quantity, path)
    for amount in step.apply:
        yield f"apply:{amount.material}", given(amount.amount, path)
    if step.check and isinstance(step.check.expect, Quantity):
        yield "expect", given(step.check.expect, path)
    if step.takes:
        yield "takes", given(step.takes, path)
    device = trace.world.device
    if device and isinstance(step.action, act.Release) and step.action.bond.text in trace.world.bonds:
        softens = trace.world.bonds[step.action.bond.text].softens
        if softens:
            yield "softens", given(softens, device.path)


def _of_action(action: act.Action | None) -> Iterator[tuple[str, Quantity | None]]:
    match action:
        case act.Heat():
            yield from (("at", action.at), ("for", action.lasts), ("pause", action.pause))
            yield from (("reaches", action.reaches), ("ramp", action.ramp))
            if action.hold:
                yield f"hold:{action.hold.part}", action.hold.below
        case act.Solvent():
            yield from (("volume", action.volume), ("area", action.area))
        case act.Bath():
            yield from (("for", action.lasts), ("at", action.at))
        case act.Wait():
            yield from (("for", action.lasts), ("at", action.at), ("air-speed", action.air_speed))
        case act.Supply():
            yield from (("at", action.at), ("limit", action.limit))
        case _:
            return
