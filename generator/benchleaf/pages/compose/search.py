"""What can be found, in whose words."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.derive.usage import answers, shown
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.pages.compose.lists import material_names
from benchleaf.pages.compose.search_pages import references, tools, written
from benchleaf.pages.compose.site import Site, page_of
from benchleaf.pages.search import SearchEntry, index_script

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.procedure import Procedure


def index(site: Site, markdown: Mapping[str, str]) -> str:
    """Return the search index of *site* and of its pages that are *markdown*, by path: a classic script."""
    return index_script(chain(_entries(site), tools(site), references(), written(markdown)))


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
