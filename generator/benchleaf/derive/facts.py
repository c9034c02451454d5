"""All that is known of a procedure that was performed: what its pages, other programs and comparisons go by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive import air
from benchleaf.derive.callouts import Callout, callouts
from benchleaf.derive.job import Job, job
from benchleaf.derive.ledger import Ledger, ledger
from benchleaf.derive.measures import measured
from benchleaf.derive.needs import equipment
from benchleaf.derive.number import GIVEN, Number, between, given
from benchleaf.model.action import Bath, Heat, Wait
from benchleaf.model.device import CLOSED
from benchleaf.model.times import span

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchleaf.derive.held import Held
    from benchleaf.derive.measures import Measured
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

_CLOCK = "sum of the steps before"
_UNSAID = "nothing is said: up to a minute"
_FORMAT = "the format's own rule"


@dataclass(frozen=True, slots=True)
class StepFacts:
    """
    One step of the straight pass, at its place in its file.

    `level` is how far the device is open in it; `starts` and `lasts` are intervals, s.
    """

    id: str
    phase: str
    level: str
    text: str
    path: str
    line: int
    starts: Number
    lasts: Number
    numbers: Mapping[str, Number]


@dataclass(frozen=True, slots=True)
class VariantFacts:
    """
    A procedure on one variant.

    `materials` are the amounts listed, `time` how long the straight pass takes, proof included, `vapour_peak` the
    highest share of the lower explosive limit at the bench.
    """

    steps: tuple[StepFacts, ...]
    limits: tuple[Held, ...]
    materials: Mapping[str, Number]
    tools: tuple[str, ...]
    ledger: Ledger
    time: Number
    vapour_peak: Number
    job: Job
    callouts: tuple[Callout, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """A procedure on each of its variants; one for any device has the variant `any`."""

    procedure: Procedure
    variants: Mapping[str, VariantFacts]


def facts(
    base: KnowledgeBase, procedure: Procedure, traces: Iterable[Trace], variant: str | None = None
) -> Facts | None:
    """
    Return the facts of *procedure* from its *traces*, of one *variant* or of all; None where there are none.

    Variants on which it comes out alike share theirs.
    """
    found = {trace.variants: _variant(base, trace) for trace in traces if variant is None or variant in trace.variants}
    own = {name: one for names, one in found.items() for name in names if variant in {None, name}}
    order = base.variants_of(procedure) or tuple(own)
    return Facts(procedure, {name: own[name] for name in order if name in own}) if own else None


def _variant(base: KnowledgeBase, trace: Trace) -> VariantFacts:
    procedure = trace.procedure
    steps = tuple(measured(trace))
    source = "sum of all steps, one straight pass"
    return VariantFacts(
        steps=tuple(_step(trace, one) for one in steps),
        limits=tuple(held for one in steps for held in one.limits),
        materials={one.material.text: given(one.amount, procedure.path) for one in procedure.materials},
        tools=equipment(base, procedure),
        ledger=ledger(trace),
        time=between(trace.end.low, trace.end.high, "s", source, procedure.path),
        vapour_peak=air.on(trace).highest(),
        job=job(trace),
        callouts=callouts(trace, base.shop.units if base.shop else {}),
    )


def _step(trace: Trace, one: Measured) -> StepFacts:
    moment, step = one.moment, one.moment.step
    lasts = span(step)
    return StepFacts(
        id=step.id,
        phase=moment.kind,
        level=_level(trace, moment),
        text=step.do.text,
        path=step.place.path,
        line=step.place.line,
        starts=between(moment.before.low, moment.before.high, "s", _CLOCK, trace.procedure.path),
        lasts=between(lasts.low, lasts.high, "s", *_timed(step)),
        numbers=one.numbers,
    )


def _timed(step: Step) -> tuple[str, str]:
    """Return how the time of *step* comes about, and from what."""
    if isinstance(step.action, Heat) and not step.takes:
        return "touches and pauses as given", step.place.path
    said = step.takes or isinstance(step.action, Wait | Bath)
    return (GIVEN, step.place.path) if said else (_UNSAID, _FORMAT)


def _level(trace: Trace, moment: Moment) -> str:
    """Return how far the device is open while *moment* is performed."""
    if moment.level is not None:
        return moment.level.id
    return CLOSED if moment.kind == "prove" or trace.world.device is None else trace.procedure.access.text
