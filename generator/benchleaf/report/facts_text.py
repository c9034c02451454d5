"""Facts as a person reads them on a terminal: the steps with their numbers, the limits, and how each was computed."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from benchleaf.derive.number import GIVEN
from benchleaf.report.figures import interval, limit, shown

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.derive.facts import Facts, StepFacts, VariantFacts
    from benchleaf.derive.held import Held
    from benchleaf.derive.number import Number

_PHASES = {"opening": "Open up", "work": "Work", "closing": "Close up", "prove": "Prove"}
_KINDS = {
    "body": "what its body bears", "joint": "what its joints bear", "joint-time": "how long its joints bear it",
    "neighbour": "what it bears beside it", "torque": "the most it bears", "vapour-15-min": "15 minutes",
    "vapour-8-h": "8 hours", "vapour-explosive": "lower explosive limit", "vapour-case": "explosive limit, case shut",
}  # fmt: skip

_AT_MOST = frozenset({"recommended", "most"})


def render(facts: Facts) -> str:
    """Return *facts*, those of variants together that read alike."""
    procedure = facts.procedure
    lines = [
        f"{procedure.device}/{procedure.id}, revision {procedure.revision}, {procedure.status}",
        procedure.title.text,
    ]
    alike: dict[tuple[str, ...], list[str]] = {}
    for name, own in facts.variants.items():
        alike.setdefault(tuple(_Variant(own).lines()), []).append(name)
    for told, names in alike.items():
        lines += ["", f"On {', '.join(names)}: {told[0]}", *told[1:]]
    return "".join(line.rstrip() + "\n" for line in lines)


class _Variant:
    """Words the facts of one variant, and gathers how its numbers came about."""

    def __init__(self, own: VariantFacts) -> None:
        self._own = own
        self._ways: dict[tuple[str, str], int] = {}

    def lines(self) -> Iterator[str]:
        own = self._own
        yield f"{interval(own.time)} in all"
        share = f"{shown(own.vapour_peak)}{self._way(own.vapour_peak)}"
        yield f"Vapour at the bench, at its highest: {share} of the lower explosive limit"
        messages = {step: list(several) for step, several in groupby(own.callouts, key=lambda one: one.step)}
        phase = ""
        for step in own.steps:
            if step.phase != phase:
                phase = step.phase
                yield from ("", _PHASES[phase])
            for message in messages.get(step.id, ()):
                yield f"  {message.signal.upper()}, {message.hazard}: {message.what} {message.happens} {message.avoid}"
            yield from self._step(step)
        yield from self._limits(own.limits)
        yield from self._lists()
        if self._ways:
            yield from ("", "How they were computed")
        for (method, source), number in self._ways.items():
            yield f"  [{number}] {method} ({source})"

    def _step(self, step: StepFacts) -> Iterator[str]:
        yield f"  {step.id}: {step.text}"
        yield f"      begins after {interval(step.starts)}, lasts {interval(step.lasts)}"
        for name, number in step.numbers.items():
            kind, _, about = name.partition(":")
            if kind != "takes":  # It is how long the step lasts.
                figure = limit(number) if kind in _AT_MOST else shown(number)
                yield f"      {f'{kind} {about}'.strip():34} {figure}{self._way(number)}"

    def _limits(self, limits: Iterable[Held]) -> Iterator[str]:
        heading = True
        for held in limits:
            if heading:
                yield from ("", "Limits")
                heading = False
            reached = f"{shown(held.reached)}{self._way(held.reached)}" if held.reached else "nobody can say"
            what = f"{held.step}: {held.on}"
            yield f"  {what:38} {reached}, limit {limit(held.limit)}{self._way(held.limit)}: {_KINDS[held.kind]}"

    def _lists(self) -> Iterator[str]:
        own, counts = self._own, self._own.ledger
        back = [f"{name} {home} of {out}" for name, home, out in counts.screws]
        back += [f"{name} back" for name in counts.parts] + [f"{name} renewed" for name in counts.renewed]
        back += [f"{name} {place}" for name, place in counts.left]
        listed = (
            ("Counted back", back),
            ("Materials", [f"{name} {shown(amount)}" for name, amount in own.materials.items()]),
            ("Tools", own.tools),
            ("Works on", own.job.works_on),
            ("Renews", own.job.renews),
        )
        told = [f"{title}: {', '.join(entries)}" for title, entries in listed if entries]
        yield from ("", *told) if told else ()

    def _way(self, number: Number) -> str:
        if number.method == GIVEN:
            return ""
        key = (number.method, number.source)
        return f" [{self._ways.setdefault(key, len(self._ways) + 1)}]"
