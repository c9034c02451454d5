"""Where a reader starts: the first page, and the page of one symptom."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ranked
from benchleaf.derive.usage import answers, shown
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.isolation.actions import first_action
from benchleaf.pages.compose.isolation.groups import groups
from benchleaf.pages.compose.isolation.paths import path_of
from benchleaf.pages.compose.isolation.wording import drawn
from benchleaf.pages.compose.rows import cure_line, device_link, matrix, procedure_row
from benchleaf.pages.compose.site import Site, choice, number_of, page_of
from benchleaf.pages.home import CauseRow, ChangeRow, FirstAction, HomeView, SymptomDevice, SymptomView
from benchleaf.pages.parts import NO_PROSE, Cell, Link, TitleBlock
from benchleaf.pages.prose import prose

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
            sheet=Link("Fault isolation sheet", root + path_of(diagnosis)) if diagnosis and known else None,
            firsts=tuple(_firsts(site, diagnosis, root)) if diagnosis and known else (),
            causes=tuple(_causes(site, diagnosis, root)) if diagnosis else (),
            procedures=tuple(procedure_row(site, procedure, root) for procedure in found),
            variants=choice(known, known.variant_ids) if known else None,
            remark=_TOGETHER if diagnosis and diagnosis.several else "",
            notes=prose(diagnosis.notes or "") if diagnosis else NO_PROSE,
        )


def _firsts(site: Site, diagnosis: Diagnosis, root: str) -> Iterator[FirstAction]:
    """Yield what to do first, for each group of variants that cost alike."""
    for group in groups(site, diagnosis):
        found = first_action(site, group, root)
        if found:
            yield found


def _causes(site: Site, diagnosis: Diagnosis, root: str) -> Iterator[CauseRow]:
    """
    Yield the causes, the likeliest first, by all that was counted.

    Faults that come together are listed as written: a rank would say that one may stop at the first.
    """
    for one in ranked(site.base, diagnosis):
        cause, seen = one.cause, f"seen {one.seen} time{'' if one.seen == 1 else 's'}"
        share = drawn(one.share) if one.share else None
        cures = tuple(cure_line(site, diagnosis.device, cure, root) for cure in cause.cures)
        yield CauseRow(cause.title.text, seen, share, cures)
