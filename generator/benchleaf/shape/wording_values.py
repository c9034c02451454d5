"""What is wrong with a single value, or with how many a list holds, in the author's words."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING

from benchleaf.shape import quantities
from benchleaf.shape.inline import inline, listed, quoted, shown
from benchleaf.shape.misread import two_ways
from benchleaf.shape.spot import like_this, written
from benchleaf.source.nodes import Scalar, Sequence, Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from jsonschema_rs import ValidationError

    from benchleaf.findings import Fault
    from benchleaf.shape.spot import Spot

RULE = "wrong-value"
NAME = "^[a-z0-9]+(-[a-z0-9]+)*$"
_TRUE = frozenset({"y", "yes", "on", "true", "1"})
_FALSE = frozenset({"n", "no", "off", "false", "0"})
_NUMBERS = {"integer": "-?(?:0|[1-9][0-9]*)", "number": r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"}
_KINDS = {
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "array": "a list",
    "object": "a table",
}


def wrong_type(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a value that is of another sort than what belongs there."""
    if spot.dimensions:
        yield quantities.unfit(spot)
        return
    belongs = f"{_belongs(spot)} belongs here"
    if isinstance(spot.node, Scalar):
        if spot.node.plain and not spot.node.text:
            yield spot.fault(RULE, f"{spot.name} is empty, and {belongs}", like_this(spot))
        else:
            what, advice = _about_scalar(spot, spot.node)
            yield spot.fault(RULE, f"{spot.name} is {what}, and {belongs}", advice or like_this(spot))
        return
    what = "a table" if isinstance(spot.node, Table) else "a list"
    yield spot.fault(RULE, f"{spot.name} is {what}, and {belongs}", like_this(spot))


