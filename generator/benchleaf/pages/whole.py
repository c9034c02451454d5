"""The whole site: every page of ours by its path below the site's folder."""

from __future__ import annotations

from functools import partial
from itertools import groupby
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.derive.usage import shown
from benchleaf.pages.compose.bench import sizes
from benchleaf.pages.compose.bench.page import bench_view
from benchleaf.pages.compose.device import device_view, devices_view
from benchleaf.pages.compose.isolation.view import sheets
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
from benchleaf.pages.compose.site import Site, page_of, page_to_work_by
from benchleaf.pages.compose.symptoms import home_view, symptom_view
from benchleaf.processes import processes, shared

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from benchleaf.model.procedure import Procedure
    from benchleaf.pages.draw import Drawer
    from benchleaf.pages.views import View

Pages = dict[str, str]
"""The text of pages, by path."""
Part: TypeAlias = "Callable[[], Iterator[tuple[str, str]]]"
"""What draws a part of the site, page by page."""
Keep: TypeAlias = "Callable[[str, str], None]"
"""What takes the text of a page, after its path, in whatever process it was drawn."""


def whole(site: Site, drawer: Drawer, markdown: Mapping[str, str], keep: Keep) -> tuple[str, ...]:
    """
    Draw every page of *site*, and the search index, which finds *markdown* too; return their paths.

    Several processes share the work. Each hands what it has drawn to *keep*: no process holds a whole site.
    """
    parts = [partial(_kept, part, keep) for part in (*_shared(site, drawer, markdown), *_of_devices(site, drawer))]
    count = processes(len(site.base.procedures))
    if count > 1:
        drawer.prepare()
    return tuple(path for paths in shared(parts, count) for path in paths)


def of_many(site: Site, drawer: Drawer, markdown: Mapping[str, str]) -> Pages:
    """Return the pages that are about more than one procedure, and the search index."""
    return {path: text for part in _shared(site, drawer, markdown) for path, text in part()}


def of_one(site: Site, drawer: Drawer, procedure: Procedure) -> Pages:
    """Return the pages that *procedure* has of its own."""
    return dict(_drawn(drawer, partial(_procedures, site, (procedure,))))


def _kept(part: Part, keep: Keep) -> list[str]:
    paths = []
    for path, text in part():
        keep(path, text)
        paths.append(path)
    return paths


def _shared(site: Site, drawer: Drawer, markdown: Mapping[str, str]) -> Iterator[Part]:
    """Yield what draws each part of the site that is about more than one procedure: it takes longest."""
    yield partial(_assets, site, markdown)
    for several in (_lists, _symptoms, _devices, _materials):
        yield partial(_drawn, drawer, partial(several, site))


def _assets(site: Site, markdown: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    yield "assets/search-index.js", index(site, markdown)
    yield sizes.PATH, sizes.stylesheet(site.base.shop)


def _of_devices(site: Site, drawer: Drawer) -> Iterator[Part]:
    """Yield what draws the pages of the procedures of each device."""
    live = shown(site.base, drafts=site.options.drafts)
    for _, several_of_one in groupby(live, key=lambda procedure: procedure.device):
        yield partial(_drawn, drawer, partial(_procedures, site, tuple(several_of_one)))


def _drawn(drawer: Drawer, views: Callable[[], Iterator[tuple[str, View]]]) -> Iterator[tuple[str, str]]:
    for path, view in views():
        yield path, drawer.draw(view)


def _lists(site: Site) -> Iterator[tuple[str, View]]:
    yield "index.html", home_view(site)
    yield "devices.html", devices_view(site)
    yield "procedures.html", procedures_view(site)
    yield "materials.html", materials_view(site)
    yield "tools.html", tools_view(site)
    yield "register.html", register_view(site)
    yield methods.PATH, methods.methods_view(site)


def _symptoms(site: Site) -> Iterator[tuple[str, View]]:
    for symptom in site.base.symptoms.values():
        yield f"symptoms/{symptom.id}.html", symptom_view(site, symptom)
    yield from sheets(site)


def _devices(site: Site) -> Iterator[tuple[str, View]]:
    for device in site.base.devices.values():
        yield f"devices/{device.id}.html", device_view(site, device)


def _materials(site: Site) -> Iterator[tuple[str, View]]:
    for name in material_names(site):
        yield f"materials/{name}.html", material_view(site, name)


def _procedures(site: Site, procedures: Sequence[Procedure]) -> Iterator[tuple[str, View]]:
    """Yield every page that a procedure has of its own."""
    for procedure in procedures:
        yield page_of(procedure), procedure_view(site, procedure)
        if site.outcome(procedure).ways:
            yield page_to_work_by(procedure), bench_view(site, procedure)
