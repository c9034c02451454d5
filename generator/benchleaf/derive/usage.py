"""Who uses what, and what leads where: one walk over the base, asked by many pages."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.numbering import numbered
from benchleaf.model import action as act
from benchleaf.model.diagnosis import Cure
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step
    from benchleaf.units.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Usage:
    """Published procedures by what they use and answer, in the order of the base."""

    by_tool: Mapping[str, tuple[Procedure, ...]]
    by_material: Mapping[str, tuple[Procedure, ...]]
    by_symptom: Mapping[str, tuple[Procedure, ...]]
    by_device: Mapping[str, tuple[Procedure, ...]]
    cured_by: Mapping[tuple[str, str], tuple[Procedure, ...]]


def usage(base: KnowledgeBase, *, drafts: bool = False) -> Usage:
    """Return who uses what among the procedures that are shown: approved ones, with *drafts* all but withdrawn ones."""
    tools: dict[str, list[Procedure]] = defaultdict(list)
    materials: dict[str, list[Procedure]] = defaultdict(list)
    symptoms: dict[str, list[Procedure]] = defaultdict(list)
    devices: dict[str, list[Procedure]] = defaultdict(list)
    for procedure in shown(base, drafts=drafts):
        for tool in dict.fromkeys([name.text for name in procedure.tools] + list(level_tools(base, procedure))):
            tools[tool].append(procedure)
        for material in _materials(base, procedure):
            materials[material].append(procedure)
        for symptom in procedure.fixes:
            symptoms[symptom.text].append(procedure)
        devices[procedure.device].append(procedure)
    return Usage(_frozen(tools), _frozen(materials), _frozen(symptoms), _frozen(devices), _cures(base, drafts=drafts))


def _materials(base: KnowledgeBase, procedure: Procedure) -> tuple[str, ...]:
    """Return the materials that *procedure* lists, and those that a step takes all the same."""
    listed = [amount.material.text for amount in procedure.materials]
    rows = numbered(base.devices.get(procedure.device), procedure)
    return tuple(dict.fromkeys([*listed, *(name for row in rows for name, _ in used(row.step))]))


def shown(base: KnowledgeBase, *, drafts: bool) -> Iterator[Procedure]:
    """Yield the procedures that have a page."""
    for procedure in base.procedures.values():
        if procedure.approved or (drafts and procedure.status != "withdrawn"):
            yield procedure


def level_tools(base: KnowledgeBase, procedure: Procedure) -> Iterator[str]:
    """Yield the tools that opening and closing for *procedure* take."""
    device = base.devices.get(procedure.device)
    for level in device.way_to(procedure.access.text) if device else ():
        for tool in level.tools:
            yield tool.text


def answers(use: Usage, symptom: str, device: str) -> tuple[Procedure, ...]:
    """Return the procedures that answer *symptom* on *device*: those that fix it, then those a diagnosis leads to."""
    fixing = [procedure for procedure in use.by_symptom.get(symptom, ()) if procedure.device in {device, ANY_DEVICE}]
    cures = use.cured_by.get((device, symptom), ())
    return tuple({(procedure.device, procedure.id): procedure for procedure in (*fixing, *cures)}.values())


def _cures(base: KnowledgeBase, *, drafts: bool) -> dict[tuple[str, str], tuple[Procedure, ...]]:
    pages = {(procedure.device, procedure.id): procedure for procedure in shown(base, drafts=drafts)}
    found = {}
    for diagnosis in base.diagnoses.values():
        names = [cure.procedure.text for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Cure)]
        targets = (pages.get((diagnosis.device, name)) or pages.get((ANY_DEVICE, name)) for name in names)
        known = {(target.device, target.id): target for target in targets if target}
        found[diagnosis.device, diagnosis.symptom] = tuple(known.values())
    return found


def used(step: Step) -> Iterator[tuple[str, Quantity | None]]:
    """Yield each material that *step* takes, with its amount where one is given."""
    for amount in step.apply:
        yield amount.material.text, amount.amount
    match step.action:
        case act.Solvent(material=material, volume=volume):
            yield material.text, volume
        case act.Bath(material=material) | act.Renew(material=material) if material is not None:
            yield material.text, None
        case _:
            return


def _frozen(found: Mapping[str, list[Procedure]]) -> dict[str, tuple[Procedure, ...]]:
    return {name: tuple(procedures) for name, procedures in found.items()}
