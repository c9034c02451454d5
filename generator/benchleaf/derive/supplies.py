"""What a procedure uses up: materials by amount, bonds that are made anew."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.usage import used
from benchleaf.model.action import Renew

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchleaf.derive.numbering import Numbered
    from benchleaf.model.procedure import Procedure
    from benchleaf.units.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Supply:
    """
    A material: the amount that is `listed`, None where it is not, and the most that one straight pass uses of it.

    `most` is in the base unit of `dimension`, for the variant that takes most; None where a step says no amount, as for
    a bath, or says it in another dimension.
    """

    material: str
    listed: Quantity | None
    most: float | None
    dimension: str

    @property
    def is_less(self) -> bool:
        """Whether less is used than listed, by more than the error of a sum."""
        return (
            self.listed is not None
            and self.most is not None
            and self.most < self.listed.high
            and not math.isclose(self.most, self.listed.high)
        )


def supplies(procedure: Procedure, rows: Sequence[Numbered], variants: Iterable[str]) -> Iterator[Supply]:
    """Yield the materials that *procedure* lists, then those that the steps on its way use besides."""
    listed = {one.material.text: one.amount for one in procedure.materials}
    taken: dict[str, list[tuple[Numbered, Quantity | None]]] = {name: [] for name in listed}
    for row in rows:
        for name, amount in used(row.step):
            taken.setdefault(name, []).append((row, amount))
    names = tuple(variants)
    for name, uses in taken.items():
        yield _supply(name, listed.get(name), uses, names)


def _supply(
    name: str, listed: Quantity | None, uses: Sequence[tuple[Numbered, Quantity | None]], variants: tuple[str, ...]
) -> Supply:
    amounts = [(row, amount) for row, amount in uses if amount is not None]
    dimensions = {amount.dimension for _, amount in amounts} | ({listed.dimension} if listed else set())
    if len(amounts) < len(uses) or len(dimensions) != 1 or not uses:
        return Supply(name, listed, None, "")
    sums = [sum(amount.high for row, amount in amounts if row.exists_for(variant)) for variant in variants]
    most = max(sums, default=sum(amount.high for _, amount in amounts))
    return Supply(name, listed, most, dimensions.pop())


def made_anew(rows: Iterable[Numbered]) -> dict[str, str | None]:
    """Return the bonds that are made anew, each with the first material that it is made with, if any is said."""
    found: dict[str, str | None] = {}
    for row in rows:
        if isinstance(row.step.action, Renew):
            material = row.step.action.material
            found.setdefault(row.step.action.bond.text, material.text if material else None)
    return found
