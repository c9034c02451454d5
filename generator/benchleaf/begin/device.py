"""The draft of a device: one that opens with four screws and has a battery, to be made into the one on the bench."""

from __future__ import annotations

from string import Template
from typing import TYPE_CHECKING

from benchleaf.begin.words import modeline, named, offered, remark, whole
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.shop import Tool

_DRIVER = "torque-driver"
# From what an M2 screw in brass bears, downwards: the first that a driver of the shop can set.
_TORQUES = ("14 cN·m", "7 cN·m", "4 cN·m")
_SWOLLEN = "The battery is swollen. Do not lever it: put the open device in the sand box."
_DEVICE = Template("""\
# A draft: it passes the check. Every name, number and way in is a guess until someone has measured it on the
# bench: what is wrong here is wrong in every procedure of the device.
title: $title  # fill in: what the shop calls it
about: Handheld device with a screwed cover.  # fill in: what it is, in a sentence
# variants: {v1: {title: ..., tell_by: how one sees which it is}, v2: ...} where there are several
batteries:  # fill in: what stands on the label of each
  pack: {part: battery, plug: battery-plug, chemistry: li-ion, cells: 1, voltage: 3.7 V, capacity: 1000 mAh}
# kind is one of shell, cover, window, display, battery, board, shield, socket, button, array-package, package,
# flex, sensor, camera, speaker, microphone, seal, label, storage, other. heat_limit and joint_limit say what a
# part bears; near: {battery: 12 mm} names what gets warm beside it.
parts:  # fill in: the parts, each with its kind and what it is made of
  cover:      {title: Cover, kind: cover, made_of: polycarbonate}
  battery:    {title: Battery, kind: battery, heat_limit: 60 °C}
  main-board: {title: Main board, kind: board}
connectors:  # fill in: the plugs; serves: [display] names what fails when one is left off
  battery-plug: {title: Battery plug}
fasteners:  # fill in: the screws, with thread, length, number and torque
  cover-screw:
    {title: Cover screw, thread: M2, length: 5 mm, grade: "8.8", count: 4, into: brass, engagement: 3 mm,
     $drive}
access:  # fill in: the ways in, one level from another, and the way back of each
  open:
    title: Cover off, battery isolated
    volume: 40 cm³  # fill in: the free air inside, for vapour in the closed case
$tools    opening:
      - {do: Switch the device off., power: off}
      - {do: Remove the four cover screws., unscrew: {cover-screw: 4}, ${use}takes: 60–90 s}
      - {do: Lift the cover away., remove: cover, takes: 20–40 s}
      - {do: Unplug the battery., unplug: battery-plug, takes: 10–20 s}
      - do: Look at the shape of the battery.
        check: {battery: shape, if_not: {stop: "$swollen"}}
        takes: 10–20 s
    closing:
      - {do: Plug the battery in., plug: battery-plug, takes: 10–20 s}
      - {do: Set the cover down., fit: cover, takes: 20–40 s}
      - {do: Drive the four cover screws crosswise., screw: {cover-screw: 4}, ${use}takes: 60–120 s}
""")


def drafts(base: KnowledgeBase, name: str) -> Iterator[str]:
    """Yield drafts of the device *name*: with a driver of the shop's, then with screws that are driven by hand."""
    for tool in base.tools.values():
        if tool.kind == _DRIVER and tool.drives and tool.range:
            yield from (_draft(base, name, tool, torque) for torque in _TORQUES)
    yield _draft(base, name, None, "")


def _draft(base: KnowledgeBase, name: str, driver: Tool | None, torque: str) -> str:
    drive = (
        f"drive: {driver.drives[0]}, torque: {torque}" if driver else "torque: hand, because: Nobody has measured it"
    )
    text = _DEVICE.substitute(
        title=named(name),
        swollen=_SWOLLEN,
        drive=drive,
        tools=f"    tools: [{driver.id}]\n" if driver else "",
        use=f"use: [{driver.id}], " if driver else "",
    )
    tools = whole(offered("Tools of the shop", {one: tool.title.text for one, tool in base.tools.items()}))
    sets = f"{driver.title} sets {tidy(driver.range.text)}" if driver and driver.range else ""
    return f"{modeline('device', 2)}\n{text}{tools}{whole(remark(sets)) if sets else ''}"
