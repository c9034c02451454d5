"""How many screws an instruction speaks of: `remove the eight case screws`, `drive four short and two long screws`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.text.quantities import WORDS, found, number_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_NUMBER = rf"(?<![\w.#-])(?:[0-9]{{1,3}}|{'|'.join(sorted(WORDS, key=len, reverse=True))})(?![\w.,-]*\d)(?!\w)"
_NUMBERS = re.compile(_NUMBER, re.IGNORECASE)
_SCREWS = re.compile(r"\b(?:screws?|bolts?|fasteners?)\b", re.IGNORECASE)
_CLAUSE = re.compile(r"[.;:!?]")
# `one of the eight`, `the first two`, `two turns`: not how many there are.
_SOME = re.compile(
    r"\b(?:first|half|last|leave|most|next|not|of|other|remaining|rest|some|times?|turns?|without)\b", re.IGNORECASE
)
_BUT = re.compile(r"\b(?:at a time|but|except|leave|leaving|one by one|save)\b", re.IGNORECASE)
_BETWEEN = re.compile(r"(?:[\s,]+[^\W\d_]+(?:-[^\W\d_]+)*){0,5}[\s,]+", re.IGNORECASE)


def counts(text: str) -> Iterator[tuple[int, ...]]:
    """Yield, for each clause that surely says how many screws there are, the numbers that it gives."""
    for clause in _CLAUSE.split(_plain(text)):
        *_, end = [0, *(match.start() for match in _SCREWS.finditer(clause))]
        numbers = list(_NUMBERS.finditer(clause, 0, end))
        if not numbers or _SOME.search(clause, 0, end) or _BUT.search(clause):
            continue
        ends = [*(number.start() for number in numbers[1:]), end]
        if all(_BETWEEN.fullmatch(clause, number.end(), stop) for number, stop in zip(numbers, ends, strict=True)):
            yield tuple(int(number_of(number[0])) for number in numbers)


def _plain(text: str) -> str:
    """Return *text* without quantities, whose numbers count nothing."""
    for one in reversed(found(text)):
        text = f"{text[: one.start]}so long{text[one.end :]}"
    return text


def agree(said: Sequence[int], there: Sequence[int]) -> bool:
    """Whether the numbers of a text fit those of the fields: each, or their sum, is some of these together."""
    sums = {0}
    for count in there:
        sums |= {less + count for less in sums}
    return sum(said) in sums or all(number in sums for number in said)
