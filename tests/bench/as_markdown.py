"""
The invented knowledge base, written down as plain pages for MkDocs with the Material theme: the same text, no tools.

What a careful author would do: the procedures stay out of the navigation, which would otherwise grow with the square of
their number; the theme's search is on; the extensions are those that the text needs. Each step is a heading, so that it
can be linked to, as it can on our pages.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.bench.invent import CLOSING, MATERIALS, OPENING, TOOLS, devices, symptoms

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from tests.bench.invent import Device, Procedure, Step

SETTINGS = """\
site_name: A large bench
use_directory_urls: false
theme: {name: material, font: false}
plugins: [search]
markdown_extensions: [admonition, attr_list, tables, toc: {permalink: true}]
nav: [index.md, symptoms.md, devices.md, tools.md, materials.md]
not_in_nav: |
  /repairs/
  /devices/
"""
COMPLAINTS = {symptom.id: symptom.title for symptom in symptoms()}


def write(count: int, folder: Path) -> None:
    """Write a page for each of *count* procedures into *folder*, with lists of them by symptom and by device."""
    top = folder / "docs"
    every = devices(count)
    by_symptom: dict[str, list[str]] = {name: [] for name in COMPLAINTS}
    for device in every:
        listed = []
        for procedure in device.procedures:
            path = f"repairs/{device.id}/{procedure.id}.md"
            _write(top / path, _page(device, procedure))
            listed.append(f"- [{procedure.title}](../{path})")
            for name in procedure.fixes:
                by_symptom[name].append(f"- [{procedure.title}, {device.title}]({path})")
        _write(top / "devices" / f"{device.id}.md", [f"# {device.title}", "\n".join(listed)])
    _write(folder / "mkdocs.yml", [SETTINGS])
    _write(top / "index.md", ["# A large bench", "By [symptom](symptoms.md) or by [device](devices.md)."])
    _write(top / "devices.md", ["# Devices", *(f"- [{device.title}](devices/{device.id}.md)" for device in every)])
    _write(top / "tools.md", ["# Tools", *(f"## {title} {{#{name}}}" for name, title in TOOLS.items())])
    _write(top / "materials.md", ["# Materials", *(f"## {kind} {{#{name}}}" for name, (kind, _) in MATERIALS.items())])
    _write(top / "symptoms.md", ["# Symptoms", *_complaints(by_symptom)])


def _write(path: Path, blocks: Iterable[str]) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n\n".join(blocks) + "\n", encoding="utf-8")


def _complaints(by_symptom: dict[str, list[str]]) -> Iterable[str]:
    for symptom in symptoms():
        yield f"## {symptom.title} {{#{symptom.id}}}"
        yield "; ".join(symptom.says)
        yield "\n".join(by_symptom[symptom.id])


def _page(device: Device, procedure: Procedure) -> Iterable[str]:
    """Give the page's blocks: all that our page of the procedure says."""
    yield f"# {procedure.title}"
    yield (
        "| Number | Revision | Reviewed | Status | For | Level | Hands on | Waiting |\n"
        "| --- | --- | --- | --- | --- | --- | --- | --- |\n"
        f"| {device.id} / {procedure.id} | {procedure.revision} | {procedure.reviewed} | approved "
        f"| {device.title} A, {device.title} B | Case open, battery isolated "
        "| 1–22 min, 0–9 min of it opening and closing | 16 min |"
    )
    complaints = (f"[{COMPLAINTS[name]}](../../symptoms.md#{name})" for name in procedure.fixes)
    yield f"The customer says {', '.join(complaints)}"
    yield "## Tell it by"
    yield f"- {device.title} A: grey lanyard post.\n- {device.title} B: black lanyard post."
    yield "## Preliminary requirements"
    yield "Conditions:\n\n- Wrist strap on\n- Mat earthed"
    tools = [f"- [{title}](../../tools.md#{name})" for name, title in TOOLS.items()]
    yield "\n".join(["Equipment:\n", "- Small torque driver, T4, 7 cN·m", *tools])
    supplies = [f"- [{kind}](../../materials.md#{name}), {amount}" for name, (kind, amount) in MATERIALS.items()]
    yield "\n".join(["Supplies:\n", *supplies])
    yield "Spares:\n\n- Case seal, 1, always renewed, 4 EUR"
    yield '!!! note "Consent to be had"'
    yield "    The rating against dust and water is not proved again: the owner has agreed in writing."
    yield from _phase("O", "Open up, to level “open”", OPENING)
    yield from _phase("W", "Work", procedure.steps)
    yield from _phase("C", "Close up, to level “closed”", CLOSING)
    yield from _phase("P", "Prove", procedure.prove)
    yield "## Close requirements"
    yield (
        "| To be counted back | Count |\n| --- | --- |\n| Case screw back, item A, M1.6 × 5 | 8 of 8 |\n"
        "| Back shell back | 1 of 1 |\n| Case seal renewed | 1 of 1 |\n| Battery joined | |"
    )
    yield "## Notes"
    yield procedure.notes
    yield "State after: as the steps say. Times are estimates from the steps' own times."
    yield "Local rules and licensed practice come first."


def _phase(letter: str, title: str, steps: Iterable[Step]) -> Iterable[str]:
    yield f"## {title}"
    for number, step in enumerate(steps, 1):
        yield f"### {letter}{number} {step.do}"
        if step.use:
            yield f"With {', '.join(f'[{TOOLS[name]}](../../tools.md#{name})' for name in step.use)}"
        if step.why:
            yield step.why
        if facts := [f"- {fact}" for fact in (step.limit, step.after) if fact]:
            yield "\n".join(facts)
        if step.if_not:
            yield f'!!! warning "If not"\n    {step.if_not}'
