"""The solder of a joint: what the board was made with, what a step puts on, and what a wick takes away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.library.alloys import ALLOYS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.world import World
    from benchleaf.findings import Place
    from benchleaf.model.action import Heat
    from benchleaf.model.step import Step

_WICK = "wick"


def carrier(world: World, part: str) -> str:
    """Return what *part* is soldered to in the end: the outermost part that it is part of, or itself."""
    seen = {part}
    while (known := world.parts.get(part)) and known.part_of and known.part_of.text in world.parts:
        if known.part_of.text in seen:
            break
        part = known.part_of.text
        seen.add(part)
    return part


def on_main_board(world: World, part: str) -> bool:
    """Whether the joints of *part* are those of the device's board: not where it belongs to another one."""
    board = world.device.board if world.device else None
    outer = world.parts.get(carrier(world, part))
    return board is not None and outer is not None and (outer.id == board.part.text or outer.kind != "board")


def made_with(world: World, part: str) -> str | None:
    """Return the solder that the joints of *part* were made with, where the device says it."""
    board = world.device.board if world.device else None
    if board is None or board.solder is None or not on_main_board(world, part):
        return None
    return board.solder.text


def solders(nature: Nature, step: Step) -> Iterator[tuple[str, str, Place]]:
    """Yield each solder that *step* puts on: the material, its alloy, and where it is written."""
    for amount in step.apply:
        name = amount.material.text
        known = nature.materials.get(name)
        if known is not None and known.alloy is not None:
            yield name, known.alloy.text, amount.material.place
        elif known is None and name in ALLOYS:
            yield name, name, amount.material.place


def remade(world: World, nature: Nature, step: Step, action: Heat) -> bool:
    """
    Whether *action* makes the joints of its part: it solders them, or melts them where they are.

    A wick leaves bare pads behind and no joint, and so does an iron that only the board itself is named for.
    """
    part = action.on.text
    if action.kind != "heat" or part not in world.parts:
        return action.kind == "solder" and part in world.parts
    alloy, board, iron = ALLOYS.get(made_with(world, part) or ""), carrier(world, part), _is_iron(nature, action)
    if alloy is None or world.parts[board].kind != "board" or (iron and part == board) or takes_up(nature, step):
        return False
    return (action.at.high if iron else nature.source(action)) >= alloy.solidus.cautious.value


def _is_iron(nature: Nature, action: Heat) -> bool:
    return nature.kind(action.tool.text) == "iron"


def takes_up(nature: Nature, step: Step) -> bool:
    """Whether a wick is among what *step* uses up: under a hot tool it takes up the solder of the joint."""
    known = (nature.materials.get(amount.material.text) for amount in step.apply)
    return any(material is not None and material.kind == _WICK for material in known)


def wicks(nature: Nature) -> Iterator[str]:
    """Yield the wicks of the shop."""
    return (name for name, material in nature.materials.items() if material.kind == _WICK)
