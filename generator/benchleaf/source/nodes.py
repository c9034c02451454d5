"""The tree that a YAML file becomes: text as typed, its YAML 1.2 core value, and its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from benchleaf.findings import Place

Value: TypeAlias = "str | int | float | bool | None"
Plain: TypeAlias = "Value | list[Plain] | dict[str, Plain]"


@dataclass(frozen=True, slots=True)
class Scalar:
    """One value. `plain` says that it stood there without quotes."""

    text: str
    value: Value
    plain: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list of values."""

    items: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Entry:
    """A key and its value."""

    key: Scalar
    value: Node


@dataclass(frozen=True, slots=True)
class Table:
    """Keys with values, in the order written, each key once."""

    entries: tuple[Entry, ...]
    place: Place

    def entry(self, key: str) -> Entry | None:
        """Return the entry of *key*, or None."""
        for entry in self.entries:
            if entry.key.text == key:
                return entry
        return None

    def get(self, key: str) -> Node | None:
        """Return the value of *key*, or None."""
        entry = self.entry(key)
        return entry.value if entry else None

    @property
    def first(self) -> Place:
        """The place of the first key, or of the table where it is empty."""
        return self.entries[0].key.place if self.entries else self.place


Node: TypeAlias = "Scalar | Sequence | Table"


def plain(node: Node) -> Plain:
    """Return *node* as the plain values that a schema validator reads."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Table):
        return {entry.key.text: plain(entry.value) for entry in node.entries}
    return [plain(item) for item in node.items]
