"""A diagnosis: the causes of a symptom on a device, and the tests that tell them apart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.findings import Place
    from benchleaf.model.words import OnlyFor, Said
    from benchleaf.units.quantity import Duration, Money


@dataclass(frozen=True, slots=True)
class Cure:
    """A procedure that ends a cause; `cured` of `tried` times it did."""

    procedure: Said
    cured: int | None
    tried: int | None


@dataclass(frozen=True, slots=True)
class Referral:
    """Someone else does it, at a price."""

    title: str
    price: Money | None


@dataclass(frozen=True, slots=True)
class Cause:
    """A cause, how often it was seen, and what ends it."""

    id: str
    place: Place
    title: Said
    seen: int
    cures: tuple[Cure | Referral, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a test may show; `given` is P(outcome | cause)."""

    id: str
    place: Place
    title: Said
    given: Mapping[str, float]
    given_at: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Test:
    """A test: what to do, at which level, and what it may show."""

    id: str
    place: Place
    do: Said
    instrument: Said | None
    takes: Duration | None
    access: Said
    only: OnlyFor | None
    unless: Mapping[str, tuple[str, ...]]
    outcomes: tuple[Outcome, ...]


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """All that is known of one symptom on one device."""

    device: str
    symptom: str
    path: str
    place: Place
    title: str | None
    several: bool
    notes: str | None
    causes: tuple[Cause, ...]
    tests: tuple[Test, ...]
