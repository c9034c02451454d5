"""YAML 1.2 core types, read narrowly: whatever two readers could take for two things stays text."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.source.nodes import Value

_WORDS: dict[str, Value] = {
    "": None, "~": None, "null": None, "Null": None, "NULL": None,
    "true": True, "True": True, "TRUE": True,
    "false": False, "False": False, "FALSE": False,
}  # fmt: skip

# No leading zero and at most 18 digits: `010` is 8 to one reader and 10 to another, and a number
# of thousands of digits is no count of screws.
_INTEGER = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,17})")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]{0,17})(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]{1,3})?")
_NUMBER_START = frozenset("+-.0123456789")


def value_of(text: str) -> Value:
    """
    Return the core value of the plain scalar *text*.

    `.nan`, `.inf`, dates, base-60, octal, hexadecimal and underscored numbers stay text: the schema then
    says what was wanted there.
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _NUMBER_START:
        return text
    if _INTEGER.fullmatch(text):
        return int(text)
    if _FLOAT.fullmatch(text):
        number = float(text)
        return number if math.isfinite(number) else text
    return text
