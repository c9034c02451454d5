"""The whole site: every page of ours by its path below the site's folder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.usage import shown
from benchleaf.pages.compose.device import device_view, devices_view
from benchleaf.pages.compose.lists import (
    material_names,
    material_view,
    materials_view,
    procedures_view,
    tools_view,
)
from benchleaf.pages.compose.methods import view as methods
from benchleaf.pages.compose.procedure import procedure_view
from benchleaf.pages.compose.register import register_view
from benchleaf.pages.compose.search import index
from benchleaf.pages.compose.site import Site, page_of
from benchleaf.pages.compose.symptoms import home_view, symptom_view

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.pages.draw import Drawer
    from benchleaf.pages.views import View


def whole(site: Site, drawer: Drawer, markdown: Mapping[str, str]) -> dict[str, str]:
    """Return the text of every page of *site* by path, and of the search index, which finds *markdown* too."""
    pages = {path: drawer.draw(view) for path, view in _views(site)}
    pages["assets/search-index.js"] = index(site, markdown)
    return pages


def _views(site: Site) -> Iterator[tuple[str, View]]:
    base = site.base
    yield "index.html", home_view(site)
    yield "devices.html", devices_view(site)
    yield "procedures.html", procedures_view(site)
    yield "materials.html", materials_view(site)
    yield "tools.html", tools_view(site)
    yield "register.html", register_view(site)
    yield methods.PATH, methods.methods_view(site)
    for symptom in base.symptoms.values():
        yield f"symptoms/{symptom.id}.html", symptom_view(site, symptom)
    for device in base.devices.values():
        yield f"devices/{device.id}.html", device_view(site, device)
    for name in material_names(site):
        yield f"materials/{name}.html", material_view(site, name)
    for procedure in shown(base, drafts=site.options.drafts):
        yield page_of(procedure), procedure_view(site, procedure)
