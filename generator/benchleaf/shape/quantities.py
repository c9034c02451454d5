"""What is wrong with a quantity, and what to write instead."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from benchleaf.shape.inline import listed, shown
from benchleaf.source.nodes import Scalar, Sequence, Table
from benchleaf.units.dimensions import EXAMPLES, units_that_fit
from benchleaf.units.parse import dimension_of, parse, pattern

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Fault
    from benchleaf.shape.spot import Spot
    from benchleaf.units.quantity import Quantity

RULE = "bad-quantity"
_FEW = 4  # More dimensions than these are not listed one by one.
_NUMBER = r"[-+−]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_AMOUNT = rf"(?:[<>≤≥]=? ?)?{_NUMBER}(?:(?: ?(?:–|-) ?| to ){_NUMBER})?"
_BARE = re.compile(_AMOUNT)
_WITH_UNIT = re.compile(rf"(?P<number>{_AMOUNT}) ?(?P<unit>[^\s0-9].*)")
_ENDS = re.compile(
    rf"(?P<first>{_NUMBER})(?: ?(?P<own>[^\s0-9–-]+))?(?P<dash> ?[–-] ?| to )(?P<second>{_NUMBER}) ?(?P<unit>.+)"
)
_ARTICLES = {"area": "an area", "energy": "an energy", "ratio": "a share", "charge": "an electric charge",
             "money": "an amount of money", "money-rate": "money for an hour", "rate": "a number for each hour",
             "temperature-rate": "a rate of heating", "heat-transfer": "a coefficient of heat transfer"}  # fmt: skip
# How people write units that the format spells otherwise.
_SLIPS = {
    "c": "°C", "degc": "°C", "deg c": "°C", "° c": "°C", "celsius": "°C", "f": "°F", "degf": "°F", "k": "K",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "m": "min", "mins": "min", "minute": "min",
    "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
    "millimetre": "mm", "millimetres": "mm", "inch": "in", "inches": "in", '"': "in",
    "millilitre": "mL", "millilitres": "mL", "cc": "mL", "gram": "g", "grams": "g",
    "ohms": "Ω", "kohms": "kΩ", "volt": "V", "volts": "V", "amp": "A", "amps": "A", "milliamps": "mA",
    "percent": "%", "per cent": "%", "€": "EUR", "euro": "EUR", "euros": "EUR", "an hour": "/h", "per hour": "/h",
}  # fmt: skip
# In the base unit of whatever dimension: a number that some way of writing too many digits makes is beyond it.
_MOST = 1e15
_SIDES = {"<": "<", "≤": "<", ">": ">", "≥": ">"}
# Below these nothing is a quantity of its dimension; the others may have a sign.
_FLOORS = {"temperature": -273.15} | dict.fromkeys(
    ("time", "length", "area", "volume", "mass", "torque", "resistance", "capacitance", "frequency", "ratio", "rate",
     "speed", "money", "money-rate"), 0.0)  # fmt: skip


def unfit(spot: Spot) -> Fault:
    """Return what is wrong with the value of *spot*, which is no quantity of the dimensions wanted there."""
    return _unfit(spot, spot.dimensions, "")


def relative(spot: Spot) -> Iterator[Fault]:
    """Yield a fault where another field of the table asks for one dimension and the value is of another."""
    around = spot.around.node if spot.around else None
    if not isinstance(around, Table) or not isinstance(spot.node, Scalar):
        return
    for field, words in spot.schema.get("x-dimension-by", {}).items():
        node = around.get(field)
        word = node.text if isinstance(node, Scalar) else ""
        dimension = words.get(word)
        if dimension and not re.fullmatch(pattern(dimension), spot.node.text):
            yield _unfit(spot, (dimension,), f" where `{field}` is {word}")


def ends(spot: Spot) -> Iterator[Fault]:
    """Yield a fault where the quantity of *spot*, well written, has ends with which nothing can be computed."""
    if not isinstance(spot.node, Scalar) or not re.fullmatch(pattern(*spot.dimensions), spot.node.text):
        return
    text = spot.node.text
    quantity = parse(text, *spot.dimensions)
    own = f"{spot.name} is {shown(text)}"
    own_ends = {"<": (quantity.high,), ">": (quantity.low,)}.get(_SIDES.get(text[0], ""), (quantity.low, quantity.high))
    floor = _FLOORS.get(quantity.dimension, -math.inf)
    lacking = _lacking(spot.schema.get("x-ends"), quantity)
    if min(own_ends) < floor and "±" not in text:
        least = "absolute zero" if floor else "zero"
        to_do = f"Write {wanted(spot.dimensions)} that there can be, for example {EXAMPLES[quantity.dimension]}."
        yield spot.fault(RULE, f"{own}, which is below {least}", to_do)
    elif max(map(abs, own_ends)) > _MOST:
        yield spot.fault(RULE, f"{own}, which is beyond anything at a bench", how_to(spot, spot.dimensions))
    elif quantity.low > quantity.high:
        message = f"{own}: the first end is above the second"
        yield spot.fault(RULE, message, f"Write the low end first: {_turned(text)}.")
    elif spot.schema.get("x-between") and not _between(spot.schema["x-between"], quantity):
        least, most = spot.schema["x-between"]
        yield spot.fault(RULE, f"{own}, and no bench is so", f"Write {wanted(spot.dimensions)} from {least} to {most}.")
    elif lacking:
        to_do = (
            f"Write one value or a range with both ends, for example {spot.example or EXAMPLES[quantity.dimension]}."
        )
        yield spot.fault(RULE, f"{own}, which has no {lacking} end: nothing can be computed with it", to_do)


def _lacking(needed: str | None, quantity: Quantity) -> str | None:
    """Return which end is open that is *needed*: low, high, none; without a word both are."""
    if quantity.high == math.inf and needed in {None, "high"}:
        return "upper"
    return "lower" if quantity.low == -math.inf and needed in {None, "low"} else None


def _between(ends_: list[str], quantity: Quantity) -> bool:
    """Whether the ends of *quantity* that are not open lie between the two of *ends_*."""
    least, most = (parse(end, quantity.dimension).low for end in ends_)
    return all(least <= end <= most for end in (quantity.low, quantity.high) if math.isfinite(end))


def wanted(dimensions: tuple[str, ...]) -> str:
    """Return what belongs where a quantity of *dimensions* does, with its article."""
    if len(dimensions) > _FEW:
        return "a quantity"
    return listed([_ARTICLES.get(name, f"a {name}") for name in dimensions], "or")


def how_to(spot: Spot, dimensions: tuple[str, ...]) -> str:
    """Return what to write at *spot*, where a quantity of *dimensions* belongs."""
    own = spot.example if dimensions == spot.dimensions and isinstance(spot.example, str) else EXAMPLES[dimensions[0]]
    words = "".join(f" Or write {word}." for word in spot.schema.get("x-words", ()))
    units = "" if len(dimensions) > _FEW else f" Units that fit: {', '.join(units_that_fit(*dimensions))}."
    return f"Write {wanted(dimensions)} with its unit, for example {own}.{units}{words}"


def _unfit(spot: Spot, dimensions: tuple[str, ...], because: str) -> Fault:
    help_ = how_to(spot, dimensions)
    wanted_here = f"{wanted(dimensions)} belongs here{because}"
    if not isinstance(spot.node, Scalar):
        what = "a list" if isinstance(spot.node, Sequence) else "a table"
        return spot.fault(RULE, f"{spot.name} is {what}, and {wanted_here}", help_)
    text = spot.node.text
    if not text.strip():
        return spot.fault(RULE, f"{spot.name} is empty, and {wanted_here}", help_)
    if _BARE.fullmatch(text):
        message = f"{spot.name} is {shown(text)} without a unit, and {wanted_here}"
        return spot.fault(RULE, message, _with_units(text, dimensions))
    found, meant = dimension_of(text), _meant(text, dimensions)
    help_ = f"Did you mean {meant}? {help_}" if meant else help_
    if found and found not in dimensions:
        return spot.fault(RULE, f"{spot.name} is {shown(text)}, {wanted((found,))}, and {wanted_here}", help_)
    message = f"{spot.name} is {shown(text)}, which cannot be read as {wanted(dimensions)}{because}"
    return spot.fault(RULE, message, help_)


def _with_units(number: str, dimensions: tuple[str, ...]) -> str:
    number = number.replace(",", ".")
    units = [unit.rsplit(" ", 1)[-1] for unit in units_that_fit(*dimensions)]
    if len(dimensions) > _FEW:
        return f"Write its unit after it, for example {number} {units[0]}."
    choices = listed([f"{number} {unit}" for unit in units[:3]], "or")
    rest = f" Units that fit: {', '.join(units_that_fit(*dimensions))}." if len(units) > 3 else ""
    return f"Write {choices}{', whichever is meant' if len(units) > 1 else ''}.{rest}"


def _meant(text: str, dimensions: tuple[str, ...]) -> str | None:
    """Return the nearest quantity that reads well: another spelling of the unit, or a point for a comma."""
    match = _WITH_UNIT.fullmatch(text.strip())
    if not match:
        return None
    number, unit = match["number"].replace(",", "."), match["unit"].strip()
    fits = units_that_fit(*dimensions)
    guesses = [unit, _SLIPS.get(unit.lower(), ""), *(name for name in fits if name.lower() == unit.lower())]
    for guess in guesses:
        candidate = f"{number} {guess}"
        if guess and re.fullmatch(pattern(*dimensions), candidate):
            return candidate
    return None


def _turned(text: str) -> str:
    match = _ENDS.fullmatch(text)
    if not match:
        return "the lower number, a dash, the higher number, the unit"
    first, second = match["first"], match["second"]
    own = f" {match['unit']}" if match["own"] else ""
    return f"{second}{own}{match['dash']}{first} {match['own'] or match['unit']}"
