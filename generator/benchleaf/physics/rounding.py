"""Rounding to one side: what a person must reach goes up, what a person must not pass goes down."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal


def up(value: float, places: int = 0) -> float:
    """Return *value* with *places* decimals, never less than it is."""
    return float(Decimal(value).quantize(Decimal(1).scaleb(-places), ROUND_CEILING))


def down(value: float, places: int = 0) -> float:
    """Return *value* with *places* decimals, never more than it is."""
    return float(Decimal(value).quantize(Decimal(1).scaleb(-places), ROUND_FLOOR))


def down_to_figures(value: float, figures: int = 2) -> float:
    """Return *value* with *figures* significant figures, never more than it is."""
    return down(value, figures - 1 - Decimal(value).adjusted()) if value else 0.0
