"""What bench records add to the diagnoses: how often each cause was found, how often each cure worked."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.fields import Fields, pairs, said

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.model.words import Said
    from benchleaf.source.nodes import Node, Table


@dataclass(frozen=True, slots=True)
class Counted:
    """What was counted of one cause; `success` is (worked, tried) by procedure. `where` are the names on the way."""

    seen: int
    success: Mapping[str, tuple[int, int]]
    where: tuple[Said, Said, Said]
    procedures: tuple[Said, ...]


Counts = dict[tuple[str, str, str], Counted]
"""By device, symptom and cause."""


def counts(document: Table | None) -> Counts:
    """Return what counts.yml says; nothing where there is none."""
    return {
        (device.text, symptom.text, cause.text): _counted(node, (device, symptom, cause))
        for device, symptoms in pairs(document)
        for symptom, causes in pairs(symptoms)
        for cause, node in pairs(causes)
    }


def _counted(node: Node, where: tuple[Said, Said, Said]) -> Counted:
    fields = Fields(node)
    entries = tuple(fields.entries("success"))
    success = {name.text: of(said(value).text) or (0, 0) for name, value in entries}
    return Counted(fields.integer("seen", 0), success, where, tuple(name for name, _ in entries))


def of(text: str) -> tuple[int, int] | None:
    """Return what `11 of 14` writes, or None."""
    counted = re.fullmatch(r"([0-9]+) of ([0-9]+)", text)
    return (int(counted[1]), int(counted[2])) if counted else None
