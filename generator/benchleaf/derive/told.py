"""How many safety messages a procedure gives: in all, and before one step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from benchleaf.derive.callouts import Callout
    from benchleaf.derive.numbering import Numbered


@dataclass(frozen=True, slots=True)
class Told:
    """
    The safety messages of one pass: how many, before how many steps in all, and the most before one of them.

    Those of the dry run and an author's own are counted alike. `where` is the number of the first step with the most.
    """

    messages: int
    steps: int
    most: int
    where: str


def told(
    rows: Sequence[Numbered], variants: Iterable[str], messages: Iterable[tuple[Callout, tuple[str, ...]]]
) -> Told:
    """Return what *rows* are told on the variant that is told most; there is one pass where there are no variants."""
    said = list(messages)
    passes = [
        _one([row for row in rows if row.exists_for(variant)], [one for one, own in said if not own or variant in own])
        for variant in variants
    ]
    return max(passes or [_one(rows, [one for one, _ in said])], key=lambda one: (one.messages, one.most))


def _one(rows: Sequence[Numbered], messages: Iterable[Callout]) -> Told:
    counts = {row.step.id: len(row.step.cautions) for row in rows}
    for message in messages:
        if message.step in counts:
            counts[message.step] += 1
    most = max(counts.values(), default=0)
    where = next((row.number for row in rows if most and counts[row.step.id] == most), "")
    return Told(sum(counts.values()), len(rows), most, where)
