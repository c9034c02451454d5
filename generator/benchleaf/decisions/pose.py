"""From a diagnosis as it is written to a problem in numbers, for one variant as it arrived."""

from __future__ import annotations

from dataclasses import dataclass
from operator import attrgetter
from typing import TYPE_CHECKING

from benchleaf.decisions.costs import Work, way, work
from benchleaf.decisions.problem import End, Problem, Remedy, Trial
from benchleaf.decisions.replace import Repair
from benchleaf.decisions.shares import UNCOUNTED, shares, success
from benchleaf.model.device import CLOSED
from benchleaf.model.diagnosis import Cure, Referral
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.times import UNSAID
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from benchleaf.decisions.shares import Share
    from benchleaf.model.device import Device
    from benchleaf.model.diagnosis import Cause, Diagnosis, Test
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.units.quantity import Money

WRITTEN_OFF = "Written off"
_NEAR_ENOUGH = 0.001 + 1e-9


@dataclass(frozen=True, slots=True)
class Way:
    """One try of a cure against one cause, from the closed device and back."""

    cause: str
    procedure: str
    repair: Repair


@dataclass(frozen=True, slots=True)
class Posed:
    """
    A problem, the levels by number, the currency, each cure by itself, parts whose price nobody wrote.

    `clock` is the same problem with seconds in the place of money; `titles` are those of tests and cures, by kind and
    id.
    """

    problem: Problem
    clock: Problem
    levels: tuple[str, ...]
    currency: str
    ways: tuple[Way, ...]
    unpriced: tuple[str, ...]
    titles: Mapping[tuple[str, str], str]


@dataclass(frozen=True, slots=True)
class Unposed:
    """Why nothing can be reckoned, in a sentence."""

    because: str


def counted(base: KnowledgeBase, diagnosis: Diagnosis) -> tuple[int, ...]:
    """Return how often each cause was seen: as the diagnosis says, and as bench records add."""
    return tuple(cause.seen + _added(base, diagnosis, cause)[0] for cause in diagnosis.causes)


def cause_shares(base: KnowledgeBase, diagnosis: Diagnosis) -> tuple[Share, ...]:
    """Return the share of each cause before any test."""
    return shares(counted(base, diagnosis))


def _added(base: KnowledgeBase, diagnosis: Diagnosis, cause: Cause) -> tuple[int, Mapping[str, tuple[int, int]]]:
    found = base.counts.get((diagnosis.device, diagnosis.symptom, cause.id))
    return (found.seen, found.success) if found else (0, {})


def works(base: KnowledgeBase, diagnosis: Diagnosis, cause: Cause, cure: Cure) -> Share:
    """Return how often *cure* ends *cause*: of all tries that were counted, or the usual where there are none."""
    cured, tried = _added(base, diagnosis, cause)[1].get(cure.procedure.text, (0, 0))
    if cure.tried is None and tried == 0:
        return UNCOUNTED
    return success(cured + (cure.cured or 0), tried + (cure.tried or 0))


def pose(base: KnowledgeBase, diagnosis: Diagnosis, variant: str, arrived: Mapping[str, str]) -> Posed | Unposed:
    """Return the problem that *diagnosis* is on *variant*; what is not there, or not for it, is not offered."""
    device, shop = base.devices.get(diagnosis.device), base.shop
    if device is None or shop is None:
        return Unposed("the device or the shop cannot be read")
    if shop.labour is None:
        return Unposed("shop.yml does not say what an hour of `labour` costs")
    uneven = next(_uneven(diagnosis), None)
    if uneven:
        return Unposed(uneven)
    end = _end(base, diagnosis)
    if isinstance(end, Unposed):
        return end
    cures = _cures(base, diagnosis, variant)
    currencies = {money.unit for money in _money(base, device, diagnosis)} | {shop.labour.unit.partition("/")[0]}
    if len(currencies) > 1:
        return Unposed(f"money is in {' and '.join(sorted(currencies))}, and nobody says what one is in the other")
    return _Posing(base, device, variant, shop.labour.middle).posed(diagnosis, arrived, cures, end, currencies.pop())


def _uneven(diagnosis: Diagnosis) -> Iterator[str]:
    """Yield what cannot be weighed: a test whose outcomes do not sum to 1, as `unbalanced-outcomes` finds it."""
    for test in diagnosis.tests:
        for cause in diagnosis.causes:
            if abs(sum(outcome.given.get(cause.id, 0.0) for outcome in test.outcomes) - 1) > _NEAR_ENOUGH:
                yield f"the outcomes of `{test.id}` do not sum to 1 for `{cause.id}`"


def _end(base: KnowledgeBase, diagnosis: Diagnosis) -> End | Unposed:
    """Return the cheapest referral, of two the one written first; the shop's `write_off` where there is none."""
    referrals = [cure for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Referral)]
    priced = [End(cure.title, cure.price.middle) for cure in referrals if cure.price]
    if priced:
        return min(priced, key=lambda end: end.price)
    if base.shop and base.shop.write_off:
        return End(WRITTEN_OFF, base.shop.write_off.middle)
    return Unposed("no cause is referred, and shop.yml does not say what a `write_off` costs")


