"""
Whether a caution says more than another text of the same hazard.

No model of the language: what is left of a caution when its numbers, the words that every warning has, and those of the
other text are taken away, is what it says more. A word after a `not` belongs to it: `not touch` is another thing than
`touch`. Where the words leave it open, a caution says more.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.checks.text.quantities import found
from benchleaf.units.dimensions import spellings

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.physics.types import Estimate
    from benchleaf.units.quantity import Quantity

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_NOT = frozenset({"not", "no", "never", "without", "don't", "don’t", "avoid", "cannot", "can't", "can’t"})
_BINDS = """
a an the this that these those it its they them their is are be been being was were and or but so as of to in on at with
by for from you your yourself can could may might will would shall should must do does get gets very still also please
always there here what which who
"""
_WARNS = """
caution care careful carefully careless beware danger dangerous warning attention mind watch out hazard hazardous risk
safe safely safety harm harmful hurt injure injury
"""
_LINKS, _WARNINGS = frozenset(_BINDS.split()), frozenset(_WARNS.split())
# By hazard, what names it or what comes of it, and no more: these words alone tell nobody anything new.
_NAMES = {
    "battery": "battery pack cell fire flame burn burst explode",
    "stored-energy": "stored energy charge charged shock electric",
    "heat": "heat hot burn skin finger hand not-touch",
    "fumes": "fumes flux smoke not-breathe not-inhale",
    "vapour": "vapour fumes not-breathe not-inhale",
    "ignition": "ignition flammable fire flame burn ignite",
    "chemical": "chemical irritate skin eye",
    "lead": "lead poison poisonous toxic",
    "sharp": "sharp edge blade cut hand finger",
    "glass": "glass sharp edge cut break splinter hand finger",
    "eye": "eye splinter chip",
    "esd": "esd static electrostatic discharge sensitive electronics device part",
    "magnet": "magnet magnetic",
    "biological": "biological germs",
    "data": "data customer lose lost",
    "property": "property damage spoil",
}


def says_more(caution: str, hazard: str, other: str, numbers: Mapping[str, Estimate]) -> bool:
    """
    Whether *caution*, of *hazard*, says anything that *other* does not; *numbers* fill the places in *other*.

    A number is the same where it was given to both. One that was computed is an estimate: the author's own is news.
    """
    quantities = found(caution)
    if not all(any(_same(one.quantity, number) for number in numbers.values()) for one in quantities):
        return True
    for one in reversed(quantities):
        caution = f"{caution[: one.start]} . {caution[one.end :]}"
    return not set(_words(caution)) <= _known(hazard, other)


def _same(quantity: Quantity, number: Estimate) -> bool:
    unit = spellings(quantity.dimension).get(number.unit)
    return (
        unit is not None
        and number.low == number.high
        and all(math.isclose(unit.from_base(end), number.central) for end in (quantity.low, quantity.high))
    )


@lru_cache(maxsize=256)
def _known(hazard: str, other: str) -> frozenset[str]:
    names = {_stem(word) for word in _NAMES.get(hazard, hazard).split()}
    return frozenset({*names, *_words(re.sub(r"{\w*}", " . ", other))})


def _words(text: str) -> Iterator[str]:
    """Yield what *text* says, word by word, each with the `not` before it; without what binds and what only warns."""
    denied = False
    for word in _WORD.findall(text.lower()):
        if word in _NOT:
            denied = True
        elif word not in _LINKS and (denied or word not in _WARNINGS):
            yield f"not-{_stem(word)}" if denied else _stem(word)
            denied = False


def _stem(word: str) -> str:
    """Return *word* without the ending that makes a plural, or another form of a verb, of it; no word of a language."""
    if word.startswith("not-"):
        return f"not-{_stem(word.removeprefix('not-'))}"
    for ending in ("ing", "ed", "es", "s", "e"):
        if word.endswith(ending) and len(word) - len(ending) > 2:  # Two letters are no stem.
            return word.removesuffix(ending)
    return word
