"""A repair that nothing leads to is not found on the day that it is needed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.references.steps import procedure_named
from benchleaf.checks.routes import key, roads
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.diagnosis import Cure
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each approved repair to which no symptom, diagnosis or other procedure leads."""
    reached = _reached(base)
    for procedure in _approved(base):
        if key(procedure) not in reached and not _may_be_led_to(base, procedure.device):
            yield Hit(
                procedure.title.place,
                "No symptom, diagnosis or other procedure leads to this repair: nobody would find it when it is needed",
                "Name under `fixes` the symptom that it puts right, or name it as a cure in a diagnosis, or `go_to` it "
                "from a check.",
            )


def _approved(base: KnowledgeBase) -> Iterator[Procedure]:
    return (procedure for procedure in base.procedures.values() if procedure.approved)


def _reached(base: KnowledgeBase) -> set[tuple[str, str]]:
    """Return the procedures that a reader comes to: from a symptom, a diagnosis, another, or by their purpose."""
    fresh = [procedure for procedure in _approved(base) if procedure.fixes or procedure.purpose != "repair"]
    for diagnosis in base.diagnoses.values():
        names = (cure.procedure.text for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Cure))
        targets = (procedure_named(base, diagnosis.device, name) for name in names)
        fresh += [target for target in targets if target]
    reached = set()
    while fresh:
        procedure = fresh.pop()
        if key(procedure) not in reached:
            reached.add(key(procedure))
            fresh += [road.target for road in roads(base, procedure) if road.target.approved]
    return reached


def _may_be_led_to(base: KnowledgeBase, device: str) -> bool:
    """Whether a file that cannot be read may lead to a procedure in the folder of *device*."""
    leading = {"device", "procedure", "diagnosis"}
    return any(kind in leading and device in {folder, ANY_DEVICE} for kind, folder, _ in base.broken)


RULE = Rule("unreachable-procedure", Level.WARNING, check)
