"""A technician who is sent round in a circle has changed nothing and learned nothing when the circle closes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.routes import by_source, key, roads, way_back, written_for
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import in_use_by_device
from benchleaf.findings import Level
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.routes import Road
    from benchleaf.findings import Place
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each `go_to` of a circle that is taken before its procedure has changed anything."""
    for device in base.devices.values():
        # By place: two checks that name the same procedure are two ways.
        found: dict[Place, tuple[Road, tuple[Procedure, ...], list[str]]] = {}
        for variant in device.variant_ids:
            for road, way in _circles(base, device.id, variant):
                found.setdefault(road.name.place, (road, way, []))[2].append(variant)
        for road, way, variants in found.values():
            yield _hit(road, way, () if len(variants) == len(device.variants) else tuple(sorted(variants)))
    for road, way in _circles(base, ANY_DEVICE, None):
        yield _hit(road, way, ())


def _circles(base: KnowledgeBase, device: str, variant: str | None) -> Iterator[tuple[Road, tuple[Procedure, ...]]]:
    """Yield each idle way of a circle with the procedures through which it comes back."""
    own = [each for each in in_use_by_device(base).get(device, ()) if written_for(each, variant)]
    known = {key(procedure) for procedure in own}
    several = [road for each in own for road in roads(base, each, variant) if key(road.target) in known]
    out_of = by_source(several)
    for road in several:
        way = way_back(road, out_of) if road.idle else None
        if way:
            yield road, way


def _hit(road: Road, way: tuple[Procedure, ...], variants: tuple[str, ...]) -> Hit:
    by = f" by way of {listed([f'`{procedure.id}`' for procedure in way[1:-1]])}" if way[1:-1] else ""
    back = f"which leads back here{by}" if len(way) > 1 else "which is this procedure itself"
    on = f" (on {listed(variants)})" if variants else ""
    return Hit(
        road.name.place,
        f"This goes to `{road.name}`, {back}, and nothing is changed before{on}: it could go round without end",
        "Name a procedure that does not lead back here, do what changes the device before this check, or end with a "
        "`stop` that says whom to ask.",
        variants,
        step=road.step,
    )


RULE = Rule("endless-route", Level.ERROR, check)
