"""A hazard as the dry run finds it: where it begins and ends, how grave it is, what to say of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.library.names import BUILT_IN
from benchleaf.physics.types import End, Estimate

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from benchleaf.dryrun.trace import Trace


class Severity(StrEnum):
    """The worst that comes of it: death or serious injury, a minor or moderate one, or harm to things alone."""

    GRAVE = "grave"
    LIGHT = "light"
    THINGS = "things"


@dataclass(frozen=True, slots=True)
class Hazard:
    """
    A hazard on the straight pass, from before its moment number `first` to after its moment number `last`.

    `certain` says that the harm comes if nobody avoids it, not only that it may. `what`, `happens` and `avoid` are
    sentences in which `{name}` stands for one of `numbers`. `method` names the computation on the page of methods.
    """

    hazard: str
    first: int
    last: int
    severity: Severity
    what: str
    happens: str
    avoid: str
    certain: bool = False
    numbers: Mapping[str, Estimate] = field(default_factory=dict)
    method: str = ""

    @property
    def signal(self) -> str:
        """The signal word, by severity and certainty (ANSI Z535.6; standards that follow it agree)."""
        if self.severity is Severity.GRAVE:
            return "danger" if self.certain else "warning"
        return "caution" if self.severity is Severity.LIGHT else "notice"


def stretches(holds: Iterable[bool]) -> Iterator[tuple[int, int]]:
    """Yield the first and last number of each run of moments for which it holds."""
    for value, group in groupby(enumerate(holds), key=lambda entry: entry[1]):
        if value:
            numbers = [number for number, _ in group]
            yield numbers[0], numbers[-1]


def given(value: float, unit: str, source: str = "the knowledge base") -> Estimate:
    """Return a number that is written somewhere, as an estimate without a range."""
    return Estimate(value, value, value, unit, "given", source)


def limit(value: float, unit: str, source: str = "the knowledge base") -> Estimate:
    """Return a limit that is written somewhere: where it must be rounded, down."""
    return Estimate(value, value, value, unit, "given", source, End.LOW)


def called(trace: Trace, part: str) -> str:
    """Return what people call *part*, for the middle of a sentence: "the charge port"."""
    known = trace.world.parts.get(part)
    return f"the {_within(known.title.text if known else part)}"


def liquid_called(trace: Trace, name: str) -> str:
    """Return what people call the material *name*, for the middle of a sentence: "isopropanol"."""
    known = trace.nature.materials.get(name)
    return _within(known.title.text if known else BUILT_IN[name].title if name in BUILT_IN else name)


def _within(title: str) -> str:
    # A word in capitals is a name (USB), any other begins small within a sentence. Braces are for numbers alone.
    text = title if title[:2].isupper() else title[:1].lower() + title[1:]
    return text.replace("{", "(").replace("}", ")")


def opened(text: str) -> str:
    """Return *text* as the beginning of a sentence."""
    return text[:1].upper() + text[1:]
