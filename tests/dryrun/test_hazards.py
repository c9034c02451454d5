"""Every dangerous state has its hazard, and no hazard stands without such a state: both ways, on the demonstration."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.dryrun.hazards.every import hazards
from benchleaf.dryrun.hazards.kind import Hazard, Severity, given, stretches
from benchleaf.dryrun.performed import performed
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.model import action as act
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.dryrun.trace import Moment, Trace


# What is dangerous, said here a second time and in other words than the rooms of the hazards say it: from the states of
# the trace and the plain actions alone.
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
    "magnet": (lambda one, at: isinstance(at.step.action, act.Remove | act.Fit | act.Replace)
               and one.world.parts[at.step.action.part.text].kind == "speaker",),
}  # fmt: skip
# These begin with how the device arrived, and end when it has been washed, or its broken glass is gone.
UNTIL_GONE = {"glass", "biological"}


@cache
def _traces() -> tuple[Trace, ...]:
    return tuple(performed(build.check(scan(ROOT, "procedures")).base))


PROCEDURES = sorted(f"{path.parent.name}/{path.stem}" for path in (ROOT / "procedures/repairs").glob("*/*.yml"))


def _of(procedure: str) -> list[Trace]:
    return [one for one in _traces() if f"{one.procedure.device}/{one.procedure.id}" == procedure]


@pytest.mark.parametrize("procedure", PROCEDURES)
def test_no_danger_without_its_hazard(procedure: str) -> None:
    """Each step that is dangerous in some way lies between the beginning and the end of a hazard of that name."""
    missing = [
        (name, at.step.id)
        for one in _of(procedure)
        for covered in [{(found.hazard, number) for found in hazards(one) for number in _from_to(found)}]
        for name, ways in DANGEROUS.items()
        for number, at in enumerate(one.straight)
        if name not in UNTIL_GONE and any(way(one, at) for way in ways) and (name, number) not in covered
    ]

    assert [] == missing


def _from_to(found: Hazard) -> range:
    return range(found.first, found.last + 1)


@pytest.mark.parametrize("procedure", PROCEDURES)
def test_no_hazard_without_its_danger(procedure: str) -> None:
    """Each hazard begins at, and ends with, a step that is dangerous in that way."""
    empty = [
        (found.hazard, one.straight[number].step.id)
        for one in _of(procedure)
        for found in hazards(one)
        for number in (found.first, found.last)
        if not any(way(one, one.straight[number]) for way in DANGEROUS[found.hazard])
    ]

    assert [] == empty


def test_every_hazard_of_the_format_is_met() -> None:
    """The demonstration meets each hazard but those that only a device of the tests has."""
    met = {found.hazard for one in _traces() for found in hazards(one)}

    assert set(DANGEROUS) - {"magnet", "biological", "sharp", "vapour"} <= met


@pytest.mark.parametrize(
    ("severity", "certain", "word"),
    [(Severity.GRAVE, True, "danger"), (Severity.GRAVE, False, "warning"), (Severity.LIGHT, False, "caution"),
     (Severity.THINGS, False, "notice")],
)  # fmt: skip
def test_signal_words(severity: Severity, certain: bool, word: str) -> None:  # noqa: FBT001
    """Serious harm that may come is a warning, harm to things a notice (ANSI Z535.6 as DITA renders it; seen)."""
    assert word == Hazard("heat", 0, 0, severity, "What.", "Happens.", "Avoid.", certain=certain).signal


def test_stretches() -> None:
    """Runs of moments are found with their first and their last."""
    assert [(1, 2), (4, 4)] == list(stretches([False, True, True, False, True]))


def test_stored_charge_and_lead() -> None:
    """A charge above 0.1 J and 50 V is told from the opening to its discharge, and solder with lead where it melts."""
    charged = make.WADER.replace(
        "  lens:  ",
        "  flash-cap: {title: Flash capacitor, kind: other, stores: {capacitance: 100 µF, voltage: 300 V}}\n  lens:  ",
    ).replace("solder: sac305", "solder: sn63pb37")
    done = trace(
        """\
- {do: Discharge it., discharge: flash-cap}
- {do: Read it., check: {measure: voltage, with: multimeter, expect: < 5 V, if_not: {stop: It keeps its charge.}}}
- {do: Solder the socket., solder: {part: lamp-socket, tool: iron, at: 300 °C, for: 2 s}}
""",
        wader=charged,
    )
    found = {one.hazard: one for one in hazards(done)}

    assert "warning" == found["stored-energy"].signal
    assert given(4.5, "J") == found["stored-energy"].numbers["energy"]
    assert "steps-2" == done.straight[found["stored-energy"].last].step.id
    assert ("warning", "steps-3") == (found["lead"].signal, done.straight[found["lead"].first].step.id)
