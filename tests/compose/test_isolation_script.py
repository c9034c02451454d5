"""The sheet's script beside the Python that it repeats: the same shares, the same costs, the same next action."""

from __future__ import annotations

import json
import subprocess
from dataclasses import replace
from functools import cache
from itertools import product
from typing import TYPE_CHECKING, Any

import pytest

from benchleaf import build
from benchleaf.decisions import bayes
from benchleaf.decisions.diagnose import ARRIVED, diagnose
from benchleaf.decisions.plan import plan
from benchleaf.decisions.reason import percent, reason
from benchleaf.pages.compose.isolation.data import data
from benchleaf.pages.compose.isolation.groups import groups
from benchleaf.pages.compose.isolation.wording import drawn
from benchleaf.pages.compose.site import Site
from benchleaf.source.folder import docs_folder, scan
from tests.conftest import ROOT, tool
from tests.decisions.instances import invented

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.decisions.problem import Problem
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.pages.compose.isolation.groups import Group


def script(asked: dict[str, object]) -> Any:  # noqa: ANN401  (JSON is of any type)
    """Return what the scripts answer to many questions at once."""
    done = subprocess.run(
        (tool("node", "nodejs"), ROOT / "tests" / "js" / "isolation-answers.mjs"),
        input=json.dumps(asked), text=True, capture_output=True, check=True, timeout=120,
    )  # fmt: skip
    return json.loads(done.stdout)


def numbers(problem: Problem) -> dict[str, object]:
    """Return a problem as a page carries it; the clock is left out."""
    return {
        "shares": problem.shares, "travel": problem.travel, "ways": problem.travel,
        "levels": [str(level) for level in range(len(problem.travel))],
        "tests": [{"id": one.id, "level": one.level, "cost": one.cost, "seconds": 0, "outcomes": one.outcomes,
                   "given": one.given} for one in problem.tests],
        "cures": [{"id": one.id, "title": one.id, "level": one.level, "cost": one.cost, "seconds": 0,
                   "success": one.success} for one in problem.cures],
        "end": {"title": problem.end.title, "price": problem.end.price},
    }  # fmt: skip


def test_random_problems() -> None:
    """On invented problems, whole or cut short, the script finds the same plan: cost, bound, and every beginning."""
    asked = [(invented(seed, *size, levels=1 + seed % 3), seed % 2 if seed % 3 else 0, most)
             for size, most in (((3, 2, 3), 8000), ((4, 3, 4), 8000), ((4, 3, 4), 20), ((5, 4, 6), 300))
             for seed in range(10)]  # fmt: skip

    found = script({"plans": [{"problem": numbers(one), "level": level, "most": most} for one, level, most in asked]})

    wanted = [plan(one, level, most) for one, level, most in asked]
    assert {True, False} == {one.exact for one in wanted}
    assert [(one.exact, [(start.kind, start.id) for start in one.starts]) for one in wanted] == [
        (one["exact"], [(start["kind"], start["id"]) for start in one["starts"]]) for one in found["plans"]
    ]
    assert [end for one in wanted for start in one.starts for end in (start.low, start.high)] == pytest.approx(
        [end for one in found["plans"] for start in one["starts"] for end in (start["low"], start["high"])], rel=1e-9
    )


@cache
def demonstration() -> Site:
    """Return the demonstration, read."""
    return Site(build.read_base(scan(ROOT, docs_folder(ROOT))))


def states(diagnosis: Diagnosis, group: Group) -> Iterator[tuple[dict[str, str], tuple[str, ...]]]:
    """Yield each combination of outcomes, with no cure tried, and with each cure tried in vain after them."""
    outcomes = [[("", ""), *((test.id, one.id) for one in test.outcomes)] for test in diagnosis.tests]
    for chosen in product(*outcomes):
        given = {test: outcome for test, outcome in chosen if test}
        yield given, ()
        yield from ((given, (cure,)) for cure in group.cures)
        yield given, tuple(group.cures)


