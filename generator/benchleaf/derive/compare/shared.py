"""What is said of the shop, its materials and its tools now, beside what was said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Change, Spot, Way
from benchleaf.findings import Place

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.shop import Material, Shop, Tool

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER
STRICTEST = "strictest"


def of_shop(old: Shop, new: Shop, path: str) -> Iterator[Change]:
    """
    Yield how the shop differs. Its rooms and benches are facts of the world: that they changed is neither way.

    Its file stands at *path*; the model keeps no place in it.
    """
    spot = Spot("shop", Place(path, 1, 1, 2))
    before, after = old.exposure_limit, new.exposure_limit
    if before != after:
        way = LOOSER if before == STRICTEST else STRICTER if after == STRICTEST else OTHER
        said = f"vapour is held against the limit {after}; it was {before}"
        yield Spot("limit", spot.place).say(way, said, before, after)
    for what in ("volume", "air_changes", "temperature", "humidity"):
        words = f"the {what.replace('_', ' ')} of the room"
        yield from spot.quantity(words, getattr(old.room, what), getattr(new.room, what), OTHER)
    yield from spot.quantity("the speed of the air at the bench", old.bench.air_speed, new.bench.air_speed, OTHER)
    for what in ("wrist_strap", "mat"):
        has = getattr(new.bench, what)
        if getattr(old.bench, what) != has:
            way, word = (STRICTER, "now") if has else (LOOSER, "no longer")
            yield spot.say(way, f"the bench has {word} a {what.replace('_', ' ')} against discharge")
    own = [{one.name: "–".join(one.written) for one in shop.constants} for shop in (old, new)]
    for name in sorted(own[0].keys() | own[1].keys()):
        yield from spot.words(f"the shop's own {name}", own[0].get(name), own[1].get(name))


def of_materials(old: KnowledgeBase, new: KnowledgeBase) -> Iterator[tuple[str, Change]]:
    """Yield how the shop's materials differ, each with its name."""
    for name, material in new.materials.items():
        if name in old.materials:
            yield from ((name, change) for change in _material(name, old.materials[name], material))


def _material(name: str, old: Material, new: Material) -> Iterator[Change]:
    spot, limit = Spot("material", new.place), Spot("limit", new.place)
    yield from limit.quantity(f"the exposure limit of {name}", old.exposure_limit, new.exposure_limit, LOOSER)
    yield from limit.quantity(f"the time until {name} holds", old.fixture, new.fixture, STRICTER)
    yield from limit.quantity(f"the time until {name} is at full strength", old.full, new.full, STRICTER)
    contained = [
        ", ".join(f"{share.text} {what}" for what, share in sorted(one.contains.items())) for one in (old, new)
    ]
    yield from spot.words(f"what {name} contains", *contained)
    yield from spot.words(f"the alloy of {name}", old.alloy, new.alloy)
    yield from spot.words(f"the kind of {name}", old.kind, new.kind)


def of_tools(old: KnowledgeBase, new: KnowledgeBase) -> Iterator[tuple[str, Change]]:
    """Yield how the shop's tools differ, each with its name."""
    for name, tool in new.tools.items():
        if name in old.tools:
            yield from ((name, change) for change in _tool(name, old.tools[name], tool))


def _tool(name: str, old: Tool, new: Tool) -> Iterator[Change]:
    spot = Spot("tool", new.place)
    for what, safe in (("vented", True), ("rated_for_solvents", True), ("conductive", False)):
        before, after = getattr(old, what), getattr(new, what)
        if before != after:
            # What is said to be safe by now is a claim that lets more be done with it.
            words = {None: "not said", True: "yes", False: "no"}
            said = f"{name}: {what.replace('_', ' ')} is {words[after]}; it was {words[before]}"
            yield spot.say(LOOSER if after == safe else STRICTER, said, words[before], words[after])
    yield from spot.words(f"the kind of {name}", old.kind, new.kind)
    yield from spot.quantity(f"the range of {name}", old.range, new.range, OTHER)
    yield from spot.quantity(f"the resolution of {name}", old.resolution, new.resolution, OTHER)
    yield from spot.quantity(f"the contact of {name}", old.contact, new.contact, OTHER)
