"""A small sound knowledge base as texts: a test adds or changes the one file that it is about."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf import build
from benchleaf.source.folder import File, Folder, identify

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from benchleaf.build import Checked
    from benchleaf.pages.compose.site import Options

DOCS = "procedures"
EXAMPLE = f"{DOCS}/repairs/wader/example.yml"
"""Where a test's one procedure stands when nothing else is said."""

SHOP = """\
name: Saltmarsh Instrument Bench
room: {volume: 45 m³, air_changes: 3 /h, temperature: 21 °C, humidity: 50 %}
bench: {air_speed: 0.1 m/s, esd: {wrist_strap: true, mat: true}}
exposure_limit: strictest
units: {torque: cN·m, temperature: °C}
labour: 48 EUR/h
write_off: 90 EUR
"""
SYMPTOMS = """\
no-light:
  title: Gives no light
  customers_say: [stays dark, the lamp is dead]
  ask: ["Was it dropped?"]
"""
TOOLS = """\
iron:         {title: Soldering iron, kind: iron, range: 200–450 °C, contact: 2 mm}
heat-mat:     {title: Heat mat, kind: heat-mat, range: 40–110 °C}
driver-small: {title: Small torque driver, kind: torque-driver, range: 2–20 cN·m, resolution: 0.5 cN·m, drives: [T4]}
multimeter:   {title: Multimeter, kind: meter, measures: {resistance: 0.1 Ω to 40 MΩ, voltage: 1 mV to 600 V}}
thermocouple: {title: Thermocouple, kind: meter, measures: {temperature: 0 °C to 400 °C}}
microscope:   {title: Stereo microscope, kind: magnifier}
esd-brush:    {title: ESD brush, kind: brush}
air-duster:   {title: Filtered air duster, kind: air}
pry-wedge:    {title: Plastic wedge, kind: pry, conductive: false}
wash-tank:    {title: Ultrasonic tank, kind: tank, range: 20–60 °C}
drying-oven:  {title: Drying cabinet, kind: oven, range: 30–80 °C, vented: true, rated_for_solvents: false}
"""
MATERIALS = """\
no-clean-flux: {title: No-clean flux, kind: flux, contains: {isopropanol: 90 %}}
sac305-wire:   {title: SAC305 wire, kind: solder, alloy: sac305}
lens-adhesive: {title: Lens adhesive, kind: adhesive, fixture: 30 min, full: 24 h}
"""
WADER = """\
title: Wader marsh lamp
about: A hand lamp with a bonded lens. Invented for the tests.
price: 120 EUR
variants:
  w1: {title: Wader W1, tell_by: One button.}
  w2: {title: Wader W2, tell_by: Two buttons.}
batteries:
  pack: {part: battery, plug: battery-plug, chemistry: li-ion, cells: 1, voltage: 3.7 V, capacity: 1200 mAh}
board: {part: main-board, thickness: 1 mm, size: [60 mm, 90 mm], solder: sac305}
parts:
  back-shell:  {title: Back shell, kind: shell, made_of: polycarbonate}
  battery:     {title: Battery, kind: battery, heat_limit: 60 °C}
  main-board:  {title: Main board, kind: board, heat_limit: 125 °C, near: {}}
  lamp:        {title: Lamp, kind: other, heat_limit: 85 °C}
  lamp-socket:
    title: Lamp socket
    kind: socket
    part_of: main-board
    heat_limit: 245 °C
    joint_limit: {at: 360 °C, for: 5 s}
    near: {battery: 60 mm}
  buzzer:      {title: Buzzer, kind: speaker, only: [w2]}
  lens:        {title: Lens, kind: window, made_of: glass, heat_limit: 90 °C, near: {battery: 40 mm}}
bonds:
  lens-bond: {title: Lens bond, part: lens, softens: 60–75 °C}
connectors:
  battery-plug: {title: Battery plug}
  lamp-plug:    {title: Lamp plug, serves: [light]}
  buzzer-plug:  {title: Buzzer plug, serves: [sound], only: [w2]}
fasteners:
  case-screw:
    {title: Case screw, thread: M2, length: 5 mm, grade: "8.8", drive: T4, count: 4, into: brass, engagement: 4 mm,
     torque: 12 cN·m}
access:
  open:
    title: Case open, battery isolated
    volume: 40 cm³
    tools: [driver-small]
    opening:
      - {do: Shut the lamp down., power: off}
      - {do: Remove the four case screws., unscrew: {case-screw: 4}, use: [driver-small]}
      - {do: Lift the back shell away., remove: back-shell}
      - {do: Unplug the battery., unplug: battery-plug}
      - do: Look at the shape of the battery.
        check: {battery: shape, if_not: {stop: The battery is swollen. Leave it and fetch the sand box.}}
    closing:
      - {do: Plug the battery in., plug: battery-plug}
      - {do: Set the back shell down., fit: back-shell}
      - {do: Drive the four case screws., screw: {case-screw: 4}, use: [driver-small]}
  bare-board:
    title: Main board out
    from: open
    opening:
      - {do: Unplug the lamp., unplug: lamp-plug}
      - {do: Unplug the buzzer., unplug: buzzer-plug, only: [w2]}
      - {do: Lift the main board out., remove: main-board}
    closing:
      - {do: Lower the main board in., fit: main-board}
      - {do: Plug the buzzer in., plug: buzzer-plug, only: [w2]}
      - {do: Plug the lamp in., plug: lamp-plug}
"""
REPLACE_LAMP = """\
title: Replace the lamp
access: open
status: approved
reviewed: 2026-09-14
fixes: [no-light]
tools: [multimeter]
steps:
  - {do: Unplug the lamp., unplug: lamp-plug}
  - {do: Lay a new lamp in., replace: lamp}
  - {do: Plug the lamp in., plug: lamp-plug}
prove:
  - {do: Switch the lamp on., power: on}
  - do: Measure the voltage at the test pads in the grip.
    check: {measure: voltage, with: multimeter, expect: 3.0–4.2 V, if_not: {stop: Charge the battery first.}}
  - do: Look into the lens from the side.
    check: {gone: no-light, if_not: {stop: The new lamp is dark. Send the board away.}}
  - {do: Switch the lamp off., power: off}
"""
FILES = {
    f"{DOCS}/shop.yml": SHOP,
    f"{DOCS}/symptoms.yml": SYMPTOMS,
    f"{DOCS}/tools.yml": TOOLS,
    f"{DOCS}/materials.yml": MATERIALS,
    f"{DOCS}/devices/wader.yml": WADER,
    f"{DOCS}/repairs/wader/replace-lamp.yml": REPLACE_LAMP,
}
OTHERS = frozenset({"index.md", "media/wader-back.svg"})


def folder(changes: Mapping[str, str | bytes | None]) -> Folder:
    """Return the small knowledge base with *changes*: a file's text by its path, or None where there shall be none."""
    texts = {path: text for path, text in {**FILES, **changes}.items() if text is not None}
    files = [_file(path, text if isinstance(text, bytes) else text.encode()) for path, text in sorted(texts.items())]
    return Folder(Path(), DOCS, tuple(files), OTHERS)


# What the unchanged files became: they are read once for all tests.
_CACHE = build.Cache()


def check(changes: Mapping[str, str | bytes | None], today: dt.date | None = None) -> Checked:
    """Return the small knowledge base with *changes*, checked; where *today* is given, as of that day."""
    return build.check(folder(changes), _CACHE, today)


def pages(checked: Checked, options: Options) -> dict[str, str]:
    """Return the text of each page of a base that is small enough for one process, by its path in the site."""
    kept: dict[str, str] = {}
    build.draw(checked, options, kept.__setitem__)
    return kept


def _file(path: str, data: bytes) -> File:
    kind, device, name = identify(path.removeprefix(f"{DOCS}/"))
    return File(path, kind, device, name, data)
