"""What pages keep of a procedure that was performed: its states are many, and only these are read again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.after import after
from benchleaf.derive.ledger import Ledger, ledger

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from benchleaf.derive.news import News
    from benchleaf.dryrun.trace import Trace


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    A procedure performed on all its variants.

    `after` gives, by step id, what the step changed, each with the variants it holds for (none: all that perform the
    step); `ledgers`, by variant, what is counted back.
    """

    after: Mapping[str, tuple[tuple[News, tuple[str, ...]], ...]]
    ledgers: Mapping[str, Ledger]


NOT_PERFORMED = Outcome({}, {})


def outcome(traces: Sequence[Trace]) -> Outcome:
    """Return what pages keep of *traces*, the performances of one procedure."""
    counts = [(trace.variants, ledger(trace)) for trace in traces if trace.world.device]
    return Outcome(after(traces), {variant: own for variants, own in counts for variant in variants})
