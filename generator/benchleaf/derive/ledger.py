"""What is taken off and comes back, and so what must be counted at the end."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace


@dataclass(frozen=True, slots=True)
class Ledger:
    """
    Counts of one straight pass on one variant.

    `screws` gives, by fastener, how many are back and the most that were out at one time; `parts` those that came off
    and are in again, `renewed` those that are new, `batteries` those that were isolated and are joined again. `left`
    gives where the parts are that came off and did not come back: out, stored or discarded.
    """

    screws: tuple[tuple[str, int, int], ...]
    parts: tuple[str, ...]
    renewed: tuple[str, ...]
    batteries: tuple[str, ...]
    left: tuple[tuple[str, str], ...]


def ledger(trace: Trace) -> Ledger:
    """Return what *trace* brings back."""
    most: dict[str, int] = {}
    off: dict[str, None] = {}
    isolated: dict[str, None] = {}
    for moment in trace.straight:
        before, after = moment.before, moment.after
        if after.tray is not before.tray:
            for name, count in after.tray.items():
                most[name] = max(most.get(name, 0), count)
        off.update(dict.fromkeys(sorted((after.alone - before.alone) | (after.renewed - before.renewed))))
        isolated.update(dict.fromkeys(sorted(after.isolated - before.isolated)))
    end = trace.end
    return Ledger(
        screws=tuple((name, out - max(end.tray.get(name, 0), 0), out) for name, out in most.items() if out > 0),
        parts=tuple(name for name in off if name not in end.away and name not in end.renewed),
        renewed=tuple(name for name in off if name not in end.away and name in end.renewed),
        batteries=tuple(name for name in isolated if name not in end.isolated),
        left=tuple((name, end.away[name]) for name in off if name in end.away),
    )
