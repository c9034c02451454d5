"""Reads the fields of a table that fits its schema: what is asked for is there, or has a default."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar, cast

from benchleaf.model.words import OnlyFor, Said
from benchleaf.source.nodes import Node, Scalar, Sequence, Table
from benchleaf.units.dimensions import DIMENSIONS
from benchleaf.units.parse import NotAQuantity, parse

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Place
    from benchleaf.units.quantity import Quantity

Q = TypeVar("Q", bound="Quantity")

EVERY_DIMENSION = tuple(DIMENSIONS)


def said(node: Node) -> Said:
    """Return the text of a scalar *node* with its place."""
    return Said(cast("Scalar", node).text, node.place)


def quantity(kind: type[Q], node: Node) -> Q:
    """Return the quantity of *kind* that *node* writes."""
    return cast("Q", parse(cast("Scalar", node).text, kind.dimension))


def at_most(limit: Q) -> Q:
    """Return *limit* as the least that it may mean: one that is written `≤ 60 °C` is one of 60 °C."""
    return replace(limit, low=limit.high) if limit.low == -math.inf else limit


def any_quantity(node: Node) -> Quantity | None:
    """Return the quantity that *node* writes, of whatever dimension, or None where it is none."""
    try:
        return parse(cast("Scalar", node).text, *EVERY_DIMENSION)
    except NotAQuantity:
        return None


def items(node: Node | None) -> tuple[Node, ...]:
    """Return the items of a list, or nothing where there is none."""
    return node.items if isinstance(node, Sequence) else ()


class Fields:
    """The fields of one table by name."""

    __slots__ = ("_table", "_values")

    def __init__(self, table: Node | None) -> None:
        """Hold the fields of *table*; None holds none."""
        self._table = table if isinstance(table, Table) else None
        self._values = {entry.key.text: entry.value for entry in self._table.entries} if self._table else {}

    @property
    def place(self) -> Place:
        """The place of the first key."""
        return cast("Table", self._table).first

    def __contains__(self, name: str) -> bool:
        """Whether the field *name* is written."""
        return name in self._values

    def node(self, name: str) -> Node | None:
        """Return the value of *name* as a node, or None."""
        return self._values.get(name)

    def need(self, name: str) -> Node:
        """Return the value of *name*, which the schema requires."""
        return self._values[name]

    def said(self, name: str) -> Said | None:
        """Return the text of *name* with its place, or None."""
        node = self._values.get(name)
        return None if node is None else said(node)

    def text(self, name: str) -> str | None:
        """Return the text of *name*, or None."""
        node = self._values.get(name)
        return node.text if isinstance(node, Scalar) else None

    def names(self, name: str) -> tuple[Said, ...]:
        """Return the names that the list *name* holds."""
        return tuple([said(item) for item in items(self._values.get(name))])

    def texts(self, name: str) -> tuple[str, ...]:
        """Return the texts that the list *name* holds."""
        return tuple([cast("Scalar", item).text for item in items(self._values.get(name))])

    def flag(self, name: str, *, default: bool = False) -> bool:
        """Return the truth of *name*."""
        node = self._values.get(name)
        return node.value is True if isinstance(node, Scalar) else default

    def integer(self, name: str, default: int) -> int:
        """Return the whole number *name*."""
        node = self._values.get(name)
        return int(cast("int", node.value)) if isinstance(node, Scalar) else default

    def quantity(self, kind: type[Q], name: str) -> Q | None:
        """Return the quantity *name*, or None."""
        node = self._values.get(name)
        return None if node is None else quantity(kind, node)

    def need_quantity(self, kind: type[Q], name: str) -> Q:
        """Return the quantity *name*, which the schema requires."""
        return quantity(kind, self._values[name])

    def any_quantity(self, name: str) -> Quantity | None:
        """Return the quantity *name*, of whatever dimension, or None."""
        node = self._values.get(name)
        return None if node is None else any_quantity(node)

    def only(self, name: str = "only") -> OnlyFor | None:
        """Return the variants that *name* lists, or None where nothing is said."""
        return OnlyFor(self.names(name)) if name in self._values else None

    def entries(self, name: str) -> Iterator[tuple[Said, Node]]:
        """Yield the names and values of the table *name*."""
        yield from pairs(self._values.get(name))


def pairs(node: Node | None) -> Iterator[tuple[Said, Node]]:
    """Yield the keys of a table, with their places, and its values; nothing where there is no table."""
    if isinstance(node, Table):
        for entry in node.entries:
            yield Said(entry.key.text, entry.key.place), entry.value
