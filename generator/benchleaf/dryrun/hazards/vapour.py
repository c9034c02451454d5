"""What dries goes into the air that a person breathes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, limit, liquid_called, opened
from benchleaf.dryrun.vapour import at_the_bench

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace

SHARE = 0.10
"""Of a limit, from which vapour is worth a word (common practice, no source)."""


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield each step after which the air of the bench holds a tenth or more of what may be breathed."""
    numbers = {id(moment): number for number, moment in enumerate(trace.straight)}
    for air in at_the_bench(trace.nature, trace.straight):
        for gas in air.gases:
            if gas.short is None or gas.mean.worst < SHARE * gas.short.value:
                continue
            number = numbers[id(air.moment)]
            yield Hazard(
                "vapour", number, number, Severity.LIGHT,
                f"{opened(liquid_called(trace, gas.substance))} vapour: up to {{mean}} over 15 minutes, of {{limit}} "
                "that may be breathed.",
                "It makes drowsy and hurts the eyes and the airways.",
                "Run the extraction, and keep the lid on the bottle.",
                numbers={"mean": gas.mean, "limit": limit(gas.short.value, "ppm", gas.short.source)}, method="vapour",
            )  # fmt: skip
