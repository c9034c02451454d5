"""The sizes of type at the bench: what the distance of the shop's screen asks for, one nearer and one farther."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.pages.bench import Size
from benchleaf.physics.reading import LEAST, WANTED, type_size
from benchleaf.physics.types import ArcMinutes, Metres

if TYPE_CHECKING:
    from benchleaf.model.shop import Shop

PATH = "assets/bench-sizes.css"
"""Where the generated stylesheet lies in the site."""
USUAL, PITCH = 1.2, 0.277e-3
"""m: the distance and the pixels of a screen that the shop says nothing of (common practice, no source)."""
LARGER = 1.25
"""How much larger a limit is than the instruction that it belongs to (common practice, no source)."""
_SHARES = {"near": 2 / 3, "usual": 1.0, "far": 1.25}
_NEAREST, _FARTHEST = 0.4, 3.0


def distances(shop: Shop | None) -> dict[str, float]:
    """Return the three distances, m, that a person may read from: the shop's own in the middle."""
    known = shop.monitor.distance.high if shop and shop.monitor.distance else USUAL
    return {name: min(_FARTHEST, max(_NEAREST, known * share)) for name, share in _SHARES.items()}


def sizes(shop: Shop | None) -> tuple[Size, ...]:
    """Return the choice of distances in words."""
    return tuple(Size(name, f"{distance:.2g} m") for name, distance in distances(shop).items())


def stylesheet(shop: Shop | None) -> str:
    """Return the sizes as custom properties: labels at the least, what is read as wanted, limits larger."""
    pitch = shop.monitor.pixel_pitch.low if shop and shop.monitor.pixel_pitch else PITCH
    lines = ["/* The size of type for each distance, by 2 d tan(arc/2) and the pitch of the screen (ISO 9241-303). */"]
    for name, distance in distances(shop).items():
        own = "" if name == "usual" else f'[data-size="{name}"]'
        values = "; ".join(f"--{what}: {pixels}px" for what, pixels in _pixels(distance, pitch).items())
        lines.append(f":root{own} {{ {values}; }}")
    return "\n".join(lines) + "\n"


def _pixels(distance: float, pitch: float) -> dict[str, int]:
    """Return the sizes at one distance, px: at the least 16', wanted 20' and 22' of arc."""
    least, read, say = (_size(distance, pitch, arc) for arc in (LEAST, *WANTED))
    limit = _size(distance, pitch, ArcMinutes(WANTED[1] * LARGER))
    return {"least": least, "read": read, "say": say, "limit": limit}


def _size(distance: float, pitch: float, arc: ArcMinutes) -> int:
    return round(type_size(Metres(distance), Metres(pitch), arc))
