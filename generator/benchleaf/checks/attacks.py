"""Where a step lays a liquid, what it does to what it comes to there, and what would do nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.ignition import near
from benchleaf.library.contacts import Harm, harm
from benchleaf.library.solids import SOLIDS
from benchleaf.library.substances import SUBSTANCES
from benchleaf.model import action as act
from benchleaf.physics.drying import runoff_reach
from benchleaf.physics.types import CubicMetres, Metres
from benchleaf.units.quantity import Volume

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World
    from benchleaf.findings import Place
    from benchleaf.model.step import Step

DOES = {Harm.SWELLS: "swells", Harm.CRAZES: "crazes", Harm.DESTROYS: "destroys"}
# Of these the housing is plastic where nobody says otherwise; the weakest that is common is taken (common practice, no
# source).
_HOUSED = frozenset(
    {"shell", "cover", "window", "socket", "button", "label", "speaker", "microphone", "camera", "display"}
)
_UNNAMED = "plastic"
# The gentlest first; what is named must not bring the next finding.
_GENTLE = ("deionised-water", "isopropanol", "ethanol", "n-heptane", "ethyl-acetate", "acetone", "d-limonene")


@dataclass(frozen=True, slots=True)
class Laid:
    """A liquid that comes on a part: `volume` is None in a bath, which takes in all that is part of it."""

    liquid: str
    volume: Volume | None
    part: str
    place: Place


@dataclass(frozen=True, slots=True)
class Met:
    """
    A part that a liquid comes to, what it is made of, and how far off it is, m; `said` whether its file says so.

    `does` says what the liquid does to it, and `substance` what in the liquid; both are empty where it bears it.
    """

    part: str
    solid: str
    said: bool
    distance: Metres
    substance: str
    does: str


def laid(world: World, step: Step) -> Iterator[Laid]:
    """
    Yield each liquid of *step* that comes on a part which is named.

    A flux at a hot joint is none: it boils off where it is.
    """
    action, part = step.action, ""
    match action:
        case act.Solvent(on=on):
            part = on.text
            yield Laid(action.material.text, action.volume, part, action.place)
        case act.Bath(on=on):
            part = on.text
            yield Laid(action.material.text, None, part, action.place)
        case act.Work(on=on) if on is not None:
            part = on.text
        case act.Release(bond=bond) | act.Renew(bond=bond) if bond.text in world.bonds:
            part = world.bonds[bond.text].part.text
        case _:
            pass
    for amount in step.apply if part else ():
        if isinstance(amount.amount, Volume):
            yield Laid(amount.material.text, amount.amount, part, amount.material.place)


def on_itself(world: World, nature: Nature, moment: Moment, one: Laid) -> tuple[Met, ...]:
    """Return the parts that *one* is put on."""
    names = moment.before.moving(one.part, world.family) if one.volume is None else frozenset({one.part})
    return tuple(_met(world, nature, one.liquid, ((name, Metres(0.0)) for name in world.parts if name in names)))


def run_to(world: World, nature: Nature, state: State, one: Laid) -> tuple[Met, ...]:
    """
    Return what *one* can run to over the board: what is part of the part, wherever on it, and its neighbours.

    What lies on the other side of the board is safe.
    """
    if one.volume is None or not one.volume.high > 0:
        return ()
    reach = runoff_reach(CubicMetres(one.volume.high), nature.constants.drying)
    on_it = sorted(state.moving(one.part, world.family) - {one.part})
    beside = dict.fromkeys(on_it, Metres(0.0))
    for neighbour in world.near.get(one.part, ()):
        distance = Metres(
            max(0.0, neighbour.distance.low) if neighbour.distance and neighbour.via != "touching" else 0.0
        )
        if neighbour.via != "other-side" and distance < reach and near(world, state, one.part, neighbour.part):
            for member in sorted(state.moving(neighbour.part, world.family) - {one.part}):
                beside[member] = min(distance, beside.get(member, distance))
    return tuple(_met(world, nature, one.liquid, beside.items()))


def _met(world: World, nature: Nature, liquid: str, places: Iterable[tuple[str, Metres]]) -> Iterator[Met]:
    contents = [substance.id for substance, share in nature.components(liquid) if share > 0]
    for name, distance in places:
        solid, said = _make(world, name)
        if solid:
            found = [(seen, substance) for substance in contents if (seen := harm(substance, solid))]
            worst = max(found, key=lambda pair: pair[0].harm, default=None)
            does, substance = (DOES[worst[0].harm], worst[1]) if worst else ("", "")
            yield Met(name, solid, said, distance, substance, does)


def _make(world: World, name: str) -> tuple[str, bool]:
    """Return what the part *name* is made of, "" where nothing is known of it, and whether its file says so."""
    part = world.parts.get(name)
    if part is None or (part.made_of and part.made_of.text not in SOLIDS):
        return "", False
    if part.made_of:
        return part.made_of.text, True
    return (_UNNAMED, False) if part.kind in _HOUSED else ("", False)


def harmless(solids: Iterable[str], *, bathed: bool) -> list[str]:
    """Return the built-in liquids that do nothing to any of *solids*; what burns is none for a bath."""
    several = tuple(solids)
    return [
        liquid
        for liquid in _GENTLE
        if not any(harm(liquid, solid) for solid in several) and not (bathed and SUBSTANCES[liquid].flammable)
    ]
