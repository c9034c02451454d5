"""Several procedures performed as one: one opening, each one's steps, one closing, all proofs; and what rules see."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from benchleaf.checks import engine
from benchleaf.checks.rules import RULES
from benchleaf.derive.job import job
from benchleaf.derive.jobs import in_order
from benchleaf.dryrun.walk import Opened, _Walk
from benchleaf.model.procedure import HandsBack
from benchleaf.model.step import Repeat
from benchleaf.model.words import Said, applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.findings import Finding
    from benchleaf.model.device import Access, Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Arrives, Procedure
    from benchleaf.model.step import Step

# What several steps bring about stands at the first, or at the one that brings most: where that is less, at another.
TOGETHER = frozenset({
    "vapour-in-case", "vapour-over-limit", "unchecked-battery", "hot-handling", "overheated-neighbour",
    "charged-capacitor",
})  # fmt: skip
_WATCHING = [rule for rule in RULES.values() if rule.watches]


def seen(trace: Trace) -> list[Finding]:
    """Return what the rules see in *trace* and nobody has allowed."""
    return [finding for finding in engine.watch(trace, _WATCHING) if finding.allowed is None]


def as_one(base: KnowledgeBase, traces: Sequence[Trace], variant: str) -> list[Trace]:
    """
    Return all that *traces* perform, as one sequence on *variant*: once for each, in the eyes of its procedure.

    In its eyes what the others did before its steps belongs to the opening, and what they do after to the closing.
    """
    by_name = {trace.procedure.id: trace for trace in traces}
    ordered = [by_name[own.procedure] for own in in_order([job(trace) for trace in traces])]
    procedures = _joined([trace.procedure for trace in ordered])
    plan = tuple(_plan(procedures, ordered[0].world.device, variant))
    world, here = replace(ordered[0].world, variant=variant), ordered[0].nature
    whole = _Sequence(base, procedures[0], world, here, (variant,), Opened(), plan).trace()
    owners = {id(step): number for number, own in enumerate(procedures) for step in own.steps}
    return [_in_the_eyes_of(whole, own, number, owners) for number, own in enumerate(procedures)]


def _in_the_eyes_of(whole: Trace, procedure: Procedure, number: int, owners: Mapping[int, int]) -> Trace:
    first = next((at for at, moment in enumerate(whole.straight) if owners.get(id(moment.step)) == number), 0)
    before = {id(moment.step) for moment in whole.straight[:first]}
    known: dict[int, Moment] = {}

    def seen_as(moment: Moment) -> Moment:
        if id(moment) not in known:
            kind = moment.kind
            if kind in {"work", "closing"} and owners.get(id(moment.step)) != number:
                kind = "opening" if id(moment.step) in before else "closing"
            known[id(moment)] = replace(moment, kind=kind)
        return known[id(moment)]

    def all_of(moments: Sequence[Moment]) -> tuple[Moment, ...]:
        return tuple(map(seen_as, moments))

    routes = tuple(
        replace(route, check=seen_as(route.check), extra=all_of(route.extra), goes_on=all_of(route.goes_on))
        for route in whole.routes
    )
    return replace(whole, procedure=procedure, straight=all_of(whole.straight), routes=routes)


@dataclass(frozen=True, slots=True)
class _Sequence(_Walk):
    """A walk whose plan is given."""

    plan: tuple[tuple[Step, str, Access | None], ...]

    def _plan(self, procedure: Procedure) -> list[tuple[Step, str, Access | None]]:
        return list(self.plan) if procedure is self.procedure else _Walk._plan(self, procedure)


def _plan(
    procedures: Sequence[Procedure], device: Device | None, variant: str
) -> Iterator[tuple[Step, str, Access | None]]:
    assert device is not None
    open_now = [level for level in device.way_to(procedures[0].access.text) if applies(level.only, variant)]
    for level in open_now:
        yield from ((step, "opening", level) for step in level.opening if applies(step.only, variant))
    for procedure in procedures:
        wanted = device.way_to(procedure.access.text)
        while open_now and open_now[-1] not in wanted:
            level = open_now.pop()
            yield from ((step, "closing", level) for step in level.closing if applies(step.only, variant))
        yield from ((step, "work", None) for step in procedure.steps if applies(step.only, variant))
    for level in reversed(open_now):
        yield from ((step, "closing", level) for step in level.closing if applies(step.only, variant))
    for procedure in procedures:
        yield from ((step, "prove", None) for step in procedure.prove if applies(step.only, variant))


def _joined(procedures: Sequence[Procedure]) -> list[Procedure]:
    """Return *procedures* with ids of their own, and with the one device and the one customer that they share."""
    without = tuple(part for own in procedures if own.hands_back for part in own.hands_back.without)
    consent = tuple(dict.fromkeys(name for own in procedures for name in own.consent))
    arrives = _arrives([own.arrives for own in procedures])
    back = HandsBack(without, None) if without else None
    return [_renamed(replace(own, consent=consent, hands_back=back, arrives=arrives)) for own in procedures]


def _arrives(several: Sequence[Arrives]) -> Arrives:
    """Return how a device arrives that arrives for all of *several*: on is not sure where it is not for one."""
    first = several[0]
    unsure = next((own.power for own in several if own.power in {"unknown", "dead"}), first.power)
    return replace(first, power=unsure)


def _renamed(procedure: Procedure) -> Procedure:
    """Return *procedure* with ids that no other procedure has."""

    def renamed(step: Step) -> Step:
        check = step.check
        if check is not None and isinstance(check.if_not, Repeat):
            back = check.if_not.step
            way = replace(check.if_not, step=Said(f"{procedure.id}-{back.text}", back.place))
            check = replace(check, if_not=way)
        return replace(step, id=f"{procedure.id}-{step.id}", check=check)

    steps, prove = (tuple(map(renamed, own)) for own in (procedure.steps, procedure.prove))
    return replace(procedure, steps=steps, prove=prove)
