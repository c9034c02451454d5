"""Rows that several pages list: a procedure, a symptom by device."""

from __future__ import annotations

from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING

from benchleaf.derive.usage import answers
from benchleaf.model.diagnosis import Referral
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.isolation.actions import first_action
from benchleaf.pages.compose.isolation.groups import groups
from benchleaf.pages.compose.site import device_title, number_of, only_for, page_of, page_to_work_by, variant_titles
from benchleaf.pages.home import Matrix, MatrixRow
from benchleaf.pages.parts import Link, ProcedureRow, Words, words
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from benchleaf.model.diagnosis import Cure, Diagnosis
    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.compose.site import Site


def procedure_row(site: Site, procedure: Procedure, root: str) -> ProcedureRow:
    """Return *procedure* as one row of a list."""
    device = site.base.devices.get(procedure.device)
    variants = site.base.variants_of(procedure)
    hands, waiting = site.lasts(procedure)
    symptoms = [Link(site.base.symptoms[name.text].title.text, f"{root}symptoms/{name}.html")
                for name in procedure.fixes if name.text in site.base.symptoms]  # fmt: skip
    return ProcedureRow(
        procedure=Link(procedure.title.text, root + page_of(procedure)),
        number=number_of(procedure),
        level=procedure.access.text,
        hands_on=show.interval(hands.low, hands.high),
        waiting=show.interval(waiting.low, waiting.high),
        revision=str(procedure.revision),
        status=procedure.status,
        variants=variant_titles(device, variants),
        fixes=joined(symptoms),
        only=only_for(device, procedure.variants),
    )


def joined(links: Iterable[Link]) -> Words:
    """Return links in one line with commas between."""
    pieces: list[str | Link] = []
    for link in links:
        pieces += [", ", link] if pieces else [link]
    return words(*pieces)


def runs(numbers: Sequence[str], holds: Iterable[bool]) -> str:
    """Return the *numbers* for which it *holds*, runs of them as `O1–O4`."""
    found = []
    for value, group in groupby(zip(numbers, holds, strict=True), key=itemgetter(1)):
        if value:
            run = [number for number, _ in group]
            found.append(run[0] if len(run) == 1 else f"{run[0]}–{run[-1]}")
    return ", ".join(found)


def matrix(site: Site, root: str) -> Matrix:
    """Return the symptoms by devices; a cell leads to the symptom on that device and says what answers it."""
    devices = list(site.base.devices.values())
    rows = []
    for symptom in site.base.symptoms.values():
        cells = tuple(_cell(site, symptom.id, device.id, root) for device in devices)
        rows.append(MatrixRow(Link(symptom.title.text, f"{root}symptoms/{symptom.id}.html"), cells))
    heads = tuple(Link(device.title.text, f"{root}devices/{device.id}.html") for device in devices)
    return Matrix(heads, tuple(rows))


def _cell(site: Site, symptom: str, device: str, root: str) -> Words:
    found = answers(site.usage, symptom, device)
    diagnosis = site.base.diagnoses.get((device, symptom))
    if not found and diagnosis is None:
        return ()
    target = f"{root}symptoms/{symptom}.html#{device}"
    first = _first(site, diagnosis, root) if diagnosis and device in site.base.devices else ()
    if first:
        return first
    if diagnosis and diagnosis.causes:
        return words(Link(f"{_count(len(diagnosis.causes), 'cause')}, {_count(len(found), 'procedure')}", target))
    if len(found) == 1:
        return words(Link(found[0].title.text, root + page_of(found[0])))
    return words(Link(_count(len(found), "procedure"), target))


def _first(site: Site, diagnosis: Diagnosis, root: str) -> Words:
    """Return what to do first, on the first variants where they cost differently; nothing without a plan."""
    actions = (first_action(site, group, root) for group in groups(site, diagnosis))
    return next((action.do for action in actions if action), ())


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def device_link(site: Site, device: str, root: str) -> Link:
    """Return the link to a device; plain words for procedures of any device."""
    return Link(device_title(site, device), "" if device == ANY_DEVICE else f"{root}devices/{device}.html")


def cure_line(site: Site, device: str, cure: Cure | Referral, root: str) -> Words:
    """Return what ends a cause on *device*: a procedure and how often it did, or someone else and the price."""
    if isinstance(cure, Referral):
        price = f", {show.tidy(cure.price.text)}" if cure.price else ""
        return words(f"refer: {cure.title}{price}")
    name = cure.procedure.text
    target = site.base.procedures.get((device, name)) or site.base.procedures.get((ANY_DEVICE, name))
    counted = f", {cure.cured} of {cure.tried} cured" if cure.tried is not None else ""
    if target is None:
        return words(name, counted)
    begin = words(", ", Link("begin at the bench", root + page_to_work_by(target))) if site.outcome(target).ways else ()
    return (*words(Link(target.title.text, root + page_of(target)), counted), *begin)
