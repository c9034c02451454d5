"""What is dangerous, said again in other words than the rooms of the hazards say it; and messages held against it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.callouts import spoken
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from benchleaf.derive.callouts import Callout
    from benchleaf.dryrun.trace import Moment, Trace


# From the states of the trace and the plain actions alone.
def _open(one: Trace, at: Moment) -> bool:
    lids = one.world.lids
    return any(
        lids.parts & state.away.keys() or lids.plugs & state.unplugged
        or any(state.tray.get(screw, 0) > 0 for screw in lids.screws)
        for state in (at.before, at.after)
    )  # fmt: skip


def _burns(one: Trace, at: Moment) -> bool:
    fumes = {**at.before.fumes, **at.after.fumes}
    return any(
        not fume.carrier and not fume.seen and one.nature.flammable(liquid) for (_, liquid), fume in fumes.items()
    )


def _hot(_: Trace, at: Moment) -> bool:
    action = at.step.action
    heats = isinstance(action, act.Heat | act.Wait) and action.at is not None and action.at.high > 51
    return heats or any(hot.hand > hot.elapsed for hot in at.before.hot.values())


def _moves_a_pack(one: Trace, at: Moment) -> bool:
    moved = {
        member
        for part in (getattr(at.step.action, "part", None),)
        if isinstance(at.step.action, act.Remove | act.Replace) and part is not None
        for member in one.world.family.get(part.text, ())
    }
    freed = (
        isinstance(at.step.action, act.Release)
        and one.world.bonds[at.step.action.bond.text].part.text in one.world.packs
    )
    return freed or any(battery.part.text in moved for battery in one.world.batteries.values())


def _joined(one: Trace, at: Moment) -> bool:
    return _open(one, at) and any(battery not in at.before.isolated for battery in one.world.batteries)


def _hurt_pack(one: Trace, at: Moment) -> bool:
    return any(
        name in at.before.damaged and at.before.away.get(battery.part.text) in {None, "out"}
        for name, battery in one.world.batteries.items()
        if "shape" not in at.before.battery_seen or at.before.damaged.get(name) != "not looked at"
    )


def _warm_pack(one: Trace, at: Moment) -> bool:
    return any(beside.part in one.world.packs and beside.reached.worst > 45 for beside in warmed_in(one, at))


def _breathed(one: Trace, at: Moment) -> bool:
    return any(
        gas.short is not None and gas.mean.worst >= 0.1 * gas.short.value
        for air in at_the_bench(one.nature, one.straight) if air.moment is at
        for gas in air.gases
    )  # fmt: skip


def _spent_seal(one: Trace, at: Moment) -> bool:
    return any(one.world.parts[name].keeps_out for name in at.after.spent if name in one.world.parts)


def _two_lengths(one: Trace, at: Moment) -> bool:
    out = [one.world.fasteners[name] for name, count in at.after.tray.items() if count > 0]
    return any(a.thread == b.thread and a.length != b.length for a in out for b in out if a.length and b.length)


def _warm_neighbour(one: Trace, at: Moment) -> bool:
    return any(
        beside.limit is not None and beside.part not in one.world.packs
        and beside.reached.worst > beside.room + 0.8 * (beside.limit - beside.room)
        for beside in warmed_in(one, at)
    )  # fmt: skip


def _liquid(_: Trace, at: Moment) -> bool:
    poured = (
        {getattr(at.step.action, "material", None)} if isinstance(at.step.action, act.Solvent | act.Bath) else set()
    )
    names = {said.text for said in poured if said is not None} | {one.material.text for one in at.step.apply}
    return bool(names & {"isopropanol", "ethanol", "no-clean-flux", "d-limonene", "acetone", "n-heptane"})


def _flies(one: Trace, at: Moment) -> bool:
    action = at.step.action
    glass = {name for name, part in one.world.parts.items() if part.made_of and part.made_of.text == "glass"}
    freed = isinstance(action, act.Release) and one.world.bonds[action.bond.text].part.text in glass
    tools = {name.text for name in at.step.use}
    blown = (
        isinstance(action, act.Wait) and bool(at.before.wet) and any(one.nature.kind(tool) == "air" for tool in tools)
    )
    return freed or blown or (isinstance(action, act.Work) and action.kind == "trim")


def _storage(one: Trace, at: Moment) -> bool:
    parts = [name for name, part in one.world.parts.items() if part.kind == "storage"]
    on = getattr(at.step.action, "on", None) or getattr(at.step.action, "part", None)
    risky = isinstance(at.step.action, act.Heat | act.Bath | act.Replace)
    return on is not None and risky and any(part in one.world.family.get(on.text, ()) for part in parts)


def _leaded(one: Trace, at: Moment) -> bool:
    board = one.world.device.board if one.world.device else None
    solders = isinstance(at.step.action, act.Heat) and at.step.action.kind in {"solder", "desolder"}
    return solders and board is not None and board.solder is not None and "pb" in board.solder.text


DANGEROUS: dict[str, tuple[Callable[[Trace, Moment], bool], ...]] = {
    "ignition": (_burns,),
    "heat": (_hot,),
    "esd": (_open,),
    "battery": (_joined, _moves_a_pack, _hurt_pack, _warm_pack),
    "vapour": (_breathed,),
    "property": (_spent_seal, _two_lengths, _warm_neighbour, lambda _, at: at.step.irreversible),
    "fumes": (lambda _, at: isinstance(at.step.action, act.Heat) and at.step.action.kind != "heat",),
    "chemical": (_liquid,),
    "eye": (_flies,),
    "stored-energy": (lambda one, at: _open(one, at) and any(
        part.stores and part.stores.voltage.high > 50 for name, part in one.world.parts.items()
        if name in at.before.charged or name in at.before.unread),),
    "data": (_storage,),
    "sharp": (lambda _, at: isinstance(at.step.action, act.Work) and at.step.action.kind in {"scrape", "trim"},
              lambda _, at: isinstance(at.step.action, act.Release) and "cut" in at.step.action.by),
    "glass": (lambda one, _: one.procedure.arrives.glass == "broken",
              lambda one, at: isinstance(at.step.action, act.Release) and _flies(one, at)),
    "biological": (lambda one, _: one.procedure.arrives.liquid == "unknown",),
    "lead": (_leaded,),
    "magnet": (lambda one, at: isinstance(at.step.action, act.Remove | act.Fit | act.Replace)
               and one.world.parts[at.step.action.part.text].kind == "speaker",),
}  # fmt: skip
# These begin with how the device arrived, and end when it has been washed, or its broken glass is gone.
UNTIL_GONE = {"glass", "biological"}

# Which words a hazard can have, by the worst that comes of it: serious harm that may come, minor harm, harm to things.
WORDS = {
    "battery": {"danger", "warning", "caution"}, "stored-energy": {"warning"}, "ignition": {"warning"},
    "lead": {"warning"}, "heat": {"caution"}, "vapour": {"caution"}, "fumes": {"caution"}, "chemical": {"caution"},
    "glass": {"caution"}, "eye": {"caution"}, "sharp": {"caution"}, "biological": {"caution"}, "data": {"notice"},
    "property": {"notice"}, "esd": {"notice"}, "magnet": {"notice"},
}  # fmt: skip
# What is computed of a hazard, wherever it is told and can be computed: each of these stands in its words.
NUMBERS = {
    "ignition": {"drying"}, "heat": {"setting", "cooling"}, "stored-energy": {"energy", "voltage"},
    "vapour": {"mean", "limit"},
}  # fmt: skip
CELSIUS = {"temperature": "°C"}


def untold(trace: Trace, found: Iterable[Callout]) -> list[tuple[str, str]]:
    """Return each step that is dangerous in some way with no message of it in force, and the way."""
    covered = {(one.hazard, number) for one in found for number in _from_to(trace, one)}
    return [
        (name, at.step.id)
        for name, ways in DANGEROUS.items()
        if name not in UNTIL_GONE
        for number, at in enumerate(trace.straight)
        if any(way(trace, at) for way in ways) and (name, number) not in covered
    ]


def baseless(trace: Trace, found: Iterable[Callout]) -> list[tuple[str, str]]:
    """Return each message that does not begin at, or does not end with, a step that is dangerous in its way."""
    return [
        (one.hazard, trace.straight[number].step.id)
        for one in found
        for steps in [_from_to(trace, one)]
        for number in (steps[0], steps[-1])
        if not any(way(trace, trace.straight[number]) for way in DANGEROUS[one.hazard])
    ]


def misworded(found: Iterable[Callout]) -> list[tuple[str, str]]:
    """Return each message whose signal word is none that its hazard can have."""
    return [(one.hazard, one.signal) for one in found if one.signal not in WORDS[one.hazard]]


def numberless(found: Iterable[Callout], units: Mapping[str, str] = CELSIUS) -> list[tuple[str, str]]:
    """Return each message that lacks a number which is computed of it, or in whose words one cannot be read."""
    return [
        (one.what, name)
        for one in found
        for text in [f"{one.what} {one.happens} {one.avoid}"]
        for name in sorted({*one.numbers, *NUMBERS.get(one.hazard, ())})
        if "{" in text or name not in one.numbers or spoken(one.numbers[name], units) not in text
    ]


def _from_to(trace: Trace, one: Callout) -> range:
    steps = [at.step.id for at in trace.straight]
    return range(steps.index(one.step), steps.index(one.until) + 1)
