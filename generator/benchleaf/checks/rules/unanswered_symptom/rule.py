"""Whoever looks a complaint up must find something to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import in_use
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each symptom that no approved procedure fixes and no diagnosis explains."""
    if "procedure" in base.broken_kinds:
        return  # What cannot be read may be the answer.
    explained = {diagnosis.symptom for diagnosis in base.diagnoses.values()}
    explained |= {name for kind, _, name in base.broken if kind == "diagnosis"}
    fixing = {(name.text, procedure.approved) for procedure in in_use(base) for name in procedure.fixes}
    for symptom in base.symptoms.values():
        if symptom.id in explained or (symptom.id, True) in fixing:
            continue
        if (symptom.id, False) in fixing:
            message = f"Only a procedure that is not approved puts `{symptom.id}` right: its page leads nowhere"
        else:
            message = f"No procedure puts `{symptom.id}` right and no diagnosis explains it: its page leads nowhere"
        yield Hit(
            symptom.title.place,
            message,
            f"Write `fixes: [{symptom.id}]` in the approved procedure that puts it right, or write "
            f"diagnosis/<device>/{symptom.id}.yml.",
        )


RULE = Rule("unanswered-symptom", Level.WARNING, check)
