"""How the index writes numbers and sorted words as short text: printable ASCII, and nothing that a script minds."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

# No quotation mark, no backslash (two bytes each in a script), no "<" (would end one), none of our own marks.
END = "|"  # of a list, of a way
WEIGHTS = "!#$%"  # how much a word weighs in the entries that follow, the weightiest first
DIGITS = "".join(chr(code) for code in range(0x20, 0x7F) if chr(code) not in '"\\<' + END + WEIGHTS)
# The first LAST digits end a number, the others say that more follows. Measured: most gaps are small.
LAST = 72
_MORE = len(DIGITS) - LAST

_SHARED = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def number(value: int) -> str:
    """Return `value`, 0 or more, in as few digits as it needs: the lowest first."""
    written = ""
    while value >= LAST:
        value, low = divmod(value - LAST, _MORE)
        written += DIGITS[LAST + low]
    return written + DIGITS[value]


def rising(values: Sequence[int]) -> str:
    """Return rising numbers as the gaps between them."""
    return "".join(number(later - earlier - 1) for earlier, later in pairwise((-1, *values)))


def front(words: Iterable[str]) -> str:
    """
    Return sorted small-letter words, each as a capital for how much of the one before it shares, and the rest.

    A capital never stands in a word, so it also says where the next one starts.
    """
    written: list[str] = []
    before = ""
    for word in words:
        shared = min(common(before, word), len(_SHARED) - 1)
        written.append(_SHARED[shared] + word[shared:])
        before = word
    return "".join(written)


def common(one: str, other: str) -> int:
    """Return how many letters both begin with."""
    length = 0
    for a, b in zip(one, other, strict=False):
        if a != b:
            break
        length += 1
    return length
