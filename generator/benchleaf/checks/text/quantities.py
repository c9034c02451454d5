"""The quantities that stand in running text: `at 330–350 °C for two minutes` holds two."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.units.dimensions import CURRENCY, DIMENSIONS
from benchleaf.units.parse import NotAQuantity, parse, pattern

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.units.quantity import Quantity

# Money is left out: any three capitals look like a currency (`5 LED`).
_DIMENSIONS = tuple(name for name in DIMENSIONS if name not in CURRENCY)
_ENDS = r"(?![\w·./²³°%]*[\w·²³°%])"  # `350 °C/s` is no temperature, and `0.5 mL.` at the end of a sentence is a volume
_NOT_PLACES = r"(?<![\w.,–-])"  # the 4 of `M4` and the 25 of `1.25` begin no number
_WRITTEN = re.compile(f"{_NOT_PLACES}{pattern(*_DIMENSIONS).removeprefix('^').removesuffix('$')}{_ENDS}")

WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
"""Numbers as words, from one on."""

_UNITS = {
    "s": r"seconds?|secs?", "min": r"minutes?|mins", "h": r"hours?|hrs?", "d": r"days?",
    "mL": r"millilit(?:re|er)s?", "µL": r"microlit(?:re|er)s?", "L": r"lit(?:re|er)s?",
    "g": r"grams?", "mg": r"milligrams?", "V": r"volts?", "A": r"amp(?:ere)?s?", "mA": r"milliamp(?:ere)?s?",
    "°C": r"degrees? (?:C|Celsius|centigrade)|deg C", "°F": r"degrees? (?:F|Fahrenheit)|deg F", "%": r"per ?cent",
}  # fmt: skip
_NUMBER = rf"(?:[0-9]+(?:\.[0-9]+)?|{'|'.join(sorted(WORDS, key=len, reverse=True))})"
_SPELLED = re.compile(
    rf"{_NOT_PLACES}(?P<first>{_NUMBER})(?:(?: ?[–-] ?| to | or )(?P<second>{_NUMBER}))?[ -]"
    rf"(?:{'|'.join(f'(?P<u{number}>{words})' for number, words in enumerate(_UNITS.values()))})\b",
    re.IGNORECASE,
)
_DIGIT = re.compile("[0-9]")
_HOLDS_A_UNIT = re.compile(rf"[a-z0-9][ -](?:{'|'.join(_UNITS.values())})\b", re.IGNORECASE)
_FIRST_INCH = re.compile(r"\d ?in$")


@dataclass(frozen=True, slots=True)
class Found:
    """A quantity in a text, and where it stands there."""

    start: int
    end: int
    quantity: Quantity


@lru_cache(maxsize=20_000)
def found(text: str) -> tuple[Found, ...]:
    """Return the quantities in *text*, in order: those with symbols, and those whose unit is spelt out."""
    symbols = list(_symbols(text)) if _DIGIT.search(text) else []
    taken = {place for one in symbols for place in range(one.start, one.end)}
    # Most texts hold no quantity: what costs little is asked first.
    spelled = _spelled(text) if _HOLDS_A_UNIT.search(text) else ()
    free = [one for one in spelled if one.start not in taken and one.end - 1 not in taken]
    return tuple(sorted([*symbols, *free], key=lambda one: one.start))


def _symbols(text: str) -> Iterator[Found]:
    for match in _WRITTEN.finditer(text):
        # `the screws 10 in the tray`: an inch at the end of a text alone, or before a sign, is one.
        if _FIRST_INCH.search(match[0]) and text[match.end() : match.end() + 2].strip().isalpha():
            continue
        quantity = _parsed(match[0])
        if quantity:
            yield Found(match.start(), match.end(), quantity)


def _spelled(text: str) -> Iterator[Found]:
    for match in _SPELLED.finditer(text):
        unit = next(symbol for number, symbol in enumerate(_UNITS) if match[f"u{number}"])
        second = f"–{number_of(match['second'])}" if match["second"] else ""
        quantity = _parsed(f"{number_of(match['first'])}{second} {unit}")
        if quantity:
            yield Found(match.start(), match.end(), quantity)


def _parsed(text: str) -> Quantity | None:
    try:
        return parse(text, *_DIMENSIONS)
    except NotAQuantity:
        return None


def number_of(written: str) -> str:
    """Return a number, written in figures or as a word, in figures."""
    word = written.lower()
    return str(WORDS.index(word) + 1) if word in WORDS else written