def wrong_word(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a value that is none of the few words that belong there."""
    words = [str(word) for word in spot.schema["enum"]]
    text = spot.node.text if isinstance(spot.node, Scalar) else ""
    # Signs and case are what people slip on: cNm for cN·m, Sea water for sea-water.
    alike = [word for word in words if _bare(word) == _bare(text)]
    near = alike or get_close_matches(text.lower(), words, n=1)
    meant = f"Did you mean {near[0]}? " if near else ""
    yield spot.fault(
        RULE,
        f"{spot.name} is {shown(text) or 'empty'}, which is not one of its words",
        f"{meant}What fits: {listed(words, 'or')}.",
    )


def ruled_out(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a value that the schema rules out in words of its own."""
    text = spot.node.text if isinstance(spot.node, Scalar) else "not what belongs here"
    yield spot.fault(RULE, f"{spot.name} is {shown(text)}", str(spot.schema["errorMessage"]))


def unlike_pattern(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a text that is not written as it must be."""
    if spot.dimensions:
        yield quantities.unfit(spot)
        return
    text = spot.node.text if isinstance(spot.node, Scalar) else ""
    advice = str(spot.schema["patternErrorMessage"])
    if not text.strip():
        yield spot.fault(RULE, f"{spot.name} is empty", advice)
    elif spot.schema["pattern"] == NAME:
        message = f"{spot.name} is {shown(text)}, which is not written as names are"
        yield spot.fault(RULE, message, as_name(text, advice))
    else:
        yield spot.fault(RULE, f"{spot.name} is {shown(text)}, which does not fit here", advice)


def too_low(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a number below the least."""
    yield from _beyond(spot, "minimum", "least")


def too_high(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a number above the most."""
    yield from _beyond(spot, "maximum", "most")


def too_few(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a list that holds too few values."""
    number, least = _size(spot), int(spot.schema["minItems"])
    exactly = f"{least}" if spot.schema.get("maxItems") == least else f"{least} or more"
    what = f"holds {_values(number)}, and {exactly} belong here" if number else "is an empty list"
    otherwise = ". Or take it out." if least == 1 else ""
    yield spot.fault(RULE, f"{spot.name} {what}", like_this(spot) + otherwise)


def too_many(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a list that holds too many values."""
    most = spot.schema["maxItems"]
    exactly = f"{most}" if spot.schema.get("minItems") == most else f"at most {most}"
    yield spot.fault(RULE, f"{spot.name} holds {_values(_size(spot))}, and {exactly} belong here", like_this(spot))


def given_twice(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield a fault for each value that a list has already."""
    seen: set[object] = set()
    for item in spot.node.items if isinstance(spot.node, Sequence) else ():
        if isinstance(item, Scalar):
            if item.value in seen:
                message = f"{spot.name} names {shown(item.text)} a second time"
                yield spot.fault(RULE, message, "Keep one of the two.", item.place)
            seen.add(item.value)


def as_name(text: str, otherwise: str) -> str:
    """Return advice that names the nearest well-written name for *text*, or *otherwise* where there is none."""
    near = "-".join(re.findall("[a-z0-9]+", text.lower()))
    rule = "names are lower-case letters and digits, words joined by single hyphens"
    return f"Write {near}: {rule}." if near else otherwise


def _belongs(spot: Spot) -> str:
    if "enum" in spot.schema:
        return "one of its words"
    kinds = [_KINDS[name] for name in spot.types]
    if spot.schema.get("pattern") == NAME:
        kinds[0] = "a name"
    if "x-words" in spot.schema:
        kinds[0] = listed(spot.schema["x-words"], "or")
    return listed(kinds, "or")


def _about_scalar(spot: Spot, node: Scalar) -> tuple[str, str]:
    """Return what the scalar is and what to do, the latter empty where the example says it best."""
    text = shown(node.text)
    if "enum" in spot.schema:
        return text, f"What fits: {listed([str(word) for word in spot.schema['enum']], 'or')}."
    if "boolean" in spot.types:
        truth = "true" if node.text.lower() in _TRUE else "false" if node.text.lower() in _FALSE else "true` or `false"
        return f"{text}{'' if node.plain else ' in quotes'}", f"Write {written(spot, truth)}."
    if "integer" in spot.types or "number" in spot.types:
        return _about_number(spot, node)
    if "array" in spot.types:
        in_brackets = f"Put it in brackets: {written(spot, f'[{inline(node.value)}]')}."
        return f"the single value {text}", in_brackets if _may_be_item(spot, node) else ""
    if "string" in spot.types:
        number = "" if isinstance(node.value, bool | None) else "the number "
        return f"read as {number}{text}", f"Put it in quotes: {written(spot, quoted(node.text))}."
    return f"the single value {text}", ""


def _about_number(spot: Spot, node: Scalar) -> tuple[str, str]:
    text = shown(node.text)
    if isinstance(node.value, float):
        return f"{text}, which is not whole", ""
    readings = two_ways(node.text) if node.plain else None
    if readings:
        return f"{text}, which can be read in two ways (as {readings[0]} and as {readings[1]})", (
            "Write the number that is meant in plain digits, with no zero before it and nothing between."
        )
    if not node.plain and re.fullmatch(_NUMBERS["integer" if "integer" in spot.types else "number"], node.text):
        return f"the text {text} in quotes", f"Take the quotes away: {written(spot, node.text)}."
    digits = re.match("[0-9]{1,9}(?![0-9.,])", node.text)
    alone = f"Write the number alone: {written(spot, str(int(digits[0])))}." if digits else ""
    return f"{text}, which is no number", alone


def _bare(word: str) -> str:
    return "".join(filter(str.isalnum, word)).lower()


def _may_be_item(spot: Spot, node: Scalar) -> bool:
    wanted = spot.schema.get("items", {}).get("type")
    return isinstance(node.value, str) and bool(node.text) and wanted == "string"


def _beyond(spot: Spot, keyword: str, word: str) -> Iterator[Fault]:
    text, end = spot.node.text if isinstance(spot.node, Scalar) else "", spot.schema[keyword]
    yield spot.fault(
        RULE,
        f"{spot.name} is {shown(text)}, and the {word} is {end}",
        f"Write {end} or {'more' if keyword == 'minimum' else 'less'}.",
    )


def _size(spot: Spot) -> int:
    return len(spot.node.items) if isinstance(spot.node, Sequence) else 0


def _values(number: int) -> str:
    return "1 value" if number == 1 else f"{number} values"
