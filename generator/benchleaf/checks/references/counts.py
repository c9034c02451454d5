"""Names that counts.yml gives: counts under a name that is gone would silently be lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean
from benchleaf.checks.rule import Hit
from benchleaf.model.diagnosis import Cure

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.model.counts import Counted
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.words import Said

_LOST = "what was counted under it would be lost"


def in_counts(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each device, symptom, cause and procedure of counts.yml that no diagnosis names; the outermost alone."""
    said = set()
    for counted in base.counts.values():
        for hit in _in(base, counted):
            if hit.place not in said:
                said.add(hit.place)
                yield hit


def _in(base: KnowledgeBase, counted: Counted) -> Iterator[Hit]:
    device, symptom, name = counted.where
    if base.is_broken("diagnosis", device.text, symptom.text):
        return
    symptoms = [own for there, own in base.diagnoses if there == device.text]
    diagnosis = base.diagnoses.get((device.text, symptom.text))
    if diagnosis is None:
        if symptoms or any(kind == "diagnosis" and there == device.text for kind, there, _ in base.broken):
            yield _gone(symptom, f"no diagnosis `{symptom}` of `{device}`", symptoms)
        else:
            yield _gone(
                device, f"no device `{device}` with a diagnosis", sorted({there for there, _ in base.diagnoses})
            )
        return
    cause = next((one for one in diagnosis.causes if one.id == name.text), None)
    if cause is None:
        yield _gone(name, f"no cause `{name}` in this diagnosis", [one.id for one in diagnosis.causes])
        return
    cures = [cure.procedure.text for cure in cause.cures if isinstance(cure, Cure)]
    for procedure in counted.procedures:
        if procedure.text not in cures:
            yield _gone(procedure, f"no cure `{procedure}` of `{name}`", cures)


def _gone(name: Said, what: str, known: Iterable[str]) -> Hit:
    cure = did_you_mean(name.text, list(known), "give it the name that it has now, or take it out.")
    return Hit(name.place, f"There is {what}: {_LOST}", cure)
