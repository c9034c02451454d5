"""What is wrong with the fields of a table, in the author's words: unknown, missing, too many at once."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from benchleaf.shape.inline import inline, listed, shown
from benchleaf.shape.paths import own_name
from benchleaf.shape.spot import like_this
from benchleaf.shape.wording_values import NAME, as_name
from benchleaf.source.nodes import Scalar, Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from jsonschema_rs import ValidationError

    from benchleaf.findings import Fault
    from benchleaf.shape.spot import Spot
    from benchleaf.source.nodes import Node

_CUT = "Between braces a comma ends a text: put the text before it in quotes, from its beginning to its end."
UNKNOWN, MISSING, WRONG = "unknown-field", "missing-field", "wrong-value"


def unknown(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield a fault for each key that the table does not know."""
    names, owner = list(spot.schema["properties"]), spot.owner
    free = [name for name in names if name not in keys(spot)]
    fits = f"What fits in {owner}: {', '.join(free)}." if free else f"{_capital(owner)} has all its fields already."
    for entry in spot.node.entries if isinstance(spot.node, Table) else ():
        text = entry.key.text
        if text not in names:
            near = nearest(text, names)
            meant = f"Did you mean `{near}`? " if near else ""
            message = f"{_capital(owner)} has no field {f'`{shown(text)}`' if text else 'without a name'}"
            to_do = _CUT if " " in text and _is_nothing(entry.value) else meant + fits
            yield spot.fault(UNKNOWN, message, to_do, entry.key.place)


def missing(spot: Spot, error: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a required field that is not there, unless an unknown one is plainly meant for it."""
    name = _property(error)
    if name not in meant_by_unknown(spot):
        to_do = f"Write it, for example {_example(spot, name)}."
        yield spot.fault(MISSING, f"{_capital(spot.owner)} has no `{name}`", to_do, spot.first)


def missing_beside(spot: Spot, error: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a field that another one needs beside it."""
    name, rules = _property(error), spot.schema["dependentRequired"]
    if name not in meant_by_unknown(spot):
        needing = _fields([field for field in keys(spot) if name in rules.get(field, ())])
        message = f"{_capital(spot.owner)} has {needing} but no `{name}`"
        to_do = f"Write it as well, for example {_example(spot, name)}, or take {needing} out."
        yield spot.fault(MISSING, message, to_do, spot.first)


def not_one(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a table that has none, or more than one, of several fields."""
    if not isinstance(spot.node, Table):
        return  # That no table stands here is said once, by `type`.
    choices: list[str] = spot.schema.get("x-exactly-one") or spot.schema["x-at-most-one"]
    given = [entry for entry in spot.node.entries if entry.key.text in choices]
    owner = _capital(spot.owner)
    if given:
        names = [entry.key.text for entry in given]
        message = f"{owner} has {_fields(names)}, and only one of them fits at a time"
        yield spot.fault(WRONG, message, _apart(spot, names), given[1].key.place)
    elif not (meant_by_unknown(spot) | _needed_beside(spot)) & set(choices):
        to_do = f"Write one of them, for example {_example(spot, choices[0])}."
        yield spot.fault(MISSING, f"{owner} needs one of {_fields(choices, 'or')}", to_do, spot.first)


def misnamed(spot: Spot, error: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a key that is not written as the names of this table are."""
    inner: ValidationError = _of(error).value
    text, schema = own_name(inner.instance), spot.schema["propertyNames"]
    entry = spot.node.entry(text) if isinstance(spot.node, Table) else None
    at = entry.key.place if entry else spot.place
    if inner.kind.name == "not":
        yield spot.fault(WRONG, f"`{text}` cannot be the name of {_one_of(spot)}", str(schema["x-not-message"]), at)
        return
    advice = str(schema["patternErrorMessage"])
    to_do = as_name(text, advice) if schema["pattern"] == NAME else advice
    what = f"`{shown(text)}` is" if text else "A field without a name is"
    yield spot.fault(WRONG, f"{what} not written as names are", to_do, at)


def too_few(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a table that holds nothing."""
    yield spot.fault(WRONG, f"{_capital(spot.name)} is an empty table", f"{like_this(spot)}. Or take it out.")


def too_many(spot: Spot, _: ValidationError) -> Iterator[Fault]:
    """Yield the fault of a table that holds more than can be worked with, at the first entry too many."""
    most = int(spot.schema["maxProperties"])
    at = spot.node.entries[most].key.place if isinstance(spot.node, Table) else spot.place
    message = f"{_capital(spot.name)} holds {len(keys(spot))} entries, and at most {most} can be worked with"
    yield spot.fault(WRONG, message, f"Keep the {most} that matter most.", at)


def keys(spot: Spot) -> list[str]:
    """Return the keys that the table has, in the order written."""
    return [entry.key.text for entry in spot.node.entries] if isinstance(spot.node, Table) else []


def nearest(text: str, names: list[str]) -> str | None:
    """Return the name that *text* seems to mean."""
    return next(iter(get_close_matches(text.strip().lower().replace("-", "_").replace(" ", "_"), names, n=1)), None)


def meant_by_unknown(spot: Spot) -> set[str]:
    """Return the known fields that the table's unknown keys seem to mean: one slip is one finding."""
    names = list(spot.schema.get("properties", ()))
    if spot.schema.get("additionalProperties") is not False:
        return set()
    return {near for key in keys(spot) if key not in names and (near := nearest(key, names))}


def _is_nothing(node: Node) -> bool:
    return isinstance(node, Scalar) and node.plain and not node.text


def _needed_beside(spot: Spot) -> set[str]:
    """Return the fields that those which are there need beside them; `missing_beside` speaks of these."""
    rules: dict[str, list[str]] = spot.schema.get("dependentRequired", {})
    return {name for key in keys(spot) for name in rules.get(key, ())}


def _fields(names: list[str], last: str = "and") -> str:
    return listed([f"`{name}`" for name in names], last)


def _property(error: ValidationError) -> str:
    return str(_of(error).property)


def _of(error: ValidationError) -> Any:  # noqa: ANN401  (the validator's own types differ by keyword)
    return error.kind


def _example(spot: Spot, name: str) -> str:
    examples = spot.schema.get("properties", {}).get(name, {}).get("examples", ["..."])
    return f"`{name}: {inline(examples[0])}`"


def _apart(spot: Spot, given: list[str]) -> str:
    if "x-at-most-one" in spot.schema:
        return f"Keep `{given[0]}` here and make a step of its own for {_fields(given[1:])}."
    return f"Keep one of them and take {'the other' if len(given) == len('ab') else 'the others'} out."


def _one_of(spot: Spot) -> str:
    title = str(spot.schema["additionalProperties"].get("title", "thing")).lower()
    return f"{'an' if title[0] in 'aeiou' else 'a'} {title}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
