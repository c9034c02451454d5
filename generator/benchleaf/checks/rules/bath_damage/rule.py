"""What bears no bath is drowned in it, and what was bathed and not rinsed or dried goes on corroding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.baths import baths
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Bath

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.baths import Bathed
    from benchleaf.dryrun.trace import Moment, Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part that bears no bath and is still fitted in one, and each bath with no rinse or no drying after."""
    for moment, action in trace.acts(Bath):
        drowned = _drowned(trace, moment, action)
        if drowned:
            itself = drowned == [action.on.text]
            names = listed(f"`{name}`" for name in drowned)
            how = "is what is bathed" if itself else "is still fitted" if len(drowned) == 1 else "are still fitted"
            yield Hit(
                action.place,
                f"{names} {'bears' if len(drowned) == 1 else 'bear'} no bath and {how}: the liquid stays inside",
                "Wipe it by hand instead." if itself else f"Write `remove: {drowned[0]}` before the bath.",
                step=moment.step,
                about="fitted",
            )
    for bath in baths(trace):
        if bath.unrinsed:
            yield _after(
                bath,
                "it is not rinsed: what was loosened, or the cleaner itself, dries on it and goes on eating",
                f"Write a bath of `{bath.action.on}` in fresh `deionised-water` after it, without the tank.",
            )
        if bath.undried:
            yield _after(
                bath,
                "nothing dries it: it is closed in wet",
                "Write a wait with `until: dry` after it; in a cabinet it is shorter.",
            )


def _drowned(trace: Trace, moment: Moment, action: Bath) -> list[str]:
    parts = trace.world.parts
    moving = moment.before.moving(action.on.text, trace.world.family)
    return sorted(name for name in moving if name in parts and parts[name].no_bath)


def _after(bath: Bathed, what: str, cure: str) -> Hit:
    message = f"`{bath.action.on}` comes out of this bath, and {what}"
    return Hit(bath.action.place, message, cure, step=bath.moment.step, about=cure)


RULE = Rule("bath-damage", Level.ERROR, watch=watch)
