"""Which words belong to which keyword of the schemas. A keyword without words here is a bug that a test finds."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from benchleaf.shape import wording_fields as fields
from benchleaf.shape import wording_values as values

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from jsonschema_rs import ValidationError

    from benchleaf.findings import Fault
    from benchleaf.shape.spot import Spot

Say: TypeAlias = "Callable[[Spot, ValidationError], Iterator[Fault]]"

# In this order: where a value differs from its schema in several of the first group, the first says it all.
OF_VALUES: dict[str, Say] = {
    "type": values.wrong_type,
    "const": values.ruled_out,
    "enum": values.wrong_word,
    "pattern": values.unlike_pattern,
    "minimum": values.too_low,
    "maximum": values.too_high,
}
OF_MANY: dict[str, Say] = {
    "additionalProperties": fields.unknown,
    "required": fields.missing,
    "dependentRequired": fields.missing_beside,
    "oneOf": fields.not_one,
    "propertyNames": fields.misnamed,
    "minProperties": fields.too_few,
    "maxProperties": fields.too_many,
    "minItems": values.too_few,
    "maxItems": values.too_many,
    "uniqueItems": values.given_twice,
}


def keyword_of(error: ValidationError) -> str:
    """Return the keyword that *error* is about."""
    name = error.kind.name
    return "dependentRequired" if name == "required" and error.schema_path[-1] == "dependentRequired" else name


def say(spot: Spot, error: ValidationError) -> Iterator[Fault]:
    """Yield what *error*, raised at *spot*, means for the author."""
    keyword = keyword_of(error)
    yield from (OF_VALUES.get(keyword) or OF_MANY[keyword])(spot, error)
