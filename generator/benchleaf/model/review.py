"""When a procedure is to be reviewed again."""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.units.quantity import Duration

_DAY = 86400  # s


def next_review(reviewed: str, after: Duration) -> dt.date | None:
    """Return the day of the next review of what was *reviewed* last; None beyond the end of the calendar."""
    # Rounded down to whole days, and of an interval the short end: a review is never due later than the shop said.
    shortest = after.low if math.isfinite(after.low) else after.high
    try:
        return dt.date.fromisoformat(reviewed) + dt.timedelta(days=int(shortest // _DAY))
    except OverflowError:
        return None
