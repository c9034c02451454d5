"""What a tool heats stays hot when the tool has gone, and looks like what is cold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, given, stretches
from benchleaf.dryrun.hot import in_the_air, lies, out_of_the_air
from benchleaf.model.action import Heat, Wait
from benchleaf.physics.cooling import hand_threshold

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.physics.types import Estimate

BURNS = hand_threshold(None)
"""From which a tool or a part burns a hand: that of metal, as of all that is not known."""


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where something is heated, until all that was heated is cool enough for a hand."""
    for first, last in stretches(_is_hot(moment) for moment in trace.straight):
        moments = trace.straight[first : last + 1]
        heats = [at.step.action for at in moments if isinstance(at.step.action, Heat)]
        warm = [air for at in moments if (air := _warm_air(at)) is not None]
        if not heats and not warm:
            continue
        setting = given(max([heat.at.high for heat in heats] or [air.at.high for air in warm if air.at]), "°C")
        long = _longest(trace, moments)
        yield Hazard(
            "heat", first, last, Severity.LIGHT,
            _of_tools(trace, heats, known=long is not None) if heats else _of_air(trace, warm, known=long is not None),
            "A touch burns the skin.",
            "Use tweezers. Put the tool back in its stand." if heats else "Let it cool before a hand takes it out.",
            numbers={"setting": setting, **({"cooling": long} if long else {})}, method="cool-down",
        )  # fmt: skip


def _of_tools(trace: Trace, heats: Sequence[Heat], *, known: bool) -> str:
    tools, parts = dict.fromkeys(heat.tool.text for heat in heats), dict.fromkeys(heat.on.text for heat in heats)
    where = called(trace, next(iter(parts))) if len(parts) == 1 else "what was heated"
    named = " and the ".join(_title(trace, tool) for tool in tools)
    return f"The {named} {'is set to' if len(tools) == 1 else 'are set to up to'} {{setting}}" + (
        f", and {where} stays too hot for a hand for {{cooling}}." if known else f", and {where} stays hot."
    )


def _of_air(trace: Trace, warm: Sequence[Wait], *, known: bool) -> str:
    tool = next((air.tool.text for air in warm if air.tool), None)
    where = f"the {_title(trace, tool)}" if tool else "the warm air"
    return f"What was in {where} at {{setting}} stays " + (
        "too hot for a hand for {cooling}." if known else "hot for longer than anybody can say."
    )


def _is_hot(moment: Moment) -> bool:
    heats = isinstance(moment.step.action, Heat) and moment.step.action.at.high > BURNS
    return heats or _warm_air(moment) is not None or any(hot.elapsed < hot.hand for hot in moment.before.hot.values())


def _warm_air(moment: Moment) -> Wait | None:
    action = moment.step.action
    return action if isinstance(action, Wait) and action.at is not None and action.at.high > BURNS else None


def _longest(trace: Trace, moments: Sequence[Moment]) -> Estimate | None:
    """Return the longest time that something heated here stays too hot for a hand; None where nobody knows."""
    found = []
    for moment in moments:
        for times in _times(trace, moment):
            if times is None:
                return None
            found.append(times[1])
    return max(found, key=lambda one: one.high, default=None)


def _times(trace: Trace, moment: Moment) -> Iterator[tuple[Estimate, Estimate] | None]:
    """Yield how long what *moment* heats stays hot, and too hot for a hand."""
    action = moment.step.action
    if isinstance(action, Heat):
        part = action.on.text
        yield trace.nature.cooling(trace.world, part, action, lies(trace.world, moment.after, part))
    elif (air := _warm_air(moment)) is not None and air.at is not None:
        for part in in_the_air(trace.world, moment.before):
            yield out_of_the_air(trace.world, trace.nature, moment.before, part, air.at.high)


def _title(trace: Trace, tool: str) -> str:
    known = trace.nature.tools.get(tool)
    title = known.title.text if known else tool
    return (title[:1].lower() + title[1:]).replace("{", "(").replace("}", ")")
