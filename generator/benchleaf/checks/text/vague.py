"""Vague words in an instruction, each with the kind of number that would say what it leaves open."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

_UNITS = "(?:seconds?|minutes?|hours?|moments?|days?)"
_HEATED = "(?:place|spot|room|shelf|oven|cabinet|plate|mat|iron|tip|bath|water|surface)"
_LITTLE = (
    "some", "more", "enough", "sufficient", "plenty of", "ample", "a little", "a bit of", "a lot of", "lots of",
    "(?:a|one) (?:small |tiny |good |generous )?(?:amount|blob|dab|dash|drop|smear|splash|squirt|touch|trace) of",
    "(?:a few|several|some) (?:blobs|dabs|drops|smears|squirts) of",
)  # fmt: skip
_KINDS = {
    "time": (
        "briefly", r"(?:a|for (?:a|some|long)) (?:(?:good|little|long|short) )?(?:while|moment|time)\b(?! at)",
        rf"(?:a few|several|some|a couple of) {_UNITS}", "long enough", "(?:some|enough|sufficient) time",
    ),
    "temperature": (
        "(?:hot|warm) enough", "(?:gentle|low|mild|moderate|high|some|a little|enough|sufficient) heat",
        rf"(?<!the )(?:hot|warm) {_HEATED}",
    ),
    "torque": (
        "tight(?:ly)?", "firm(?:ly)?", "snug(?:ly)?", "(?:finger|hand)[- ]tight", "securely", "hard", "fast",
        r"(?<!the )(?<!a )(?<!battery )well(?![- ]\w*ed)",
    ),
    "times": ("(?:a few|several|some|many|a couple of) times", "repeatedly"),
}  # fmt: skip
_WORDS = {need: re.compile(rf"\b(?:{'|'.join(words)})\b", re.IGNORECASE) for need, words in _KINDS.items()}
_AMOUNT = re.compile(rf"\b(?:{'|'.join(_LITTLE)}) ", re.IGNORECASE)
_ADVERB = re.compile(r"\b(?:sparingly|generously|liberally)\b", re.IGNORECASE)

# One of these stands in each of them: most instructions hold none, and need no closer look.
_SIGNS = frozenset((
    "amount", "ample", "bit", "blob", "blobs", "briefly", "couple", "dab", "dabs", "dash", "drop", "drops", "enough",
    "fast", "few", "firm", "firmly", "generously", "gentle", "hard", "heat", "high", "hot", "liberally", "little",
    "long", "lot", "lots", "low", "many", "mild", "moderate", "moment", "more", "plenty", "repeatedly", "securely",
    "several", "smear", "smears", "snug", "snugly", "some", "sparingly", "splash", "squirt", "squirts", "sufficient",
    "tight", "tightly", "time", "times", "touch", "trace", "warm", "well", "while",
))  # fmt: skip

LIQUIDS = frozenset(("alcohol", "cleaner", "liquid", "solvent"))
"""Words for whatever is put on."""
_STUFF = LIQUIDS | frozenset((
    "adhesive", "epoxy", "flux", "glue", "grease", "isopropanol", "lacquer", "lubricant", "oil", "paste", "sealant",
    "solder", "tape", "varnish", "water", "wick", "wire",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Vague:
    """A vague word as written; `needs` is time, temperature, torque, times or amount; `of` what an amount is of."""

    words: str
    needs: str
    of: str = ""


def vague(text: str, materials: frozenset[str]) -> Iterator[Vague]:
    """Yield the vague words of *text*; an amount is one of the words of *materials*, or of what every bench has."""
    if _SIGNS.isdisjoint(re.findall("[a-z]+", text.lower())):
        return
    for needs, words in _WORDS.items():
        for match in words.finditer(text):
            yield Vague(match[0], needs)
    for match in _ADVERB.finditer(text):
        yield Vague(match[0], "amount")
    yield from _amounts(text, _STUFF | materials)


def _amounts(text: str, stuff: frozenset[str]) -> Iterator[Vague]:
    for little in _AMOUNT.finditer(text):
        after = re.findall(r"[^\W\d_]+", re.split(r"[.,;:]", text[little.end() :])[0].lower())[:3]
        noun = next((word for word in after if word in stuff), None)
        if noun:
            yield Vague(little[0].strip(), "amount", noun)
