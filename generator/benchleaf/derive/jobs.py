"""
Whether several procedures make one job: one opening, each one's steps, one closing, then all proofs.

It is decided by what each of them brings (`derive.job`) and by nothing else, so that a page can decide it as well. The
oracle is the whole sequence performed and judged: never accepted here what is refused there (`tests/properties`).
"""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.derive.job import Job, VapourPeak


def in_order(jobs: Sequence[Job]) -> tuple[Job, ...]:
    """Return *jobs* as they are performed: the deepest level first, and else in the order given."""
    return tuple(sorted(jobs, key=lambda own: -len(own.way)))


def accepts(jobs: Sequence[Job]) -> tuple[str, ...]:
    """Return the reasons why *jobs* do not share a job, in whole sentences; none where they do."""
    ordered = in_order(jobs)
    if len(ordered) < 2:
        return ()
    return tuple(
        dict.fromkeys(
            [
                *_twice(ordered),
                *_variants(ordered),
                *_ways(ordered),
                *_arrivals(ordered),
                *_renewals(ordered),
                *_leftovers(ordered),
                *_vapours(ordered),
                *_warmths(ordered),
            ]
        )
    )


def _variants(jobs: Sequence[Job]) -> Iterator[str]:
    bound = [own for own in jobs if own.variants]
    if not bound:
        return
    if not set(bound[0].variants).intersection(*(own.variants for own in bound[1:])):
        yield f"No variant fits all of them: {_written(bound)}."
    elif not set(bound[0].performed_on).intersection(*(own.performed_on for own in bound[1:])):
        yield "They were performed on different variants."


def _twice(jobs: Sequence[Job]) -> Iterator[str]:
    for one, other in combinations(jobs, 2):
        if one.procedure == other.procedure:
            yield f"`{one.procedure}` is named twice."


def _ways(jobs: Sequence[Job]) -> Iterator[str]:
    for deep, shallow in pairwise(jobs):
        if deep.way[: len(shallow.way)] != shallow.way:
            yield (
                f"`{deep.procedure}` opens the level `{deep.level}` and `{shallow.procedure}` the level "
                f"`{shallow.level}`, which does not lie on the way: that is a second opening."
            )


def _arrivals(jobs: Sequence[Job]) -> Iterator[str]:
    for what in ("liquid", "battery", "live"):
        first, *others = ((own.procedure, getattr(own.arrives, what)) for own in jobs)
        for name, said in others:
            if said != first[1]:
                how = {"liquid": "as wet", "battery": "with its battery in the same state", "live": "on or off alike"}
                yield f"`{first[0]}` and `{name}` do not take the device in {how[what]}."
    unsure = next((own for own in jobs if not own.arrives.sure), None)
    for own in jobs if unsure else ():
        if own.arrives.sure and own.joined_at_work:
            yield (
                f"`{own.procedure}` works with a pack joined, and with `{unsure.procedure if unsure else ''}` nobody "
                "knows whether the device is on."
            )


def _renewals(jobs: Sequence[Job]) -> Iterator[str]:
    for one in jobs:
        for other in jobs:
            for part in one.works_on if one is not other else ():
                if part in other.renews:
                    yield f"`{one.procedure}` works on `{part}`, which `{other.procedure}` renews."


def _leftovers(jobs: Sequence[Job]) -> Iterator[str]:
    for own in jobs:
        if own.leaves:
            yield f"`{own.procedure}` leaves {', '.join(own.leaves)}: the others were not performed so."
    for own in jobs[:-1]:
        if own.leaves_after_proof:
            after = ", ".join(own.leaves_after_proof)
            yield f"The proof of `{own.procedure}` leaves {after}: the proofs after it were not performed so."
    for number, own in enumerate(jobs):
        for later in jobs[number + 1 :]:
            if own.charges_in_proof and later.proof_by_hand:
                charged = " and ".join(f"`{name}`" for name in own.charges_in_proof)
                yield (
                    f"The proof of `{own.procedure}` leaves {charged} charged, and that of `{later.procedure}` is done "
                    "by hand."
                )


def _vapours(jobs: Sequence[Job]) -> Iterator[str]:
    peaks: dict[str, list[VapourPeak]] = defaultdict(list)
    for own in jobs:
        for peak in own.vapour_peaks:
            peaks[peak.substance].append(peak)
    for name, several in sorted(peaks.items()):
        if len(several) < 2:
            continue
        yield from _over(name, "15 minutes", sum(one.mean for one in several), [one.short for one in several])
        yield from _over(name, "8 hours", sum(one.day for one in several), [one.eight for one in several])
    burning = [[peak.peak / peak.explosive for peak in own.vapour_peaks if peak.explosive] for own in jobs]
    share, allowed = sum(sum(own) for own in burning), min(own.explosive_share for own in jobs)
    if sum(1 for own in burning if own) > 1 and share > allowed:
        yield (
            f"Their vapours together reach {digits(100 * share, 2, math.ceil)} % of the lower explosive limit at the "
            f"bench, and {digits(100 * allowed, 2, math.floor)} % is allowed."
        )


def _over(name: str, time: str, mean: float, limits: Sequence[float | None]) -> Iterator[str]:
    limit = min((known for known in limits if known is not None), default=None)
    if limit is not None and mean > limit:
        said = digits(mean, 2, math.ceil)
        yield f"Together they bring {said} ppm of `{name}` as the mean of {time}: {limit:g} ppm is the limit."


def _warmths(jobs: Sequence[Job]) -> Iterator[str]:
    rises: dict[str, list[tuple[float, float | None]]] = defaultdict(list)
    for own in jobs:
        for warmth in own.warms:
            rises[warmth.part].append((warmth.rise, warmth.allowed))
    for part, several in sorted(rises.items()):
        allowed = next((limit for _, limit in several if limit is not None), None)
        rise = sum(own for own, _ in several)
        if len(several) > 1 and allowed is not None and rise >= allowed:
            said, most = digits(rise, 2, math.ceil), digits(allowed, 2, math.floor)
            yield f"Their heat together warms `{part}` by {said} K, and {most} K is what it bears."


def _written(jobs: Sequence[Job]) -> str:
    return ", ".join(f"`{own.procedure}` is for {' and '.join(own.variants)}" for own in jobs)
