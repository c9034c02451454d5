"""What steps, ways and cures cost, worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from benchleaf.decisions.costs import Work, way, work
from benchleaf.decisions.diagnose import diagnose, possible
from benchleaf.decisions.pose import Posed, Unposed, pose
from benchleaf.decisions.problem import End
from tests.make import DOCS, EXAMPLE, SHOP, WADER, check

if TYPE_CHECKING:
    from benchleaf.model.knowledge import KnowledgeBase

NO_LIGHT = f"{DOCS}/diagnosis/wader/no-light.yml"
DIAGNOSIS = """\
causes:
  dead-lamp:   {title: Lamp is dead, seen: 4, cures: [{procedure: replace-lamp, success: 3 of 4}]}
  eaten-board:
    title: Board is eaten
    seen: 1
    cures: [{refer: {title: New board, price: 70 EUR}}, {refer: {title: Board bench, price: 55 EUR}}]
tests:
  look:
    do: Look into the lens.
    takes: 1–3 min
    unless: {liquid: [water, unknown]}
    outcomes:
      dark:  {title: Dark, given: {dead-lamp: 0.9, eaten-board: 0.2}}
      light: {title: Light, given: {dead-lamp: 0.1, eaten-board: 0.8}}
  buzz:
    do: Listen to the buzzer.
    access: open
    outcomes:
      loud: {title: Loud, given: {dead-lamp: 1, eaten-board: 0}}
      mute: {title: Mute, given: {dead-lamp: 0, eaten-board: 1}}
"""
PRICED = WADER.replace("{title: Lamp, kind: other, ", "{title: Lamp, kind: other, price: 7 EUR, lead_time: 2 d, ")


def base(**changes: str) -> KnowledgeBase:
    """Return the small knowledge base with the diagnosis, and *changes* by what a file is about."""
    paths = {"shop": f"{DOCS}/shop.yml", "wader": f"{DOCS}/devices/wader.yml", "example": EXAMPLE}
    files = {NO_LIGHT: DIAGNOSIS, **{paths[name]: text for name, text in changes.items()}}
    return check(files).base


def posed(own: KnowledgeBase, variant: str = "w1", **arrived: str) -> Posed:
    """Return the problem of the diagnosis, which can be posed."""
    found = pose(own, own.diagnoses["wader", "no-light"], variant, arrived)
    assert isinstance(found, Posed)
    return found


def test_time_of_steps() -> None:
    """Steps that say nothing take half a minute each, others the middle of what they say; the proof counts nothing."""
    own = base(wader=PRICED)
    device, procedure = own.devices["wader"], own.procedures["wader", "replace-lamp"]

    found = work(device, "w1", procedure.steps)

    assert Work(90.0, 7.0, 2 * 86400.0) == found


def test_long_wait_is_not_stood_by() -> None:
    """A wait of a night costs what half an hour costs; one of ten minutes costs ten."""
    steps = "title: Dry it\nsteps:\n  - {do: Wait., wait: {for: 16 h}}\n  - {do: Wait., wait: {for: 8–12 min}}\n"
    own = base(example=steps)

    found = work(own.devices["wader"], "w1", own.procedures["wader", "example"].steps)

    assert Work(1800.0 + 600.0) == found


def test_way_between_levels() -> None:
    """Between levels one closes up to the common one and opens down: five steps in, and out again three."""
    device = base().devices["wader"]

    ways = [
        way(device, "w1", *ends).time for ends in (("closed", "open"), ("open", "bare-board"), ("bare-board", "closed"))
    ]

    assert [5 * 30.0, 2 * 30.0, (2 + 3) * 30.0] == ways
    assert 3 * 30.0 == way(device, "w2", "open", "bare-board").time
    assert Work() == way(device, "w1", "open", "open")


def test_cost_of_a_cure() -> None:
    """A cure costs opening (5 steps), three steps, closing (3 steps) at 48 EUR/h, and a lamp: 4.40 + 7 EUR."""
    problem = posed(base(wader=PRICED)).problem

    assert 11 * 0.5 / 60 * 48 + 7 == pytest.approx(problem.cure_cost(0, 0))
    assert 6 * 0.5 / 60 * 48 + 7 == pytest.approx(problem.cure_cost(1, 0))
    assert 2 / 60 * 48 == pytest.approx(problem.test_cost(0, 0))
    assert ((4 / 6, 0.0),) == tuple(cure.success for cure in problem.cures)


def test_cheapest_referral_ends() -> None:
    """Of two referrals the cheaper ends the plan; without any the shop's write-off does."""
    alone = check({NO_LIGHT: DIAGNOSIS.replace("refer: {title: New board, price: 70 EUR}", "procedure: replace-lamp")
                   .replace(", {refer: {title: Board bench, price: 55 EUR}}", "")}).base  # fmt: skip

    assert End("Board bench", 55.0) == posed(base()).problem.end
    assert End("Written off", 90.0) == posed(alone).problem.end


