"""How a result of an example is written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.units.show import digits

if TYPE_CHECKING:
    from benchleaf.physics.types import Estimate


def ends(estimate: Estimate, unit: str, factor: float = 1.0, figures: int = 3) -> tuple[tuple[str, str], ...]:
    """Return the low end, the central value and the high end of *estimate* times *factor*, in *unit*."""
    pairs = (("Low", estimate.low), ("Central", estimate.central), ("High", estimate.high))
    return tuple((name, f"{digits(value * factor, figures, round)} {unit}".strip()) for name, value in pairs)


def one(name: str, value: float, unit: str, figures: int = 4) -> tuple[str, str]:
    """Return *value* in *unit* under *name*."""
    return name, f"{digits(value, figures, round)} {unit}".strip()
