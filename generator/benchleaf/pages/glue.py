"""No line of a page ends between a number and its unit: "0.5" and "mL" are one word to whoever reads them."""

from __future__ import annotations

import re

from benchleaf.units.dimensions import DIMENSIONS, spellings

_SYMBOLS = sorted({unit.symbol for name in DIMENSIONS for unit in spellings(name).values()}, key=lambda s: (-len(s), s))
# The space comes first, as a literal that is quick to look for in a whole page.
_BETWEEN = re.compile(rf" (?<=[0-9] )(?=(?:{'|'.join(map(re.escape, _SYMBOLS))})(?![\w·/²³]))")


def glued(html: str) -> str:
    """Return the text of a page in which a number and its unit are held together."""
    return _BETWEEN.sub("\N{NO-BREAK SPACE}", html)
