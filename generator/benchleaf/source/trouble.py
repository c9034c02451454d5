"""What the YAML parser says, in the words of someone who writes procedures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.findings import Fault, Place

if TYPE_CHECKING:
    import yaml

TAG_HELP = "Take the tag away: values are text, numbers, lists and tables, nothing else."

# What the parser says, as it begins: what is there, what to write.
_WORDS = (
    ("mapping values are not allowed", "A colon and a space stand inside a text that has no quotes",
     'Put the whole text in quotes: do: "Note: keep the cable."'),
    ("did not find expected key", "The lines above do not end as a table should: a quote, bracket or indent is off",
     "Look at the line and the one before it: equal fields begin in the same column."),
    ("did not find expected ',' or '}'", "A `{` was opened and does not close where it should",
     "Close it with `}`, put commas between the fields, and quote texts that hold `, : # { } [ ]`."),
    ("did not find expected ',' or ']'", "A `[` was opened and does not close where it should",
     "Close it with `]`, put commas between the values, and quote texts that hold `, : # { } [ ]`."),
    ("did not find expected '-' indicator", "A list ends here without a reason that the reader can see",
     "Begin each item with `- ` in the same column."),
    ("found unexpected end of stream", "A quote was opened and never closed", "Close the quote."),
    ("found character that cannot start any token", "This character cannot begin a value",
     "Indent with spaces, not tabs, and put texts that begin with a sign in quotes."),
    ("found undefined alias", "`*` begins an alias here, and nothing of that name exists", "Put the text in quotes."),
    ("found undefined tag handle", "`!` begins a tag here", TAG_HELP),
    ("could not determine a constructor", "A tag stands here", TAG_HELP),
    ("expected a single document", "A second document begins here (`---`)", "Keep one document in a file."),
    ("found a tab character", "A tab stands where spaces belong", "Indent with spaces."),
    ("could not find expected ':'", "A name stands here with no colon after it", "Write `name: value`."),
    ("control characters are not allowed", "A control character stands here", "Delete it."),
    ("exceeded maximum nesting depth", "Values are nested far too deep here", "Write it flatter."),
    ("block sequence entries are not allowed", "A list cannot begin on this line", "Begin it on a line of its own."),
)  # fmt: skip
# What is opened and never closed is noticed at the end of the file, and is put right where it begins.
_OPENED = frozenset(
    {"did not find expected ',' or '}'", "did not find expected ',' or ']'", "found unexpected end of stream"}
)


class Unreadable(Exception):  # noqa: N818  (caught in `read`, where it becomes a finding)
    """Carries the one fault for which reading a file ends."""

    def __init__(self, place: Place, message: str, to_do: str) -> None:
        """Hold the fault `unreadable-file` at *place*."""
        super().__init__(message)
        self.fault = Fault("unreadable-file", place, message, to_do)


def in_plain_words(error: yaml.YAMLError, path: str) -> Unreadable:
    """Return what the parser's *error* means, at the place where it noticed."""
    said = " ".join(str(part) for part in (getattr(error, "problem", None), getattr(error, "context", None)) if part)
    said = said or str(error)
    for begins, message, to_do in _WORDS:
        if begins in said:
            return Unreadable(
                _place(error, path, "context_mark" if begins in _OPENED else "problem_mark"), message, to_do
            )
    place = _place(error, path, "problem_mark")
    return Unreadable(place, f"This is not YAML that can be read ({said})", "Look at this line and the one before it.")


def _place(error: yaml.YAMLError, path: str, mark: str) -> Place:
    at = getattr(error, mark, None)
    return Place(path, at.line + 1, at.column + 1, at.column + 2) if at else Place(path, 1, 1, 2)
