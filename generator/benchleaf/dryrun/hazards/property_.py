"""What cannot be undone, what is spent, and what is easily put back wrongly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, limit, opened, stretches
from benchleaf.dryrun.warmth import warmed_in

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.trace import Trace
    from benchleaf.dryrun.world import World

NEAR = 0.8
"""Of the way from the room to its limit, from which a warm neighbour is worth a word (common practice, no source)."""


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where lengths can be mixed up, where a seal is broken, where a neighbour comes close to its limit."""
    yield from _lengths(trace)
    yield from _seals(trace)
    yield from _neighbours(trace)
    for first, last in stretches(at.step.irreversible for at in trace.straight):
        yield Hazard(
            "property", first, last, Severity.THINGS,
            "This cannot be undone.",
            "If it goes wrong, the part or the device is lost.",
            "Read the step to its end before you begin.",
        )  # fmt: skip


def _lengths(trace: Trace) -> Iterator[Hazard]:
    for first, last in stretches(bool(mixed(trace.world, at.after.tray)) for at in trace.straight):
        thread = next(iter(mixed(trace.world, trace.straight[first].after.tray)))
        yield Hazard(
            "property", first, last, Severity.THINGS,
            f"Two lengths of {thread} screw are out together.",
            "A long one in a short hole goes through what lies under it.",
            "Keep the lengths apart in the tray.",
        )  # fmt: skip


def mixed(world: World, tray: Mapping[str, int]) -> tuple[str, ...]:
    """Return the threads of which two lengths lie in *tray* together."""
    lengths: dict[str, set[float]] = {}
    for name, count in tray.items():
        known = world.fasteners.get(name)
        if count > 0 and known and known.thread and known.length:
            lengths.setdefault(known.thread, set()).add(known.length.high)
    return tuple(thread for thread, found in lengths.items() if len(found) > 1)


def _seals(trace: Trace) -> Iterator[Hazard]:
    """Yield where a seal that keeps something out is spent, until it is renewed."""
    for name, part in trace.world.parts.items():
        if not part.keeps_out:
            continue
        for first, last in stretches(name in at.after.spent for at in trace.straight):
            yield Hazard(
                "property", first, last, Severity.THINGS,
                f"{opened(called(trace, name))} is spent here, and with it the rating {part.keeps_out}.",
                "Water gets in and spoils the device.",
                "Fit a new one.",
            )  # fmt: skip


def _neighbours(trace: Trace) -> Iterator[Hazard]:
    for number, moment in enumerate(trace.straight):
        for one in warmed_in(trace, moment):
            if one.limit is None or one.part in trace.world.packs:
                continue
            if not one.stays_below(one.room + NEAR * (one.limit - one.room)):
                yield Hazard(
                    "property", number, number, Severity.THINGS,
                    f"{opened(called(trace, one.part))} warms to {{reached}} beside the heat, and bears {{limit}}.",
                    "Hotter, it warps or fails.",
                    "Keep to the times and pauses.",
                    numbers={"reached": one.reached, "limit": limit(one.limit, "°C")}, method="neighbour",
                )  # fmt: skip
