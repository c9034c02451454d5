"""What the summary of several procedures accepts as one job is clean when it is performed as one sequence."""

from __future__ import annotations

from functools import cache
from itertools import permutations
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hypothesis import given
from hypothesis import strategies as st

from benchleaf import build
from benchleaf.derive.job import job
from benchleaf.derive.jobs import accepts
from benchleaf.dryrun.performed import performed
from benchleaf.source.folder import scan
from tests.properties.knot import checked, heating, procedures, wiping
from tests.properties.profile import examples
from tests.properties.sequence import TOGETHER, as_one, seen

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Finding
    from benchleaf.model.knowledge import KnowledgeBase

ROOT = Path(__file__).resolve().parent.parent.parent
_TITLE = 2  # What is found about a whole procedure stands at its title, whoever else is in the sequence.


@cache
def demonstration() -> KnowledgeBase:
    """Return the knowledge base of the demonstration."""
    return build.check(scan(ROOT, "procedures")).base


@cache
def of_the_demonstration(device: str, variant: str) -> tuple[Trace, ...]:
    """Return what is performed on *variant* of *device* in the demonstration."""
    return tuple(
        one for one in performed(demonstration()) if one.procedure.device == device and variant in one.variants
    )


VARIANTS = [(device.id, variant) for device in demonstration().devices.values() for variant in device.variant_ids]


def refused(base: KnowledgeBase, traces: Sequence[Trace], variant: str) -> Iterator[Finding]:
    """Yield what the rules see in the whole sequence of *traces* and in none of them alone."""
    alone = [finding for trace in traces for finding in seen(trace)]
    places = {(finding.rule, finding.place.path, finding.place.line) for finding in alone}
    rules = {finding.rule for finding in alone}
    for trace in as_one(base, traces, variant):
        for finding in seen(trace):
            place = finding.place
            elsewhere = place.line <= _TITLE or finding.rule in TOGETHER
            known = elsewhere and finding.rule in rules
            if (finding.rule, place.path, place.line) not in places and not known:
                yield finding


@st.composite
def demonstrated(draw: st.DrawFn) -> tuple[str, list[Trace]]:
    """Return a variant of the demonstration and two to four of its procedures."""
    device, variant = draw(st.sampled_from(VARIANTS))
    known = of_the_demonstration(device, variant)
    some = draw(st.lists(st.sampled_from(range(len(known))), min_size=2, max_size=4, unique=True))
    return variant, [known[number] for number in some]


@examples(40)
@given(demonstrated())
def test_jobs_of_the_demonstration(several: tuple[str, list[Trace]]) -> None:
    """Procedures of the demonstration that share a job give no finding when they are performed as one sequence."""
    variant, traces = several

    found = [] if accepts([job(trace) for trace in traces]) else list(refused(demonstration(), traces, variant))

    assert [] == found


def test_demonstration_shares_jobs() -> None:
    """Most procedures of the demonstration share a job with another one: the summary is not safe by refusing all."""
    traces = of_the_demonstration("godwit", "g2")
    pairs = list(permutations([job(trace) for trace in traces], 2))

    assert sum(not accepts(pair) for pair in pairs) > len(pairs) / 3


def _refused(several: dict[str, Any], **room: str) -> list[Finding]:
    """Return what is refused of all that is accepted of the procedures in *several*, in every order."""
    base = checked(several, **room).base
    traces = [trace for trace in performed(base) if "k1" in trace.variants]
    jobs = {trace.procedure.id: job(trace) for trace in traces}
    return [
        finding
        for count in range(2, len(traces) + 1)
        for some in permutations(traces, count)
        if not accepts([jobs[trace.procedure.id] for trace in some])
        for finding in refused(base, some, "k1")
    ]


def _named(several: Sequence[Any]) -> dict[str, Any]:
    return {f"work-{number}": own for number, own in enumerate(several)}


@examples(40)
@given(st.lists(procedures(), min_size=3, max_size=3).map(_named))
def test_any_jobs(several: dict[str, Any]) -> None:
    """Any procedures that share a job give no finding in their sequence that none of them gives alone."""
    assert [] == _refused(several)


@examples(25)
@given(st.lists(wiping(), min_size=3, max_size=3).map(_named), st.sampled_from(["4 m³", "12 m³", "45 m³"]))
def test_vapours_of_a_job(several: dict[str, Any], volume: str) -> None:
    """Vapours that are accepted one after the other stay below every limit in the sequence."""
    assert [] == _refused(several, volume=volume, air_changes="0.2 /h")


@examples(15)
@given(st.lists(heating(), min_size=3, max_size=3).map(_named))
def test_heat_of_a_job(several: dict[str, Any]) -> None:
    """Heat that is accepted one after the other takes no neighbour above its limit in the sequence."""
    assert [] == _refused(several)
