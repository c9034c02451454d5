"""What the physics says of one shop's bench: how long things stay wet or hot, and what gets into the air."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from benchleaf.dryrun.beside import beside
from benchleaf.dryrun.hot import under_tool
from benchleaf.dryrun.pace import Around, Heating, Lies, Wetted, cooling_times, drying_time
from benchleaf.dryrun.places import entered
from benchleaf.dryrun.state import OUT, Fume, Hot, State, Touch, Wet
from benchleaf.dryrun.warmth import overheated_packs
from benchleaf.library.substances import SUBSTANCES
from benchleaf.model.action import Wait
from benchleaf.physics import heat
from benchleaf.physics.constants import DEFAULT, Constants
from benchleaf.physics.types import Celsius, SquareMetres
from benchleaf.units.quantity import Volume

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.world import World
    from benchleaf.library.substance import Substance
    from benchleaf.model.action import Heat
    from benchleaf.model.device import Part
    from benchleaf.model.shop import Material, Tool
    from benchleaf.model.step import Step
    from benchleaf.physics.types import Estimate
    from benchleaf.units.quantity import Quantity

WATER = "deionised-water"
# What a customer's device was in dries as water does; salt only keeps it longer, and a bath takes the salt out.
AS_WATER = {"water": WATER, "sea-water": WATER, "unknown": WATER}
_SOCKETS = frozenset({"socket", "button", "speaker", "microphone"})
# A bathed part that is no board: its wetted side (common practice, no source).
_SMALL = SquareMetres(4e-4)
# Heat that is given an open end lasts so long, s: nothing gets hotter after that.
_DAY = 86400.0


@dataclass(frozen=True)
class Nature:
    """
    The air of the room, the tools and materials of the shop, the constants: all that a state's future hangs on.

    A room of which nothing is said is a small one with closed windows (common practice, no source).
    """

    temperature: float = 21.0
    humidity: float = 0.5
    air_speed: float = 0.1
    room_volume: float = 30.0
    air_changes: float = 0.5 / 3600
    exposure_policy: str = "strictest"
    tools: Mapping[str, Tool] = field(default_factory=dict)
    materials: Mapping[str, Material] = field(default_factory=dict)
    constants: Constants = DEFAULT

    def kind(self, tool: str) -> str:
        """Return the kind of *tool*, or "" where it is not known."""
        known = self.tools.get(tool)
        return known.kind if known else ""

    def components(self, liquid: str) -> tuple[tuple[Substance, float], ...]:
        """Return what *liquid* is made of, as substances of the library with their shares of the volume."""
        name = AS_WATER.get(liquid, liquid)
        if name in SUBSTANCES:
            return ((SUBSTANCES[name], 1.0),)
        known = self.materials.get(name)
        if known is None:
            return ()
        return tuple((SUBSTANCES[part], share.high) for part, share in known.contains.items() if part in SUBSTANCES)

    def knows(self, liquid: str) -> bool:
        """Whether *liquid* is a material of the shop or of the library, or what a device may arrive in."""
        return liquid in AS_WATER or liquid in SUBSTANCES or liquid in self.materials

    def flammable(self, liquid: str) -> bool:
        """Whether *liquid*, or something in it, burns."""
        return any(substance.flammable for substance, _ in self.components(liquid))

    def is_flux(self, material: str) -> bool:
        """Whether *material* is a flux: its solvent is a carrier, put on by the drop."""
        known = self.materials.get(material)
        return known is not None and known.kind == "flux"

    def vapour_of(self, material: str, amount: Quantity) -> Iterator[tuple[str, float]]:
        """Yield each substance that *amount* of *material* gives to the air, with its volume, m³ of liquid."""
        if isinstance(amount, Volume):
            for substance, share in self.components(material):
                if (volume := amount.high * share) > 0:
                    yield substance.id, volume

    def fixture(self, material: str) -> float:
        """Return how long *material* needs before the bond bears handling, s; 0 where it says nothing."""
        known = self.materials.get(material)
        return known.fixture.high if known and known.fixture else 0.0

    def heated(self, world: World, state: State, action: Heat) -> State:
        """Return the state in which the part of *action* is as hot as its tool makes it."""
        part, kind = action.on.text, self.kind(action.tool.text)
        source = self.source(action)
        family = state.moving(part, world.family)
        away, alone = state.away, state.alone
        if action.kind == "desolder":
            away, alone = {**dict.fromkeys(family, OUT), **away}, alone | {part}
        elif action.kind == "solder":
            away, alone = entered(world, state, part, family), alone - {part}
        moved = state._replace(away=away, alone=alone)
        touch = self._touch(world, state, moved, action)
        hot = {**state.hot, **under_tool(world, self, moved, action, family)}
        packs = {member: world.packs[member] for member in family if member in world.packs and kind != "iron"}
        spoilt = {battery: "too hot" for member, battery in packs.items() if _passed(world.parts.get(member), source)}
        after = moved._replace(hot=hot, touches=(*state.touches, touch))
        spoilt |= dict.fromkeys(overheated_packs(world, self, after), "too hot")
        return after._replace(damaged={**state.damaged, **spoilt}) if spoilt else after

    def _touch(self, world: World, before: State, after: State, action: Heat) -> Touch:
        kind, times, last = self.kind(action.tool.text), action.times, before.touches[-1] if before.touches else None
        low, pause = before.low, max(0.0, action.pause.low) if action.pause else 0.0
        return Touch(
            action.on.text, last.end + max(0.0, low - last.done) if last else low, min(action.lasts.high, _DAY), times,
            pause, self.source(action), self.radius(action.tool.text), kind, action.at.high, action.shield is not None,
            low + times * max(0.0, action.lasts.low) + (times - 1) * pause, beside(world, before, after, action, kind),
        )  # fmt: skip

    def source(self, action: Heat) -> float:
        """Return how hot the part itself may become, °C: as measured, else as its tool is set."""
        reaches = Celsius(action.reaches.high) if action.reaches else None
        if self.kind(action.tool.text) == "hot-air":
            return heat.hot_air_source(Celsius(action.at.high), reaches, self.constants.heat)
        return action.at.high if reaches is None else reaches

    def radius(self, tool: str) -> float:
        """Return half the contact of *tool*, m; half of 8 mm where it is not given, the wider of the usual two."""
        known = self.tools.get(tool)
        return known.contact.high / 2 if known and known.contact else 4e-3

    def cooling(self, world: World, part: str, action: Heat, lies: Lies) -> tuple[Estimate, Estimate] | None:
        """
        Return how long *part* stays too hot to hand over and too hot for a hand after *action*, s.

        None where nobody can say; *lies* is what it gives its heat to.
        """
        board, known = world.device.board if world.device else None, world.parts.get(part)
        heating = Heating(
            iron=self.kind(action.tool.text) == "iron",
            lies=lies,
            source=self.source(action),
            room=self.temperature,
            thickness=board.thickness.high if board and board.thickness else None,
            radius=self.radius(action.tool.text),
            lasts=min(action.lasts.high, _DAY),
            times=action.times,
            pause=action.pause.low if action.pause else 0.0,
            material=known.made_of.text if known and known.made_of else None,
        )
        return cooling_times(heating, self.constants)

    def cooled(self, before: State, after: State, low: float) -> Mapping[str, Hot]:
        """Return what is still hot *low* seconds after; what the step heated itself begins to cool at its end."""
        if not after.hot:
            return after.hot
        left = {}
        for name, hot in after.hot.items():
            now = replace(hot, elapsed=hot.elapsed + low) if before.hot.get(name) is hot and low else hot
            if now.elapsed < now.cool:
                left[name] = now
        return left

    def dried(self, world: World, before: State, after: State, step: Step, low: float) -> Mapping[str, Wet]:
        """Return what is still wet after *step*; what it wetted itself begins to dry at its end."""
        if not after.wet or not low:
            return after.wet
        found = {
            name: self._drier(world, name, wet, step, low) if before.wet.get(name) is wet else wet
            for name, wet in after.wet.items()
        }
        return {name: wet for name, wet in found.items() if wet is not None}

    def cleared(
        self, world: World, before: State, after: State, step: Step, low: float
    ) -> Mapping[tuple[str, str], Fume]:
        """Return what can still burn after *step*, likewise."""
        if not after.fumes or not low:
            return after.fumes
        found = {}
        for key, fume in after.fumes.items():
            known = before.fumes.get(key)
            wet = fume.wet
            rest = self._drier(world, key[0], wet, step, low) if known is not None and known.wet is wet else wet
            if rest is not None:
                found[key] = replace(fume, wet=rest)
        return found

    def _drier(self, world: World, name: str, wet: Wet, step: Step, low: float) -> Wet | None:
        """Return *wet* as it is after *low* seconds in the air of *step*, or None where it is dry."""
        rest = wet.left - low / self.drying(world, name, wet, step)
        # A share that is left by the error of the division is none.
        return replace(wet, left=rest) if rest > 1e-9 else None

    def drying(self, world: World, name: str, wet: Wet, step: Step | None = None) -> float:
        """Return how long *wet* takes to dry on part *name* in the air of *step*, else of the bench: s, bad end."""
        slowest = self.drying_estimate(world, name, wet, step)
        return slowest.worst if slowest else math.inf

    def drying_estimate(self, world: World, name: str, wet: Wet, step: Step | None = None) -> Estimate | None:
        """Return the same with its range; None where nobody can say."""
        action = step.action if step else None
        speed, warm, blown = self.air_speed, self.temperature, False
        if step and isinstance(action, Wait):
            tools = (*step.use, action.tool) if action.tool else step.use
            blown = any(self.kind(tool.text) == "air" for tool in tools)
            speed = action.air_speed.low if action.air_speed else speed
            warm = action.at.low if action.at else warm
        part = world.parts.get(name)
        socket = part is not None and part.kind in _SOCKETS and not blown
        area = self.wetted(world, name, wet)
        # Warming the room's air in a cabinet makes it drier; to leave that out is the safe side.
        around = Around(warm, speed, self.humidity)
        slowest: Estimate | None = None
        for substance, _ in self.components(wet.liquid):
            time = drying_time(Wetted(substance.id, wet.trapped, socket, wet.volume, area), around, self.constants)
            if time is None:
                return None
            if slowest is None or time.worst > slowest.worst:
                slowest = time
        return slowest

    def wetted(self, world: World, name: str, wet: Wet) -> float | None:
        """Return the area that is wet, m²; None where the liquid spreads as far as its volume goes."""
        if wet.area is not None or wet.volume is not None:
            return wet.area
        return self._area(world, world.parts.get(name))

    @staticmethod
    def _area(world: World, part: Part | None) -> float:
        board = world.device.board if world.device else None
        if part is not None and part.kind == "board" and board and board.size:
            return board.size[0].high * board.size[1].high
        return _SMALL


def _passed(part: Part | None, reached: float) -> bool:
    return part is not None and part.heat_limit is not None and reached > part.heat_limit.at.low
