"""How a value is written on one line of YAML, for the examples in messages."""

from __future__ import annotations

import re

# Text that YAML would read as something else, or not to its end, unless it is quoted.
_NEEDS_QUOTES = re.compile(r"""[\s>|&*!%@`"'{}\[\],#?:-]|[-+.]?[0-9][0-9._]*$|.*(?:: |:$| #|[\[\]{},\n]|\s$)""")
_SAFE_DASH = re.compile(r"-[^\s0-9.]")
_WORDS = frozenset({"", "~", "y", "n", "yes", "no", "on", "off", "true", "false", "null"})


def inline(value: object) -> str:
    """Return *value* as an author would write it on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {inline(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(inline(item) for item in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    text = str(value)
    return quoted(text) if isinstance(value, str) and _must_be_quoted(text) else text


def quoted(text: str) -> str:
    """Return *text* in double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{escaped}"'


def shown(text: str, limit: int = 60) -> str:
    """Return *text* as a message repeats it: on one line, and not longer than a message bears."""
    line = " ".join(text.split())
    return line if len(line) <= limit else f"{line[: limit - 1].rstrip()}…"


def listed(words: list[str] | tuple[str, ...], last: str = "and") -> str:
    """Return *words* as a sentence lists them."""
    return f"{', '.join(words[:-1])} {last} {words[-1]}" if len(words) > 1 else "".join(words)


def _must_be_quoted(text: str) -> bool:
    if text.lower() in _WORDS:
        return text not in {"on", "off"}  # The format's own two words, where they stand as values of `power`.
    return _NEEDS_QUOTES.match(text) is not None and _SAFE_DASH.match(text) is None
