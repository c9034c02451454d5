"""What is new after a step: one value for each thing that it changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

What: TypeAlias = Literal[
    "power on", "power off", "fed", "not fed", "isolated", "joined", "unplugged", "plugged", "out", "in", "new",
    "stored", "set aside", "spent", "hurt", "discharged", "free", "setting", "holds", "renewed", "wet", "dry", "fuming",
    "clear", "hot", "cool", "level", "photo", "note", "reading",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Now:
    """
    What is now so, of parts, bonds, connectors or a level by their `names`; none where it is the device itself.

    `seconds` is how long it stays so at the bad end, infinite where nobody can say and None where nobody asks. `out` is
    the number of parts that lie beside the device; None where it is not the number of all that are not in.
    """

    what: What
    names: tuple[str, ...] = ()
    seconds: float | None = None
    burns: bool = False
    out: int | None = None


@dataclass(frozen=True, slots=True)
class Tray:
    """How many screws of one kind lie in the tray, of how many that the device has, and how many lie there in all."""

    fastener: str
    lying: int
    of: int
    in_all: int


@dataclass(frozen=True, slots=True)
class Air:
    """The vapour at the bench after a release, as a share of the limit that it comes nearest to, at the bad end."""

    share: float


News: TypeAlias = "Now | Tray | Air"
