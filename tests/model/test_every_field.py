"""Nothing that a file may say is lost on the way to the model: the good files of the schemas use every field."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from benchleaf.model.build import Document, build
from benchleaf.source.nodes import Entry, Scalar, Sequence, Table
from tests.shape.reading import document, examples, title

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.source.nodes import Node

# `device` repeats the folder that a procedure lies in; a supply that is taken away has no other word.
ELSEWHERE = {"procedure": {"device", "steps[3].supply"}}
# Words that only another word of the format is told from.
OTHER_WORD = {"off": "on", "reuse": "do-not-use", "hand": "5 cN·m"}


def model(kind: str, root: Table) -> KnowledgeBase:
    """Return the knowledge base that the one document *root* of *kind* makes."""
    return build([Document(kind, "godwit", "example", "example.yml", root)], (), frozenset())


def otherwise(value: Scalar) -> Scalar:
    """Return *value* saying something else of the same sort."""
    if isinstance(value.value, bool):
        return Scalar(str(not value.value), not value.value, value.plain, value.place)
    if isinstance(value.value, int | float):
        return Scalar(str(value.value + 1), value.value + 1, value.plain, value.place)
    text = OTHER_WORD.get(value.text) or re.sub("[0-9]", lambda digit: str(9 - int(digit[0])), value.text)
    text = text if text != value.text else f"{text}x"
    return Scalar(text, text, value.plain, value.place)


def changes(node: Node, way: str = "") -> Iterator[tuple[str, Node]]:
    """Yield each way to a value below *node*, and *node* with that value changed."""
    if isinstance(node, Scalar):
        yield way, otherwise(node)
    elif isinstance(node, Sequence):
        for place, item in enumerate(node.items):
            for there, changed in changes(item, f"{way}[{place}]"):
                yield there, Sequence((*node.items[:place], changed, *node.items[place + 1 :]), node.place)
    else:
        for place, entry in enumerate(node.entries):
            for there, changed in changes(entry.value, f"{way}.{entry.key.text}".lstrip(".")):
                entries = (*node.entries[:place], Entry(entry.key, changed), *node.entries[place + 1 :])
                yield there, Table(entries, node.place)


@pytest.mark.parametrize("path", examples("good-*.yml"), ids=title)
def test_every_value_makes_a_difference(path: Path) -> None:
    """Each single value of a file, written otherwise, gives another model."""
    kind, root = path.parent.name, document(path.read_text("utf-8"))
    said = model(kind, root)

    lost = [way for way, changed in changes(root) if isinstance(changed, Table) and model(kind, changed) == said]

    assert [] == sorted(set(lost) - ELSEWHERE.get(kind, set()))
