"""Where nobody says what a part bears, no rule can tell when it is too hot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.hot_work import HARMLESS, hot_work
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.findings import Level
from benchleaf.library.alloys import ALLOYS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.device import Part


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part that is heated, or gets hot beside what is, and of which nobody says what it bears."""
    for moment, action, part in hot_work(trace):
        if trace.nature.kind(action.tool.text) == "iron":
            if part.joint_limit is None and not _profiled(trace):
                yield _joint(part)
        elif part.heat_limit is None:
            yield _body(part)
        for one in warmed_in(trace, moment):
            # Who keeps a neighbour below something by measuring has thought of what it bears.
            if one.limit is None and one.kept is None and not one.stays_below(HARMLESS):
                yield _body(trace.world.parts[one.part])


def _profiled(trace: Trace) -> bool:
    """Whether the solder of the board is known: its profile limits what an iron does where the joint has no limit."""
    board = trace.world.device.board if trace.world.device else None
    return board is not None and board.solder is not None and board.solder.text in ALLOYS


def _body(part: Part) -> Hit:
    return Hit(
        part.place,
        f"`{part.id}` is heated, or gets hot beside what is, and nobody says what it bears: a part that was too hot "
        "looks as it did before",
        "Write its `heat_limit: 85 °C` with the maker's number; a cautious one is better than none.",
        about="heat_limit",
    )


def _joint(part: Part) -> Hit:
    return Hit(
        part.place,
        f"The joints of `{part.id}` are worked with an iron, and nobody says what they bear: a pad that got too hot "
        "lifts",
        "Write its `joint_limit: {at: 360 °C, for: 5 s}` with the right numbers, or the `solder` of the device's "
        "board.",
        about="joint_limit",
    )


RULE = Rule("unknown-heat-limit", Level.WARNING, watch=watch)
