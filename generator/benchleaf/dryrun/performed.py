"""Every procedure of a knowledge base, performed on every variant that it is written for."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.dryrun.nature import Nature
from benchleaf.dryrun.walk import Opened, walk
from benchleaf.dryrun.world import World, world
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.step import GoTo, Repeat
from benchleaf.model.words import applies
from benchleaf.physics.constants import with_own

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure

_ANY = "any"


def nature(base: KnowledgeBase) -> Nature:
    """Return the bench of the shop of *base*; what the shop does not say is as most benches are."""
    usual = Nature()
    room, bench = (base.shop.room, base.shop.bench) if base.shop else (None, None)
    return Nature(
        temperature=room.temperature.middle if room and room.temperature else usual.temperature,
        humidity=room.humidity.high if room and room.humidity else usual.humidity,
        air_speed=bench.air_speed.low if bench and bench.air_speed else usual.air_speed,
        room_volume=room.volume.low if room and room.volume else usual.room_volume,
        air_changes=room.air_changes.low if room and room.air_changes else usual.air_changes,
        exposure_policy=base.shop.exposure_limit if base.shop else usual.exposure_policy,
        tools=base.tools,
        materials=base.materials,
        constants=with_own(
            tuple((one.name, one.low, one.central, one.high, one.because) for one in base.shop.constants)
        )
        if base.shop
        else usual.constants,
    )


def performed(base: KnowledgeBase) -> Iterator[Trace]:
    """
    Yield each procedure but withdrawn ones, performed on each variant; those of an unread device are left out.

    Variants on which a procedure cannot come out otherwise share one trace.
    """
    bench = Bench(base)
    for procedure in base.procedures.values():
        if procedure.status != "withdrawn":
            yield from bench.perform(procedure)


def touched(base: KnowledgeBase, procedure: Procedure) -> Iterator[str]:
    """
    Yield the paths of the files whose steps are performed with *procedure*: its own, its device, where it may lead.

    What a rule sees in a trace lies in these files and in no others, so that one can ask for the findings of some
    files without performing everything.
    """
    yield procedure.path
    device = base.devices.get(procedure.device)
    if device is not None:
        yield device.path
        yield from (one.path for one in _targets(base, procedure))


class Bench:
    """The bench of one shop, with the devices and the openings that were seen on it."""

    def __init__(self, base: KnowledgeBase) -> None:
        """Lay out nothing yet."""
        self._base, self._nature, self._opened = base, nature(base), Opened()
        self._worlds: dict[tuple[str, str], World] = {}

    def perform(self, procedure: Procedure) -> Iterator[Trace]:
        """Yield *procedure* performed on each variant, alike ones in one trace; nothing where its device is unread."""
        base, device = self._base, self._base.devices.get(procedure.device)
        if device is None:
            if procedure.device == ANY_DEVICE:
                yield walk(base, procedure, world(None, _ANY), self._nature)
            return
        for variant in base.variants_of(procedure):
            if (procedure.device, variant) not in self._worlds:
                self._worlds[procedure.device, variant] = world(device, variant)
        worlds = [self._worlds[procedure.device, name] for name in base.variants_of(procedure)]
        for alike in _alike(base, procedure, worlds):
            variants = tuple(one.variant for one in alike)
            yield walk(base, procedure, alike[0], self._nature, variants, self._opened)


def _alike(base: KnowledgeBase, procedure: Procedure, worlds: Iterable[World]) -> Iterable[list[World]]:
    """Return *worlds* in groups in which nothing differs that *procedure*, or one it leads to, may meet."""
    met = (procedure, *_targets(base, procedure))
    groups: dict[tuple[object, ...], list[World]] = {}
    for own in worlds:
        key = tuple(_as_had_by(one, own.variant) for one in met)
        groups.setdefault((own.make_up, *key), []).append(own)
    return groups.values()


def _targets(base: KnowledgeBase, procedure: Procedure) -> Iterator[Procedure]:
    """Yield each procedure that a failing check may lead to."""
    for name in _led_to(base, procedure):
        target = base.target(procedure, name)
        if target is not None:
            yield target


def _led_to(base: KnowledgeBase, procedure: Procedure) -> Iterator[str]:
    levels = base.devices[procedure.device].access.values()
    for step in chain(procedure.steps, procedure.prove, *((*level.opening, *level.closing) for level in levels)):
        way = step.check.if_not if step.check else None
        way = way.then if isinstance(way, Repeat) else way
        if isinstance(way, GoTo):
            yield way.procedure.text


def _as_had_by(procedure: Procedure, variant: str) -> tuple[bool, ...]:
    """Return whether *variant* has *procedure*, and each of its steps."""
    steps = chain(procedure.steps, procedure.prove)
    return (applies(procedure.variants, variant), *(applies(step.only, variant) for step in steps))
