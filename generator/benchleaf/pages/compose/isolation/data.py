"""What the script of the sheet reckons with: the same numbers that the plan was made from."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ARRIVED
from benchleaf.decisions.pose import cause_shares, titled
from benchleaf.pages.compose.wording import capital

if TYPE_CHECKING:
    from benchleaf.decisions.pose import Posed
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.pages.compose.isolation.groups import Group
    from benchleaf.pages.compose.site import Site


def data(site: Site, diagnosis: Diagnosis, found: tuple[Group, ...]) -> str:
    """Return the numbers as JSON."""
    shares = cause_shares(site.base, diagnosis)
    whole = {
        "several": diagnosis.several,
        "arrived": ARRIVED,
        "causes": [
            {"id": cause.id, "title": cause.title.text, "value": share.value, "low": share.low, "high": share.high}
            for cause, share in zip(diagnosis.causes, shares, strict=True)
        ],
        "tests": [
            {"id": test.id, "title": titled(test),
             "unless": {what: list(states) for what, states in test.unless.items()},
             "outcomes": {one.id: one.title.text for one in test.outcomes}}
            for test in diagnosis.tests
        ],
        "groups": [
            {"variants": list(group.variants), "title": group.title, "currency": group.answer.currency,
             "problem": _problem(group.posed)}
            for group in found if group.posed
        ],
    }  # fmt: skip
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def _problem(posed: Posed) -> dict[str, object]:
    problem, clock = posed.problem, posed.clock
    return {
        "shares": problem.shares,
        "tests": [
            {"id": test.id, "level": test.level, "cost": test.cost, "seconds": own.cost,
             "outcomes": test.outcomes, "given": test.given}
            for test, own in zip(problem.tests, clock.tests, strict=True)
        ],
        "cures": [
            {"id": cure.id, "title": posed.titles["cure", cure.id], "level": cure.level, "cost": cure.cost,
             "seconds": own.cost, "success": cure.success}
            for cure, own in zip(problem.cures, clock.cures, strict=True)
        ],
        "levels": posed.levels, "travel": problem.travel, "ways": clock.travel,
        "end": {"title": capital(problem.end.title), "price": problem.end.price},
    }  # fmt: skip
