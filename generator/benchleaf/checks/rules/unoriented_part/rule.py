"""A part that goes in either way goes in the wrong way sooner or later, and is found out when the device is closed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Fit, Heat, Replace

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.words import Said

# By such a word a reader is told how a part lies. A reason without any says why it goes in, and not which way.
_WAY = re.compile(
    r"\b(?:up|upper|upwards?|down|downwards?|left|right|top|bottom|front|back|rear|inwards?|outwards?|inner|outer|"
    r"towards?|(?:one|other|right|same|this|wrong) way|face[sd]?|facing|sides?|ends?|edges?|corners?|points?|pointing|"
    r"arrows?|marks?|marked|marking|dots?|notch(?:es|ed)?|pins?|pegs?|tabs?|lugs?|plus|minus|positive|negative|"
    r"polarity|anode|cathode|stripes?|band|label|leads?|leaves|ribbon|cable|upright|clockwise|turned|opposite|nearest|"
    r"next to|beside)\b",
    re.IGNORECASE,
)


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each step that brings a part in which fits more than one way, and does not show or say which."""
    for moment in trace.every():
        part = _brought_in(moment)
        known = trace.world.parts.get(part.text) if part is not None else None
        if part is None or known is None or known.keyed or moment.step.picture or _says(moment):
            continue
        yield Hit(
            part.place,
            f"`{part}` fits in more than one way, and nothing here shows or says which: the wrong one looks right "
            "until the device is closed",
            "Give the step a `picture`, or a `why` that says which way: which side faces where, or where a mark "
            "points.",
            step=moment.step,
        )


def _brought_in(moment: Moment) -> Said | None:
    """Return the part that *moment* brings in; solder on one that is in turns nothing."""
    match moment.step.action:
        case Fit(part=part) | Replace(part=part):
            return part
        case Heat(kind="solder", on=part) if not moment.before.is_in(part.text):
            return part
        case _:
            return None


def _says(moment: Moment) -> bool:
    return moment.step.why is not None and _WAY.search(moment.step.why) is not None


RULE = Rule("unoriented-part", Level.WARNING, watch=watch)
