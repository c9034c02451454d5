"""What a procedure brings into a job of several, as data: with these alone one decides whether they go together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.left import left
from benchleaf.dryrun.inside import is_open
from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.dryrun.warmth import warmed
from benchleaf.dryrun.wetting import laid_on
from benchleaf.model import action as act
from benchleaf.model.device import CLOSED
from benchleaf.model.words import applies
from benchleaf.physics.battery import WARM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.vapour import Air, Gas
    from benchleaf.dryrun.world import World

_OWN = frozenset({"work", "prove"})
_LIVE = frozenset({"on", "unknown"})
_HANDS_OFF = (act.Power, act.Supply, act.Wait, type(None))
_NOT_SURE = frozenset({"dead", "unknown"})


@dataclass(frozen=True, slots=True)
class VapourPeak:
    """
    The most of one substance in the air of the bench, ppm at the bad end, on any way through the procedure.

    `mean` of 15 minutes with the limit `short`, `day` of 8 hours with `eight`, `peak` within seconds; `explosive` is
    the lower explosive limit. A limit is None where there is none.
    """

    substance: str
    mean: float
    short: float | None
    day: float
    eight: float | None
    peak: float
    explosive: float | None


@dataclass(frozen=True, slots=True)
class Warmth:
    """How much a part warms beside what is heated, K at the bad end, and how much it may, None if that is unknown."""

    part: str
    rise: float
    allowed: float | None


@dataclass(frozen=True, slots=True)
class Arrival:
    """How the device must come for the procedure; `sure` says that nobody doubts whether it is on."""

    live: bool
    sure: bool
    liquid: str
    battery: str


@dataclass(frozen=True, slots=True)
class Job:
    """
    What one procedure brings into a job, on the variants `performed_on`, on which it comes out alike.

    `way` are the levels that it opens, the outermost first, `level` the last of them or `closed`. `works_on` are the
    parts to which it puts solvent, heat, material or a check; `renews` those that are new with it, each with what is
    part of it. `explosive_share` is how much of the lower explosive limit may be at the bench. `joined_at_work` says
    that it works in the open device with a pack joined. `leaves` is what the next procedure would find changed, and
    `leaves_after_proof` what the next proof would; what `charges_in_proof` matters only to a `proof_by_hand`, which
    does more than feed, wait and look.
    """

    procedure: str
    performed_on: tuple[str, ...]
    variants: tuple[str, ...]
    level: str
    way: tuple[str, ...]
    works_on: tuple[str, ...]
    renews: tuple[str, ...]
    vapour_peaks: tuple[VapourPeak, ...]
    explosive_share: float
    warms: tuple[Warmth, ...]
    arrives: Arrival
    joined_at_work: bool
    leaves: tuple[str, ...]
    leaves_after_proof: tuple[str, ...]
    charges_in_proof: tuple[str, ...]
    proof_by_hand: bool


def job(trace: Trace) -> Job:
    """Return what the procedure of *trace* brings into a job."""
    procedure, device = trace.procedure, trace.world.device
    way = device.way_to(procedure.access.text) if device else ()
    arrives = procedure.arrives
    own = [moment for moment in trace.every() if moment.kind in _OWN]
    parts = tuple(trace.world.parts)
    worked, renewed = _worked_on(trace, own), _renewed(trace.world, own)
    return Job(
        procedure=procedure.id,
        performed_on=trace.variants if device else (),
        variants=tuple(name for name in device.variant_ids if applies(procedure.variants, name)) if device else (),
        level=procedure.access.text if way else CLOSED,
        way=tuple(level.id for level in way if applies(level.only, trace.world.variant)),
        works_on=tuple(part for part in parts if part in worked),
        renews=tuple(part for part in parts if part in renewed),
        vapour_peaks=tuple(_vapour_peaks(trace)),
        explosive_share=trace.nature.constants.vapour.share_bench.central,
        warms=tuple(_warms(trace)),
        arrives=Arrival(arrives.power in _LIVE, arrives.power not in _NOT_SURE, arrives.liquid, arrives.battery),
        joined_at_work=any(_joined_at_work(trace.world, moment) for moment in own),
        leaves=tuple(dict.fromkeys(_left_behind(trace))),
        leaves_after_proof=tuple(dict.fromkeys(_left_by_proof(trace))),
        charges_in_proof=tuple(dict.fromkeys(_charged_by_proof(trace))),
        proof_by_hand=any(moment.kind == "prove" and _by_hand(moment) for moment in own),
    )


def _worked_on(trace: Trace, own: Sequence[Moment]) -> frozenset[str]:
    found: set[str] = set()
    for moment in own:
        state, step = moment.before, moment.step
        match step.action:
            case act.Heat(on=part, tool=tool) if trace.nature.kind(tool.text) == "iron":
                found.add(part.text)
            case act.Heat(on=part) | act.Bath(on=part):
                found |= state.moving(part.text, trace.world.family)
            case act.Solvent(on=part) | act.Discharge(part=part):
                found.add(part.text)
            case act.Work(on=part) if part is not None:
                found.add(part.text)
            case act.Release(bond=bond) | act.Renew(bond=bond) if bond.text in trace.world.bonds:
                found.add(trace.world.bonds[bond.text].part.text)
            case _:
                pass
        if step.apply:
            found.add(laid_on(trace.world, step))
        # A proof comes when everything is renewed that will be: its checks are of the new parts.
        if step.check and step.check.kind == "battery" and moment.kind == "work":
            found |= set(trace.world.packs)
    return frozenset(found)


def _renewed(world: World, own: Sequence[Moment]) -> frozenset[str]:
    return frozenset(
        member
        for moment in own
        if isinstance(moment.step.action, act.Replace)
        for member in world.family.get(moment.step.action.part.text, ())
    )


def _joined_at_work(world: World, moment: Moment) -> bool:
    pluggable = (name for name in moment.before.joined(world.batteries) if world.batteries[name].plug)
    return moment.kind == "work" and is_open(world, moment.before) and any(pluggable)


def _vapour_peaks(trace: Trace) -> Iterator[VapourPeak]:
    airs: list[Air] = [air for path in trace.paths() for air in at_the_bench(trace.nature, path)]
    gases: dict[str, list[Gas]] = {}
    for air in airs:
        for gas in air.gases:
            gases.setdefault(gas.substance, []).append(gas)
    for name, several in sorted(gases.items()):
        yield VapourPeak(
            name,
            mean=max(gas.mean.worst for gas in several),
            short=min((gas.short.value for gas in several if gas.short), default=None),
            day=max(gas.day.worst for gas in several),
            eight=min((gas.eight.value for gas in several if gas.eight), default=None),
            peak=max(gas.peak.worst for gas in several),
            explosive=several[0].explosive,
        )


def _warms(trace: Trace) -> Iterator[Warmth]:
    """Yield each part that warms beside what is heated, by all heating steps of the way that warms it most."""
    room, world = trace.nature.temperature, trace.world
    rises: dict[str, float] = {}
    for _, one in warmed(trace):
        rises[one.part] = max(one.worst - room, rises.get(one.part, 0.0))
    for name, part in world.parts.items():
        rise = rises.get(name, 0.0)
        if rise <= 0:
            continue
        limits = [part.heat_limit.at.low] if part.heat_limit else []
        limits += [WARM] if name in world.packs else []
        yield Warmth(name, rise, min(limits) - room if limits else None)


def _left_behind(trace: Trace) -> Iterator[str]:
    """Yield what the work leaves at the end of its steps, and each of its levels once it is closed again."""
    for path in trace.paths(whole=True):
        opened = [moment for moment in path if moment.kind == "opening"]
        entry = opened[-1].after if opened else trace.start
        worked = [moment for moment in path if moment.kind == "work"]
        if worked:
            yield from left(trace.world, entry, worked[-1].after)
        if _switched_on(worked):
            yield "the device on"
        for before, after in _levels(path):
            yield from left(trace.world, before, after)


def _switched_on(worked: Sequence[Moment]) -> bool:
    """Whether somebody switched on what is still on: it may have been off before, in a job."""
    return (
        bool(worked)
        and worked[-1].after.live
        and any(isinstance(moment.step.action, act.Power | act.Supply) and moment.after.live for moment in worked)
    )


def _levels(path: Sequence[Moment]) -> Iterator[tuple[State, State]]:
    for level in dict.fromkeys(moment.level.id for moment in path if moment.level and moment.kind == "opening"):
        own = [moment for moment in path if moment.level and moment.level.id == level]
        closing = [moment for moment in own if moment.kind == "closing"]
        if closing:
            yield own[0].before, closing[-1].after


def _by_hand(moment: Moment) -> bool:
    return bool(moment.step.apply) or not isinstance(moment.step.action, _HANDS_OFF)


def _proofs(trace: Trace) -> Iterator[list[Moment]]:
    for path in trace.paths(whole=True):
        proofs = [moment for moment in path if moment.kind == "prove"]
        if proofs:
            yield proofs


def _left_by_proof(trace: Trace) -> Iterator[str]:
    for proofs in _proofs(trace):
        before = proofs[0].before
        after = proofs[-1].after._replace(charged=before.charged, unread=before.unread)
        yield from left(trace.world, before, after)
        if _switched_on(proofs):
            yield "the device on"


def _charged_by_proof(trace: Trace) -> Iterator[str]:
    for proofs in _proofs(trace):
        before, after = proofs[0].before, proofs[-1].after
        yield from sorted((after.charged | {*after.unread}) - before.charged - {*before.unread})
