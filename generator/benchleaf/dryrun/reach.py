"""To what a hand comes in a step, and which cover keeps it from there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World
    from benchleaf.model.action import Action
    from benchleaf.model.device import Part
    from benchleaf.model.words import Said

PART, CONNECTOR, FASTENER, BOND = "part", "connector", "fastener", "bond"
# These have no face outside: whatever is done to one is done inside.
INSIDE = frozenset({"battery", "board", "shield", "array-package", "package", "flex", "storage"})


@dataclass(frozen=True, slots=True)
class Under:
    """A cover that has to be off, and the level whose opening takes it off."""

    cover: str
    level: str


def reached(parts: Mapping[str, Part], action: Action) -> Iterator[tuple[str, Said]]:
    """Yield the things to which a hand or a tool has to come for *action*, each with its kind."""
    match action:
        case act.Remove(part=part) | act.Fit(part=part) | act.Replace(part=part):
            yield PART, part
        case act.Discharge(part=part) | act.Store(part=part):
            yield PART, part
        case act.Heat(kind="desolder" | "solder", on=part):
            yield PART, part
        # A window can be wiped from outside, and a socket brushed.
        case act.Heat(on=part) | act.Solvent(on=part) | act.Bath(on=part) if _is_inside(parts, part):
            yield PART, part
        case act.Work(kind=kind, on=part) if kind != "pair" and part is not None and _is_inside(parts, part):
            yield PART, part
        case act.Unplug(connector=connector) | act.Plug(connector=connector):
            yield CONNECTOR, connector
        case act.Unscrew(screws=screws) | act.Screw(screws=screws):
            for one in screws:
                yield FASTENER, one.fastener
        case act.Release(bond=bond) | act.Renew(bond=bond):
            yield BOND, bond


def hidden(world: World, state: State, kind: str, name: str, *, comes_in: bool = False) -> Under | None:
    """
    Return the outermost cover that keeps a hand from a thing, or None where none does or nobody knows how deep it lies.

    A part that is out lies on the bench, but where it *comes_in* its place must be open.
    """
    part = world.bonds[name].part.text if kind == BOND and name in world.bonds else name if kind == PART else ""
    carriers = above(world.parts, part)
    if any(carrier in state.away for carrier in carriers) or (part in state.away and not comes_in):
        return None
    return _hidden(world, state, (kind, name), frozenset())


def _hidden(world: World, state: State, key: tuple[str, str], seen: frozenset[tuple[str, str]]) -> Under | None:
    found: Under | None = None
    for one in world.under.get(key, ()) if key not in seen else ():
        outer = _hidden(world, state, (PART, one.cover), seen | {key})
        missing = outer or (one if state.is_in(one.cover) else None)
        if missing is None:
            return None
        found = found or missing
    return found


def above(parts: Mapping[str, Part], name: str) -> tuple[str, ...]:
    """Return what *name* is part of, the nearest first."""
    found: list[str] = []
    while name in parts and (carrier := parts[name].part_of) is not None and carrier.text not in found:
        name = carrier.text
        found.append(name)
    return tuple(found)


def _is_inside(parts: Mapping[str, Part], part: Said) -> bool:
    return part.text in parts and parts[part.text].kind in INSIDE
