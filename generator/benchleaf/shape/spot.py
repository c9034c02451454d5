"""One value of a document beside the part of the schema that speaks of it, with words for what it is called."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.findings import Fault
from benchleaf.shape.inline import inline
from benchleaf.shape.schemas import walk
from benchleaf.source.nodes import Node, Scalar, Sequence, Table

if TYPE_CHECKING:
    from benchleaf.findings import Place
    from benchleaf.shape.schemas import Pointer, Schema, Schemas


@dataclass(frozen=True, slots=True)
class Spot:
    """A value, the key that it stands under (None in a list), its part of the schema, and the table or list around."""

    kind: str
    pointer: Pointer
    node: Node
    key: Scalar | None
    schema: Schema
    around: Spot | None

    @property
    def place(self) -> Place:
        """Where the value is written."""
        return self.node.place

    @property
    def first(self) -> Place:
        """Where its first key is written; the place of what is no table, or holds nothing."""
        return self.node.first if isinstance(self.node, Table) else self.node.place

    @property
    def name(self) -> str:
        """What a reader calls the value: its field, or its number in a list."""
        if self.key is not None:
            return f"`{self.key.text}`"
        if self.around is None:
            return "the file"
        return f"item {int(self.pointer[-1]) + 1} of {self.around.name}"

    @property
    def owner(self) -> str:
        """What a reader calls a table when one of its fields is meant: this step, the part `window`, `room`."""
        if self.around is None:
            return f"this {self.kind} file"
        title = _lowered(str(self.schema.get("title", "table")))
        if self.key is None:
            return f"this {title}"
        if self.key.text in self.around.schema.get("properties", {}):
            return self.name
        return f"the {title} {self.name}"

    def fault(self, rule: str, message: str, to_do: str, at: Place | None = None) -> Fault:
        """Return the fault of *rule*, placed at the value where *at* names no other place."""
        return Fault(rule, at or self.place, message, to_do)

    @property
    def dimensions(self) -> tuple[str, ...]:
        """The dimensions that a quantity may have here; none where no quantity belongs."""
        several: list[str] = self.schema.get("x-dimensions", [])
        return tuple(several) or ((self.schema["x-dimension"],) if "x-dimension" in self.schema else ())

    @property
    def types(self) -> tuple[str, ...]:
        """The JSON types that may stand here."""
        wanted: str | list[str] = self.schema.get("type", [])
        return (wanted,) if isinstance(wanted, str) else tuple(wanted)

    @property
    def example(self) -> object:
        """The schema's example of such a value, or None."""
        return next(iter(self.schema.get("examples", [])), None)


def spot_at(document: Table, kind: str, schemas: Schemas, pointer: Pointer) -> Spot:
    """Return the value at *pointer* with its part of the schema; the schema is empty where it knows nothing there."""
    spot = Spot(kind, (), document, None, schemas.kinds[kind], None)
    for length, step in enumerate(pointer, start=1):
        key, node = _child(spot.node, step)
        spot = Spot(kind, pointer[:length], node, key, walk(spot.schema, (step,)) or {}, spot)
    return spot


def written(spot: Spot, value: str) -> str:
    """Return the field of *spot* with *value*, already written as YAML, as it would stand in the file."""
    return f"`{spot.key.text}: {value}`" if spot.key else f"`{value}`"


def like_this(spot: Spot) -> str:
    """Return advice that shows how such a value is written."""
    return f"Write it like this: {written(spot, inline(spot.example))}"


def _child(node: Node, step: str | int) -> tuple[Scalar | None, Node]:
    if isinstance(node, Sequence) and isinstance(step, int):
        return None, node.items[step]
    if isinstance(node, Table) and isinstance(step, str):
        entry = node.entry(step)
        if entry is not None:
            return entry.key, entry.value
    raise LookupError(step)  # A pointer comes from the document itself: another would be a bug of ours.


def _lowered(title: str) -> str:
    return title if title.isupper() else title[:1].lower() + title[1:]