def test_tests_that_are_offered() -> None:
    """A test is offered on its variants, and not where `unless` forbids it for what arrived."""
    device = WADER.replace("    from: open\n", "    from: open\n    only: [w2]\n")
    deep = DIAGNOSIS.replace("access: open", "access: bare-board")
    own = check({NO_LIGHT: deep, f"{DOCS}/devices/wader.yml": device}).base
    ways = (posed(own), posed(own, "w2"), posed(own, "w2", liquid="water"), posed(own, liquid="none"))

    offered = [[test.id for test in one.problem.tests] for one in ways]

    assert [["look"], ["look", "buzz"], ["buzz"], ["look"]] == offered


@pytest.mark.parametrize(
    ("shop", "wader", "said"),
    [
        (SHOP.replace("labour: 48 EUR/h\n", ""), WADER, "`labour`"),
        (SHOP, PRICED.replace("7 EUR", "7 USD"), "EUR and USD"),
    ],
)
def test_what_cannot_be_reckoned(shop: str, wader: str, said: str) -> None:
    """Without labour, or with two currencies, nothing is reckoned, and the reason is said."""
    own = base(shop=shop, wader=wader)

    found = pose(own, own.diagnoses["wader", "no-light"], "w1", {})

    assert isinstance(found, Unposed)
    assert said in found.because


def test_price_that_nobody_wrote() -> None:
    """A part that is replaced and has no price is named."""
    assert ("lamp",) == posed(base()).unpriced
    assert () == posed(base(wader=PRICED)).unpriced


def test_answer_after_a_test_is_the_plan_from_there() -> None:
    """What was seen moves the shares and leaves the device at the level of the last test."""
    own = base()
    diagnosis = own.diagnoses["wader", "no-light"]

    fresh, seen = (diagnose(own, diagnosis, "w2", given, {}) for given in ({}, {"buzz": "mute"}))

    assert ["dead-lamp", "eaten-board"] == [one.cause.id for one in fresh.causes]
    assert ["eaten-board", "dead-lamp"] == [one.cause.id for one in seen.causes]
    assert seen.plan is not None
    assert 55.0 == pytest.approx(seen.plan.high)


def test_outcomes_that_contradict() -> None:
    """Outcomes that no cause can show together are told apart from those that are rare."""
    diagnosis = base().diagnoses["wader", "no-light"]
    sure = replace(diagnosis, causes=diagnosis.causes[:1])

    assert not possible(sure, {"buzz": "mute"})
    assert possible(diagnosis, {"buzz": "mute", "look": "dark"})


def test_faults_that_come_together_are_not_ranked() -> None:
    """With `several`, causes stand as written, without shares, and no plan is made."""
    own = check({NO_LIGHT: "several: true\n" + DIAGNOSIS}).base

    found = diagnose(own, own.diagnoses["wader", "no-light"], "w1", {}, {})

    assert [("dead-lamp", None), ("eaten-board", None)] == [(one.cause.id, one.share) for one in found.causes]
    assert found.plan is None
    assert "come together" in found.because
