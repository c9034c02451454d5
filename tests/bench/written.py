"""The invented knowledge base written down twice: as our YAML, and as plain Markdown pages of the same text."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

from tests.bench.invent import CLOSING, MATERIALS, OPENING, PLACES, TOOLS, devices, symptoms

if TYPE_CHECKING:
    from pathlib import Path

    from tests.bench.invent import Device, Procedure, Step

# Of the demonstration: what every shop has.
SHARED = ("shop.yml", "tools.yml", "materials.yml")
OURS = """\
site_name: A large bench
docs_dir: procedures
use_directory_urls: false
theme: {name: material, font: false}
plugins: [benchleaf]
"""
# What a careful author of plain pages would choose: the procedures stay out of the navigation, which would otherwise
# grow with the square of their number; search is on; the extensions are those that the text needs.
PLAIN = """\
site_name: A large bench
use_directory_urls: false
theme: {name: material, font: false}
plugins: [search]
markdown_extensions: [admonition, attr_list, tables, toc: {permalink: true}]
nav: [index.md, symptoms.md, devices.md]
not_in_nav: |
  /repairs/
  /devices/
"""


def as_yaml(count: int, folder: Path, demonstration: Path) -> None:
    """Write a knowledge base of *count* procedures into *folder*; shop, tools and materials are the demonstration's."""
    top = folder / "procedures"
    top.mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(OURS, encoding="utf-8")
    for name in SHARED:
        shutil.copy(demonstration / name, top)
    _write(top / "symptoms.yml", *(
        f"{symptom.id}:\n  title: {symptom.title}\n  customers_say: [{', '.join(map(_quoted, symptom.says))}]"
        for symptom in symptoms()
    ))  # fmt: skip
    for device in devices(count):
        _write(top / "devices" / f"{device.id}.yml", _device(device))
        for procedure in device.procedures:
            _write(top / "repairs" / device.id / f"{procedure.id}.yml", _procedure(procedure))


def as_markdown(count: int, folder: Path) -> None:
    """Write the same text as plain pages, with lists of them by symptom and by device."""
    top = folder / "docs"
    top.mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(PLAIN, encoding="utf-8")
    every = devices(count)
    by_symptom: dict[str, list[str]] = {}
    for device in every:
        for procedure in device.procedures:
            _write(top / "repairs" / device.id / f"{procedure.id}.md", _page(device, procedure))
            for name in procedure.fixes:
                link = f"repairs/{device.id}/{procedure.id}.md"
                by_symptom.setdefault(name, []).append(f"- [{procedure.title} ({device.title})]({link})")
        links = (f"- [{procedure.title}](../repairs/{device.id}/{procedure.id}.md)" for procedure in device.procedures)
        _write(top / "devices" / f"{device.id}.md", f"# {device.title}\n", *links)
    _write(top / "index.md", "# A large bench\n\nBy [symptom](symptoms.md) or by [device](devices.md).")
    _write(top / "devices.md", "# Devices\n", *(f"- [{device.title}](devices/{device.id}.md)" for device in every))
    _write(top / "symptoms.md", "# Symptoms", *(
        f"\n## {symptom.title}\n\n{'; '.join(symptom.says)}\n\n" + "\n".join(by_symptom.get(symptom.id, []))
        for symptom in symptoms()
    ))  # fmt: skip


