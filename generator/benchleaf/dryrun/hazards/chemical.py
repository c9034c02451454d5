"""What is put on a board is put on the fingers as well, and splashes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, liquid_called, opened
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace

_ON_PEOPLE = frozenset({"H304", "H315", "H317", "H319", "H336"})


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield each liquid that is put on and that, GHS says, harms skin, eyes or airways."""
    names = sorted({name for moment in trace.straight for name in put_on(moment)})
    for name in names:
        said = statements(trace, name)
        if not said:
            continue
        # From its first use to its last: the bottle stands on the bench all the while.
        used = [number for number, moment in enumerate(trace.straight) if name in put_on(moment)]
        yield Hazard(
            "chemical", used[0], used[-1], Severity.LIGHT,
            f"{opened(liquid_called(trace, name))}: {'; '.join(text.lower() for text in said)}.",
            "It dries the skin, and a splash burns the eye.",
            "Wear eye protection and the gloves its safety data sheet names.", method="materials",
        )  # fmt: skip


def put_on(moment: Moment) -> frozenset[str]:
    """Return the materials that *moment* puts on."""
    names = {amount.material.text for amount in moment.step.apply}
    if isinstance(moment.step.action, act.Solvent | act.Bath):
        names.add(moment.step.action.material.text)
    return frozenset(names)


def statements(trace: Trace, name: str) -> tuple[str, ...]:
    """Return what GHS says that the liquid *name*, or what is in it, does to people, in words."""
    return tuple(dict.fromkeys(
        words
        for substance, _ in trace.nature.components(name)
        if substance.ghs
        for code, words in zip(substance.ghs.statements, substance.ghs.words, strict=True)
        if code in _ON_PEOPLE
    ))  # fmt: skip
