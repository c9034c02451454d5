"""Slips that a tired author makes are seen: a sample of `make mutants`, and what that measure itself stands on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.checks.rules import RULES
from benchleaf.findings import Level
from tests.mutants.book import DOCS
from tests.mutants.case import Case
from tests.mutants.fault import Expected, Where
from tests.mutants.known import survivors
from tests.mutants.operators import OPERATORS
from tests.mutants.run import book, everything, judged, sample

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from tests.mutants.fault import Mutant, Operator

# A whole check costs a good half second.
WHOLE = sample(300)


def told(finding: Finding) -> tuple[str, str, int, str]:
    """Return what two runs must agree on."""
    return (finding.rule, finding.place.path, finding.place.line, finding.message)


def test_book_is_sound() -> None:
    """The demonstration, written anew, gives no finding: what is found in a mutant is the mutant's."""
    assert [] == [found for found in build.check(book().folder).findings if found.allowed is None]


def test_operators_have_names_of_their_own() -> None:
    """Each operator is told from the others, and says what is dangerous about it."""
    assert len(OPERATORS) == len({operator.name for operator in OPERATORS})
    assert all(operator.why for operator in OPERATORS)


@pytest.mark.parametrize("number", WHOLE, ids=lambda number: everything()[number][1].key(everything()[number][0].name))
def test_short_way_finds_the_same(number: int) -> None:
    """What is found in a mutant against its device alone is what the whole check finds."""
    case = Case(book(), *everything()[number])
    files = tuple(case.changed.file if file.path == case.mutant.path else file for file in book().folder.files)
    whole = build.check(replace(book().folder, files=files)).findings

    assert {told(each) for each in case.changed.findings()} == {
        told(each)
        for each in whole
        if each.level is not Level.NOTE and each.allowed is None and each.place.path.removeprefix(DOCS).count("/") > 1
    }


@pytest.mark.slow
def test_no_new_survivor() -> None:
    """Of a sample of the mutants, none that is dangerous survives but those that are known, each with a reason."""
    numbers = sample(8)

    verdicts = judged(numbers, processes=1)

    assert len(numbers) > 300
    assert [] == [(each.key, each.besides) for each in verdicts if each.survives and each.key not in survivors()]


def test_known_survivors_are_made() -> None:
    """Each known survivor is a mutant that is still made, under one reason."""
    made = {mutant.key(operator.name) for operator, mutant in everything()}

    assert set() == survivors().keys() - made
    assert all(reason.endswith(".") for reason in survivors().values())


def test_expected_rules_exist() -> None:
    """Each rule that an operator expects is a rule: one that is misspelt would never catch anything."""
    assert set() == {rule for operator in OPERATORS for rule in operator.expected} - RULES.keys()


def one_of(name: str) -> tuple[Operator, Mutant]:
    """Return the first mutant of the operator *name*."""
    return next(each for each in everything() if each[0].name == name)


@pytest.mark.parametrize(
    ("expected", "caught"),
    [
        ({"dead-end-check": Where.HERE}, True),
        ({"dead-end-check": Where.HEAD | Where.LATER}, False),
        ({"unproven-repair": Where.HERE}, False),
        ({}, False),
    ],
)
def test_right_rule_in_right_place(expected: Expected, caught: bool) -> None:  # noqa: FBT001  (pytest gives it by name)
    """A mutant is caught by a rule that its operator names, in a place that it names, and survives otherwise."""
    operator, mutant = one_of("drop-way-out")

    verdict = Case(book(), replace(operator, expected=expected), mutant).verdict()

    assert caught is not verdict.survives


def test_second_opinion_sees_nothing_new_in_what_is_unchanged() -> None:
    """A file that is written anew without a change brings no hazard and passes no limit."""
    operator, mutant = one_of("drop-wait")

    case = Case(book(), operator, replace(mutant, change=lambda _: None))

    assert case.performed
    assert not case.worse
    assert not case.passed


@pytest.mark.parametrize("name", ["early-power", "early-battery", "refit-old-seal", "drop-discharge"])
def test_second_opinion_sees_what_hurts(name: str) -> None:
    """What is dangerous is so to the second opinion too, which asks no rule."""
    case = Case(book(), *one_of(name))

    assert case.worse
