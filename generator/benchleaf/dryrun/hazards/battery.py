"""A battery holds its energy whatever the switch says: what bends, pierces, warms or shorts it sets it free."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, given, opened, stretches
from benchleaf.dryrun.inside import is_open
from benchleaf.dryrun.state import DISCARDED, STORED
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.model import action as act
from benchleaf.physics.battery import WARM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.device import Battery
    from benchleaf.physics.types import Estimate

CERTAIN = "swollen"
"""Of what can be wrong with a pack, that which is known to do harm to hands that come to it."""
_HURT = {
    CERTAIN: "{} is swollen.",
    "not looked at": "{} may be swollen: nobody has looked at it.",
    "wet": "{} got wet.",
    "too hot": "{} was hotter than it bears.",
}
_LITHIUM = frozenset({"li-ion", "lifepo4", "lithium-primary"})


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a pack is damaged, where hands come to one, where one is warmed, and where one is joined inside."""
    for battery in trace.world.batteries.values():
        yield from _damaged(trace, battery)
        yield from _swollen_in_hand(trace, battery)
        yield from _handled(trace, battery)
        yield from _warmed(trace, battery)
        yield from _joined(trace, battery)


def _damaged(trace: Trace, battery: Battery) -> Iterator[Hazard]:
    """Yield where a pack that is known to be damaged, or that nobody has looked at, is on the bench."""
    name = opened(called(trace, battery.part.text))
    for first, last in stretches(bool(suspect(moment, battery)) for moment in trace.straight):
        hurt = suspect(trace.straight[first], battery)
        yield Hazard(
            "battery", first, last, Severity.GRAVE, _HURT[hurt].format(name),
            "Bent, pierced or shorted, it can burst into flame.",
            "Do not press, bend or pry at it. Keep the metal box and a clear bench at hand.",
            certain=hurt == CERTAIN and any(comes_to(trace, at, battery) for at in trace.straight[first : last + 1]),
        )  # fmt: skip


def _swollen_in_hand(trace: Trace, battery: Battery) -> Iterator[Hazard]:
    """Yield where hands come to a swollen pack, but for the first step, before which it was told that it is swollen."""
    name = called(trace, battery.part.text)
    swollen = [suspect(moment, battery) == CERTAIN for moment in trace.straight]
    for first, last in stretches(
        number > 0 and swollen[number - 1] and swollen[number] and comes_to(trace, moment, battery)
        for number, moment in enumerate(trace.straight)
    ):  # fmt: skip
        energy = _energy(battery)
        yield Hazard(
            "battery", first, last, Severity.GRAVE,
            f"Hands come to {name}, which is swollen" + (" and holds {energy}." if energy else "."),
            "Bent, pierced or shorted, it can burst into flame.",
            "Hold it where it is stiff, use no force, and lay it where it is to lie in one go.",
            certain=True, numbers=energy, method="battery",
        )  # fmt: skip


def suspect(moment: Moment, battery: Battery) -> str:
    """Return what may be wrong with the pack that lies on the bench in *moment*, "" where nothing is."""
    where = moment.after.away.get(battery.part.text)
    gone = where in {STORED, DISCARDED} and moment.before.away.get(battery.part.text) == where
    hurt = moment.before.damaged.get(battery.id, "")
    looked_at = hurt == "not looked at" and "shape" in moment.before.battery_seen
    return "" if gone or looked_at or hurt not in _HURT else hurt


def _handled(trace: Trace, battery: Battery) -> Iterator[Hazard]:
    if not is_lithium(battery):
        return
    name = called(trace, battery.part.text)
    for first, last in stretches(
        comes_to(trace, moment, battery) and not suspect(moment, battery) for moment in trace.straight
    ):
        energy = _energy(battery)
        yield Hazard(
            "battery", first, last, Severity.GRAVE,
            f"Hands and tools come to {name}" + (", which holds {energy}." if energy else "."),
            "Bent, pierced or shorted, it can burst into flame.",
            "Use no metal tool and no force. Lift it flat.", numbers=energy, method="battery",
        )  # fmt: skip


def is_lithium(battery: Battery) -> bool:
    """Whether the cells of *battery* burn when they are hurt."""
    return battery.chemistry in _LITHIUM


def comes_to(trace: Trace, moment: Moment, battery: Battery) -> bool:
    """Whether *moment* frees, lifts or moves the pack, in the device or with what it is part of."""
    world, part = trace.world, battery.part.text
    match moment.step.action:
        case act.Release(bond=bond):
            return bond.text in world.bonds and world.bonds[bond.text].part.text == part
        case act.Remove(part=moved) | act.Replace(part=moved) | act.Heat(on=moved, kind="desolder" | "solder"):
            return part in world.family.get(moved.text, ())
        case _:
            return False


def _warmed(trace: Trace, battery: Battery) -> Iterator[Hazard]:
    name = called(trace, battery.part.text)
    for number, moment in enumerate(trace.straight):
        for one in warmed_in(trace, moment):
            if one.part == battery.part.text and not one.stays_below(WARM):
                yield Hazard(
                    "battery", number, number, Severity.GRAVE,
                    f"{opened(name)} warms to {{reached}} beside the heat.",
                    "Too warm, it vents and burns.",
                    "Keep to the times and pauses. Stop if it smells sweet or swells.",
                    numbers={"reached": one.reached}, method="neighbour",
                )  # fmt: skip


def _joined(trace: Trace, battery: Battery) -> Iterator[Hazard]:
    name = called(trace, battery.part.text)

    def live(moment: Moment) -> bool:
        open_at_all = is_open(trace.world, moment.before) or is_open(trace.world, moment.after)
        return open_at_all and battery.id not in moment.before.isolated

    for first, last in stretches(live(moment) for moment in trace.straight):
        energy = _energy(battery)
        yield Hazard(
            "battery", first, last, Severity.LIGHT,
            f"The device is open and {name} is still joined" + (": {energy}." if energy else "."),
            "A tool across two contacts sparks and burns.",
            "Lay no tool in it.", numbers=energy, method="battery",
        )  # fmt: skip


def _energy(battery: Battery) -> dict[str, Estimate]:
    return {} if battery.energy is None else {"energy": given(battery.energy / 3600, "Wh")}
