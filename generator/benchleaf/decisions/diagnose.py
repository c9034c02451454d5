"""The answer to one complaint: how likely each cause is, what to do next, and whether a repair pays at all."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from benchleaf.decisions import bayes
from benchleaf.decisions.follow import Follow
from benchleaf.decisions.plan import plan
from benchleaf.decisions.pose import Posed, Unposed, Way, cause_shares, counted, pose
from benchleaf.decisions.replace import Verdict, verdict
from benchleaf.decisions.shares import Share, shifted

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.decisions.plan import Plan
    from benchleaf.model.diagnosis import Cause, Diagnosis
    from benchleaf.model.knowledge import KnowledgeBase

ARRIVED = {"power": "on", "liquid": "none", "battery": "sound", "glass": "whole"}
"""How a device arrives when nothing is said."""
NOTHING: Mapping[str, str] = MappingProxyType({})
"""No outcome yet."""


@dataclass(frozen=True, slots=True)
class Ranked:
    """A cause, how often it was seen, and its share; None where faults come together and nothing is ranked."""

    cause: Cause
    seen: int
    share: Share | None


@dataclass(frozen=True, slots=True)
class Answer:
    """
    What is said to a complaint. `plan` is None where faults come together, or for the reason `because`.

    `repairs` are the cures, each beside a new device where the device has a price; `seconds` is how long the plan is
    expected to take at the bench; `posed` the problem in numbers, None where there is none.
    """

    diagnosis: Diagnosis
    variant: str
    given: Mapping[str, str]
    causes: tuple[Ranked, ...]
    plan: Plan | None
    because: str
    currency: str
    repairs: tuple[tuple[Way, Verdict | None], ...]
    unpriced: tuple[str, ...]
    seconds: float = 0.0
    posed: Posed | None = None

    @property
    def titles(self) -> Mapping[tuple[str, str], str]:
        """Return the titles of tests and cures, by kind and id."""
        return self.posed.titles if self.posed else {}


def possible(diagnosis: Diagnosis, given: Mapping[str, str]) -> bool:
    """Whether some cause can show all the outcomes *given*."""
    return any(_likelihood(diagnosis, given))


def diagnose(
    base: KnowledgeBase, diagnosis: Diagnosis, variant: str, given: Mapping[str, str], arrived: Mapping[str, str]
) -> Answer:
    """
    Return the answer after the outcomes *given*, in the order in which the tests were done.

    A test that was done counts even where it would not be offered. The device is at the level of the last one.
    """
    posed = pose(base, diagnosis, variant, {**ARRIVED, **arrived})
    causes = ranked(base, diagnosis, given)
    if isinstance(posed, Unposed):
        return Answer(diagnosis, variant, given, causes, None, posed.because, "", (), ())
    level = _level(diagnosis, posed, given)
    found = None if diagnosis.several else _plan(diagnosis, posed, given, level)
    return Answer(
        diagnosis, variant, given, causes, found,
        "the faults come together: each is to be confirmed or ruled out" if diagnosis.several else "",
        posed.currency, _repairs(base, diagnosis, posed), posed.unpriced,
        Follow(posed.clock).seconds(found.first, level) if found else 0.0, posed,
    )  # fmt: skip


def _plan(diagnosis: Diagnosis, posed: Posed, given: Mapping[str, str], level: int) -> Plan:
    problem, likelihood = posed.problem, _likelihood(diagnosis, given)
    left = tuple(test for test in problem.tests if test.id not in given)
    return plan(replace(problem, shares=bayes.after(problem.shares, [likelihood]), tests=left), level)


def _level(diagnosis: Diagnosis, posed: Posed, given: Mapping[str, str]) -> int:
    """Return the level of the test that was done last."""
    last = next(reversed(tuple(given)), None)
    found = [test.access.text for test in diagnosis.tests if test.id == last]
    return posed.levels.index(found[0]) if found and found[0] in posed.levels else 0


def _likelihood(diagnosis: Diagnosis, given: Mapping[str, str]) -> tuple[float, ...]:
    """Return the probability of all outcomes *given*, by cause."""
    found: tuple[float, ...] = (1.0,) * len(diagnosis.causes)
    for test in diagnosis.tests:
        for outcome in test.outcomes:
            if given.get(test.id) == outcome.id:
                found = bayes.seen(found, [outcome.given.get(cause.id, 0.0) for cause in diagnosis.causes])
    return found


def ranked(base: KnowledgeBase, diagnosis: Diagnosis, given: Mapping[str, str] = NOTHING) -> tuple[Ranked, ...]:
    """Return the causes, the likeliest first; in the order of the file where faults come together."""
    seen = counted(base, diagnosis)
    if diagnosis.several:
        return tuple(Ranked(cause, count, None) for cause, count in zip(diagnosis.causes, seen, strict=True))
    likelihood, prior = _likelihood(diagnosis, given), cause_shares(base, diagnosis)
    found = []
    for number, (cause, count, share) in enumerate(zip(diagnosis.causes, seen, prior, strict=True)):
        rest = 1 - share.value
        others = sum(one.value * chance for n, (one, chance) in enumerate(zip(prior, likelihood, strict=True))
                     if n != number)  # fmt: skip
        now = shifted(share, likelihood[number], others / rest if rest > 0 else 0.0) if given else share
        found.append(Ranked(cause, count, now))
    return tuple(sorted(found, key=lambda one: -one.share.value if one.share else 0.0))


def _repairs(base: KnowledgeBase, diagnosis: Diagnosis, posed: Posed) -> tuple[tuple[Way, Verdict | None], ...]:
    price = base.devices[diagnosis.device].price
    return tuple((way, verdict(way.repair, price.middle) if price else None) for way in posed.ways)
