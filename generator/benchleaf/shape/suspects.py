"""
What a schema validator cannot see: values that readers take for two things, and quantities that run backwards.

One cheap pass over a document finds the few values that look so; only for these is the schema asked.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.shape import quantities
from benchleaf.shape.inline import quoted, shown
from benchleaf.shape.misread import other_reading
from benchleaf.shape.spot import like_this, written
from benchleaf.source.nodes import Node, Scalar, Sequence, Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.findings import Fault
    from benchleaf.shape.schemas import Pointer
    from benchleaf.shape.spot import Spot

# Wider than what is looked for: a plain word that may be read as a truth, a number written oddly, a date; a quantity
# below zero, without an end or of many digits; a range whose ends must be compared. What passes this sieve is looked
# at closely.
_ODD = re.compile(
    r"(?:y|n|yes|no|on|off|=|<<)$|[-+]?(?:[0-9][0-9_.:]*$|0[box]|\.[in])|[0-9]{4}-[0-9]{1,2}-[0-9]", re.IGNORECASE
)
_FAR = re.compile("[<>≤≥]|[-−]|.{0,40}[0-9]{9}")
_NUMBER = r"([0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_RANGE = re.compile(rf"{_NUMBER} ?([^\s0-9–-]{{1,6}})?(?: ?[–-] ?| to )([-−]?){_NUMBER}")


def suspects(node: Node, bounded: frozenset[str], pointer: Pointer = ()) -> Iterator[Pointer]:
    """Yield where the values stand that must be looked at closely, *bounded* fields among them."""
    if isinstance(node, Table):
        for entry in node.entries:
            name, value = entry.key.text, entry.value
            if not isinstance(value, Scalar):
                yield from suspects(value, bounded, (*pointer, name))
            elif name in bounded or _is_suspect(value):
                yield (*pointer, name)
    elif isinstance(node, Sequence):
        for number, item in enumerate(node.items):
            if not isinstance(item, Scalar):
                yield from suspects(item, bounded, (*pointer, number))
            elif _is_suspect(item):
                yield (*pointer, number)


def _is_suspect(scalar: Scalar) -> bool:
    value = scalar.value
    if not isinstance(value, str):
        # A truth or nothing where a text belongs is an error of the schema, and is looked at as such.
        return isinstance(value, float) and value.is_integer()
    if (scalar.plain and _ODD.match(value)) or _FAR.match(value):
        return True
    ends = _RANGE.match(value)
    # Ends in two units, or on both sides of zero, are compared with care; ends in one unit, here.
    return ends is not None and bool(ends[2] or ends[3] or float(ends[1]) > float(ends[4]))


def misread(spots: Iterable[Spot]) -> Iterator[tuple[Pointer, Fault]]:
    """Yield, with its pointer, a fault for each value of *spots* that another reader takes for no text."""
    for spot in spots:
        if _is_text(spot) and isinstance(spot.node, Scalar):
            reading = other_reading(spot.node)
            if reading is not None:
                yield spot.pointer, _misread(spot, spot.node, reading)


def odd(spots: Iterable[Spot]) -> Iterator[Fault]:
    """Yield what else is wrong with the values of *spots*, which fit their schema."""
    for spot in spots:
        if spot.dimensions:
            yield from quantities.relative(spot)
            yield from quantities.ends(spot)
        elif isinstance(spot.node, Scalar) and isinstance(spot.node.value, float) and "integer" in spot.types:
            # The schema takes 8.0 for a whole number; a count of screws is written 8.
            whole = f"{spot.node.value:.0f}"
            message = f"{spot.name} is {spot.node.text}, a number with a point"
            yield spot.fault("wrong-value", message, f"Write {whole}.")


def _is_text(spot: Spot) -> bool:
    """Whether a text, an id or a quantity belongs here: not one of a few words, nor a date."""
    schema = spot.schema
    if "string" not in spot.types or "enum" in schema or schema.get("format") == "date":
        return False
    # Where words stand beside a quantity, the rest is a quantity; where they stand alone, nothing else fits.
    words = schema.get("x-words", ())
    return not words or (bool(spot.dimensions) and isinstance(spot.node, Scalar) and spot.node.text not in words)


def _misread(spot: Spot, node: Scalar, reading: str) -> Fault:
    message = f"{spot.name} is {shown(node.text)} without quotes, which some readers take for {reading}"
    if spot.dimensions:
        return spot.fault("misread-value", message, quantities.how_to(spot, spot.dimensions))
    if node.value is None:
        return spot.fault("misread-value", message, f"{like_this(spot)}. Or take it out.")
    return spot.fault("misread-value", message, f"Put it in quotes: {written(spot, quoted(node.text))}.")
