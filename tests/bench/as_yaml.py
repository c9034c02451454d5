"""The invented knowledge base, written down as an author of ours would."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

from tests.bench.invent import CLOSING, FAULTS, MATERIALS, OPENING, PLACES, TOOLS, WORKS, devices, symptoms

if TYPE_CHECKING:
    from pathlib import Path

    from tests.bench.invent import Device, Procedure, Step

# Of the demonstration: what every shop has.
SHARED = ("shop.yml", "tools.yml", "materials.yml")
DIAGNOSES = 2  # of each device, which the plain pages of the same text do not have
SETTINGS = """\
site_name: A large bench
docs_dir: procedures
use_directory_urls: false
theme: {name: material, font: false}
plugins: [benchleaf]
"""


def write(count: int, folder: Path, demonstration: Path) -> None:
    """Write a knowledge base of *count* procedures into *folder*; shop, tools and materials are the demonstration's."""
    top = folder / "procedures"
    top.mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    for name in SHARED:
        shutil.copy(demonstration / name, top)
    _write(top / "symptoms.yml", *(
        f"{symptom.id}:\n  title: {symptom.title}\n  customers_say: [{', '.join(map(_quoted, symptom.says))}]"
        for symptom in symptoms()
    ))  # fmt: skip
    for device in devices(count):
        _write(top / "devices" / f"{device.id}.yml", _device(device))
        for number in range(DIAGNOSES):
            symptom = f"{PLACES[number][0]}-{FAULTS[0][0]}"
            _write(top / "diagnosis" / device.id / f"{symptom}.yml", _diagnosis(device, number))
        for procedure in device.procedures:
            _write(top / "repairs" / device.id / f"{procedure.id}.yml", _procedure(procedure))


def _diagnosis(device: Device, number: int) -> str:
    """Return why one place of *device* is dead: what each procedure there cures, and two tests that tell them apart."""
    place, word, pin = PLACES[number]
    works = [work for work in WORKS if any(one.id == f"{work[0]}-{place}" for one in device.procedures)]
    causes = "\n".join(
        f"  {work}: {{title: {cause.capitalize()} at the {word}, seen: {9 - 2 * rank - number}, "
        f"cures: [{{procedure: {work}-{place}, success: {7 - rank} of 9}}]}}"
        for rank, (work, _, cause) in enumerate(works)
    )
    tests = "\n".join(
        f"  {name}:\n    {{do: {do}, takes: {takes} min, access: {level}, outcomes: {{\n      "
        f"low: {{title: Below 20 mA, given: {_given(works, likely, 0.9)}}}, "
        f"usual: {{title: 0.4 to 1.2 A, given: {_given(works, likely, 0.1)}}}}}}}"
        for likely, name, do, takes, level in (
            (0, "current", f"Read the current at the {word}.", 2, "closed"),
            (1, "pin", f"Measure from {pin} to ground.", 1, "open"),
        )
    )
    board = "  board: {title: Main board, seen: 1, cures: [{refer: {title: New board, price: 90 EUR}}]}"
    return f"causes:\n{causes}\n{board}\ntests:\n{tests}"


def _given(works: list[tuple[str, str, str]], likely: int, chance: float) -> str:
    """Return how often each cause shows an outcome: the *likely* one with *chance*, the others in the other cases."""
    shown = {work: chance if rank == likely else 1 - chance for rank, (work, _, _) in enumerate(works)}
    return f"{{{', '.join(f'{name}: {share:.1f}' for name, share in {**shown, 'board': 0.5}.items())}}}"


def _write(path: Path, *lines: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _quoted(text: str) -> str:
    return f'"{text}"'


def _device(device: Device) -> str:
    parts = "\n".join(
        f"  {place}: {{title: {word.capitalize()}, kind: socket, part_of: main-board, heat_limit: 245 °C, "
        "joint_limit: {at: 360 °C, for: 5 s}, near: {battery: 70 mm}, price: 9 EUR}"
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
    tools: [driver-small, pack-tester]
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
materials: {{{", ".join(f"{name}: {amount}" for name, (_, amount) in MATERIALS.items())}}}
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
