"""Plain values that one reader of YAML takes for text and another for something else."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from benchleaf.source.nodes import Scalar

# The implicit types of YAML 1.1 (https://yaml.org/type/: bool, null, int, float, timestamp, merge, value), as far as
# our own reader leaves them as text or takes them for a word of the core schema; plus the octal form of YAML 1.2.
_FORMS = {
    "truth": r"y|Y|yes|Yes|YES|on|On|ON|true|True|TRUE",
    "untruth": r"n|N|no|No|NO|off|Off|OFF|false|False|FALSE",
    "nothing": r"~|null|Null|NULL",
    "base60": r"[-+]?(?:[1-9][0-9_]*(?::[0-5]?[0-9])+|[0-9][0-9_]*(?::[0-5]?[0-9])+\.[0-9_]*)",
    "octal": r"[-+]?0[0-7_]+",
    "leading": r"[-+]?0[0-9_]*[89][0-9_]*",
    "base8": r"[-+]?0o[0-7]+",
    "base2": r"[-+]?0b[01_]+",
    "base16": r"[-+]?0x[0-9a-fA-F_]+",
    "grouped": r"[-+]?[0-9][0-9_]*(?:\.[0-9_]*(?:[eE][-+]?[0-9]+)?)?",
    "infinity": r"[-+]?\.(?:inf|Inf|INF)",
    "nan": r"\.(?:nan|NaN|NAN)",
    "date": r"[0-9]{4}-[0-9]{2}-[0-9]{2}|[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?:[Tt]|[ \t]+)[0-9]{1,2}:[0-9]{2}:[0-9]{2}"
    r"(?:\.[0-9]*)?(?:[ \t]*(?:Z|[-+][0-9]{1,2}(?::?[0-9]{2})?))?",
    "sign": r"=|<<",
}
_FORM = re.compile("|".join(f"(?P<{name}>{form})" for name, form in _FORMS.items()))
_TWO_WAYS = frozenset({"base60", "octal", "leading", "base8", "base2", "base16", "grouped"})


def other_reading(scalar: Scalar) -> str | None:
    """Return what another reader takes the plain *scalar* for, in words, or None where all read it alike."""
    # Numbers are left out: whoever reads them, they are numbers, and the schema says what belongs there.
    if not scalar.plain or (isinstance(scalar.value, int | float) and not isinstance(scalar.value, bool)):
        return None
    match = _FORM.fullmatch(scalar.text)
    return _meaning(match) if match else None


def two_ways(text: str) -> tuple[str, str] | None:
    """Return the two things for which readers take *text*, which our own takes for no number, where they differ."""
    match = _FORM.fullmatch(text)
    if match is None or match.lastgroup not in _TWO_WAYS:
        return None
    one = _NUMBERS[match.lastgroup](text)
    plain_digits = match.lastgroup in {"octal", "leading"} and "_" not in text
    return one, text.lstrip("+").lstrip("0") or "0" if plain_digits else "a text"


def _base60(text: str) -> str:
    total = 0.0
    for part in text.replace("_", "").lstrip("+-").split(":"):
        total = total * 60 + float(part)
    return f"{'-' if text.startswith('-') else ''}{total:g}"


def _in_base(base: int) -> Callable[[str], str]:
    def read(text: str) -> str:
        sign = "-" if text.startswith("-") else ""
        digits = re.sub("^0[box]?", "", text.replace("_", "").lstrip("+-").lower())
        return f"{sign}{int(digits or '0', base)}"

    return read


_NUMBERS: dict[str, Callable[[str], str]] = {
    "base60": _base60,
    "octal": _in_base(8),
    "leading": lambda text: text,
    "base8": _in_base(8),
    "base2": _in_base(2),
    "base16": _in_base(16),
    "grouped": lambda text: text.replace("_", ""),
}
_MEANINGS = {
    "truth": "true",
    "untruth": "false",
    "nothing": "nothing",
    "infinity": "infinity",
    "nan": "no number at all",
    "date": "a date",
    "sign": "a sign of the language",
    "leading": "a number without its leading zero",
}


def _meaning(match: re.Match[str]) -> str:
    form = match.lastgroup or ""
    known = _MEANINGS.get(form)
    return known or f"the number {_NUMBERS[form](match.group())}"
