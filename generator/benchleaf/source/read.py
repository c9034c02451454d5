"""One file's bytes in, one tree of nodes out, with everything that keeps the file from being read plainly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

import yaml

from benchleaf.findings import Fault, Place
from benchleaf.source.characters import HIDDEN, hidden_in_text, hidden_in_value, without_hidden
from benchleaf.source.core import value_of
from benchleaf.source.nodes import Entry, Node, Scalar, Sequence, Table
from benchleaf.source.trouble import TAG_HELP, Unreadable, in_plain_words

if TYPE_CHECKING:
    from collections.abc import Sequence as Several

SIZE_LIMIT = 1 << 20
DEPTH_LIMIT = 40
_KIND_TAGS = {
    yaml.ScalarNode: "tag:yaml.org,2002:str",
    yaml.SequenceNode: "tag:yaml.org,2002:seq",
    yaml.MappingNode: "tag:yaml.org,2002:map",
}
_LINE_END = re.compile(r"\r\n|\r|\n")
# A tag, with what may stand between it and where its value begins: an anchor, and remarks, on lines of their own.
_TAG = re.compile(r"(?:&[^\s,\[\]{}]*)?(?:\s|#[^\r\n]*)*(?P<tag>!(?:<[^>]*>|[^\s,\[\]{}]*))")
# One space and no space after: `part #4`. A remark is set off by more, or has a space after its sign.
_SWALLOWED = re.compile(r" #[^\s#!]")


class _Loader(yaml.CSafeLoader):
    """The C parser with no guesses about types: each plain scalar comes as the text that was typed."""

    def resolve(self, kind: type[yaml.Node], value: str | None, implicit: object) -> str:
        """Return the tag of an untagged node by its kind alone; PyYAML's own way looks for guesses first."""
        del value, implicit
        return _KIND_TAGS[kind]

    yaml_implicit_resolvers: dict[str, list[tuple[str, re.Pattern[str]]]] = {}  # noqa: RUF012  (PyYAML's own name)


@dataclass(frozen=True, slots=True)
class Read:
    """What became of a file: its root table, or None where it cannot be read, and what is wrong with it."""

    document: Table | None
    faults: tuple[Fault, ...]


def read(data: bytes, path: str) -> Read:
    """Read *data*, the bytes of the file that findings call *path*. Never raises over what it finds."""
    try:
        text = _decode(data, path)
    except Unreadable as trouble:
        return Read(None, (trouble.fault,))
    faults = list(hidden_in_text(text, path)) if HIDDEN.search(text) else []
    walker = _Walker(path, without_hidden(text) if faults else text, faults)
    try:
        return Read(walker.document(), tuple(faults))
    except Unreadable as trouble:
        return Read(None, (*faults, trouble.fault))


def _decode(data: bytes, path: str) -> str:
    start = Place(path, 1, 1, 2)
    if len(data) > SIZE_LIMIT:
        raise Unreadable(start, f"The file is {len(data):,} bytes long; a procedure needs no more than {SIZE_LIMIT:,}",
                         "Split it, or take out what is not text.")  # fmt: skip
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # What failed is the text after a byte order mark: the error counts from there.
        before = _LINE_END.split(error.object[: error.start].decode())
        line, column = len(before), len(before[-1]) + 1
        raise Unreadable(
            Place(path, line, column, column + 1),
            f"The byte {error.object[error.start]:#04x} is no UTF-8 text",
            "Save the file as UTF-8 in your editor.",
        ) from error


