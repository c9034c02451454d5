"""Whatever the bytes are, reading ends in a tree or in faults, never in an error of ours."""

from __future__ import annotations

import re
from itertools import product

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.source.nodes import Plain, plain
from benchleaf.source.read import Read, read

SIGNS = st.sampled_from([
    "a", "b: ", "- ", ": ", "? ", "\n", "\n  ", "\r\n", "\t", "[", "]", "{", "}", ",", "&a ", "*a", "!", "!!str ", "|",
    ">", "#", " #", "'", '"', "\\", "\\u202e", "%", "@", "`", "---\n", "...\n", "<<: ", "0", "1e9", "~", "\0", "\u202e",
    "\ufeff", "é", "🔧", " ",
])  # fmt: skip
# What may stand before a value, with the breaks and remarks that may stand between; each row of four is read below.
BEFORE_A_VALUE = ("&a", "*a", "!", "!t", "!<t>", "x", " ", "\n", "\r\n", " # !c\n", "- ", "[", "]", "k: ")
BEGINNINGS = ("", "a: ", "a: [", "a:\n  ")
NAMES = st.text("abcxyz0123- #:", min_size=1, max_size=8)
TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Zl", "Zp"]), max_size=12).filter(
    # `0E0` is text in YAML 1.1 and a number in 1.2, which is ours: what is written of it depends on the reader.
    lambda text: not re.fullmatch(r"[-+]?[0-9.]+[eE][-+]?[0-9]+", text)
)
VALUES = st.recursive(
    st.integers(-(10**15), 10**15) | st.booleans() | st.none() | TEXTS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=3),
    max_leaves=8,
)


def is_told(result: Read, text: str) -> bool:
    """Whether the tree or a fault is there, and each fault stands in *text*, or just after its last line."""
    last = len(re.split("\r\n|\r|\n", text)) + 1
    places = [fault.place for fault in result.faults]
    return (result.document is not None or bool(places)) and all(
        1 <= place.line <= last and 1 <= place.column < place.end for place in places
    )


@settings(deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    """Any bytes are read, or refused with a reason and a place."""
    assert is_told(read(data, "any.yml"), data.decode("utf-8-sig", errors="replace"))


@settings(deadline=None, max_examples=400)
@given(st.lists(SIGNS, max_size=30).map("".join))
def test_any_signs_of_the_language(text: str) -> None:
    """Any row of signs that mean something in YAML is read, or refused with a reason and a place."""
    assert is_told(read(text.encode(), "any.yml"), text)


def tags_at(text: str) -> set[str]:
    """Return the first character of each place in *text* where a tag is told."""
    lines = re.split("\r\n|\r|\n", text)
    places = [fault.place for fault in read(text.encode(), "any.yml").faults if fault.message.startswith("The tag ")]
    return {lines[place.line - 1][place.column - 1] for place in places}


@pytest.mark.parametrize("beginning", BEGINNINGS)
def test_any_tag_behind_an_anchor(beginning: str) -> None:
    """Whatever stands between an anchor and a tag, the file is read or refused, and a tag is told where it begins."""
    found = [tags_at(beginning + "".join(row)) for row in product(BEFORE_A_VALUE, repeat=4)]

    assert {"!"} == set().union(*found)


@pytest.mark.outside
@settings(deadline=None)
@given(st.dictionaries(NAMES, VALUES, min_size=1, max_size=3))
def test_what_another_program_writes(written: dict[str, Plain]) -> None:
    """What PyYAML writes, which puts in quotes whatever YAML 1.1 would misread, is read as it was meant."""
    text = yaml.safe_dump(written, allow_unicode=True, sort_keys=False, width=10_000)

    result = read(text.encode(), "any.yml")

    assert result.document is not None
    assert written == plain(result.document)
