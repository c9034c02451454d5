"""A solvent that swells, crazes or destroys what it comes to leaves damage that no second wipe takes back."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.attacks import harmless, laid, on_itself, run_to
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.physics.drying import most_runoff, runoff_reach
from benchleaf.physics.types import CubicMetres
from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits, tidy

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.checks.attacks import Laid, Met
    from benchleaf.dryrun.trace import Trace
    from benchleaf.physics.constants import Drying
    from benchleaf.units.quantity import Volume

_SEVERAL = 3  # More harmless liquids than these are not listed in a message.


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each liquid that attacks what it is put on, and each that runs to a neighbour which it attacks."""
    world, nature = trace.world, trace.nature
    for moment in trace.every():
        # What another procedure does on the way to make the device safe is said of that one.
        for one in laid(world, moment.step) if moment.kind != "elsewhere" else ():
            met = on_itself(world, nature, moment, one), run_to(world, nature, moment.before, one)
            itself, beside = ([each for each in some if each.does] for some in met)
            if not (itself or beside):
                continue
            instead = _instead(one, (*met[0], *met[1]))
            if itself:
                message = f"{_attacks(one, itself)}: the damage stays"
                level = Level.ERROR if any(each.said for each in itself) else Level.WARNING
                yield Hit(one.place, message, instead, level=level, step=moment.step, about="itself")
            if one.volume and beside:
                message, less = _runs(nature.constants.drying, one, one.volume, beside)
                cure = f"{less} Or {instead[0].lower()}{instead[1:]}" if less else instead
                yield Hit(one.place, message, cure, level=Level.WARNING, step=moment.step, about="beside")


def _attacks(one: Laid, hurt: Sequence[Met]) -> str:
    others = dict.fromkeys(each.substance for each in hurt if each.substance != one.liquid)
    holds = f" (with {listed(f'`{name}`' for name in others)})" if others else ""
    return f"`{one.liquid}`{holds} {listed(f'{each.does} `{each.part}` ({_make(each)})' for each in hurt)}"


def _make(each: Met) -> str:
    return each.solid if each.said else "taken for plastic, since nobody says what it is made of"


def _instead(one: Laid, met: Sequence[Met]) -> str:
    good = harmless((each.solid for each in met), bathed=one.volume is None)[:_SEVERAL]
    if not good:
        return "Work dry: each built-in liquid harms one of them."
    return f"Write {listed([f'`{name}`' for name in good], 'or')} instead."


def _runs(constants: Drying, one: Laid, volume: Volume, beside: Sequence[Met]) -> tuple[str, str]:
    """Return what runs where, and the volume that stops short of it; nothing where the neighbour touches."""
    nearest = min(each.distance for each in beside)
    reach = digits(runoff_reach(CubicMetres(volume.high), constants) * 1e3, 2, math.ceil)
    where = f"{digits(nearest * 1e3, 2, math.floor)} mm away" if nearest > 0 else "right beside it"
    message = f"{_attacks(one, beside)}, {where}: {tidy(volume.text)} can run {reach} mm over a board (an estimate)"
    if nearest <= 0:
        return message, ""
    unit = spellings("volume")[volume.unit]
    most = digits(unit.from_base(most_runoff(nearest, constants)), 2, math.floor)
    return message, f"Write at most {most} {unit.symbol}, or take out or cover what is beside it."


RULE = Rule("solvent-attack", Level.ERROR, watch=watch)
