"""
Repair or replace: what a cure costs all in all, beside a new device, and where the two break even.

Whoever tries a cure pays for it in any case, and where it does not work for a new device too: cost + (1 - success) x
price, against price. They break even at success = cost / price, and at price = cost / success (both exact). Days of
waiting for a part are told beside it: what they cost is the customer's to say.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.decisions.shares import Share


@dataclass(frozen=True, slots=True)
class Repair:
    """What one try of a cure takes: time at the bench (s), its money, the money for parts, days of waiting (s)."""

    time: float
    labour: float
    parts: float
    lead_time: float
    success: Share

    @property
    def cost(self) -> float:
        """Return labour and parts together."""
        return self.labour + self.parts


@dataclass(frozen=True, slots=True)
class Verdict:
    """
    Both ways in money, and where they break even.

    `sure` says that the answer is the same at both ends of what the counts leave open.
    """

    repair: float
    replace: float
    pays: bool
    sure: bool
    success_needed: float
    price_needed: float | None


def verdict(repair: Repair, price: float) -> Verdict:
    """Return whether *repair* pays beside a new device at *price*; at the same cost it does."""
    pays, at_worst, at_best = (
        repair.cost <= success * price for success in (repair.success.value, repair.success.low, repair.success.high)
    )
    return Verdict(
        repair=repair.cost + (1 - repair.success.value) * price,
        replace=price,
        pays=pays,
        sure=at_worst == at_best,
        success_needed=repair.cost / price if price > 0 else float(repair.cost > 0),
        price_needed=repair.cost / repair.success.value if repair.success.value > 0 else None,
    )
