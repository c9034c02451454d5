"""Which plain texts are numbers, truths or nothing, and which stay text."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.source.core import value_of

if TYPE_CHECKING:
    from benchleaf.source.nodes import Value

# The core schema of YAML 1.2.2, section 10.3.2, without what two readers may take for two things.
READ: dict[str, Value] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False,
    "0": 0, "7": 7, "-7": -7, "+7": 7, "-0": 0, "123456789012345678": 123456789012345678,
    "0.5": 0.5, ".5": 0.5, "5.": 5.0, "-0.5": -0.5, "1e3": 1000.0, "1E3": 1000.0, "1.5e-3": 0.0015,
}  # fmt: skip
TEXT = [
    "nULL", "tRUE", "yes", "no", "on", "off", "y", "n", "Yes", "NO",
    "007", "010", "-010", "00", "0.5.1", "01.5", "1_000", "0x1F", "0o17", "0b11", "1:30", "1e", "e3", "+", "-", ".",
    "1e1000", "1234567890123456789", ".nan", ".inf", "-.inf", ".NaN", "2026-09-14", "12 mm", "5–10", "+5 V", "8.8.8",
    "٣",
]  # fmt: skip


@pytest.mark.parametrize("text", READ, ids=repr)
def test_read_as_a_value(text: str) -> None:
    """A text of the core schema has its value, of its type."""
    value = value_of(text)

    assert (READ[text], type(READ[text])) == (value, type(value))


@pytest.mark.parametrize("text", TEXT)
def test_stays_text(text: str) -> None:
    """Whatever two readers could take for two things stays the text that it is."""
    assert text == value_of(text)
