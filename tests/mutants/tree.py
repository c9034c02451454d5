"""A file as plain values that can be changed, and back to text; and which value stands at a place of that text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias, cast

import yaml

from benchleaf.source.nodes import Scalar, Table, plain
from benchleaf.source.read import read

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.source.nodes import Node

# What a file holds is known to the schemas and to nobody here.
Tree: TypeAlias = "dict[str, Any]"
Pointer: TypeAlias = "tuple[str | int, ...]"
"""The way from the root of a file to one of its values: keys, and numbers in lists."""


def parsed(data: bytes, path: str) -> Tree:
    """Return what the file *data* holds."""
    document = read(data, path).document
    assert document is not None, path
    return cast("Tree", plain(document))


def written(tree: Tree) -> bytes:
    """Return *tree* as the text of a file, one value on a line, so that no two values share a place."""
    text = yaml.dump(tree, Dumper=_Dumper, allow_unicode=True, sort_keys=False, width=10_000, default_flow_style=False)
    return str(text).encode()


class _Dumper(yaml.CSafeDumper):
    """The C writer, without aliases: a value that stands twice is written twice."""

    def ignore_aliases(self, data: object) -> bool:
        """Write everything out."""
        del data
        return True


def value(tree: Tree, pointer: Pointer) -> Any:  # noqa: ANN401  (see Tree)
    """Return the value that *pointer* leads to."""
    found: Any = tree
    for key in pointer:
        found = found[key]
    return found


def put(tree: Tree, pointer: Pointer, new: object) -> None:
    """Write *new* where *pointer* leads to."""
    value(tree, pointer[:-1])[pointer[-1]] = new


def drop(tree: Tree, pointer: Pointer) -> None:
    """Take away what *pointer* leads to, and the table that it leaves empty; a list may stay empty."""
    holder = value(tree, pointer[:-1])
    del holder[pointer[-1]]
    if holder == {} and len(pointer) > 1 and isinstance(pointer[-2], str):
        drop(tree, pointer[:-1])


def places(root: Node) -> dict[tuple[int, int], Pointer]:
    """Return the way to each value by the line and column where it, or its key, begins; the deepest one."""
    return dict(_places(root, ()))


def _places(node: Node, here: Pointer) -> Iterator[tuple[tuple[int, int], Pointer]]:
    yield (node.place.line, node.place.column), here
    if isinstance(node, Table):
        for entry in node.entries:
            below = (*here, entry.key.text)
            yield (entry.key.place.line, entry.key.place.column), below
            yield from _places(entry.value, below)
    elif not isinstance(node, Scalar):
        for number, item in enumerate(node.items):
            yield from _places(item, (*here, number))
