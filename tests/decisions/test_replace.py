"""Repair or replace, with the break-even."""

from __future__ import annotations

import pytest

from benchleaf.decisions.replace import Repair, verdict
from benchleaf.decisions.shares import Share, success


def repair(labour: float, parts: float, works: Share) -> Repair:
    """Return a repair of half an hour."""
    return Repair(1800.0, labour, parts, 0.0, works)


def test_repair_that_pays() -> None:
    """A repair of 33 that works in nine of ten costs 97 all in all beside a device of 640, and pays surely."""
    found = verdict(repair(24.0, 9.0, Share(0.9, 0.7, 0.99)), 640.0)

    assert (97.0, 640.0) == pytest.approx((found.repair, found.replace))
    assert (True, True) == (found.pays, found.sure)


@pytest.mark.parametrize("cost", [1.0, 30.0, 90.0])
@pytest.mark.parametrize("works", [0.2, 0.5, 0.95])
def test_break_even(cost: float, works: float) -> None:
    """At the success and at the price that are said to be needed, both ways cost the same."""
    own, price = repair(cost, 0.0, Share(works, works, works)), 100.0
    found = verdict(own, price)
    needed = found.success_needed
    assert found.price_needed is not None

    at_success = verdict(repair(cost, 0.0, Share(needed, needed, needed)), price)
    at_price = verdict(own, found.price_needed)

    assert at_success.replace == pytest.approx(at_success.repair)
    assert at_price.replace == pytest.approx(at_price.repair)


def test_few_counts_are_not_sure() -> None:
    """Three of four times leave open whether a repair of 60 pays beside a device of 100; 300 of 400 do not."""
    few, many = (verdict(repair(60.0, 0.0, success(cured, of)), 100.0) for cured, of in ((3, 4), (300, 400)))

    assert (True, False) == (few.pays, few.sure)
    assert (True, True) == (many.pays, many.sure)


def test_worthless_device() -> None:
    """A device that costs nothing new is never worth a repair."""
    assert not verdict(repair(1.0, 0.0, success(9, 9)), 0.0).pays
