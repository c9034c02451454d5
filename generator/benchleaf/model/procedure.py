"""A procedure: what it is for, what it needs, and its steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.findings import Place
    from benchleaf.model.step import Amount, Step
    from benchleaf.model.words import OnlyFor, Said

ANY_DEVICE = "any"
"""The folder of procedures that fit every device."""


@dataclass(frozen=True, slots=True)
class Arrives:
    """How the device may come to the bench."""

    power: str = "on"
    liquid: str = "none"
    battery: str = "sound"
    glass: str = "whole"


@dataclass(frozen=True, slots=True)
class HandsBack:
    """Parts that the procedure leaves out, and why."""

    without: tuple[Said, ...]
    because: str | None


@dataclass(frozen=True, slots=True)
class Procedure:
    """A procedure, for all the variants that it fits."""

    id: str
    device: str
    path: str
    title: Said
    access: Said
    revision: int
    status: str
    reviewed: str | None
    purpose: str
    fixes: tuple[Said, ...]
    variants: OnlyFor | None
    arrives: Arrives
    hands_back: HandsBack | None
    consent: tuple[str, ...]
    aftercare: tuple[str, ...]
    notes: str | None
    tools: tuple[Said, ...]
    materials: tuple[Amount, ...]
    steps: tuple[Step, ...]
    prove: tuple[Step, ...]
    reviewed_place: Place | None = None

    @property
    def approved(self) -> bool:
        """Whether it may be published."""
        return self.status == "approved"
