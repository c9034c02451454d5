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
    """Return the four ways to write a quantity of *dimension*, each part of it named."""
    unit, number = _unit_pattern(dimension), _NUMBER
    off_unit = f"(?:{unit}|{_unit_pattern('ratio')})"
    return (
        f"(?P<compare>{_COMPARE}) ?(?P<first>{number}) ?(?P<unit>{unit})",
        f"(?P<first>{number})(?: ?(?P<own>{unit}))?{_DASH}(?P<second>{number}) ?(?P<unit>{unit})",
        f"(?P<first>{number})(?: ?(?P<own>{unit}))? ?± ?(?P<off>{number}) ?(?P<unit>{off_unit})",
        f"(?P<first>{number}) ?(?P<unit>{unit})",
    )


@cache
def pattern(*dimensions: str) -> str:
    """
    Return the regular expression, in the common subset of ECMA and Rust, of a quantity of one of *dimensions*.

    It reads a value, a range (with the unit once or twice), a value with a tolerance, and a one-sided limit.
    """
    forms = [re.sub(r"\(\?P<[a-z]+>", "(?:", form) for dimension in dimensions for form in _forms(dimension)]
    return "^(?:" + "|".join(forms) + ")$"


@cache
def _compiled(dimension: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(form) for form in _forms(dimension))


class NotAQuantity(ValueError):  # noqa: N818  (says what the text is not; callers word the finding)
    """The text is no quantity of the dimensions asked for."""


@cache
def parse(text: str, *dimensions: str) -> Quantity:
    """
    Return the quantity that *text* writes, of one of *dimensions*.

    Raises NotAQuantity where the text does not fit `pattern(*dimensions)`. A range whose low end lies above its
    high end is returned as it was written: the shape stage names it.
    """
    for dimension in dimensions:
        for form in _compiled(dimension):
            match = form.fullmatch(text)
            if match:
                return _read(text, dimension, match.groupdict())
    raise NotAQuantity(text)


def dimension_of(text: str) -> str | None:
    """Return the dimension of which *text* is a quantity, or None: for messages about the wrong one."""
    return next((name for name in DIMENSIONS if re.fullmatch(pattern(name), text)), None)


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
