"""The square code on a printed sheet: it leads from the paper back to the page."""

from __future__ import annotations

from itertools import groupby

import segno

from benchleaf.pages.sheet import Code

_QUIET = 4  # modules of white around the code: ISO/IEC 18004, section 5.3.8


def code(address: str) -> Code | None:
    """
    Return the QR code (ISO/IEC 18004) of *address* as one path in whole modules; None where there is no address.

    Level M: a seventh of it may be soiled. Readers take any of the eight masks; to choose the best of them, as the
    standard advises, takes ten times as long as all the rest, so one is given.
    """
    if not address:
        return None
    matrix = segno.make_qr(address, error="m", boost_error=False, mask=3).matrix
    path = []
    for y, row in enumerate(matrix, _QUIET):
        x = _QUIET
        for dark, run in groupby(row):
            length = len(list(run))
            if dark:
                path.append(f"M{x} {y}h{length}v1h-{length}z")
            x += length
    return Code(address, str(len(matrix) + 2 * _QUIET), "".join(path))
