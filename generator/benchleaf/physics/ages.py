"""What a joule that entered the board brings to a neighbour, by its age."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.physics.plate import arriving, peak_age
from benchleaf.physics.rim import brought

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.physics.plate import Plate
    from benchleaf.physics.rim import Walls
    from benchleaf.physics.types import Metres


@dataclass(frozen=True, slots=True)
class Ages:
    """
    What it brings `at` an age, the `most` between two, and the `peak`, the age at which it brings most.

    Up to `rises_until` it brings more the older it gets, and less from `falls_from` on: of two ages on one side the
    most is known without a look between them.
    """

    at: Callable[[float], float]
    most: Callable[[float, float], float]
    peak: float
    rises_until: float
    falls_from: float

    @classmethod
    def of(cls, plate: Plate, distance: Metres, mirrors: Walls | None) -> Ages:
        """Return them for a neighbour at *distance*, on a board with its *mirrors* or on one without end."""
        if mirrors is not None:
            known = brought(plate, mirrors, distance)
            once = known.rises_and_falls
            return cls(known.at, known.most, known.peak, known.peak if once else 0.0, known.peak if once else math.inf)
        peak, at = peak_age(plate, distance), arriving(plate, distance)
        return cls(at, lambda youngest, oldest: at(min(max(peak, youngest), oldest)), peak, peak, peak)
