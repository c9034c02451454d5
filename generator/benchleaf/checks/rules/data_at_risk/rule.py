"""What a customer has stored is worth more than the device, and nobody can repair it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.state import OUT
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Heat, Replace, Wait

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

NAME, CONSENT = "data-at-risk", "data-loss"
HOTTEST = 85.0
"""°C, above which a store may lose what it holds, unless its own limit is lower (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class _Risk:
    """What happens to a store; `warm` is the temperature that would cure it, °C."""

    store: str
    how: str
    warm: float | None = None


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield the first step that puts stored data at risk, where the customer has not agreed to it."""
    if CONSENT in trace.procedure.consent or not _stores(trace.world):
        return
    for path in trace.paths():
        new: set[str] = set()
        for moment in path:
            # What another procedure does on the way to make the device safe is said of that one.
            risk = _risk(trace, moment, new) if moment.kind != "elsewhere" else None
            if risk and moment.step.action:
                yield Hit(moment.step.action.place, *_words(risk), step=moment.step, about=risk.store)
                # One missing consent is one finding; an exception in this step speaks for this step alone.
                if not any(allow.rule.text == NAME for allow in moment.step.allow):
                    return
            if isinstance(moment.step.action, Replace):
                new |= moment.before.moving(moment.step.action.part.text, trace.world.family)


def _stores(world: World) -> tuple[str, ...]:
    return tuple(name for name, part in world.parts.items() if part.kind == "storage")


def _risk(trace: Trace, moment: Moment, new: set[str]) -> _Risk | None:
    """Return what *moment* does to the first store that holds the customer's data."""
    if not isinstance(moment.step.action, Bath | Heat | Replace | Wait):
        return None
    old = (name for name in _stores(trace.world) if name not in new)
    return next((risk for name in old if (risk := _to(trace, moment, name))), None)


def _to(trace: Trace, moment: Moment, store: str) -> _Risk | None:
    world, before = trace.world, moment.before
    limit = _limit(world, store)
    match moment.step.action:
        case Replace(part=part) if store in before.moving(part.text, world.family):
            return _Risk(store, "replaced")
        case Bath(on=part) if store in before.moving(part.text, world.family):
            return _Risk(store, "bathed")
        case Heat() as heat if trace.nature.source(heat) > limit:
            kind = trace.nature.kind(heat.tool.text)
            if store in _warmed(world, before, heat.on.text, kind):
                return _Risk(store, "heated", None if kind in {"iron", "hot-air"} else limit)
        case Wait(at=warm) if warm and warm.high > limit and not _laid_aside(before, store):
            return _Risk(store, "heated", limit)
        case _:
            pass
    return None


def _warmed(world: World, state: State, on: str, kind: str) -> frozenset[str]:
    """Return what becomes hot when *on* is heated by a tool of *kind*: hot air takes in the whole board."""
    own = state.moving(on, world.family)
    boards = (name for name, part in world.parts.items() if part.kind == "board" and kind == "hot-air")
    return own.union(*(board for name in boards if on in (board := state.moving(name, world.family))))


def _laid_aside(state: State, store: str) -> bool:
    """Whether *store* lies apart: what is warmed while time passes is not named, so the bad end is taken."""
    return store in state.alone or state.away.get(store, OUT) != OUT


def _limit(world: World, store: str) -> float:
    own = world.parts[store].heat_limit
    return min(HOTTEST, own.at.low) if own else HOTTEST


def _words(risk: _Risk) -> tuple[str, str]:
    cooler = f" Or stay at {math.floor(risk.warm)} °C or below." if risk.warm is not None else ""
    message = (
        f"`{risk.store}` is {risk.how} here, and the customer has not agreed that data may be lost: nobody repairs it"
    )
    return message, f"Copy the data first where that can be done, and write `consent: [{CONSENT}]` at the head.{cooler}"


RULE = Rule(NAME, Level.ERROR, watch=watch)