def _cures(base: KnowledgeBase, diagnosis: Diagnosis, variant: str) -> dict[str, Procedure]:
    """Return the procedures that cure something and can be done on *variant*, in the order of the file."""
    found = {}
    for cause in diagnosis.causes:
        for cure in cause.cures:
            name = cure.procedure.text if isinstance(cure, Cure) else ""
            target = base.procedures.get((diagnosis.device, name)) or base.procedures.get((ANY_DEVICE, name))
            if target and target.status != "withdrawn" and applies(target.variants, variant):
                found[name] = target
    return found


def _money(base: KnowledgeBase, device: Device, diagnosis: Diagnosis) -> Iterator[Money]:
    several = [cure.price for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Referral)]
    several += [part.price for part in device.parts.values()]
    several += [device.price, base.shop.write_off if base.shop else None]
    yield from (money for money in several if money)


def titled(test: Test) -> str:
    """Return the title of *test*: its id in words, as the format gives it none of its own."""
    return test.id[:1].upper() + test.id[1:].replace("-", " ")


def _titles(diagnosis: Diagnosis, cures: Mapping[str, Procedure]) -> dict[tuple[str, str], str]:
    tests = {("test", test.id): titled(test) for test in diagnosis.tests}
    return tests | {("cure", name): procedure.title.text for name, procedure in cures.items()}


class _Posing:
    """Works out costs on one variant of one device, in money."""

    def __init__(self, base: KnowledgeBase, device: Device, variant: str, labour: float) -> None:
        self._base, self._device, self._variant, self._labour = base, device, variant, labour
        levels = [name for name, level in device.access.items() if applies(level.only, variant)]
        self._levels = (CLOSED, *levels)
        self._unpriced: dict[str, None] = {}

    def posed(self, diagnosis: Diagnosis, arrived: Mapping[str, str], cures: Mapping[str, Procedure], end: End,
              currency: str) -> Posed:  # fmt: skip
        tests = [(test, self._takes(test)) for test in diagnosis.tests if self._offered(test, arrived)]
        done = {name: work(self._device, self._variant, procedure.steps) for name, procedure in cures.items()}
        ways = [[way(self._device, self._variant, here, there) for there in self._levels] for here in self._levels]
        causes = tuple(cause.id for cause in diagnosis.causes)
        shares_now = tuple(share.value for share in cause_shares(self._base, diagnosis))

        def problem(cost: Callable[[Work], float], end: End) -> Problem:
            return Problem(
                causes, shares_now, tuple(self._trial(test, causes, cost(takes)) for test, takes in tests),
                tuple(self._remedy(diagnosis, name, cures[name], cost(one)) for name, one in done.items()),
                tuple(tuple(map(cost, row)) for row in ways), end,
            )  # fmt: skip

        alone = tuple(self._ways(diagnosis, cures))
        clock = problem(attrgetter("time"), End(end.title, 0.0))
        return Posed(problem(self._price, end), clock, self._levels, currency, alone, tuple(self._unpriced),
                     _titles(diagnosis, cures))  # fmt: skip

    def _price(self, done: Work) -> float:
        self._unpriced |= dict.fromkeys(done.unpriced)
        return done.time / 3600 * self._labour + done.parts

    def _offered(self, test: Test, arrived: Mapping[str, str]) -> bool:
        barred = any(arrived.get(what) in states for what, states in test.unless.items())
        return test.access.text in self._levels and applies(test.only, self._variant) and not barred

    def _takes(self, test: Test) -> Work:
        # A test that says nothing of its time takes as long as such a step: 0 to 60 s.
        return Work(max(test.takes.middle, 0.0) if test.takes else UNSAID / 2)

    def _trial(self, test: Test, causes: tuple[str, ...], cost: float) -> Trial:
        given = tuple(tuple(outcome.given.get(cause, 0.0) for cause in causes) for outcome in test.outcomes)
        names = tuple(outcome.id for outcome in test.outcomes)
        return Trial(test.id, self._levels.index(test.access.text), cost, names, given)

    def _level(self, procedure: Procedure) -> str:
        return procedure.access.text if procedure.access.text in self._levels else CLOSED

    def _remedy(self, diagnosis: Diagnosis, name: str, procedure: Procedure, cost: float) -> Remedy:
        level = self._levels.index(self._level(procedure))
        success_by_cause = tuple(
            next((works(self._base, diagnosis, cause, cure).value for cure in cause.cures
                  if isinstance(cure, Cure) and cure.procedure.text == name), 0.0)
            for cause in diagnosis.causes
        )  # fmt: skip
        return Remedy(name, level, cost, success_by_cause)

    def _ways(self, diagnosis: Diagnosis, cures: Mapping[str, Procedure]) -> Iterator[Way]:
        for cause in diagnosis.causes:
            for cure in cause.cures:
                if isinstance(cure, Cure) and cure.procedure.text in cures:
                    procedure = cures[cure.procedure.text]
                    level = self._level(procedure)
                    done = way(self._device, self._variant, CLOSED, level)
                    done += work(self._device, self._variant, procedure.steps)
                    done += way(self._device, self._variant, level, CLOSED)
                    yield Way(cause.id, procedure.id, Repair(
                        done.time, done.time / 3600 * self._labour, done.parts, done.lead_time,
                        works(self._base, diagnosis, cause, cure),
                    ))  # fmt: skip
