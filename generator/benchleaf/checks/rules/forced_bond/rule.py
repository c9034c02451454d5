"""A bond that holds gives way after the part does: glass cracks, a pack is bent, a display tears."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.ledger import BOND, misspelt
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Release, Remove, Replace, Store
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.device import Bond

# What heats the bond while it frees it: how hot nobody says in such a step.
_HEATERS = frozenset({"heat-mat", "hot-air", "plate", "iron", "oven"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part that is pulled off a bond which holds, and each bond that is freed by heat and is cold."""
    if not trace.world.bonds:
        return
    # A bond that is misspelt may be any of them.
    unclear = BOND in misspelt(trace.world, trace.straight)
    for moment in trace.every():
        match moment.step.action:
            case Remove(part=part) | Replace(part=part) | Store(part=part) if not unclear:
                yield from _pulled(trace, moment, part.text)
            case Release() as release if "heat" in release.by and release.bond.text in trace.world.bonds:
                heats = release.tool is not None and trace.nature.kind(release.tool.text) in _HEATERS
                if not heats:
                    yield from _cold(trace, moment, trace.world.bonds[release.bond.text])


def _pulled(trace: Trace, moment: Moment, part: str) -> Iterator[Hit]:
    before = moment.before
    for name in trace.world.glued.get(part, ()) if before.is_in(part) else ():
        if name not in before.freed and name not in before.spent and moment.step.action:
            yield Hit(
                moment.step.action.place,
                f"`{part}` is taken off and `{name}` still holds it: the part gives way before the bond does",
                f"Write a step with `release: {{bond: {name}, by: [...]}}` before this one.",
                step=moment.step,
                about=name,
            )


def _cold(trace: Trace, moment: Moment, bond: Bond) -> Iterator[Hit]:
    action, reached = moment.step.action, _warmth(trace, moment, bond.part.text)
    soft = bond.softens.high if bond.softens else None
    if action is None or (reached is not None and (soft is None or reached >= soft)):
        return
    how = "nothing has warmed it" if reached is None else f"it is {digits(reached, 3, math.floor)} °C at the most"
    most = "" if soft is None else f" {digits(soft, 3, math.ceil)} °C or more"
    softens = f", soft at {digits(soft, 3, math.ceil)} °C" if soft is not None else ""
    yield Hit(
        action.place,
        f"`{bond.id}`{softens}, is freed by heat and {how}: it is levered cold, and the part breaks",
        f"Write a step that brings `{bond.part}` to{most or ' where the bond softens'} right before this one.",
        step=moment.step,
        about=bond.id,
    )


def _warmth(trace: Trace, moment: Moment, part: str) -> float | None:
    """Return how hot the bond was made at the most, °C, by what is still warm on either side of it; None if nothing."""
    world = trace.world
    beside = {near.part for near in world.near.get(part, ()) if near.via in {"touching", "other-side"}}
    close = (
        beside | {name for name, family in world.family.items() if part in family} | world.family.get(part, frozenset())
    )
    return max((hot.peak for name, hot in moment.before.hot.items() if name in close), default=None)


RULE = Rule("forced-bond", Level.ERROR, watch=watch)
