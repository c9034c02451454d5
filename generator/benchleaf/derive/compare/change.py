"""One change between two states of a knowledge base, and which way it goes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.findings import Place
    from benchleaf.units.quantity import Quantity


class Way(StrEnum):
    """Which way a change goes: looser is what a person, or the device, is less safe by; other is neither or unknown."""

    LOOSER = "looser"
    STRICTER = "stricter"
    OTHER = "other"

    @property
    def back(self) -> Way:
        """The way that the opposite change goes."""
        return {Way.LOOSER: Way.STRICTER, Way.STRICTER: Way.LOOSER}.get(self, Way.OTHER)


@dataclass(frozen=True, slots=True)
class Change:
    """
    What differs: a kind in one word, the way it goes, where it stands now, and a sentence.

    `step` is the step that it is about, "" where it is about none; `before` and `after` are what was written, "" for
    nothing. `procedures` are those that it bears on, as device/procedure.
    """

    kind: str
    way: Way
    place: Place
    message: str
    step: str = ""
    before: str = ""
    after: str = ""
    procedures: tuple[str, ...] = ()


def merged(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Return *changes* as a reader meets them; one that several procedures share stands once, with all of them."""
    found: dict[Change, list[str]] = {}
    for change in changes:
        found.setdefault(replace(change, procedures=()), []).extend(change.procedures)
    whole = [replace(change, procedures=tuple(sorted(set(names)))) for change, names in found.items()]
    return tuple(sorted(whole, key=_order))


def _order(change: Change) -> tuple[str, int, int, str, str]:
    place = change.place
    return place.path, place.line, place.column, change.kind, change.message


def weighed(old: Quantity, new: Quantity, more: Way) -> Way | None:
    """
    Return which way the change from *old* to *new* goes, where *more* is the way of a rise; None where nothing differs.

    The end that may hurt is judged first: the high one of what should be little, the low one of what should be long.
    """
    ends = [(old.high, new.high), (old.low, new.low)]
    if more is Way.STRICTER:
        ends.reverse()
    for before, after in ends:
        if not math.isclose(before, after, rel_tol=1e-9, abs_tol=0.0):
            return more if after > before else more.back
    return None


@dataclass(frozen=True, slots=True)
class Spot:
    """Where things stand that are compared: the kind of change that they make, the place, and the step if any."""

    kind: str
    place: Place
    step: str = ""

    def say(self, way: Way, message: str, before: str = "", after: str = "") -> Change:
        """Return a change here; one of a step begins with the step's name."""
        return Change(self.kind, way, self.place, f"{self.step}: {message}" if self.step else message, self.step,
                      before, after)  # fmt: skip

    def quantity(self, what: str, old: Quantity | None, new: Quantity | None, more: Way) -> Iterator[Change]:
        """
        Yield how a quantity changed, *what* being its name in a sentence and *more* the way of a rise.

        One that is no longer given was a limit: that none is left is looser. Where a rise is neither, so is that.
        """
        before, after = (tidy(one.text) if one else "" for one in (old, new))
        if old is None or new is None:
            yield from self.words(what, before, after, limit=more is not Way.OTHER)
        elif old.dimension != new.dimension:
            yield from self.words(what, before, after)
        elif way := weighed(old, new, more):
            yield self.say(way, f"{what} is {after}; it was {before}", before, after)

    def words(self, what: str, before: object, after: object, *, limit: bool = False) -> Iterator[Change]:
        """Yield that something written is another; with *limit*, that nothing is written now is looser."""
        old, new = (str(one) if one is not None else "" for one in (before, after))
        if old != new:
            way = (Way.LOOSER if not new else Way.STRICTER if not old else Way.OTHER) if limit else Way.OTHER
            yield self.say(way, f"{what} is {new or 'no longer given'}; it was {old or 'not given'}", old, new)
