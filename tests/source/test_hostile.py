"""Input that surprises a reader of YAML, row by row, and what becomes of it here."""

from __future__ import annotations

import sys
from dataclasses import dataclass

import pytest

from benchleaf.source.nodes import Plain, plain
from benchleaf.source.read import read

BOMB = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{name}: &{name} [{','.join([f'*{before}'] * 9)}]\n" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)
MERGED = "a: &a {x: 1}\n" + "".join(
    f"{name}: &{name} {{<<: [{', '.join([f'*{before}'] * 9)}]}}\n" for before, name in zip("abcd", "bcde", strict=True)
)
DIGITS = "9" * 5000
HEXADECIMAL = "0x" + "f" * 1_000_000
# More than Python turns into a number: whoever tries raises ValueError, which is no error of YAML.
assert len(DIGITS) > sys.get_int_max_str_digits()


@dataclass(frozen=True)
class Found:
    """What is read, or None; and each fault as `rule line:column-end`."""

    value: Plain
    faults: tuple[str, ...] = ()


def unreadable(at: str) -> Found:
    """Return what is found where a file cannot be read, for the reason at *at*."""
    return Found(None, (f"unreadable-file {at}",))


def seen(data: str | bytes) -> Found:
    """Return what becomes of *data*."""
    result = read(data if isinstance(data, bytes) else data.encode(), "hostile.yml")
    faults = tuple(f"{fault.rule} {fault.place.line}:{fault.place.column}-{fault.place.end}" for fault in result.faults)
    return Found(plain(result.document) if result.document else None, faults)


ROWS: dict[str, dict[str | bytes, Found]] = {
    "alias bomb, 9^9": {BOMB: unreadable("2:8-10")},
    "merge-key bomb (`<<`)": {
        MERGED: unreadable("2:8-10"),
        "<<: {x: 1}": unreadable("1:1-3"),
        '"<<": a name in quotes is a name': Found({"<<": "a name in quotes is a name"}),
    },
    "recursive alias `&a [*a]`": {
        "a: &a [*a]": unreadable("1:8-10"),
        "&a a: *a": unreadable("1:7-9"),
    },
    "nesting 100,000 / 5,000": {
        "[" * 100_000: unreadable("1:1001-1002"),
        "a: " + "[" * 5_000: unreadable("1:1003-1004"),
        "a: " + "[" * 900 + "]" * 900: unreadable("1:43-1765"),
    },
    "duplicate keys": {
        "a: 1\nb: 2\na: 3": Found({"a": 1, "b": 2}, ("duplicate-key 3:1-2",)),
        "a: {b: 1, b: 2}": Found({"a": {"b": 1}}, ("duplicate-key 1:11-12",)),
        'a: 1\n"a": 2': Found({"a": 1}, ("duplicate-key 2:1-4",)),
        "a: 1\na: 2\na: 3": Found({"a": 1}, ("duplicate-key 2:1-2", "duplicate-key 3:1-2")),
    },
    "`.nan`, `.inf`": {
        "a: [.nan, .inf, -.inf, +.INF]": Found({"a": [".nan", ".inf", "-.inf", "+.INF"]}),
    },
    "`1e400`, `1e3`, `12e3`, `1E5`": {
        "a: [1e400, -1e400, 1e3, 12e3, 1E5, 1.0e+3]": Found({"a": ["1e400", "-1e400", 1e3, 12e3, 1e5, 1e3]}),
    },
    "int of 5000 digits": {f"a: {DIGITS}": Found({"a": DIGITS})},
    "hex int of 1 MB": {f"a: {HEXADECIMAL}": Found({"a": HEXADECIMAL})},
    "`!!python/object/apply`": {
        "a: !!python/object/apply:os.system [ls]": unreadable("1:4-35"),
        "a: !<tag:yaml.org,2002:python/name:os.system> x": unreadable("1:4-46"),
    },
    "`no:`, `on`, `yes`, `NO`": {
        "no: [on, yes, NO, y, true]": Found({"no": ["on", "yes", "NO", "y", True]}),
    },
    "`1:30`, `12:30:45`": {"a: [1:30, 12:30:45]": Found({"a": ["1:30", "12:30:45"]})},
    "`2024-01-02`; `2024-02-30`": {"a: [2024-01-02, 2024-02-30]": Found({"a": ["2024-01-02", "2024-02-30"]})},
    "`010`, `0b11`, `1_000`": {
        "a: [010, 0b11, 1_000, 0o17, 0x1F, -010]": Found({"a": ["010", "0b11", "1_000", "0o17", "0x1F", "-010"]}),
    },
    "`!!binary`, `!!set`": {
        "a: !!binary aGk=": unreadable("1:4-12"),
        "a: !!set {x}": unreadable("1:4-9"),
        "a: !!str 12": unreadable("1:4-9"),
        "a: ! 12": unreadable("1:4-5"),
        "b: 1\na: [x, !own y]": unreadable("2:8-12"),
        "a: &a !own y": unreadable("1:7-11"),
        "a: [&a \n! ]": unreadable("2:1-2"),
        "a: &a\r\n  !own\r\n  b: 1": unreadable("2:3-7"),
        "a: &a # not here: !no\n\n  # nor here: !no\n  !<own> 1": unreadable("4:3-9"),
        "é🔧: &a\n  !own [1]": unreadable("2:3-7"),
        "a: Stop! Do not!": Found({"a": "Stop! Do not!"}),
    },
    "non-text keys `1:`; `? [x]`": {
        "1: x": Found({"1": "x"}),
        "? [x]\n: 1": unreadable("1:3-6"),
        "a: {? {b: 1} : 2}": unreadable("1:7-13"),
    },
    r'`"\u0000\u202e"` in quotes': {
        r'a: "\u0000\u202e"': Found({"a": ""}, ("hidden-character 1:4-18",)),
        r'"a\u200b": 1': Found({"a": 1}, ("hidden-character 1:1-10",)),
    },
    "`part #4` unquoted": {
        "a: part #4": Found({"a": "part"}, ("swallowed-comment 1:9-11",)),
        'a: "part #4"': Found({"a": "part #4"}),
        "a: part # 4": Found({"a": "part"}),
        "a: part  #4": Found({"a": "part"}),
        "a: part#4": Found({"a": "part#4"}),
    },
    "`text: Note: careful`": {"text: Note: careful": unreadable("1:11-12")},
    "two documents, empty file, bare scalar": {
        "a: 1\n---\nb: 2": unreadable("2:1-2"),
        "": unreadable("1:1-2"),
        "# only a remark\n": unreadable("1:1-2"),
        "part": unreadable("1:1-5"),
        "[a, b]": unreadable("1:1-7"),
        "---\na: 1\n...\n": Found({"a": 1}),
    },
    "`=`": {"=: [=]": Found({"=": ["="]})},
    "NUL byte, tab indent, undefined alias": {
        b"a: x\0y": Found({"a": "x y"}, ("hidden-character 1:5-6",)),
        "a:\n\tb: 1": unreadable("2:1-2"),
        "a: *b": unreadable("1:4-5"),
    },
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS)
def test_hostile_input(row: str) -> None:
    """Each surprising input is read as the text that stands there, or refused at its place."""
    assert list(ROWS[row].values()) == [seen(data) for data in ROWS[row]]
