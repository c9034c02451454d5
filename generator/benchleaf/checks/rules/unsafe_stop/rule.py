"""After a stop nobody stands beside the device: what is left as it lies must harm nobody by lying there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import time_at_least
from benchleaf.checks.charges import READING, hand_on, is_unsure, lies_open, much, risky
from benchleaf.checks.endings import burns, unsound
from benchleaf.checks.ignition import drying_left
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.charge import shows_empty
from benchleaf.dryrun.inside import in_place
from benchleaf.dryrun.reach import PART
from benchleaf.findings import Level
from benchleaf.model.step import Stop

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Route, Trace

    Left = tuple[str, str, str]


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield what stops leave behind that is not safe; what one leaves is not said of the next."""
    said: set[str] = set()
    for route in trace.routes:
        if isinstance(route.end, Stop):
            for about, what, cure in (*_packs(trace, route), *_burning(trace, route), *_charged(trace, route)):
                if about not in said:
                    said.add(about)
                    yield Hit(route.end.place, f"This stop leaves {what}", cure, step=route.check.step, about=about)


def _packs(trace: Trace, route: Route) -> Iterator[Left]:
    """Yield each pack that is not sound and is joined still, or lies beside what is hot."""
    world, state, check = trace.world, route.state, route.check.step.check
    seen_hot = check is not None and check.shows == "cool"  # That something is hot is then what the check has found.
    hot = [] if seen_hot else sorted(name for name in state.hot if in_place(world, state, name))
    for name, how in unsound(trace, route).items():
        battery = world.batteries[name]
        if name not in state.isolated:
            # In a procedure that makes safe nothing better can be written of a pack that only solder holds.
            at_its_end = battery.plug is None and trace.procedure.purpose == "make-safe"
            if not at_its_end and not _joined_again(trace, route, name):
                cure = f"Write `unplug: {battery.plug}` before this check, or go" if battery.plug else "Go"
                yield (
                    f"joined {name}",
                    f"`{name}` joined, which {how}: it feeds what is on the board, and burns with nobody beside it",
                    f"{cure} on in a procedure with `purpose: make-safe`.",
                )
        elif hot and in_place(world, state, battery.part.text):
            seconds = max(state.hot[part].cool - state.hot[part].elapsed for part in hot)
            yield (
                f"beside {name}",
                f"`{name}`, which {how}, beside {_ticked(hot)} still hot: the warmth goes on into it when all are gone",
                f"Write this check before the heating, or {_wait(seconds, 'cool')} before it.",
            )


def _joined_again(trace: Trace, route: Route, battery: str) -> bool:
    """Whether the pack was joined again on the way although it was hurt: that is a finding of its own."""
    return any(
        battery in moment.before.isolated - moment.after.isolated and battery in moment.after.damaged
        for moment in _way(trace, route)
    )


def _way(trace: Trace, route: Route) -> Iterator[Moment]:
    for moment in trace.straight:
        yield moment
        if moment is route.check:
            return


def _burning(trace: Trace, route: Route) -> Iterator[Left]:
    """Yield what can still burn, but for what this very check was to show dry."""
    check = route.check.step.check
    seen_wet = check is not None and check.shows == "dry"
    fumes = tuple(entry for entry in burns(trace, route.state) if entry[1].wet.trapped or not seen_wet)
    if fumes:
        liquids = listed(sorted({f"`{liquid}`" for (_, liquid), _ in fumes}))
        parts = sorted({part for (part, _), _ in fumes if part})
        on = f" on {_ticked(parts)}" if parts else ""
        yield (
            f"burning {sorted((key, fume.step) for key, fume in fumes)}",
            f"{liquids}{on} that can still burn: the next spark, or the next hand on a switch, sets it alight",
            f"Write {_wait(drying_left(trace, fumes), 'dry')} before this check.",
        )


def _charged(trace: Trace, route: Route) -> Iterator[Left]:
    """Yield each charged part that is open to a hand, but for one of which this check finds that it does not empty."""
    world, state, check = trace.world, route.state, route.check.step.check
    if check is None or shows_empty(check):
        return
    for name, stores in risky(world).items():
        known = is_unsure(state, name) and world.under.get((PART, name)) and lies_open(world, state, name)
        if known and not _handled(trace, route, name):
            yield (
                f"charged {name}",
                f"`{name}` open to a hand, and it may hold {much(stores)}: whoever tidies up takes the shock",
                f"Write `discharge: {name}` and {READING} before this check.",
            )


def _handled(trace: Trace, route: Route, name: str) -> bool:
    """Whether a hand was on the charged part before: that is a finding of its own."""
    way = _way(trace, route)
    return any(is_unsure(at.before, name) and hand_on(trace.world, at, name) is not None for at in way)


def _ticked(names: list[str]) -> str:
    return listed(f"`{name}`" for name in names)


def _wait(seconds: float, until: str) -> str:
    if math.isinf(seconds):
        return f"a check with `shows: {until}`"
    return f"`wait: {{for: {time_at_least(seconds)}, until: {until}}}`"


RULE = Rule("unsafe-stop", Level.ERROR, watch=watch)
