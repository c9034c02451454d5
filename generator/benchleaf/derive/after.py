"""What is true after each step, as far as the steps themselves say it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.derive.numbering import items
from benchleaf.model import action as act
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.device import Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step


@dataclass(frozen=True, slots=True)
class After:
    """One thing that is true after a step: `lead` names it, `strong` is the news, `tail` follows."""

    strong: str
    lead: str = ""
    tail: str = ""


@dataclass(slots=True)
class _Bench:
    """What lies on the bench while one variant is followed through the steps."""

    device: Device
    letters: Mapping[str, str]
    variant: str
    tray: dict[str, int] = field(default_factory=dict)
    wet: list[str] = field(default_factory=list)
    hot: list[str] = field(default_factory=list)


def after(
    device: Device | None, procedure: Procedure, rows: Sequence[Numbered]
) -> dict[str, tuple[tuple[After, tuple[str, ...]], ...]]:
    """
    Return, by step id of *rows*, what is true after it, each with the variants for which it is.

    The variants are empty where it holds for all that the step is performed for.
    """
    if device is None:
        return {}
    letters = items(device)
    told: dict[str, dict[After, list[str]]] = {}
    performed: dict[str, list[str]] = {}
    for variant in (name for name in device.variant_ids if applies(procedure.variants, name)):
        bench = _Bench(device, letters, variant)
        for row in rows:
            if row.exists_for(variant):
                performed.setdefault(row.step.id, []).append(variant)
                here = told.setdefault(row.step.id, {})
                for said in dict.fromkeys(_tell(bench, row.step)):
                    here.setdefault(said, []).append(variant)
    return {
        step: tuple((said, () if names == performed[step] else tuple(names)) for said, names in facts.items())
        for step, facts in told.items()
    }


def _tell(bench: _Bench, step: Step) -> Iterator[After]:
    if step.action is not None:
        yield from _of_action(bench, step.action)
    if step.check and step.check.shows:
        yield from _ended(bench, step.check.shows)
    if step.record:
        yield After({"photo": "Photographed", "note": "Noted", "reading": "Reading noted"}[step.record])


def _of_action(bench: _Bench, action: act.Action) -> Iterator[After]:
    match action:
        case act.Power(on=on):
            yield After("Power on" if on else "Power off")
        case act.Supply(source=source):
            yield After("Fed from outside" if source else "No feed from outside")
        case act.Unplug(connector=name) | act.Plug(connector=name):
            yield _connection(bench, name.text, joined=isinstance(action, act.Plug))
        case act.Unscrew() | act.Screw():
            yield _screws(bench, action)
        case act.Solvent(on=part) | act.Bath(on=part):
            bench.wet.append(part.text)
            yield After("wet", _lead(bench, part.text))
        case act.Heat(on=part, kind=kind):
            bench.hot.append(part.text)
            yield After("off, and hot" if kind == "desolder" else "hot", _lead(bench, part.text))
        case act.Wait(until=until) if until:
            yield from _ended(bench, until)
        case _:
            yield from _of_part(bench, action)


def _of_part(bench: _Bench, action: act.Action) -> Iterator[After]:
    match action:
        case act.Remove(part=part):
            yield After("out", _lead(bench, part.text))
        case act.Fit(part=part):
            yield After("in", _lead(bench, part.text))
        case act.Replace(part=part):
            # What was wet or hot has gone; a new part is neither.
            bench.wet = [name for name in bench.wet if name != part.text]
            bench.hot = [name for name in bench.hot if name != part.text]
            yield After("new", _lead(bench, part.text))
        case act.Discharge(part=part):
            yield After("discharged", _lead(bench, part.text))
        case act.Store(part=part, use_again=use_again):
            yield After("off the bench", _lead(bench, part.text), "" if use_again else ", not to be used again")
        case act.Release(bond=bond):
            yield After("free", _bond(bench, bond.text))
        case act.Renew(bond=bond):
            yield After("renewed", _bond(bench, bond.text))
        case _:
            return


def _connection(bench: _Bench, name: str, *, joined: bool) -> After:
    batteries = [battery for battery in bench.device.batteries.values() if applies(battery.only, bench.variant)]
    for battery in batteries:
        if battery.plug and battery.plug.text == name:
            if len(batteries) == 1:
                return After("Battery joined" if joined else "Battery isolated")
            # One of several: the others are still as they were.
            return After("joined" if joined else "isolated", _lead(bench, battery.part.text))
    connector = bench.device.connectors.get(name)
    return After("in" if joined else "out", f"{connector.title if connector else name}: ")


def _screws(bench: _Bench, action: act.Unscrew | act.Screw) -> After:
    sign = 1 if isinstance(action, act.Unscrew) else -1
    for screws in action.screws:
        letter = bench.letters.get(screws.fastener.text, screws.fastener.text)
        bench.tray[letter] = bench.tray.get(letter, 0) + sign * screws.count
    in_order = sorted(bench.tray.items(), key=lambda item: (len(item[0]), item[0]))
    lying = [f"{count} × {letter}" for letter, count in in_order if count > 0]
    return After(", ".join(lying) or "empty", "Tray: " if lying else "Tray ")


def _ended(bench: _Bench, until: str) -> Iterator[After]:
    if until == "cured":
        yield After("Cured to handling")
        return
    ended = bench.wet if until == "dry" else bench.hot
    for part in dict.fromkeys(ended):
        yield After(until, _lead(bench, part))
    ended.clear()


def _lead(bench: _Bench, name: str) -> str:
    part = bench.device.parts.get(name)
    return f"{part.title if part else name}: "


def _bond(bench: _Bench, name: str) -> str:
    bond = bench.device.bonds.get(name)
    return f"{bond.title if bond else name}: "
