"""What can be found, in whose words."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.decisions.diagnose import ranked
from benchleaf.derive.usage import answers, shown
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.isolation.actions import first_action
from benchleaf.pages.compose.isolation.groups import groups
from benchleaf.pages.compose.isolation.paths import path_of
from benchleaf.pages.compose.isolation.wording import drawn
from benchleaf.pages.compose.lists import material_names
from benchleaf.pages.compose.search_pages import references, tools, written
from benchleaf.pages.compose.site import Site, page_of
from benchleaf.pages.search import SearchEntry, index_script

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.procedure import Procedure


def index(site: Site, markdown: Mapping[str, str]) -> str:
    """Return the search index of *site* and of its pages that are *markdown*, by path: a classic script."""
    return index_script(chain(_entries(site), _sheets(site), tools(site), references(site), written(markdown)))


def _entries(site: Site) -> Iterator[SearchEntry]:
    base = site.base
    for symptom in base.symptoms.values():
        found = dict.fromkeys(procedure for device in base.devices for procedure in _on(site, symptom.id, device))
        yield SearchEntry(
            kind="symptom",
            title=symptom.title.text,
            href=f"symptoms/{symptom.id}.html",
            says=symptom.customers_say,
            words=(("part", _causes(site, symptom.id)), ("step", " ".join(symptom.ask))),
            answers=tuple(_answer(site, base.procedures[key]) for key in found),
        )
    for device in base.devices.values():
        variants = tuple(variant.title.text for variant in device.variants)
        told = " ".join(variant.tell_by or "" for variant in device.variants)
        yield SearchEntry("device", device.title.text, f"devices/{device.id}.html", says=variants,
                          words=(("step", device.about or ""), ("part", told)))  # fmt: skip
        for part in device.parts.values():
            yield SearchEntry("part", part.title.text, f"devices/{device.id}.html#part-{part.id}", device.title.text)
    for name in material_names(site):
        yield SearchEntry("material", site.material(name), f"materials/{name}.html", words=(("part", name),))
    for procedure in shown(base, drafts=site.options.drafts):
        yield _procedure(site, procedure)


def _sheets(site: Site) -> Iterator[SearchEntry]:
    """Yield the fault isolation sheets, each with what is likeliest and what to do first."""
    base = site.base
    for diagnosis in base.diagnoses.values():
        device, symptom = base.devices.get(diagnosis.device), base.symptoms.get(diagnosis.symptom)
        if device is None or symptom is None:
            continue
        found = (base.procedures[key] for key in _on(site, symptom.id, device.id))
        yield SearchEntry(
            kind="sheet",
            title=symptom.title.text,
            href=path_of(diagnosis),
            device=device.title.text,
            says=symptom.customers_say,
            words=(("part", " ".join(cause.title.text for cause in diagnosis.causes)),),
            answers=tuple((procedure.title.text, page_of(procedure)) for procedure in found),
            note=" ".join(_likeliest(site, diagnosis)),
        )


def _likeliest(site: Site, diagnosis: Diagnosis) -> Iterator[str]:
    """Yield what is likeliest behind a symptom, and what to do first: on the first variants, where they differ."""
    for one in ranked(site.base, diagnosis)[:1]:
        share = f", {drawn(one.share).text}" if one.share else ""
        yield f"Likeliest: {one.cause.title}{share}."
    for group in groups(site, diagnosis)[:1]:
        if found := first_action(site, group, ""):
            yield f"First: {''.join(piece.text for piece in found.do)}."


def _on(site: Site, symptom: str, device: str) -> list[tuple[str, str]]:
    """Return the keys of the procedures that answer *symptom* on *device*: keys, for a procedure is no key itself."""
    return [(procedure.device, procedure.id) for procedure in answers(site.usage, symptom, device)]


def _answer(site: Site, procedure: Procedure) -> tuple[str, str]:
    """Return an answer with its device: three devices may each have a battery to replace."""
    device = site.base.devices.get(procedure.device)
    belongs = f", {device.title.text.split(' ')[0]}" if device else ""
    return f"{procedure.title}{belongs}", page_of(procedure)


def _procedure(site: Site, procedure: Procedure) -> SearchEntry:
    base = site.base
    device = base.devices.get(procedure.device)
    purpose = "" if procedure.purpose == "repair" else procedure.purpose
    symptoms = [base.symptoms[name.text] for name in procedure.fixes if name.text in base.symptoms]
    steps = " ".join(row.step.do.text for row in site.rows(procedure) if row.kind in {"work", "prove"})
    return SearchEntry(
        kind="procedure",
        title=procedure.title.text,
        href=page_of(procedure),
        device=device.title.text if device and procedure.device != ANY_DEVICE else "",
        words=(*(("part", symptom.title.text) for symptom in symptoms), ("part", purpose), ("step", steps)),
    )


def _causes(site: Site, symptom: str) -> str:
    """Return the titles of all causes of *symptom*, on whatever device."""
    diagnoses = (diagnosis for (_, named), diagnosis in site.base.diagnoses.items() if named == symptom)
    return " ".join(cause.title.text for diagnosis in diagnoses for cause in diagnosis.causes)
