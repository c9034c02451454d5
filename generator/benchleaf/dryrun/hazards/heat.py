"""What a tool heats stays hot when the tool has gone, and looks like what is cold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, given, stretches
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.physics.types import Estimate

BURNS = 51.0
"""°C, metal for less than a minute in a hand (IEC 62368-1 Table 38, TS1: seen second hand)."""


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where something is heated, until all that was heated is cool enough for a hand."""
    for first, last in stretches(_is_hot(moment) for moment in trace.straight):
        heats = [at.step.action for at in trace.straight[first : last + 1] if isinstance(at.step.action, Heat)]
        if not heats:
            continue
        tools = dict.fromkeys(heat.tool.text for heat in heats)
        setting = given(max(heat.at.high for heat in heats), "°C")
        parts = dict.fromkeys(heat.on.text for heat in heats)
        long = _longest(trace, trace.straight[first : last + 1])
        where = called(trace, next(iter(parts))) if len(parts) == 1 else "what was heated"
        named = " and the ".join(_title(trace, tool) for tool in tools)
        yield Hazard(
            "heat", first, last, Severity.LIGHT,
            f"The {named} {'is set to' if len(tools) == 1 else 'are set to up to'} {{setting}}"
            + (f", and {where} stays too hot for a hand for {{cooling}}." if long else f", and {where} stays hot."),
            "It burns the skin at a touch.",
            "Hold what is hot with tweezers. Put the tool back in its stand each time.",
            numbers={"setting": setting, **({"cooling": long} if long else {})}, method="cool-down",
        )  # fmt: skip


def _is_hot(moment: Moment) -> bool:
    heats = isinstance(moment.step.action, Heat) and moment.step.action.at.high > BURNS
    return heats or any(hot.elapsed < hot.hand for hot in moment.before.hot.values())


def _longest(trace: Trace, moments: Sequence[Moment]) -> Estimate | None:
    """Return the longest time that something heated here stays too hot for a hand; None where nobody knows."""
    found = []
    for moment in moments:
        if isinstance(heat := moment.step.action, Heat):
            part = heat.on.text
            times = trace.nature.cooling(trace.world, part, heat, free=part in moment.after.away)
            if times is None:
                return None
            found.append(times[1])
    return max(found, key=lambda one: one.high, default=None)


def _title(trace: Trace, tool: str) -> str:
    known = trace.nature.tools.get(tool)
    title = known.title.text if known else tool
    return (title[:1].lower() + title[1:]).replace("{", "(").replace("}", ")")