def wanted(group: Group, given: dict[str, str], failed: tuple[str, ...]) -> dict[str, object] | None:
    """Return what Python says after *given* and then *failed*: shares, the order of all actions, the reason."""
    assert group.posed is not None
    problem = group.posed.problem
    tests = {test.id: test for test in problem.tests}
    cures = {cure.id: cure for cure in problem.cures}
    seen = [tests[name].given[tests[name].outcomes.index(outcome)] for name, outcome in given.items()]
    missed = [tuple(1 - works for works in cures[name].success) for name in failed]
    shares = bayes.after(problem.shares, [*seen, *missed])
    if not sum(shares):
        return None
    level = 0 if failed or not given else tests[list(given)[-1]].level
    left = replace(problem, shares=shares, tests=tuple(test for test in problem.tests if test.id not in given),
                   cures=tuple(cure for cure in problem.cures if cure.id not in failed))  # fmt: skip
    found = plan(left, level)
    rows = [(one.kind, "" if one.kind == "refer" else one.id, one.high) for one in found.starts]
    return {
        "shares": {cause: percent(share) for cause, share in zip(problem.causes, shares, strict=True)},
        "rows": [(kind, name, f"{cost:.2f} {group.answer.currency}") for kind, name, cost in rows],
        "reason": reason(found, group.posed.titles, group.answer.currency),
    }  # fmt: skip


def plain(text: str) -> str:
    """Return *text* with the spaces that hold a number and its unit together as plain ones."""
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_demonstration_in_every_state() -> None:
    """For each diagnosis of the demonstration and each way to fill its rows, the script says what Python says."""
    site = demonstration()
    sheets, expected = [], []
    for diagnosis in site.base.diagnoses.values():
        if not diagnosis.several:
            found = groups(site, diagnosis)
            asked = [(number, *state) for number, group in enumerate(found) for state in states(diagnosis, group)]
            sheets.append({"data": json.loads(data(site, diagnosis, found)), "states": [
                {"group": number, "state": {"arrived": ARRIVED, "done": [
                    *({"kind": "test", "id": name, "outcome": outcome} for name, outcome in given.items()),
                    *({"kind": "cure", "id": name, "outcome": "in-vain"} for name in failed),
                ]}} for number, given, failed in asked
            ]})  # fmt: skip
            expected.append([wanted(found[number], given, failed) for number, given, failed in asked])

    answers = script({"sheets": sheets})["answers"]

    assert 7 == len(answers)
    assert 500 < sum(map(len, answers))
    assert expected == [
        [one and {
            "shares": {cause["id"]: plain(cause["text"]) for cause in one["causes"]},
            "rows": [(row["kind"], row["id"], plain(row["cost"])) for row in one["rows"]], "reason": one["reason"],
        } for one in sheet] for sheet in answers
    ]  # fmt: skip


def test_interval_after_an_outcome() -> None:
    """After outcomes the script carries the ends of a share along as `benchleaf diagnose` does."""
    site = demonstration()
    diagnosis = site.base.diagnoses["godwit", "no-charge"]
    given = {"charge-current": "none", "rail-resistance": "middle"}
    done = [{"kind": "test", "id": name, "outcome": outcome} for name, outcome in given.items()]
    asked = {"data": json.loads(data(site, diagnosis, groups(site, diagnosis))),
             "states": [{"group": 0, "state": {"arrived": ARRIVED, "done": done}}]}  # fmt: skip

    [[found]] = script({"sheets": [asked]})["answers"]

    answer = diagnose(site.base, diagnosis, "g1", given, {})
    wanted = [(one.cause.id, drawn(one.share)) for one in answer.causes if one.share]
    assert [(cause, share.text, share.range) for cause, share in wanted] == [
        (one["id"], one["text"], one["range"]) for one in found["causes"]
    ]


def test_arrived_wet() -> None:
    """How a device arrived takes the same tests out of the script's plan as out of Python's."""
    site = demonstration()
    diagnosis = site.base.diagnoses["godwit", "no-charge"]
    arrived = ARRIVED | {"liquid": "sea-water"}
    asked = {"data": json.loads(data(site, diagnosis, groups(site, diagnosis))),
             "states": [{"group": 0, "state": {"arrived": arrived, "done": []}}]}  # fmt: skip

    [[found]] = script({"sheets": [asked]})["answers"]

    answer = diagnose(site.base, diagnosis, "g1", {}, arrived)
    assert answer.plan is not None
    assert [(one.kind, f"{one.high:.2f} EUR") for one in answer.plan.starts] == [
        (row["kind"], plain(row["cost"])) for row in found["rows"]
    ]
    assert "test" not in {row["kind"] for row in found["rows"]}
