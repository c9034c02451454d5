"""How high letters must be to be read across a bench. Bad end: low, the letter that is too small."""

from __future__ import annotations

import math

from benchleaf.physics.rounding import up
from benchleaf.physics.types import ArcMinutes, Metres, Pixels, above, within

LEAST = ArcMinutes(16.0)
"""Height of a capital at the least (ISO 9241-3; NUREG-0700)."""
WANTED = (ArcMinutes(20.0), ArcMinutes(22.0))
"""Height of a capital that is wanted (the same)."""
CAPITAL_SHARE = 0.70
"""Height of a capital as a share of the size of type (common practice)."""


def capital_height(distance: Metres, arc: ArcMinutes) -> Metres:
    """Return the height of a capital that is seen under *arc*, m: 2 d tan(arc/2). From 0.4 to 3 m (exact)."""
    within("the distance of the screen", distance, (0.4, 3.0), "m", "nearer is held in the hand, farther is a wall")
    within("the angle", arc, (5.0, 60.0), "arc minutes", "smaller is not seen, larger is no text")
    return Metres(2 * distance * math.tan(math.radians(arc / 60) / 2))


def capital_pixels(height: Metres, pitch: Metres) -> Pixels:
    """Return a height in pixels of a screen whose pixels are *pitch* apart (exact)."""
    above("the pixel pitch", pitch, 0, "m", "pixels have a size")
    return Pixels(height / pitch)


def type_size(distance: Metres, pitch: Metres, arc: ArcMinutes) -> Pixels:
    """Return the size of type, in whole pixels up, whose capitals are seen under *arc*."""
    return Pixels(up(capital_pixels(capital_height(distance, arc), pitch) / CAPITAL_SHARE))
