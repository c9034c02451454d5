"""A step: one thing a person does before looking up again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Place
    from benchleaf.model.action import Action
    from benchleaf.model.words import OnlyFor, Said
    from benchleaf.units.quantity import Duration, Quantity


@dataclass(frozen=True, slots=True)
class Stop:
    """The work ends here, for the reason given."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class GoTo:
    """The work goes on in another procedure."""

    procedure: Said


@dataclass(frozen=True, slots=True)
class Repeat:
    """The work goes back to an earlier step, `times` times at most, and then `then`."""

    step: Said
    times: int
    then: Stop | GoTo | None


Way: TypeAlias = "Stop | GoTo | Repeat"


@dataclass(frozen=True, slots=True)
class Check:
    """
    What must be true after a step.

    `kind` is look, measure, gone, battery or leak. `what` is the sentence, the thing measured, the symptom, or
    shape, charge or temperature. `expect` is the quantity wanted; `when` what must hold for a reading to mean
    anything; `shows` the state, dry or cool, that seeing it ends.
    """

    kind: str
    what: Said
    place: Place
    expect: Quantity | str | None
    instrument: Said | None
    when: Mapping[str, str]
    if_not: Way | None
    shows: str | None


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of a material a step puts on."""

    material: Said
    amount: Quantity


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning in the author's own words."""

    hazard: str
    text: Said


@dataclass(frozen=True, slots=True)
class Allow:
    """An exception that the author asks for, and why; `because_place` is where the reason stands."""

    rule: Said
    because: str | None
    place: Place
    because_place: Place | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One instruction with at most one action, and what belongs to it. `id` is its own or `<phase>-<n>`."""

    id: str
    named: bool
    place: Place
    do: Said
    action: Action | None
    use: tuple[Said, ...]
    apply: tuple[Amount, ...]
    check: Check | None
    record: str | None
    only: OnlyFor | None
    why: str | None
    takes: Duration | None
    picture: Said | None
    cautions: tuple[Caution, ...]
    irreversible: bool
    allow: tuple[Allow, ...]
    why_place: Place | None = None
