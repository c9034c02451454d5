"""What was right when it was written need not be right any more: parts, materials and limits change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.review import next_review
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.rule import Run


def conclude(run: Run) -> Iterator[Hit]:
    """Yield each approved procedure whose next review was before the day that the caller gave, and those with none."""
    after = run.base.shop.review_after if run.base.shop else None
    for procedure in run.base.procedures.values() if run.today else ():
        if not procedure.approved:
            continue
        advice = f"Review it, and write the day: `reviewed: {run.today}`."
        if procedure.reviewed is None:
            yield Hit(
                procedure.title.place,
                "This procedure is approved, and nobody says when it was reviewed: what has changed since is not known",
                advice,
            )
        elif after and (due := next_review(procedure.reviewed, after)) and run.today and due < run.today:
            yield Hit(
                procedure.reviewed_place or procedure.title.place,
                f"The last review was on {procedure.reviewed}, and the shop reviews after {tidy(after.text)}: the next "
                f"was due on {due}",
                advice,
            )


RULE = Rule("overdue-review", Level.NOTE, conclude=conclude)
