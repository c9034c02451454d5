"""What holds for every document, however strange."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.shape.check import check
from benchleaf.shape.suspects import suspects
from benchleaf.source.folder import identify
from benchleaf.source.nodes import Node, Scalar, Table, plain
from tests.shape.reading import PROCEDURES, SCHEMAS, document
from tests.shape.strange import as_yaml, strange

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
RULES = {"unknown-field", "missing-field", "wrong-value", "bad-quantity", "misread-value"}
DEMONSTRATION = sorted(PROCEDURES.rglob("*.yml"))
# Written without quotes, each of these is read in a way of its own.
PLAIN = [
    "no",
    "on",
    "~",
    "null",
    "1:30",
    "010",
    ".nan",
    ".inf",
    "1e400",
    "1_0",
    "0x1f",
    "2026-11-25",
    "=",
    "-5 s",
    "8.0",
]


@settings(deadline=None, max_examples=200)
@given(strange())
def test_findings(made: tuple[str, Any]) -> None:
    """Whatever stands in a document is found without an error of ours: each thing once, in reading order, in words."""
    kind, value = made
    node = document(as_yaml(value))

    faults = check(node, kind, SCHEMAS)

    places = {scalar.place for scalar in _scalars(node)}
    assert sorted(fault.place for fault in faults) == [fault.place for fault in faults]
    assert len(faults) == len(set(faults))
    assert all(fault.rule in RULES and fault.message and fault.help for fault in faults)
    assert all(fault.place in places or fault.place.end > fault.place.column for fault in faults)


@settings(deadline=None, max_examples=200)
@given(strange())
def test_nothing_slips_through(made: tuple[str, Any]) -> None:
    """A document that does not fit its schema has a finding, and never less than one for each value that does not."""
    kind, value = made
    node = document(as_yaml(value))
    errors = SCHEMAS.errors(kind, plain(node))

    faults = check(node, kind, SCHEMAS)

    assert bool(errors) <= bool(faults)


@settings(deadline=None, max_examples=100)
@given(strange(), st.lists(st.sampled_from(PLAIN), min_size=1, max_size=3), st.data())
def test_plain_values_anywhere(made: tuple[str, Any], words: list[str], data: st.DataObject) -> None:
    """A value that readers differ on may stand anywhere, and is no error of ours."""
    kind, value = made
    text = as_yaml(value)
    for word in words:
        # From left to right, so that a quote inside a text is not taken for the beginning of one.
        quoted = [found.span() for found in QUOTED.finditer(text) if text[: found.start()].endswith(": ")]
        if quoted:
            start, end = data.draw(st.sampled_from(quoted))
            text = text[:start] + word + text[end:]

    faults = check(document(text), kind, SCHEMAS)

    assert all(fault.rule in RULES for fault in faults)


@pytest.mark.parametrize("name", ["0", "00", "7", "2024"])
def test_name_of_digits(name: str) -> None:
    """What stands under a name of digits is found where it stands."""
    node = document(f"title: T\nparts:\n  {name}: {{title: A}}\n  0-a: {{title: B}}\n  0000: {{titel: C}}\n")

    faults = check(node, "device", SCHEMAS)

    assert [("unknown-field", 5)] == [(fault.rule, fault.place.line) for fault in faults]


def test_field_without_a_name() -> None:
    """A field that has no name is found, wherever it stands."""
    node = document('title: T\nparts:\n  "": {title: A}\n  a: {title: B, "": {"": 1}}\n"": {"": 1}\n')

    faults = check(node, "device", SCHEMAS)

    assert [("wrong-value", 3), ("unknown-field", 4), ("unknown-field", 5)] == [
        (fault.rule, fault.place.line) for fault in faults
    ]


@pytest.mark.parametrize("path", DEMONSTRATION, ids=lambda path: path.relative_to(PROCEDURES).as_posix())
def test_demonstration(path: Path) -> None:
    """Each file of the demonstration has the shape of its kind."""
    inside = path.relative_to(PROCEDURES).as_posix()

    faults = check(document(path.read_text("utf-8"), inside), identify(inside)[0], SCHEMAS)

    assert () == faults


def test_few_values_are_looked_at_closely() -> None:
    """The sieve lets through less than one value in ten of the demonstration: fitting stays as cheap as validating."""
    nodes = [document(path.read_text("utf-8")) for path in DEMONSTRATION]

    close = sum(1 for node in nodes for _ in suspects(node, SCHEMAS.bounded))

    assert close * 10 < sum(1 for node in nodes for _ in _scalars(node))


def _scalars(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Table):
        for entry in node.entries:
            yield entry.key
            yield from _scalars(entry.value)
    else:
        for item in node.items:
            yield from _scalars(item)
