"""Above its autoignition temperature a vapour needs no spark: the tool itself sets it alight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.ignition import dangers
from benchleaf.checks.ignition_words import dry_first, still_wet
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each tool that is hotter than the autoignition temperature of a liquid still there."""
    for danger in dangers(trace):
        limits = [(own.cautious.value, liquid.id) for liquid in danger.selves if (own := liquid.autoignition)]
        if limits:
            lowest, name = min(limits)
            message = (
                f"{still_wet(danger)}; from {lowest:g} °C on the vapour of `{name}` catches fire by itself: "
                "it needs no spark, and the flame is at the technician's hands"
            )
            yield Hit(danger.action.place, message, dry_first(trace, danger), step=danger.moment.step, about="fire")


RULE = Rule("autoignition", Level.ERROR, watch=watch, never_allowed=True)
