"""What lies there where a way ends because a check has failed: packs that are not sound, and liquids that burn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.case import without_small_carriers
from benchleaf.dryrun.state import OUT

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.dryrun.state import Fumes, State
    from benchleaf.dryrun.trace import Route, Trace

UNSEEN = "not looked at"
# How a sentence says that a pack is hurt.
_HOW = {
    "swollen": "came swollen",
    UNSEEN: "came in a shape that nobody has looked at",
    "wet": "got wet",
    "too hot": "was brought above its heat limit",
    "set aside": "was put away as not to be used",
}
_FOUND = {"shape": "is found swollen by this very check", "temperature": "is found too warm by this very check"}


def on_the_bench(state: State, part: str) -> bool:
    """Whether *part* is in the device or beside it: not in a safe place."""
    return state.away.get(part, OUT) == OUT


def unsound(trace: Trace, route: Route) -> Mapping[str, str]:
    """Return the packs that are not sound at the end of *route*, and not put away, each with how it is hurt."""
    check, state = route.check.step.check, route.state
    failed = _FOUND.get(check.what.text) if check and check.kind == "battery" else None
    found: dict[str, str] = {}
    for name, battery in trace.world.batteries.items():
        hurt = state.damaged.get(name)
        seen_whole = hurt == UNSEEN and "shape" in state.battery_seen and not failed
        if not on_the_bench(state, battery.part.text):
            continue
        if failed:
            found[name] = failed
        elif hurt is not None and not seen_whole:
            found[name] = _HOW.get(hurt, hurt)
    return found


def burns(trace: Trace, state: State) -> Fumes:
    """Return what can still burn in the device or beside it, but for the drop that a flux carries."""
    here = tuple(entry for entry in state.fumes.items() if not entry[0][0] or on_the_bench(state, entry[0][0]))
    return without_small_carriers(trace.world, trace.nature, here)
