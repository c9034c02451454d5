"""What all drafts are made of: the line that tells an editor the schema, remarks, titles, what is to be filled in."""

from __future__ import annotations

import json
import re
import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

FILL = "# fill in: "
"""Begins the remark on each line that an author has to make his own."""

_WIDTH = 110
_PLAIN = re.compile(r"[^\W\d_][\w ()/.%°+–-]*")
_READ_OTHERWISE = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}


def modeline(kind: str, depth: int) -> str:
    """Return the first line of a file of *kind* that lies *depth* folders below the settings: it names the schema."""
    return f"# yaml-language-server: $schema={'../' * depth}schema/{kind}.schema.json"


def remark(text: str, indent: int = 0) -> Iterator[str]:
    """Yield *text* as remarks, broken where the line gets long."""
    head = " " * indent + "# "
    yield from textwrap.wrap(" ".join(text.split()), _WIDTH, initial_indent=head, subsequent_indent=head + "  ",
                             break_long_words=False, break_on_hyphens=False)  # fmt: skip


def offered(what: str, names: Mapping[str, str], indent: int = 0) -> Iterator[str]:
    """Yield a remark with the names that can be written here, each with its title; nothing where there are none."""
    if names:
        yield from remark(f"{what}: {', '.join(f'{name} ({title})' for name, title in names.items())}", indent)


def named(name: str) -> str:
    """Return the title that the *name* of a file stands for: `replace-window` as `Replace window`."""
    return name.replace("-", " ").capitalize()


def scalar(text: str) -> str:
    """Return *text* as YAML reads it back, in quotes where it would be read otherwise."""
    plain = _PLAIN.fullmatch(text) and text.lower() not in _READ_OTHERWISE and text == text.strip()
    return text if plain else json.dumps(text, ensure_ascii=False)


def to_fill_in(text: str) -> tuple[tuple[int, str], ...]:
    """Return the lines of a draft that are to be filled in, with what to write there."""
    return tuple(
        (number, line.split(FILL, 1)[1]) for number, line in enumerate(text.splitlines(), start=1) if FILL in line
    )


def whole(lines: Iterable[str]) -> str:
    """Return *lines* as the text of a file."""
    return "".join(f"{line}\n" for line in lines)
