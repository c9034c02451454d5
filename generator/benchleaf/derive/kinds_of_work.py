"""
The kinds of work that a procedure asks for: a closed list, read off what is done and what is true while it is done.

What every opening asks for (screws, connectors, static) is none of them: a kind that all procedures have tells nobody
anything. None is more than another, and nothing is counted.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.battery import comes_to, is_lithium, suspect
from benchleaf.dryrun.hazards.data import at_risk
from benchleaf.dryrun.hazards.fumes import melts_solder
from benchleaf.dryrun.hazards.lead import with_lead
from benchleaf.dryrun.hazards.sharp import cuts
from benchleaf.dryrun.hazards.stored_energy import dangerous, is_charged
from benchleaf.dryrun.inside import is_open
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace

    _Asks = Callable[[Trace, Moment], bool]

_BY_FORCE = frozenset({"pull", "pry", "cut"})


@dataclass(frozen=True, slots=True)
class Asked:
    """A kind of work, the steps that ask for it, and the variants where they are not all."""

    kind: str
    steps: tuple[str, ...]
    variants: tuple[str, ...] = ()


def asked(traces: Sequence[Trace]) -> tuple[Asked, ...]:
    """Return what *traces*, the performances of one procedure, ask for on all their ways, in the order of the list."""
    every = [name for trace in traces for name in trace.variants]
    found = []
    for kind, asks in KINDS.items():
        steps: dict[str, None] = {}
        variants: list[str] = []
        for trace in traces:
            own = [moment.step.id for moment in _own(trace) if asks(trace, moment)]
            steps.update(dict.fromkeys(own))
            variants += trace.variants if own else ()
        if steps:
            found.append(Asked(kind, tuple(steps), () if variants == every else tuple(variants)))
    return tuple(found)


def _own(trace: Trace) -> Iterator[Moment]:
    """Yield the moments of all ways through *trace* but those of other procedures, which ask for work of their own."""
    return (moment for moment in trace.every() if moment.kind != "elsewhere")


def _damaged_pack(trace: Trace, moment: Moment) -> bool:
    return any(suspect(moment, battery) for battery in trace.world.batteries.values())


def _lithium_pack(trace: Trace, moment: Moment) -> bool:
    return any(is_lithium(battery) and comes_to(trace, moment, battery) for battery in trace.world.batteries.values())


def _charged(trace: Trace, moment: Moment) -> bool:
    return any(is_charged(trace, moment, part) for part, *_ in dangerous(trace))


def _live(trace: Trace, moment: Moment) -> bool:
    """Whether something is measured in a device that is open and live."""
    check = moment.step.check
    measures = check is not None and check.kind == "measure"
    return measures and moment.after.live and is_open(trace.world, moment.after)


def _broken_glass(trace: Trace, moment: Moment) -> bool:
    return trace.procedure.arrives.glass == "broken" and isinstance(
        moment.step.action, act.Work | act.Release | act.Remove | act.Heat | act.Store
    )


def _wet_device(trace: Trace, moment: Moment) -> bool:
    return trace.procedure.arrives.liquid != "none" and bool(moment.before.wet)


def _iron(trace: Trace, moment: Moment) -> bool:
    return _melts_with(trace, moment, "iron")


def _hot_air(trace: Trace, moment: Moment) -> bool:
    return _melts_with(trace, moment, "hot-air")


def _plate(trace: Trace, moment: Moment) -> bool:
    return _melts_with(trace, moment, "plate", "oven", "heat-mat")


def _melts_with(trace: Trace, moment: Moment, *kinds: str) -> bool:
    action = moment.step.action
    return isinstance(action, act.Heat) and melts_solder(moment) and trace.nature.kind(action.tool.text) in kinds


def _hidden_joints(trace: Trace, moment: Moment) -> bool:
    action = moment.step.action
    known = trace.world.parts.get(action.on.text) if isinstance(action, act.Heat) and melts_solder(moment) else None
    return known is not None and known.kind == "array-package"


def _warm_bond(trace: Trace, moment: Moment) -> bool:
    match moment.step.action:
        case act.Heat(kind="heat", on=on):
            return any(bond.part.text == on.text for bond in trace.world.bonds.values())
        case act.Release(by=by):
            return "heat" in by
        case _:
            return False


def _forced_bond(_: Trace, moment: Moment) -> bool:
    return isinstance(moment.step.action, act.Release) and not _BY_FORCE.isdisjoint(moment.step.action.by)


def _adhesive(_: Trace, moment: Moment) -> bool:
    return isinstance(moment.step.action, act.Renew) and moment.step.action.material is not None


def _blade(_: Trace, moment: Moment) -> bool:
    return cuts(moment)


def _flammable(trace: Trace, moment: Moment) -> bool:
    action = moment.step.action
    return isinstance(action, act.Solvent | act.Bath) and trace.nature.flammable(action.material.text)


def _bath(_: Trace, moment: Moment) -> bool:
    return isinstance(moment.step.action, act.Bath)


def _magnified(trace: Trace, moment: Moment) -> bool:
    return any(trace.nature.kind(tool.text) == "magnifier" for tool in moment.step.use)


def _fed(_: Trace, moment: Moment) -> bool:
    return isinstance(moment.step.action, act.Supply) and moment.step.action.into is not None


def _leak(_: Trace, moment: Moment) -> bool:
    return moment.step.check is not None and moment.step.check.kind == "leak"


def _pairing(trace: Trace, moment: Moment) -> bool:
    """Whether a part is made known to its device, or renewed where it must be, or a device is calibrated."""
    match moment.step.action:
        case act.Work(kind="pair"):
            return True
        case act.Replace(part=part):
            family = trace.world.family.get(part.text, frozenset())
            return any(trace.world.variant in trace.world.parts[name].paired for name in family)
        case _:
            return trace.procedure.purpose == "calibration" and moment.kind == "work" and moment.step.check is not None


def _data(trace: Trace, moment: Moment) -> bool:
    stores = (name for name, part in trace.world.parts.items() if part.kind == "storage")
    rescues = trace.procedure.purpose == "data-rescue" and moment.kind == "work"
    return rescues or any(at_risk(trace, moment, name) for name in stores)


def _for_good(_: Trace, moment: Moment) -> bool:
    return moment.step.irreversible


KINDS: dict[str, _Asks] = {
    "Damaged battery pack": _damaged_pack,
    "Lithium pack in the hand": _lithium_pack,
    "Charged capacitor": _charged,
    "Measuring in an open device under power": _live,
    "Broken glass": _broken_glass,
    "Device that came wet": _wet_device,
    "Soldering with an iron": _iron,
    "Hot-air rework": _hot_air,
    "Soldering on a plate or in an oven": _plate,
    "Joints out of sight": _hidden_joints,
    "Solder with lead": with_lead,
    "Warming a bonded part": _warm_bond,
    "Freeing a bond by hand": _forced_bond,
    "Bonding with adhesive": _adhesive,
    "Work with a blade": _blade,
    "Flammable solvent": _flammable,
    "Washing in a bath": _bath,
    "Work under magnification": _magnified,
    "Board fed from outside": _fed,
    "Leak test": _leak,
    "Pairing or calibration": _pairing,
    "Customer's data": _data,
    "A step that cannot be undone": _for_good,
}
