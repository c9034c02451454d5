"""A part that is hot looks like one that is cold, until a finger, a liquid or a closed case meets it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import time_at_least
from benchleaf.checks.covering import cover
from benchleaf.checks.hot_parts import HAND, LIQUID, met
from benchleaf.checks.names import listed
from benchleaf.checks.put_on import put_on
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.physics.cooling import COOL, hand_threshold
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each hand, liquid or cover that comes to a part which is still too hot for it."""
    if any(moment.after.hot for moment in trace.every()):
        for path in trace.paths():
            for moment, how, names in met(trace, path):
                if moment.step.action is not None:
                    yield Hit(
                        moment.step.action.place,
                        _message(trace, moment, how, names),
                        _cure(moment, how, names),
                        step=moment.step,
                        about=how,
                    )


def _message(trace: Trace, moment: Moment, how: str, names: tuple[str, ...]) -> str:
    parts, one = listed(f"`{name}`" for name in names), len(names) == 1
    peak = digits(max(moment.before.hot[name].peak for name in names), 3, math.ceil)
    limit = COOL if how != HAND else min(hand_threshold(_material(trace, name)) for name in names)
    before = f"brought to {peak} °C, before {'it is' if one else 'they are'} sure to be below {limit:g} °C"
    if how == HAND:
        return f"A hand comes to {parts}, {before}: it burns the skin within the time of a grip"
    if how == LIQUID:
        liquids = listed(dict.fromkeys(f"`{liquid.material}`" for liquid in put_on(moment.step)))
        return f"{liquids} comes to {parts}, {before}: it spits, and all of its vapour rises at once"
    return f"`{cover(moment)}` closes {parts} in, {before}: the heat goes into the pack and the shell"


def _material(trace: Trace, part: str) -> str | None:
    known = trace.world.parts.get(part)
    return known.made_of.text if known and known.made_of else None


def _cure(moment: Moment, how: str, names: tuple[str, ...]) -> str:
    hot = [moment.before.hot[name] for name in names]
    seconds = max((one.hand if how == HAND else one.cool) - one.elapsed for one in hot)
    tool = " Or take it with a tool, and name that under `use`." if how == HAND else ""
    if math.isinf(seconds):
        return f"Nobody can say how long this takes: write a check with `shows: cool` before this step.{tool}"
    return f"Write `wait: {{for: {time_at_least(seconds)}, until: cool}}` before this step.{tool}"


RULE = Rule("hot-handling", Level.ERROR, watch=watch)
