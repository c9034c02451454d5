"""How long several steps take: an interval that holds for every variant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model.times import Span, total

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from benchleaf.derive.numbering import Numbered


def lasting(rows: Sequence[Numbered], variants: Iterable[str]) -> tuple[Span, Span]:
    """
    Return the hands-on time and the waiting time of *rows*: from the quickest of *variants* to the slowest.

    Where there are no variants, as for any device, all rows are performed.
    """
    if all(row.step.only is None and (row.level is None or row.level.only is None) for row in rows):
        return total(row.step for row in rows)
    each = [total(row.step for row in rows if row.exists_for(variant)) for variant in variants]
    each = each or [total(row.step for row in rows)]
    return _around(hands for hands, _ in each), _around(waiting for _, waiting in each)


def _around(spans: Iterable[Span]) -> Span:
    several = list(spans)
    return Span(min(span.low for span in several), max(span.high for span in several))