def _write(path: Path, *lines: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _quoted(text: str) -> str:
    return f'"{text}"'


def _device(device: Device) -> str:
    parts = "\n".join(
        f"  {place}: {{title: {word.capitalize()}, kind: socket, part_of: main-board, heat_limit: 245 °C, "
        "joint_limit: {at: 360 °C, for: 5 s}, near: {battery: 38 mm}, price: 9 EUR}"
        for place, word, _ in PLACES
    )
    return f"""\
title: {device.title}
about: Invented, to see how a large shop's site is built.
price: 640 EUR
variants:
  a: {{title: {device.title} A, tell_by: Grey lanyard post.}}
  b: {{title: {device.title} B, tell_by: Black lanyard post.}}
batteries:
  pack: {{part: battery, plug: battery-plug, chemistry: li-ion, cells: 1, voltage: 3.7 V, capacity: 2900 mAh}}
board: {{part: main-board, thickness: 0.8 mm, size: [60 mm, 90 mm], solder: sac305}}
parts:
  back-shell: {{title: Back shell, kind: shell, made_of: polycarbonate}}
  case-seal: {{title: Case seal, kind: seal, single_use: true, keeps_out: IP67, price: 4 EUR}}
  battery: {{title: Battery, kind: battery, heat_limit: 60 °C, price: 20 EUR, lead_time: 3 d}}
  main-board: {{title: Main board, kind: board}}
{parts}
connectors:
  battery-plug: {{title: Battery plug}}
fasteners:
  case-screw:
    {{title: Case screw, thread: M1.6, length: 5 mm, grade: "8.8", drive: T4, count: 8, into: brass, engagement: 3 mm,
     torque: 7 cN·m}}
access:
  open:
    title: Case open, battery isolated
    volume: 60 cm³
    tools: [driver-small]
    opening:
{_steps(OPENING, "      ")}
    closing:
{_steps(CLOSING, "      ")}"""


def _procedure(procedure: Procedure) -> str:
    return f"""\
title: {procedure.title}
access: open
revision: {procedure.revision}
status: approved
reviewed: {procedure.reviewed}
fixes: [{", ".join(procedure.fixes)}]
consent: [seal-rating]
tools: [{", ".join(TOOLS)}]
materials: {{{", ".join(f"{name}: {amount}" for name, amount in MATERIALS.items())}}}
notes: {procedure.notes}
steps:
{_steps(procedure.steps, "  ")}
prove:
{_steps(procedure.prove, "  ")}"""


def _steps(steps: tuple[Step, ...], indent: str) -> str:
    return "\n".join(f"{indent}- {line}" for line in map(_step, steps))


def _step(step: Step) -> str:
    more = [f"use: [{', '.join(step.use)}]"] * bool(step.use) + [f"why: {_quoted(step.why)}"] * bool(step.why)
    return f"{{{', '.join([f'do: {step.do}', *more, *[step.action] * bool(step.action)])}}}"


def _page(device: Device, procedure: Procedure) -> str:
    """Return what our page of the procedure says, as a Markdown page of headings, lists, tables and one box."""
    fixed = {symptom.id: symptom.title for symptom in symptoms()}
    phases = (
        ("O", "Open up", OPENING),
        ("W", "Work", procedure.steps),
        ("C", "Close up", CLOSING),
        ("P", "Prove", procedure.prove),
    )
    return "\n".join(
        [
            f"# {procedure.title}\n",
            "| Device | Revision | Date | Status | For | Level |\n| --- | --- | --- | --- | --- | --- |",
            f"| {device.title} | {procedure.revision} | {procedure.reviewed} | approved | A, B | Case open |\n",
            f"The customer says: {'; '.join(fixed[name] for name in procedure.fixes)}\n",
            "## Preliminary requirements\n",
            "Equipment:\n\n" + "\n".join(f"- {name}" for name in TOOLS) + "\n",
            "Supplies:\n\n" + "\n".join(f"- {amount} {name}" for name, amount in MATERIALS.items()) + "\n",
            "!!! warning\n    Local rules and licensed practice come first. Isopropanol burns: keep flames away.\n",
            *(_phase(*phase) for phase in phases),
            "## Close requirements\n\n| To be counted back | Count |\n| --- | --- |",
            "| Case screw | 8 |\n| Case seal, new | 1 |\n| Back shell | 1 |\n| Battery plug | 1 |\n",
            f"## Notes\n\n{procedure.notes}",
        ]
    )


def _phase(letter: str, title: str, steps: tuple[Step, ...]) -> str:
    rows = "\n".join(
        f"| {letter}{number} | {step.do} {step.why} | {step.limit} |" for number, step in enumerate(steps, 1)
    )
    return f"## {title}\n\n| No. | Instruction | Limit or reading |\n| --- | --- | --- |\n{rows}\n"
