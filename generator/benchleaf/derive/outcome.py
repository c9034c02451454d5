"""What pages keep of a procedure that was performed: its states are many, and only these are read again."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.derive.after import after
from benchleaf.derive.callouts import Callout, callouts
from benchleaf.derive.heated import Heated, heated
from benchleaf.derive.held import on_sheet
from benchleaf.derive.kinds_of_work import Asked, asked
from benchleaf.derive.ledger import Ledger, ledger
from benchleaf.derive.timeline import Stage, timeline
from benchleaf.derive.ways import ways
from benchleaf.model.action import Heat, Wait

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from benchleaf.derive.held import OnSheet
    from benchleaf.derive.news import News
    from benchleaf.derive.ways import Node
    from benchleaf.dryrun.trace import Trace


@dataclass(frozen=True, slots=True)
class Outcome:
    """
    A procedure performed on all its variants.

    `after` gives, by step id, what the step changed, each with the variants it holds for (none: all that perform the
    step); `ledgers`, by variant, what is counted back; `callouts` the safety messages in the order of the steps, each
    likewise with its variants; `timelines` how each performance goes, with its variants; `heated` how hot it gets
    beside what each heating step heats, likewise; `held`, by step id, what is held against a limit where something is
    heated, and what a wait is for, likewise; `ways` the graph of each performance, with its variants; `work` the kinds
    of work that it asks for.
    """

    after: Mapping[str, tuple[tuple[News, tuple[str, ...]], ...]]
    ledgers: Mapping[str, Ledger]
    callouts: tuple[tuple[Callout, tuple[str, ...]], ...] = ()
    timelines: tuple[tuple[tuple[str, ...], tuple[Stage, ...]], ...] = ()
    heated: tuple[tuple[Heated, tuple[str, ...]], ...] = ()
    held: Mapping[str, tuple[tuple[OnSheet, tuple[str, ...]], ...]] = field(default_factory=dict)
    ways: tuple[tuple[tuple[str, ...], tuple[Node, ...]], ...] = ()
    work: tuple[Asked, ...] = ()


NOT_PERFORMED = Outcome({}, {})


def outcome(traces: Sequence[Trace], units: Mapping[str, str]) -> Outcome:
    """Return what pages keep of *traces*, the performances of one procedure, in the shop's *units*."""
    counts = [(trace.variants, ledger(trace)) for trace in traces if trace.world.device]
    ledgers = {variant: own for variants, own in counts for variant in variants}
    return Outcome(
        after(traces), ledgers, tuple(_messages(traces, units)), _timelines(traces), heated(traces), _held(traces),
        tuple((trace.variants, ways(trace)) for trace in traces if trace.straight), asked(traces),
    )  # fmt: skip


def _timelines(traces: Sequence[Trace]) -> tuple[tuple[tuple[str, ...], tuple[Stage, ...]], ...]:
    """Return how each performance goes, those that go alike once with all their variants."""
    found: dict[tuple[Stage, ...], list[str]] = {}
    for trace in traces:
        if trace.world.device:
            found.setdefault(timeline(trace), []).extend(trace.variants)
    return tuple((tuple(names), stages) for stages, names in found.items())


def _held(traces: Sequence[Trace]) -> dict[str, tuple[tuple[OnSheet, tuple[str, ...]], ...]]:
    """Return what is held against a limit, by step, with the variants where they are not all that perform the step."""
    found: dict[str, dict[OnSheet, list[str]]] = {}
    performed: dict[str, list[str]] = {}
    for trace in traces:
        for moment in trace.straight:
            if isinstance(moment.step.action, Heat | Wait):
                performed.setdefault(moment.step.id, []).extend(trace.variants)
                here = found.setdefault(moment.step.id, {})
                for one in on_sheet(trace, moment):
                    here.setdefault(one, []).extend(trace.variants)
    return {
        step: tuple((one, () if names == performed[step] else tuple(names)) for one, names in several.items())
        for step, several in found.items()
        if several
    }


def _messages(traces: Sequence[Trace], units: Mapping[str, str]) -> Iterator[tuple[Callout, tuple[str, ...]]]:
    """Yield each message once, with the variants that it is for where they are not all."""
    found: dict[tuple[str, ...], Callout] = {}
    whose: dict[tuple[str, ...], list[str]] = {}
    for trace in traces:
        for one in callouts(trace, units):
            key: tuple[str, ...] = (one.step, one.hazard, one.signal, one.what, one.happens, one.avoid)
            found.setdefault(key, one)
            whose.setdefault(key, []).extend(trace.variants)
    every = sum(len(trace.variants) for trace in traces)
    for key, one in found.items():
        yield one, () if len(whose[key]) == every else tuple(whose[key])
