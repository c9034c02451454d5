"""
A document as a validator can read it, and the way back from what the validator calls a place.

Our validator gives paths in which a key of digits is a number, so that `0` and `00` are one, and a key without a name
is left out. Such keys go in under another name, and come back under their own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.source.nodes import Node, Plain, Scalar, Table

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.shape.schemas import Pointer

# Stands before digits and keeps a name a name; nobody begins a name so.
_DIGITS = "a-name-of-digits-"
_NAMELESS = "\0"
_BEGIN = frozenset("+0123456789")


def for_validator(node: Node) -> Plain:
    """Return *node* as the plain values that a validator reads."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Table):
        return {_in(entry.key.text): for_validator(entry.value) for entry in node.entries}
    return [for_validator(item) for item in node.items]


def own_name(name: object) -> str:
    """Return the key that the validator knows as *name*, as the author wrote it."""
    return "" if name == _NAMELESS else str(name).removeprefix(_DIGITS)


def own_pointer(path: Iterable[str | int]) -> Pointer:
    """Return the pointer to what the validator calls *path*."""
    return tuple(step if isinstance(step, int) else own_name(step) for step in path)


def _in(name: str) -> str:
    if not name:
        return _NAMELESS
    return f"{_DIGITS}{name}" if name[0] in _BEGIN else name
