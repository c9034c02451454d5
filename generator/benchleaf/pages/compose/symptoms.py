"""Where a reader starts: the first page, and the page of one symptom."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ranked
from benchleaf.derive.usage import answers, shown
from benchleaf.model.diagnosis import Cure, Referral
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.rows import device_link, matrix, procedure_row
from benchleaf.pages.compose.site import Site, choice, number_of, page_of, page_to_work_by
from benchleaf.pages.home import CauseRow, ChangeRow, HomeView, SymptomDevice, SymptomView
from benchleaf.pages.parts import NO_PROSE, Cell, Link, Share, TitleBlock, Words, words
from benchleaf.pages.prose import prose
from benchleaf.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.shop import Symptom

_LATELY = 8
_TOGETHER = "These faults come together: confirm or rule out each of them."


def home_view(site: Site) -> HomeView:
    """Return the first page."""
    dated = [procedure for procedure in shown(site.base, drafts=False) if procedure.reviewed]
    lately = sorted(dated, key=lambda procedure: (procedure.reviewed or "", number_of(procedure)), reverse=True)
    return HomeView(
        shell=site.shell("index.html", "What does the customer say?", search="home"),
        heading="What does the customer say?",
        matrix_title="Symptoms by device",
        matrix=matrix(site, ""),
        changes_title="Reviewed last",
        changes=tuple(
            ChangeRow(procedure.reviewed or "", Link(number_of(procedure), page_of(procedure)),
                      f"rev {procedure.revision}", procedure.title.text)
            for procedure in lately[:_LATELY]
        ),
        notes=prose(_for_the_page(site.house)),
    )  # fmt: skip


def _for_the_page(text: str) -> str:
    """Return a note without its first heading, since the page has its own, and with links that lead to pages."""
    first, _, rest = text.lstrip().partition("\n")
    body = rest if first.startswith("# ") else text
    return re.sub(r"(\]\((?![a-z]+:)[^)\s]*?)\.md(?=[#)\s])", r"\1.html", body)


def symptom_view(site: Site, symptom: Symptom) -> SymptomView:
    """Return the page of *symptom*, device by device."""
    path = f"symptoms/{symptom.id}.html"
    devices = tuple(_devices(site, symptom))
    return SymptomView(
        shell=site.shell(path, symptom.title.text, source=f"{site.options.docs}/symptoms.yml"),
        title=TitleBlock(
            "Symptom",
            symptom.title.text,
            (
                Cell("Devices", str(len(devices))),
                Cell("Procedures", str(len(site.usage.by_symptom.get(symptom.id, ())))),
            ),
        ),
        says=symptom.customers_say,
        asks=symptom.ask,
        devices=devices,
    )


def _devices(site: Site, symptom: Symptom) -> Iterator[SymptomDevice]:
    root = "../"
    for device in [*site.base.devices, ANY_DEVICE]:
        diagnosis = site.base.diagnoses.get((device, symptom.id))
        found = answers(site.usage, symptom.id, device)
        if device != ANY_DEVICE:
            found = tuple(procedure for procedure in found if procedure.device == device) if not diagnosis else found
        if not found and diagnosis is None:
            continue
        known = site.base.devices.get(device)
        yield SymptomDevice(
            device=device_link(site, device, root),
            anchor=device,
            causes=tuple(_causes(site, diagnosis, root)) if diagnosis else (),
            procedures=tuple(procedure_row(site, procedure, root) for procedure in found),
            variants=choice(known, known.variant_ids) if known else None,
            remark=_TOGETHER if diagnosis and diagnosis.several else "",
            notes=prose(diagnosis.notes or "") if diagnosis else NO_PROSE,
        )


def _causes(site: Site, diagnosis: Diagnosis, root: str) -> Iterator[CauseRow]:
    """
    Yield the causes, the likeliest first, by all that was counted.

    Faults that come together are listed as written: a rank would say that one may stop at the first.
    """
    for one in ranked(site.base, diagnosis):
        cause, seen = one.cause, f"seen {one.seen} time{'' if one.seen == 1 else 's'}"
        percent = round(100 * one.share.value) if one.share else 0
        share = Share(f"{percent} %", str(percent), seen) if one.share else None
        cures = tuple(_cure(site, diagnosis.device, cure, root) for cure in cause.cures)
        yield CauseRow(cause.title.text, share, cures)


def _cure(site: Site, device: str, cure: Cure | Referral, root: str) -> Words:
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
