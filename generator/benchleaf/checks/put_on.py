"""The liquids that a step puts on: where each is written, how much it is, and on which part it comes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model import action as act
from benchleaf.units.quantity import Volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Place
    from benchleaf.model.step import Step


@dataclass(frozen=True, slots=True)
class PutOn:
    """A liquid that a step puts on; `volume` is None for a bath, `part` empty where the step does not name one."""

    material: str
    volume: Volume | None
    part: str
    place: Place


def put_on(step: Step) -> Iterator[PutOn]:
    """Yield each liquid of *step*: that of its action first, then what it applies besides."""
    action = step.action
    if isinstance(action, act.Solvent):
        yield PutOn(action.material.text, action.volume, action.on.text, action.place)
    elif isinstance(action, act.Bath):
        yield PutOn(action.material.text, None, action.on.text, action.place)
    match action:
        case act.Heat(on=on) | act.Solvent(on=on):
            part = on.text
        case act.Work(on=on) if on is not None:
            part = on.text
        case _:
            part = ""
    for amount in step.apply:
        if isinstance(amount.amount, Volume):
            yield PutOn(amount.material.text, amount.amount, part, amount.material.place)