class _Walker:
    """Turns composed nodes into ours, and notes what a plain reading would hide."""

    def __init__(self, path: str, text: str, faults: list[Fault]) -> None:
        self._path = path
        self._text = text
        self._lines = text.splitlines() if " #" in text else []
        self._faults = faults
        self._seen: set[int] = set()

    def document(self) -> Table:
        """Return the root table."""
        try:
            loader = _Loader(self._text)
            try:
                root = loader.get_single_node()
            finally:
                loader.dispose()
        except yaml.YAMLError as error:
            raise in_plain_words(error, self._path) from error
        except RecursionError as error:
            raise self._too_deep(Place(self._path, 1, 1, 2)) from error
        if root is None:
            raise Unreadable(Place(self._path, 1, 1, 2), "The file is empty",
                             "Write its fields, the title first; `benchleaf new` makes a filled one.")  # fmt: skip
        self._refuse_tags()
        node = self._node(root, 1)
        if not isinstance(node, Table):
            raise Unreadable(node.place, "The file holds a single value or a list, not fields",
                             "Begin with a field, for example `title: ...`.")  # fmt: skip
        return node

    def _node(self, node: yaml.Node, depth: int) -> Node:
        place = self._place(node)
        if id(node) in self._seen:
            raise Unreadable(self._first_alias(place), "A value is repeated here by an alias (`*name`)",
                             "Write it out: a reader of one step must see all of it.")  # fmt: skip
        self._seen.add(id(node))
        if depth > DEPTH_LIMIT:
            raise self._too_deep(place)
        if isinstance(node, yaml.ScalarNode):
            return self._scalar(node, place)
        if isinstance(node, yaml.SequenceNode):
            return Sequence(tuple([self._node(item, depth + 1) for item in node.value]), place)
        return Table(self._entries(node.value, depth), place)

    def _scalar(self, node: yaml.ScalarNode, place: Place) -> Scalar:
        text: str = node.value
        is_plain = not node.style
        if is_plain:
            if self._lines:
                self._look_for_swallowed(node)
            return Scalar(text, value_of(text), plain=True, place=place)
        if HIDDEN.search(text):
            self._faults.extend(hidden_in_value(text, place))
            text = HIDDEN.sub("", text)  # What it leaves may fit: one slip is one finding.
        return Scalar(text, text, plain=False, place=place)

    def _entries(self, pairs: Several[tuple[yaml.Node, yaml.Node]], depth: int) -> tuple[Entry, ...]:
        entries: dict[str, Entry] = {}
        for key_node, value_node in pairs:
            key = self._node(key_node, depth + 1)
            if not isinstance(key, Scalar):
                raise Unreadable(
                    key.place, "A list or a table stands where a name belongs", "Write a name, then a colon."
                )
            if key.text == "<<" and key.plain:
                raise Unreadable(key.place, "A merge key (`<<`) stands here",
                                 "Write the fields out: a reader of one step must see all of it.")  # fmt: skip
            entry = Entry(key, self._node(value_node, depth + 1))
            first = entries.setdefault(key.text, entry)
            if first is not entry:
                self._faults.append(
                    Fault(
                        "duplicate-key",
                        key.place,
                        f"`{key.text}` is given twice; the first is on line {first.key.place.line}",
                        "Keep one of the two: a reader cannot know which of them you meant.",
                    )
                )
        return tuple(entries.values())

    def _look_for_swallowed(self, node: yaml.ScalarNode) -> None:
        line, column = node.end_mark.line, node.end_mark.column
        rest = self._lines[line][column:] if line < len(self._lines) else ""
        if node.value and _SWALLOWED.match(rest):
            lost = rest[1:].rstrip()
            self._faults.append(
                Fault(
                    "swallowed-comment",
                    Place(self._path, line + 1, column + 2, column + 2 + len(lost)),
                    f"The text ends before ` {lost}`: what follows ` #` is a remark and is not read",
                    f'Put the whole text in quotes ("{node.value} {lost}"), or leave a space after the # of a remark.',
                )
            )

    def _place(self, node: yaml.Node) -> Place:
        start, end = node.start_mark, node.end_mark
        line, column = start.line + 1, start.column + 1
        same_line = end.line == start.line and end.column > start.column
        return Place(self._path, line, column, end.column + 1 if same_line else column + 1)

    def _refuse_tags(self) -> None:
        # A composed node no longer knows whether its tag was written: only the events do.
        for event in yaml.parse(self._text, Loader=_Loader) if "!" in self._text else ():
            if getattr(event, "tag", None):
                start = cast("yaml.Mark", event.start_mark)
                written = _TAG.match(self._text, start.index)
                raise Unreadable(
                    self._at(written.start("tag"), written.end("tag")) if written else self._at(start.index),
                    f"The tag {written['tag']} stands here" if written else "A tag stands here",
                    TAG_HELP,
                )

    def _at(self, index: int, end: int = 0) -> Place:
        """Return the place of what stands in the text from *index* to *end*, both counted from its beginning."""
        lines = _LINE_END.split(self._text[:index])
        column = len(lines[-1]) + 1
        return Place(self._path, len(lines), column, column + max(1, end - index))

    def _first_alias(self, otherwise: Place) -> Place:
        # A composed node keeps the place of its anchor; only the events know where it is used again.
        for event in yaml.parse(self._text, Loader=_Loader):
            if isinstance(event, yaml.AliasEvent):
                start, end = cast("yaml.Mark", event.start_mark), cast("yaml.Mark", event.end_mark)
                return Place(self._path, start.line + 1, start.column + 1, end.column + 1)
        return otherwise

    def _too_deep(self, place: Place) -> Unreadable:
        return Unreadable(place, f"Values are nested more than {DEPTH_LIMIT} deep here",
                          "No procedure needs that: write it flatter.")  # fmt: skip
