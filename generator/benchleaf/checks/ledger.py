"""What has left a device between two states, and what has come back: parts, screws, connectors and bonds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.state import FREE
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World
    from benchleaf.model.action import Action

PART, SCREW, CONNECTOR, BOND = "part", "screw", "connector", "bond"


@dataclass(frozen=True, slots=True, order=True)
class Owed:
    """A thing that one state has out and another has in; `count` is of screws, and 1 of all else."""

    kind: str
    name: str
    count: int = 1


def owed(world: World, before: State, after: State) -> Iterator[Owed]:
    """Yield what is out in *after* and was not in *before*; what left with another part comes back with it."""
    for name in sorted(after.alone - before.alone):
        if name in world.parts:
            yield Owed(PART, name)
    for name in sorted(after.tray):
        more = after.tray[name] - max(before.tray.get(name, 0), 0)
        if name in world.fasteners and more > 0 and not world.fasteners[name].optional:
            yield Owed(SCREW, name, more)
    for name in sorted(after.unplugged - before.unplugged):
        if name in world.connectors:
            yield Owed(CONNECTOR, name)
    for name in sorted(after.freed):
        if name in world.bonds and after.freed[name] == FREE and before.freed.get(name) != FREE:
            yield Owed(BOND, name)


def too_much(world: World, before: State, after: State) -> Iterator[Owed]:
    """Yield what is in in *after* and was out in *before*, and screws driven beyond those that were out."""
    yield from (thing for thing in owed(world, after, before) if thing.kind != SCREW)
    for name in sorted({*before.tray, *after.tray}):
        more = before.tray.get(name, 0) - after.tray.get(name, 0)
        if name in world.fasteners and more > 0:
            yield Owed(SCREW, name, more)


def takes_out(moment: Moment, thing: Owed) -> bool:
    """Whether *thing* leaves in *moment*."""
    before, after = moment.before, moment.after
    match thing.kind:
        case "part":
            return thing.name in after.alone and thing.name not in before.alone
        case "screw":
            return after.tray.get(thing.name, 0) > before.tray.get(thing.name, 0)
        case "connector":
            return thing.name in after.unplugged and thing.name not in before.unplugged
        case _:
            return after.freed.get(thing.name) == FREE and before.freed.get(thing.name) != FREE


def brings_in(moment: Moment, thing: Owed) -> bool:
    """Whether *thing* comes back in *moment*."""
    before, after = moment.before, moment.after
    match thing.kind:
        case "part":
            return thing.name in before.alone and thing.name not in after.alone
        case "screw":
            return after.tray.get(thing.name, 0) < before.tray.get(thing.name, 0)
        case "connector":
            return thing.name in before.unplugged and thing.name not in after.unplugged
        case _:
            return before.freed.get(thing.name) == FREE and after.freed.get(thing.name) != FREE


def never_left(world: World, moment: Moment) -> Iterator[tuple[Action, Owed]]:
    """Yield what *moment* puts back though it is in; a new part may be laid in anywhere."""
    state = moment.before
    match moment.step.action:
        case act.Fit(part=name) as action if name.text in world.parts and name.text not in state.alone:
            yield action, Owed(PART, name.text)
        case act.Plug(connector=name) as action if name.text in world.connectors and name.text not in state.unplugged:
            yield action, Owed(CONNECTOR, name.text)
        case act.Renew(bond=name) as action if name.text in world.bonds and name.text not in state.freed:
            part = world.bonds[name.text].part.text
            # A bond that nobody freed before its part was renewed has a rule of its own.
            if name.text not in state.spent and state.is_in(part) and part not in state.renewed:
                yield action, Owed(BOND, name.text)


def misspelt(world: World, moments: Iterable[Moment]) -> frozenset[str]:
    """Return the kinds of things of which *moments* move one that does not exist: no more is known of that kind."""
    return frozenset(kind for moment in moments for kind, name, known in _moved(world, moment) if name not in known)


def _moved(world: World, moment: Moment) -> Iterator[tuple[str, str, Collection[str]]]:
    match moment.step.action:
        case act.Remove(part=name) | act.Fit(part=name) | act.Replace(part=name):
            yield PART, name.text, world.parts
        case act.Unscrew(screws=screws) | act.Screw(screws=screws):
            for own in screws:
                yield SCREW, own.fastener.text, world.fasteners
        case act.Unplug(connector=name) | act.Plug(connector=name):
            yield CONNECTOR, name.text, world.connectors
        case act.Release(bond=name) | act.Renew(bond=name):
            yield BOND, name.text, world.bonds


def named(thing: Owed) -> str:
    """Return "`lens`", or "2 of `case-screw`"."""
    return f"{thing.count} of `{thing.name}`" if thing.kind == SCREW else f"`{thing.name}`"


def way_back(thing: Owed) -> str:
    """Return the action that puts *thing* back, as it is written."""
    match thing.kind:
        case "part":
            return f"`fit: {thing.name}`"
        case "screw":
            return f"`screw: {{{thing.name}: {thing.count}}}`"
        case "connector":
            return f"`plug: {thing.name}`"
        case _:
            return f"`bond: {{bond: {thing.name}, with: ...}}`"
