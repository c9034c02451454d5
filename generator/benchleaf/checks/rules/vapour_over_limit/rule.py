"""A vapour that is breathed at the bench harms long before anyone smells too much of it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import at_most, percent, ppm
from benchleaf.checks.put_on import put_on
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.put_on import PutOn
    from benchleaf.dryrun.trace import Trace
    from benchleaf.dryrun.vapour import Air, Gas


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each release after which the air of the bench is beyond a limit, in the order performed."""
    for path in trace.paths():
        beyond: set[str] = set()
        for air in at_the_bench(trace.nature, path):
            for gas in air.gases:
                wrong = _wrong(air, gas)
                # What earlier releases have used up is not this step's fault, unless it is too much by itself.
                if wrong and (gas.substance not in beyond or gas.most > 0):
                    yield from _hit(trace, air, gas, wrong)
                if wrong:
                    beyond.add(gas.substance)


_HARM = "it harms whoever works at the bench"


def _wrong(air: Air, gas: Gas) -> str:
    if gas.short and gas.above_short:
        limit = f"{gas.short.value:g} ppm is the limit ({gas.short.source})"
        return f"up to {ppm(gas.mean.worst)} over 15 minutes, and {limit}: {_HARM}"
    if gas.eight and gas.above_eight:
        limit = f"{gas.eight.value:g} ppm is the limit ({gas.eight.source})"
        return f"up to {ppm(gas.day.worst)} over 8 hours, and {limit}: {_HARM}"
    if gas.explosive and air.share > air.allowed:
        most = f"{percent(air.allowed)} is the most"
        return f"up to {percent(air.share)} of the lower explosive limit, and {most}: a spark can set it alight"
    return ""


def _hit(trace: Trace, air: Air, gas: Gas, wrong: str) -> Iterator[Hit]:
    step, nature = air.moment.step, trace.nature
    for liquid in put_on(step):
        share = sum(part for substance, part in nature.components(liquid.material) if substance.id == gas.substance)
        if share and liquid.volume is not None:
            most = min(gas.most, gas.liquid * air.allowed / air.share if air.share > air.allowed else math.inf) / share
            yield Hit(
                liquid.place,
                f"In this room the vapour of `{gas.substance}` reaches {wrong}",
                _cure(liquid, most),
                step=step,
                about=gas.substance,
            )
            return


def _cure(liquid: PutOn, most: float) -> str:
    if liquid.volume is None or most < 1e-8:
        return "Let the room clear for some hours before this step, or put less on in the steps before."
    return f"Write at most {at_most(most, liquid.volume)}; it is an estimate, at its bad end. Or work under extraction."


RULE = Rule("vapour-over-limit", Level.ERROR, watch=watch)
