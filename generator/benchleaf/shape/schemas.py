"""Schema texts in; validators and a way to follow a schema along a document's own path out."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from jsonschema_rs import Draft202012Validator, Registry, ValidationError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.source.nodes import Plain

# A schema is JSON: what stands in it is known by its keywords, not by its type.
Schema: TypeAlias = dict[str, Any]
Step: TypeAlias = "str | int"
Pointer: TypeAlias = "tuple[Step, ...]"

SHARED = "common.schema.json"
_SUFFIX = ".schema.json"


@dataclass(frozen=True, slots=True)
class Schemas:
    """The schemas of all kinds, compiled once; `bounded` are fields of which a validator sees too little."""

    kinds: Mapping[str, Schema]
    bounded: frozenset[str]
    _validators: Mapping[str, Draft202012Validator]

    def errors(self, kind: str, value: Plain) -> list[ValidationError]:
        """Return everything in which *value* differs from the schema of *kind*."""
        return list(self._validators[kind].iter_errors(value))


def load(texts: Mapping[str, str]) -> Schemas:
    """Return the schemas whose *texts* are given by file name: the shared one and one for each kind."""
    documents: dict[str, Schema] = {name: json.loads(text) for name, text in texts.items()}
    registry = Registry([(name, document) for name, document in documents.items() if name == SHARED])
    own = {name.removesuffix(_SUFFIX): document for name, document in documents.items() if name != SHARED}
    validators = {kind: Draft202012Validator(document, registry=registry) for kind, document in own.items()}
    joined = {name: _with_full_references(document, name) for name, document in documents.items()}
    definitions = {
        f"{name}#/$defs/{part}": schema
        for name, document in joined.items()
        for part, schema in document.get("$defs", {}).items()
    }
    kinds = {kind: _expanded(joined[f"{kind}{_SUFFIX}"], definitions, {}) for kind in own}
    bounded = frozenset(
        name
        for document in documents.values()
        for part in _parts(document)
        for name, schema in part.get("properties", {}).items()
        if "x-dimension-by" in schema or "x-between" in schema
    )
    return Schemas(kinds, bounded, validators)


def walk(schema: Schema | None, pointer: Iterable[Step]) -> Schema | None:
    """Return the part of *schema* that speaks of the value at *pointer* of an instance, or None."""
    for step in pointer:
        if schema is None:
            return None
        schema = schema.get("items") if isinstance(step, int) else _below(schema, step)
    return schema


def _below(schema: Schema, name: str) -> Schema | None:
    known: Schema | None = schema.get("properties", {}).get(name)
    if known is not None:
        return known
    rest = schema.get("additionalProperties")
    return rest if isinstance(rest, dict) else None


def _parts(schema: object) -> Iterator[Schema]:
    """Yield every object that stands anywhere in *schema*."""
    if isinstance(schema, dict):
        yield schema
        for value in schema.values():
            yield from _parts(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from _parts(value)


def _with_full_references(value: Any, name: str) -> Any:  # noqa: ANN401  (any JSON in, the same JSON out)
    """Return *value* with each reference inside the file *name* naming that file, as those from outside do."""
    if isinstance(value, dict):
        return {
            key: f"{name}{item}" if key == "$ref" and item.startswith("#") else _with_full_references(item, name)
            for key, item in value.items()
        }
    if isinstance(value, list):
        return [_with_full_references(item, name) for item in value]
    return value


def _expanded(value: Any, definitions: Mapping[str, Schema], seen: dict[str, Schema]) -> Any:  # noqa: ANN401  (as above)
    """Return *value* with each reference replaced by what it names; what stands beside the reference wins."""
    if isinstance(value, list):
        return [_expanded(item, definitions, seen) for item in value]
    if not isinstance(value, dict):
        return value
    own = {key: _expanded(item, definitions, seen) for key, item in value.items() if key not in {"$ref", "$defs"}}
    target = value.get("$ref")
    if target is None:
        return own
    if target not in seen:
        seen[target] = _expanded(definitions[target], definitions, seen)
    return {**seen[target], **own}
