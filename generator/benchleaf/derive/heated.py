"""How hot it gets beside what a step heats: the board over the distance, and each neighbour, at the bad end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.held import little
from benchleaf.dryrun.beside import LAID_ON
from benchleaf.dryrun.warmth import over_distance, warmed_in
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.warmth import Warmed

# How far beyond the farthest neighbour the board is shown, and how far where all of them touch, m.
_BEYOND, _ALONE = 0.01, 0.06
# Where the board is looked at, as shares of the way, where none of its neighbours is about as far: each place costs.
_SHARES, _ABOUT = (0.06, 0.25, 0.55, 1.0), 0.15


@dataclass(frozen=True, slots=True)
class Neighbour:
    """
    What is beside a heated part: `distance` in m, 0 where the two meet, `via` the way heat takes.

    It gets between `low` and `high`, °C, and bears `limit`, None where nobody says; `kept` is what the step keeps it
    below by measuring. Where `bounded`, it gets so little that nothing finer was needed: the high end is a bound, the
    low one the room.
    """

    part: str
    via: str
    distance: float
    low: float
    high: float
    limit: float | None
    kept: float | None
    bounded: bool


@dataclass(frozen=True, slots=True)
class Heated:
    """
    One heating step: the part it heats, its neighbours in the order of their distance, and how far it is drawn, m.

    `board` is what the board gets at growing distances, (m, °C), at the bad end; nothing where none lies between.
    """

    step: str
    part: str
    room: float
    reach: float
    neighbours: tuple[Neighbour, ...]
    board: tuple[tuple[float, float], ...]


def heated(traces: Sequence[Trace]) -> tuple[tuple[Heated, tuple[str, ...]], ...]:
    """
    Return each heating step of the straight passes of *traces* that has neighbours, with its variants.

    The variants are empty where it goes so for all that perform the step.
    """
    found: dict[Heated, list[str]] = {}
    performed: dict[str, list[str]] = {}
    for trace in traces:
        for moment in trace.straight:
            if not isinstance(moment.step.action, Heat):
                continue
            performed.setdefault(moment.step.id, []).extend(trace.variants)
            for one in _heated(trace, moment):
                found.setdefault(one, []).extend(trace.variants)
    return tuple((one, () if names == performed[one.step] else tuple(names)) for one, names in found.items())


def _heated(trace: Trace, moment: Moment) -> Iterator[Heated]:
    neighbours = sorted(map(_neighbour, warmed_in(trace, moment)), key=lambda one: one.distance)
    if not neighbours:
        return
    away = [one.distance for one in neighbours if one.distance > 0]
    reach = max(away) + _BEYOND if away else _ALONE
    last = moment.after.touches[-1]
    along = [one.distance for one in neighbours if one.via == "board"]
    # What lies on a mat warms no board where it touches all that is near.
    shown = along or last.tool_kind not in LAID_ON
    between = [share * reach for share in _SHARES if not any(abs(one / reach - share) < _ABOUT for one in along)]
    distances = sorted({*along, *between}) if shown else []
    yield Heated(
        moment.step.id, last.part, trace.nature.temperature, reach, tuple(neighbours),
        over_distance(trace, moment, tuple(distances)),
    )  # fmt: skip


def _neighbour(one: Warmed) -> Neighbour:
    most = little(one)
    low, high = (one.reached.low, one.reached.high) if most is None else (one.room, most)
    return Neighbour(one.part, one.via, one.distance, min(low, high), high, one.limit, one.kept, most is not None)
