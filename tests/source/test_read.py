"""Places, encodings and limits of reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.source.nodes import Node, Scalar, Sequence, Table
from benchleaf.source.read import DEPTH_LIMIT, SIZE_LIMIT, Read, read

if TYPE_CHECKING:
    from benchleaf.findings import Place

PATH = "example.yml"


def table(text: str | bytes) -> Table:
    """Return the root of *text*, in which nothing is wrong."""
    result = read(text if isinstance(text, bytes) else text.encode(), PATH)
    assert not result.faults
    assert result.document is not None
    return result.document


def value(text: str | bytes, *steps: str | int) -> Node:
    """Return the node at *steps* in *text*."""
    node: Node = table(text)
    for step in steps:
        node = _below(node, step)
    return node


def _below(node: Node, step: str | int) -> Node:
    if isinstance(step, int):
        assert isinstance(node, Sequence)
        return node.items[step]
    assert isinstance(node, Table)
    found = node.get(step)
    assert found is not None
    return found


def at(place: Place) -> str:
    """Return *place* as `line:column-end`."""
    return f"{place.line}:{place.column}-{place.end}"


def faults(result: Read) -> list[str]:
    """Return each fault of *result* as `rule line:column-end`."""
    return [f"{fault.rule} {at(fault.place)}" for fault in result.faults]


@pytest.mark.parametrize(
    ("text", "steps", "place"),
    [
        ("a: bc", ["a"], "1:4-6"),
        ("a:\n  - b\n  - cd\n", ["a", 1], "3:5-7"),
        ("a: {b: c, d: [e, f]}", ["a", "d", 1], "1:18-19"),
        ("a: 'it''s'", ["a"], "1:4-11"),
        ('a: "x\\ty"', ["a"], "1:4-10"),
        ("a:\nb: 1", ["a"], "1:3-4"),
        ("a: |\n  b\n", ["a"], "1:4-5"),
        ("a: b\n  c\n", ["a"], "1:4-5"),
        ("a: [b, c]", ["a"], "1:4-10"),
        ("a:\n  b: c\n", ["a"], "2:3-4"),
    ],
    ids=[
        "plain",
        "list",
        "flow",
        "single quotes",
        "double quotes",
        "nothing",
        "block",
        "two lines",
        "brackets",
        "table",
    ],
)
def test_place_of_value(text: str, steps: list[str | int], place: str) -> None:
    """A value keeps its line, its first column, and the column after its end where that is on the same line."""
    assert place == at(value(text, *steps).place)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("é: à", "1:4-5"),
        ("é: 60 °C ± 5 Ω", "1:4-15"),
        ("🔧: 🔩🔩", "1:4-6"),
        ("e\u0301: x", "1:5-6"),
        ("\u00a0a: x", "1:5-6"),
    ],
    ids=["accents", "units", "signs beyond 16 bits", "a letter of two code points", "a space that does not break"],
)
def test_columns_count_code_points(text: str, place: str) -> None:
    """Columns count code points: not bytes, not halves of signs beyond 16 bits."""
    assert place == at(table(text).entries[0].value.place)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
def test_line_ends(end: str) -> None:
    """Lines are counted alike, whichever way they end."""
    result = read(f"a: 1{end}b: part #4{end}c: \u200bx{end}a: 2{end}".encode(), PATH)

    assert ["hidden-character 3:4-5", "swallowed-comment 2:9-11", "duplicate-key 4:1-2"] == faults(result)


def test_byte_order_mark() -> None:
    """A byte order mark at the beginning is passed over and takes no column."""
    assert "1:4-5" == at(value(b"\xef\xbb\xbfa: b", "a").place)


def test_second_byte_order_mark() -> None:
    """A byte order mark anywhere else is a hidden character."""
    assert ["hidden-character 1:4-5"] == faults(read(b"\xef\xbb\xbfa: \xef\xbb\xbfb", PATH))


@pytest.mark.parametrize(
    ("data", "place"),
    [
        (b"\xff\xfea\0", "1:1-2"),
        (b"a: caf\xe9", "1:7-8"),
        ("é: x\nb: ".encode() + b"\xe9", "2:4-5"),
        ("é: x\rb: ".encode() + b"\xe9", "2:4-5"),
        (b"\xef\xbb\xbfa: \x80", "1:4-5"),
        (b"a: \xed\xa0\x80", "1:4-5"),
    ],
    ids=["UTF-16", "Latin-1", "second line", "second line after CR", "after a byte order mark", "half a sign"],
)
def test_other_encodings(data: bytes, place: str) -> None:
    """A byte that is no UTF-8 is found where it stands, and the file is not read."""
    assert [f"unreadable-file {place}"] == faults(read(data, PATH))


def test_largest_file() -> None:
    """A file of 1 MiB is read."""
    text = b"a: " + b"x" * (SIZE_LIMIT - 3)

    assert 1 << 20 == len(text)
    assert () == read(text, PATH).faults


def test_too_large_file() -> None:
    """A file of one byte more is not."""
    assert ["unreadable-file 1:1-2"] == faults(read(b"a: " + b"x" * (SIZE_LIMIT - 2), PATH))


def test_deepest_nesting() -> None:
    """Values may be nested 40 deep, the root and the innermost value counted."""
    lists = DEPTH_LIMIT - 2

    assert 40 == DEPTH_LIMIT
    assert () == read(f"a: {'[' * lists}x{']' * lists}".encode(), PATH).faults


def test_too_deep_nesting() -> None:
    """One deeper is refused, at the first value too deep."""
    lists = DEPTH_LIMIT - 1

    result = read(f"a: {'[' * lists}x{']' * lists}".encode(), PATH)

    assert [f"unreadable-file 1:{4 + lists}-{5 + lists}"] == faults(result)
    assert result.document is None


@pytest.mark.parametrize(
    "character",
    ["\0", "\x07", "\x1b", "\x7f", "\x85", "\u061c", "\u200b", "\u200e", "\u200f", "\u2028", "\u202a", "\u202e",
     "\u2060", "\u2066", "\u2069", "\ufeff", "\ufffe"],
    ids=lambda character: f"U+{ord(character):04X}",
)  # fmt: skip
def test_hidden_character(character: str) -> None:
    """Each character that nobody sees is found in its own column, and the rest is read at its own."""
    result = read(f"title: x{character}y\nsteps: part #4".encode(), PATH)

    assert ["hidden-character 1:9-10", "swallowed-comment 2:13-15"] == faults(result)


@pytest.mark.parametrize("character", ["\t", "\u00a0", "é", "–", "Ω", "\u2019", "漢", "🔧"], ids=ascii)
def test_seen_character(character: str) -> None:
    """What an author writes and sees is no hidden character."""
    assert f"x{character}y" == table(f'title: "x{character}y"').entries[0].value.text  # type: ignore[union-attr]


def test_hidden_character_in_remark() -> None:
    """A hidden character is found in a remark, too: it may hide what is not one."""
    assert ["hidden-character 1:8-9"] == faults(read("a: 1 # \u202ex".encode(), PATH))


def test_hidden_character_by_escape() -> None:
    """Written by its number in quotes it is found once, at the value, whose other characters stand."""
    result = read(rb'a: "x\u200by\u202e"', PATH)

    assert ["hidden-character 1:4-20"] == faults(result)
    assert result.document is not None
    assert "xy" == result.document.entries[0].value.text  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("- do: Fit part #4 first.", ["swallowed-comment 1:16-25"]),
        ("a:\n  - Fit part #4 first.", ["swallowed-comment 2:14-23"]),
        ("a: Fit\n  part #4", ["swallowed-comment 2:8-10"]),
        ("a: 60 °C #4", ["swallowed-comment 1:10-12"]),
        ("a: [b, c] #4", []),
        ("a: #4", []),
        ("a: x #!4", []),
        ("a: x ##", []),
        ("a: |\n  part #4\n", []),
    ],
)
def test_swallowed_comment(text: str, expected: list[str]) -> None:
    """A plain value cut short by ` #` is found at the sign; remarks set off, lists and blocks are left alone."""
    found = [fault for fault in faults(read(text.encode(), PATH)) if fault.startswith("swallowed")]

    assert expected == found


def test_swallowed_comment_says_what_is_lost() -> None:
    """The message repeats what is lost, and the help the whole text in quotes."""
    (fault,) = read(b"a: Look at pad #4 first.", PATH).faults

    assert "` #4 first.`" in fault.message
    assert '"Look at pad #4 first."' in fault.help


def test_duplicate_key_keeps_the_first() -> None:
    """Of two values for one name the first is kept, and the finding says on which line it stands."""
    result = read(b"a: 1\nb: 2\na: 3", PATH)

    assert result.document is not None
    assert ["a", "b"] == [entry.key.text for entry in result.document.entries]
    assert "line 1" in result.faults[0].message


def test_anchor_that_is_not_used() -> None:
    """A name for a value that is never used again does no harm."""
    assert "x" == table("a: &b x").entries[0].value.text  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ('a: "x\nb: 1\nc: 2\n', "1:4-5"),
        ("a: {b: 1\nc: 2\n", "1:4-5"),
        ("a:\n  - [b, c\n  - d\n", "2:5-6"),
    ],
    ids=["quote", "brace", "bracket"],
)
def test_never_closed(text: str, place: str) -> None:
    """What is opened and never closed is found where it was opened, not at the end of the file."""
    assert [f"unreadable-file {place}"] == faults(read(text.encode(), PATH))


def test_message_is_not_the_parsers() -> None:
    """The reason that a file cannot be read is said in the author's words, with what to write."""
    (fault,) = read(b"do: Note: keep the cable.", PATH).faults

    assert "A colon and a space stand inside a text that has no quotes" == fault.message
    assert "quotes" in fault.help


def test_scalar_knows_its_quotes() -> None:
    """A value in quotes is text, whatever it looks like."""
    quoted, bare = value('a: ["12", 12]', "a", 0), value('a: ["12", 12]', "a", 1)

    assert isinstance(quoted, Scalar)
    assert isinstance(bare, Scalar)
    assert ("12", False, 12, True) == (quoted.value, quoted.plain, bare.value, bare.plain)
