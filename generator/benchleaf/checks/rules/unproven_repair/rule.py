"""A repair that nobody has seen work comes back with the customer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace

_PROOFS = frozenset({"measure", "gone"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield a procedure that says what it fixes and whose `prove` neither measures nor sees the symptom gone."""
    procedure = trace.procedure
    proofs = {moment.step.check.kind for moment in trace.straight if moment.kind == "prove" and moment.step.check}
    if procedure.fixes and not proofs & _PROOFS:
        symptoms = listed(f"`{symptom}`" for symptom in procedure.fixes)
        yield Hit(
            procedure.title.place,
            f"This fixes {symptoms}, and nothing under `prove` measures it or sees it gone: a device that is still "
            "faulty goes back to the customer",
            f"Write a check under `prove`: `gone: {procedure.fixes[0]}`, or `measure` with what is expected.",
        )


RULE = Rule("unproven-repair", Level.ERROR, watch=watch)
