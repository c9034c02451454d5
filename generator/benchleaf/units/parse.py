"""From `5–10 s` to a duration: one grammar, which the schemas' patterns repeat letter by letter."""

from __future__ import annotations

import math
import re
from functools import cache

from benchleaf.units.dimensions import CURRENCY, DIMENSIONS, Unit, spellings
from benchleaf.units.quantity import KINDS, Quantity

_NUMBER = r"[-+−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_DASH = r"(?: ?(?:–|-) ?| to )"
_COMPARE = r"(?:<=|>=|≤|≥|<|>)"


def _unit_pattern(dimension: str) -> str:
    if dimension in CURRENCY:
        return CURRENCY[dimension]
    names = sorted(spellings(dimension), key=lambda name: (-len(name), name))
    return "(?:" + "|".join(name.replace(".", r"\.") for name in names) + ")"


def _forms(dimension: str) -> tuple[str, ...]:
    """Return the ways to write a quantity of *dimension*."""
    unit, number, ratio = _unit_pattern(dimension), _NUMBER, _unit_pattern("ratio")
    return (
        f"{_COMPARE} ?{number} ?{unit}",
        f"{number}(?: ?{unit})?{_DASH}{number} ?{unit}",
        f"{number}(?: ?{unit})? ?± ?{number} ?{unit}",
        *(() if dimension == "ratio" else (f"{number} ?{unit} ?± ?{number} ?{ratio}",)),
        f"{number} ?{unit}",
    )


@cache
def pattern(*dimensions: str) -> str:
    """
    Return the regular expression, in the common subset of ECMA and Rust, of a quantity of one of *dimensions*.

    It reads a value, a range (with the unit once or twice), a value with a tolerance, and a one-sided limit.
    """
    return "^(?:" + "|".join(form for dimension in dimensions for form in _forms(dimension)) + ")$"


# The same four forms with any word for a unit: what the word means is looked up, which is a hundred times faster
# than patterns that hold every unit of every dimension.
_WORD = r"(?!to )[^\s\d<>≤≥±–-][^\s<>≤≥±–-]*"
_ANY = (
    re.compile(rf"(?P<compare>{_COMPARE}) ?(?P<first>{_NUMBER}) ?(?P<unit>{_WORD})", re.ASCII),
    re.compile(
        rf"(?P<first>{_NUMBER})(?: ?(?P<own>{_WORD}))?{_DASH}(?P<second>{_NUMBER}) ?(?P<unit>{_WORD})", re.ASCII
    ),
    re.compile(rf"(?P<first>{_NUMBER})(?: ?(?P<own>{_WORD}))? ?± ?(?P<off>{_NUMBER}) ?(?P<unit>{_WORD})", re.ASCII),
    re.compile(rf"(?P<first>{_NUMBER}) ?(?P<unit>{_WORD})", re.ASCII),
)


class NotAQuantity(ValueError):  # noqa: N818  (says what the text is not; callers word the finding)
    """The text is no quantity of the dimensions asked for."""


@cache
def parse(text: str, *dimensions: str) -> Quantity:
    """
    Return the quantity that *text* writes, of one of *dimensions*.

    Raises NotAQuantity where the text does not fit `pattern(*dimensions)`. A range whose low end lies above its
    high end is returned as it was written: the shape stage names it.
    """
    for form in _ANY:
        match = form.fullmatch(text)
        found = match.groupdict() if match else {}
        for dimension in dimensions if match else ():
            if _fits(dimension, found):
                return _read(text, dimension, found)
    raise NotAQuantity(text)


def _fits(dimension: str, found: dict[str, str | None]) -> bool:
    """Whether the units of a matched form are those of *dimension*; a tolerance may be a share of the value."""
    written, own = found["unit"] or "", found.get("own")
    share = found.get("off") is not None and written in spellings("ratio")
    return (share or _is_unit(dimension, written)) and (
        _is_unit(dimension, own) if own else not share or dimension == "ratio"
    )


def _is_unit(dimension: str, name: str) -> bool:
    if dimension in CURRENCY:
        return re.fullmatch(CURRENCY[dimension], name) is not None
    return name in spellings(dimension)


def dimension_of(text: str) -> str | None:
    """Return the dimension of which *text* is a quantity, or None: for messages about the wrong one."""
    return next((name for name in DIMENSIONS if _can_be(text, name)), None)


def _read(text: str, dimension: str, found: dict[str, str | None]) -> Quantity:
    written, own = found["unit"] or "", found.get("own")
    first, second, off = (_number(found.get(part)) for part in ("first", "second", "off"))
    kind, compare = KINDS[dimension], found.get("compare")
    if off is not None:
        unit = _unit(dimension, own or written)
        middle, reach = unit.to_base(first or 0.0), _reach(dimension, first or 0.0, unit, off, written)
        return kind(middle - reach, middle + reach, text, unit.symbol)
    unit = _unit(dimension, written)
    value = (_unit(dimension, own) if own else unit).to_base(first or 0.0)
    if compare:
        low, high = (-math.inf, value) if compare in {"<", "<=", "≤"} else (value, math.inf)
        return kind(low, high, text, unit.symbol, compare in {"<", ">"})
    return kind(value, value if second is None else unit.to_base(second), text, unit.symbol)


def _reach(dimension: str, value: float, unit: Unit, off: float, written: str) -> float:
    """Return half the width of a tolerance, in the base unit: a share of the value, or an amount of its own."""
    own_units = spellings(dimension)
    if dimension not in CURRENCY and written in own_units:
        return abs(off) * own_units[written].factor
    if dimension in CURRENCY:
        return abs(off) if re.fullmatch(CURRENCY[dimension], written) else abs(value * off) / 100
    return abs(value * unit.factor * spellings("ratio")[written].to_base(off))


def _unit(dimension: str, name: str) -> Unit:
    if dimension in CURRENCY:
        return Unit(name, 1.0)
    return spellings(dimension)[name]


def _number(text: str | None) -> float | None:
    return None if text is None else float(text.replace("−", "-"))


def _can_be(text: str, dimension: str) -> bool:
    try:
        parse(text, dimension)
    except NotAQuantity:
        return False
    return True
